"""The JSON interface after the cut: inspect, pick up, repeat; the same objects as the commands print, and what the book keeps of them."""

from __future__ import annotations

from typing import Annotated, Any

from fastapi import APIRouter
from pydantic import BaseModel, ConfigDict, Field

from evenpitch.job.picking_up import Touch, pick_up
from evenpitch.quantity.read_angle import read_angle
from evenpitch.quantity.refusal import refuse
from evenpitch.quantity.units import degrees
from evenpitch.sheet.answers import answer, plain
from evenpitch.store.files.readings import read_inspection
from evenpitch.web.api import LONGEST
from evenpitch.web.api_jobs import REFUSED, Fields, job_given, rig_given
from evenpitch.web.cut_answer import place_json
from evenpitch.web.inspect_answer import inspected, verdict_answer
from evenpitch.web.kept_inspections import inspection_json, keep_inspection
from evenpitch.web.machine import place_of
from evenpitch.web.pages.plan_page import one_of
from evenpitch.web.pages.shown import AtDesk
from evenpitch.web.picked_up import write_offset
from evenpitch.web.planned import plan_of, planned, rig_of_job
from evenpitch.web.repeat_answer import repeated_answer

router = APIRouter(prefix="/api", tags=["after the cut"])

LONGEST_READINGS = 1_000_000
"""Letters of a table of readings; a request may have twice as many bytes."""

Whichever = Annotated[int, Field(ge=1, le=2, description="Which gear of a pair.")]
Table = Annotated[
    str,
    Field(
        max_length=LONGEST_READINGS,
        description="Readings as CSV, units in the header.",
        examples=["kind,space,flank,instrument,value_mm,k\nspan,1,,,49.303,8\n"],
    ),
]
Seen = Annotated[str, Field(max_length=200, description="What the eye saw.", examples=["marks = 0.9 mm; contact = one end"])]
Log = Annotated[str, Field(max_length=LONGEST_READINGS, description="Log of the link, CSV, of a helical gear.")]
Rig = Annotated[str, Field(max_length=LONGEST)] | Fields


class Readings(BaseModel):
    """An inspection of a job in the book. `keep`: write readings and verdict into the book."""

    model_config = ConfigDict(extra="forbid")
    gear: Whichever = 1
    readings: Table
    budget: Annotated[str, Field(max_length=400, examples=["burr = 1 um; tilt = 2 um"])] = ""
    seen: Seen = ""
    log: Log = ""
    keep: bool = False


class JobAndReadings(BaseModel):
    """An inspection of a job that is not kept: its TOML text or its fields, a rig, and the readings."""

    model_config = ConfigDict(extra="forbid")
    job: Annotated[str, Field(max_length=LONGEST)] | Fields
    rig: Rig | None = None
    gear: Whichever = 1
    readings: Table
    budget: Annotated[str, Field(max_length=400)] = ""
    seen: Seen = ""
    log: Log = ""


class OtherRig(BaseModel):
    """Another rig: its name in the book, its TOML text or its fields."""

    model_config = ConfigDict(extra="forbid")
    rig: Rig


class Touched(BaseModel):
    """Head angles from the datum at which one cut space touches on its left and its right: "89° 4' 30"", or degrees."""

    model_config = ConfigDict(extra="forbid")
    space: Annotated[int, Field(ge=1, le=100_000)]
    left: Annotated[str, Field(max_length=80)] | float
    right: Annotated[str, Field(max_length=80)] | float


class PickUp(BaseModel):
    """Touches of several cut spaces. `write`: put the offset into the cut record; then `last_entry` is the last one this client knew."""

    model_config = ConfigDict(extra="forbid")
    gear: Whichever = 1
    touches: Annotated[list[Touched], Field(min_length=1, max_length=40)]
    write: bool = False
    last_entry: Annotated[int | None, Field(ge=0, le=10**9)] = None


@router.post("/inspect", responses=REFUSED)
def inspect_a_file(desk: AtDesk, given: JobAndReadings) -> dict[str, Any]:
    """The verdict on a gear of a job that is not kept: the same object as `evenpitch inspect --json`."""
    made = planned(job_given(given.job).text, rig_given(desk, given.rig).text)
    verdict = inspected(made, read_inspection(given.readings), given.gear - 1, _beside(given))
    return dict(verdict_answer(made, verdict, given.gear - 1).json)


@router.post("/jobs/{name}/inspect", responses=REFUSED)
def inspect_a_job(desk: AtDesk, name: str, given: Readings) -> dict[str, Any]:
    """The verdict on a gear of a job in the book; with `keep` it stands under /inspections from then on."""
    made, index = plan_of(desk.book, desk.book.job(name), desk.now().date()), given.gear - 1
    verdict = inspected(made, read_inspection(given.readings), index, _beside(given))
    told = dict(verdict_answer(made, verdict, index).json)
    if given.keep:
        typed = {"readings": given.readings, **_beside(given)}
        told["inspection"] = inspection_json(keep_inspection(desk.book, name, made, index, typed, verdict, desk.now))
    return told


@router.get("/jobs/{name}/inspections", responses=REFUSED)
def inspections(desk: AtDesk, name: str) -> dict[str, Any]:
    """The inspections that are kept of a job, the first first; each whole under /inspections/NUMBER."""
    desk.book.job(name)
    return answer("inspections", inspections=[inspection_json(one) for one in desk.book.inspections(name)])


@router.get("/jobs/{name}/inspections/{number}", responses=REFUSED)
def one_inspection(desk: AtDesk, name: str, number: int) -> dict[str, Any]:
    """One inspection as it was kept: readings as typed, the verdict as given."""
    return answer("inspections", inspection=inspection_json(desk.book.inspection(name, number), whole=True))


@router.post("/jobs/{name}/repeat", responses=REFUSED)
def repeat_a_job(desk: AtDesk, name: str, given: OtherRig) -> dict[str, Any]:
    """The same job on another rig, and what differs: the same object as `evenpitch repeat --json`."""
    kept = desk.book.job(name)
    order = planned(kept.text, rig_of_job(desk.book, kept).text).order
    return dict(repeated_answer(order, rig_given(desk, given.rig).rig).json)


@router.post("/jobs/{name}/pick-up", responses=REFUSED)
def pick_up_a_tooth(desk: AtDesk, name: str, given: PickUp) -> dict[str, Any]:
    """Where the work stands after it was moved; with `write` every target of the cut goes by it."""
    gear = one_of(plan_of(desk.book, desk.book.job(name), desk.now().date()), given.gear - 1)
    found = pick_up(gear, [_touch(one) for one in given.touches])
    told = answer("pick-up", findings=found.findings, **plain(found.facts()))
    if given.write:
        place = place_of(desk.book, name, given.gear)
        if given.last_entry is None:
            likely = f"The record stands at entry {place.progress.last}."
            raise refuse("last_entry", "", "the last entry this client knew", likely, "Ask for the place, then write.")
        written = write_offset(desk.book, place, gear.gear.teeth, found, desk.now, last_seen=given.last_entry)
        told["cut"] = place_json(written.place)
    return told


def _beside(given: Readings | JobAndReadings) -> dict[str, str]:
    return {"budget": given.budget, "seen": given.seen, "log": given.log}


def _touch(one: Touched) -> Touch:
    angles = []
    for side, typed in (("left", one.left), ("right", one.right)):
        angles.append(float(degrees(read_angle(str(typed), field=f"{side} of space {one.space}"))))
    return Touch(one.space, *angles)
