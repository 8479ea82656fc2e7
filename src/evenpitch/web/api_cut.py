"""The JSON interface to the cut record: where a job stands, and one entry more. The same rules as on the page at the machine."""

from __future__ import annotations

from typing import Annotated, Any

from fastapi import APIRouter, Query
from pydantic import BaseModel, ConfigDict, Field

from evenpitch.job.record import LONGEST_NOTE, OrderName, PassName
from evenpitch.web.api_jobs import REFUSED
from evenpitch.web.cut_answer import cut_json, deeds_of, one_deed
from evenpitch.web.pages.shown import AtDesk

router = APIRouter(prefix="/api", tags=["at the machine"])

Space = Annotated[int, Field(ge=0, le=100_000)]
Gear = Annotated[int, Query(ge=1, le=2)]
Typed = Annotated[str, Field(max_length=80)]


class Press(BaseModel):
    """One entry: exactly one deed. `last_entry`: the last one this client knew; a press on a record that has gone on is refused."""

    model_config = ConfigDict(extra="forbid")
    gear: Annotated[int, Field(ge=1, le=2)] = 1
    last_entry: Annotated[int, Field(ge=0, le=10**9)]
    cut: Space | None = None
    not_cut: Space | None = None
    wait: bool = False
    carry_on: bool = False
    count: tuple[Space, Space] | None = None
    note: Annotated[str, Field(min_length=1, max_length=LONGEST_NOTE)] | None = None
    begin: PassName | None = None
    order: OrderName | None = None
    start: Space | None = None
    closing: Typed | None = None
    depth: Typed | None = None
    span: Typed | None = None


@router.get("/jobs/{name}/cut", responses=REFUSED)
def place(desk: AtDesk, name: str, gear: Gear = 1) -> dict[str, Any]:
    """Where the cutting of a job stands: the same object as `evenpitch cut --json`."""
    return dict(cut_json(desk.book, name, gear, None, None, desk.now).json)


@router.post("/jobs/{name}/cut", responses=REFUSED)
def write(desk: AtDesk, name: str, press: Press) -> dict[str, Any]:
    """Write one entry; it is on the disk when this answers. The same press again answers as it was written."""
    deed = one_deed(deeds_of(**press.model_dump(exclude={"gear", "last_entry"})))
    return dict(cut_json(desk.book, name, press.gear, deed, press.last_entry, desk.now).json)
