"""The JSON interface to jobs, rigs, plans and what was issued: the same nouns and readers as everywhere."""

from __future__ import annotations

from collections.abc import Mapping
from typing import Annotated, Any

from fastapi import APIRouter
from pydantic import BaseModel, ConfigDict, Field

from evenpitch.job.plan import Plan
from evenpitch.quantity.refusal import refuse
from evenpitch.sheet.answers import answer
from evenpitch.store.files.job_file import JobFile, job_from_fields, read_job
from evenpitch.store.files.rig_file import RigFile, read_rig, rig_from_fields
from evenpitch.store.kept import KeptJob, KeptRelease, KeptRig
from evenpitch.web.pages.shown import AtDesk, Desk
from evenpitch.web.plan_answer import issue, plan_answer
from evenpitch.web.planned import plan_of, planned
from evenpitch.web.taken_in import keep_job, keep_rig
from evenpitch.web.usual_rig import usual_rig

router = APIRouter(prefix="/api", tags=["jobs and rigs"])

REFUSED: dict[int | str, dict[str, Any]] = {
    404: {"description": "the book does not hold it; `refusals` says what it holds"},
    409: {"description": "overtaken by a later change; `refusals` says by which"},
    422: {"description": "refused; `refusals` says what, what was expected, why, and what to do"},
}

Fields = dict[str, str]
"""A file's fields by their paths, as typed: {"gear.0.teeth": "97", "gear.0.pitch": "12 DP"}."""


class JobGiven(BaseModel):
    """A job: its TOML text or its fields; and a rig: a name in the book, TOML text or fields (left out: a usual 40:1 head)."""

    model_config = ConfigDict(extra="forbid")
    job: Annotated[
        str | Fields,
        Field(
            examples=[{"gear.0.teeth": "97", "gear.0.pitch": "12 DP", "gear.0.pressure_angle": "14½", "gear.0.face": "0.75 in"}]
        ),
    ]
    rig: str | Fields | None = None
    name: str | None = None


class RigGiven(BaseModel):
    """A rig: its TOML text or its fields."""

    model_config = ConfigDict(extra="forbid")
    rig: Annotated[str | Fields, Field(examples=[{"name": "Mill", "head.ratio": "40", "plate.0.circles": "15,16,17,18,19,20"}])]


def job_given(given: str | Mapping[str, str]) -> JobFile:
    """A job by its text or its fields."""
    return read_job(given) if isinstance(given, str) else job_from_fields(given)


def rig_given(desk: Desk, given: str | Mapping[str, str] | None) -> RigFile:
    """A rig by its name in the book where it is one line, else by its text or fields."""
    if given is None:
        return usual_rig()
    if not isinstance(given, str):
        return rig_from_fields(given)
    return read_rig(given if "\n" in given or "=" in given else desk.book.rig(given).text)


@router.post("/plan", responses=REFUSED)
def make_plan(desk: AtDesk, given: JobGiven) -> dict[str, Any]:
    """The plan of a job that is not kept: the same object as `evenpitch plan --json`."""
    return _plan_json(planned(job_given(given.job).text, rig_given(desk, given.rig).text))


@router.get("/jobs", responses=REFUSED)
def jobs(desk: AtDesk) -> dict[str, Any]:
    """The jobs in the book, the last changed first."""
    return answer("jobs", jobs=[job_json(kept) for kept in desk.book.jobs()])


@router.post("/jobs", status_code=201, responses=REFUSED)
def add_job(desk: AtDesk, given: JobGiven) -> dict[str, Any]:
    """Keep a new job, on a rig that the book holds."""
    if given.rig is not None and not isinstance(given.rig, str):
        raise refuse(
            "rig", "", "the name of a rig in the book", "A kept job stands on a kept rig.", "POST the rig to /api/rigs first."
        )
    file = job_given(given.job)
    planned(file.text, rig_given(desk, given.rig).text)
    return answer("jobs", job=job_json(keep_job(desk.book, file, desk.now(), rig=given.rig, name=given.name)))


@router.get("/jobs/{name}", responses=REFUSED)
def job(desk: AtDesk, name: str) -> dict[str, Any]:
    """One job with the text of its file."""
    return answer("jobs", job=job_json(desk.book.job(name)))


@router.put("/jobs/{name}", responses=REFUSED)
def change_job(desk: AtDesk, name: str, given: JobGiven) -> dict[str, Any]:
    """The next version of a job."""
    if given.rig is not None and not isinstance(given.rig, str):
        raise refuse(
            "rig", "", "the name of a rig in the book", "A kept job stands on a kept rig.", "POST the rig to /api/rigs first."
        )
    file = job_given(given.job)
    rig = given.rig if given.rig is not None else desk.book.job(name).rig
    planned(file.text, rig_given(desk, rig).text)
    return answer("jobs", job=job_json(desk.book.replace_job(name, file.title, file.text, desk.now(), rig=rig)))


@router.get("/jobs/{name}/plan", responses=REFUSED)
def job_plan(desk: AtDesk, name: str) -> dict[str, Any]:
    """The plan of a job in the book."""
    return _plan_json(plan_of(desk.book, desk.book.job(name), desk.now().date()))


@router.get("/jobs/{name}/releases", responses=REFUSED)
def releases(desk: AtDesk, name: str) -> dict[str, Any]:
    """The plans issued for a job; each whole under /releases/NUMBER."""
    desk.book.job(name)
    return answer("releases", releases=[release_json(kept) for kept in desk.book.releases(name)])


@router.post("/jobs/{name}/releases", status_code=201, responses=REFUSED)
def release(desk: AtDesk, name: str) -> dict[str, Any]:
    """Issue the plan of a job; refused while a stop stands."""
    return answer("release", release=release_json(issue(desk.book, name, desk.now)))


@router.get("/jobs/{name}/releases/{number}", responses=REFUSED)
def one_release(desk: AtDesk, name: str, number: int) -> dict[str, Any]:
    """One issued plan, as it was issued."""
    kept = desk.book.release(name, number)
    return answer("releases", release=release_json(kept) | {"plan": dict(kept.plan)})


@router.get("/rigs", responses=REFUSED)
def rigs(desk: AtDesk) -> dict[str, Any]:
    """The rigs in the book."""
    return answer("rigs", rigs=[rig_json(kept) for kept in desk.book.rigs()])


@router.post("/rigs", status_code=201, responses=REFUSED)
def add_rig(desk: AtDesk, given: RigGiven) -> dict[str, Any]:
    """Keep a rig; under a name already used it becomes the next version."""
    file = read_rig(given.rig) if isinstance(given.rig, str) else rig_from_fields(given.rig)
    return answer("rigs", rig=rig_json(keep_rig(desk.book, file, desk.now())))


@router.get("/rigs/{name}", responses=REFUSED)
def rig(desk: AtDesk, name: str) -> dict[str, Any]:
    """One rig with the text of its file."""
    return answer("rigs", rig=rig_json(desk.book.rig(name)))


def _plan_json(made: Plan) -> dict[str, Any]:
    return dict(plan_answer(made).json)


def job_json(kept: KeptJob) -> dict[str, Any]:
    """A job as kept."""
    return {
        "name": kept.name,
        "version": kept.version,
        "title": kept.title,
        "rig": kept.rig,
        "rig_version": kept.rig_version,
        "changed": kept.created.isoformat(),
        "text": kept.text,
    }


def rig_json(kept: KeptRig) -> dict[str, Any]:
    """A rig as kept."""
    return {"name": kept.name, "version": kept.version, "changed": kept.created.isoformat(), "text": kept.text}


def release_json(kept: KeptRelease) -> dict[str, Any]:
    """An issued plan without its content."""
    return {
        "job": kept.job,
        "job_version": kept.job_version,
        "number": kept.number,
        "date": kept.date.isoformat(),
        "program": kept.program,
        "digest": kept.digest,
    }
