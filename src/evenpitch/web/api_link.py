"""The JSON interface before and after the cut: predict, simulate, audit; the same words as the commands have options."""

from __future__ import annotations

from typing import Annotated, Any

from fastapi import APIRouter, Response
from pydantic import BaseModel, ConfigDict, Field, StrictFloat, StrictInt

from evenpitch.store.files.readings import MOST_ROWS_WAITED_FOR
from evenpitch.web.answer import Answer
from evenpitch.web.api_jobs import REFUSED, Fields
from evenpitch.web.audit_answer import audit_answer
from evenpitch.web.pages.shown import AtDesk, Desk
from evenpitch.web.planned import rig_of_job
from evenpitch.web.predict_answer import predict_answer
from evenpitch.web.predicted import MOST_PAGE_DRAWS
from evenpitch.web.security import LARGEST_LOG_BODY
from evenpitch.web.simulate_answer import simulate_answer

router = APIRouter(prefix="/api", tags=["before and after the cut"])

Text = Annotated[str, Field(max_length=80)]
Asked = Annotated[Text | StrictInt | StrictFloat | None, Field(default=None)]
Job = Annotated[
    str | Fields,
    Field(description="A job in the book by its name, the text of a job file, or its fields by their paths.", examples=["B"]),
]
Rig = Annotated[
    str | Fields | None,
    Field(
        default=None,
        description="A rig in the book by its name, the text of a rig file, or its fields. Left out: the job's own, or the usual head.",
    ),
]


class OfAJob(BaseModel):
    """A gear of a job on a rig."""

    model_config = ConfigDict(extra="forbid", populate_by_name=True)
    job: Job
    rig: Rig
    gear: Asked = Field(default=None, description="1 or 2, of a pair [1].")

    def typed(self) -> dict[str, str]:
        """The other fields as typed words, without those left out."""
        given = self.model_dump(by_alias=True, exclude={"job", "rig", "log"}, exclude_none=True)
        return {word: str(value) for word, value in given.items() if str(value).strip()}


class Predict(OfAJob):
    """What a rig will leave on a gear."""

    draws: Asked = Field(default=None, description=f"Gears drawn at random, 100 to {MOST_PAGE_DRAWS} here [{MOST_PAGE_DRAWS}].")
    largest_pulses: Asked = Field(
        default=None,
        alias="largest-pulses",
        description="Largest number the controller takes for the pulses of its ratio [65535].",
    )
    largest_counts: Asked = Field(
        default=None, alias="largest-counts", description="Largest number it takes for the counts [65535]."
    )
    seed: Asked = Field(default=None, description="Where the draws start; the same seed gives the same answer [1].")


class Simulate(OfAJob):
    """One pass: a feed, or a crank."""

    feed: Asked = Field(default=None, description="Power feed, with its unit.", examples=["60 mm/min"])
    crank: Asked = Field(default=None, description="By hand: mean feed, unevenness, turns; e.g. 1 mm/s 0.6 1 Hz.")
    ramp: Asked = Field(
        default=None, description="Acceleration limit of the controller, pulses/s², and where it begins: 5000 from 200 [none]."
    )
    poll: Asked = Field(default=None, description="How often the controller looks at the count [at every count].")
    play: Asked = Field(default=None, description="open: the pass begins with the play on the other side [closed].")
    vibration: Asked = Field(default=None, description="The table trembles, either way and how often: 2 um 97 Hz.")


class Audit(OfAJob):
    """The log of a pass as the text of its CSV, and the job that was cut."""

    log: Annotated[
        str,
        Field(
            max_length=LARGEST_LOG_BODY,
            description="CSV with a header line: time_s,count,pulse and perhaps motor_deg, work_arcsec.",
            examples=["time_s,count,pulse\n0.0,0,0\n0.1,60,22\n"],
        ),
    ]
    space: Asked = Field(default=None, description="Space under the cutter when the log begins [1].")


def _texts(desk: Desk, asked: OfAJob) -> tuple[str, str | None]:
    """The texts of job and rig, wherever they come from."""
    job, rig = asked.job, asked.rig
    own: str | None = None
    if isinstance(job, str) and "\n" not in job and "=" not in job:
        kept = desk.book.job(job)
        job, own = kept.text, rig_of_job(desk.book, kept).text
    return _job(job), own if rig is None else _rig(desk, rig)


def _job(given: str | Fields) -> str:
    from evenpitch.store.files.job_file import job_from_fields

    return given if isinstance(given, str) else job_from_fields(given).text


def _rig(desk: Desk, given: str | Fields) -> str:
    from evenpitch.store.files.rig_file import rig_from_fields

    if not isinstance(given, str):
        return rig_from_fields(given).text
    return given if "\n" in given or "=" in given else desk.book.rig(given).text


def _json(made: Answer) -> Response:
    return Response(made.json_text(), media_type="application/json")


@router.post("/predict", responses=REFUSED, response_model=dict[str, Any])
def predict(desk: AtDesk, asked: Predict) -> Response:
    """What the rig will leave on a gear: the same object as `evenpitch predict --json`."""
    job, rig = _texts(desk, asked)
    return _json(predict_answer(job, asked.typed(), rig=rig, most=MOST_PAGE_DRAWS))


@router.post("/simulate", responses=REFUSED, response_model=dict[str, Any])
def simulate(desk: AtDesk, asked: Simulate) -> Response:
    """One pass of the table against the turning of the work: the same object as `evenpitch simulate --json`."""
    job, rig = _texts(desk, asked)
    return _json(simulate_answer(job, asked.typed(), rig=rig))


@router.post("/audit", responses=REFUSED, response_model=dict[str, Any])
def audit(desk: AtDesk, asked: Audit) -> Response:
    """What a log proves: the same object as `evenpitch audit --json`."""
    job, rig = _texts(desk, asked)
    return _json(audit_answer(asked.log, job, asked.typed(), rig=rig, most=MOST_ROWS_WAITED_FOR))
