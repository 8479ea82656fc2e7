"""Whatever stands in a table of readings or an exported job: nouns or a Refusal; and what was read is judged or refused."""

from __future__ import annotations

import hashlib
import json
import os
from collections.abc import Callable
from functools import cache
from typing import Any

import pytest
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st

from evenpitch.job.judging import judge
from evenpitch.quantity.refusal import Refusal
from evenpitch.store.canonical import canonical
from evenpitch.store.exported import read_exported
from evenpitch.store.files import readings
from job.inspection_cases import the_wheel
from job.shop import pinion

FULL = os.environ.get("EVENPITCH_FULL") == "1"
MANY = settings(max_examples=1500 if FULL else 100, deadline=None, suppress_health_check=list(HealthCheck))
FEW = settings(MANY, max_examples=600 if FULL else 40)

HEADS: dict[Callable[[str], Any], str] = {
    readings.read_scale: "run,direction,reference_mm,reading_mm,temperature_c",
    readings.read_head: "method,run,direction,nominal_deg,reading_um,radius_mm",
    readings.read_proof: "check,place,approach,moved_mm,reading_mm,work_deg,radius_mm",
    readings.read_log: "time_s,count,pulse,motor_deg,work_arcsec",
    readings.read_inspection: "kind,space,flank,instrument,value_mm,k,pin_mm,height_mm,round,temperature_c,u_um",
}
CELLS = (
    "", "0", "1", "2", "8", "97", "98", "-1", "49.303", "1.947", "0,5", "1,234", "½", "1e300", "nan", "inf", "9" * 40, "٣", "up", "down",
    "left", "right", "span", "over pins", "over balls", "chordal", "runout", "pitch step", "head angle", "bar", "closure", "block", "\x00",
    '"', "wren", "3.658", "2.13", "20", "-300", "1 um", "0.001",
)  # fmt: skip
cells = st.one_of(st.sampled_from(CELLS), st.floats(-1e4, 1e4).map(str), st.integers(-5, 200).map(str), st.text(max_size=5))


@st.composite
def tables(draw: st.DrawFn, head: str) -> str:
    """A table with about as many cells in a line as its head names; the head itself whole, cut or mixed up."""
    names = head.split(",")
    shown = draw(
        st.one_of(st.just(names), st.permutations(names), st.lists(st.sampled_from(names), min_size=1, max_size=len(names)))
    )
    wide = len(shown)
    rows = draw(st.lists(st.lists(cells, min_size=max(0, wide - 1), max_size=wide + 1), max_size=8))
    mark = draw(st.sampled_from([",", ",", ";", "\t"]))
    return "\n".join(mark.join(row) for row in [shown, *rows])


def told(read: Callable[..., Any], *given_to: Any, **more: Any) -> Any:
    """What was read, or None where it was refused in full."""
    try:
        return read(*given_to, **more)
    except Refusal as refusal:
        faults = refusal.faults
    assert faults
    assert all(fault.field and fault.expected and fault.do for fault in faults)
    return None


@pytest.mark.long
@pytest.mark.parametrize("read", HEADS)
def test_any_table(read: Callable[[str], Any]) -> None:
    @MANY
    @given(tables(HEADS[read]))
    def one(text: str) -> None:
        told(read, text)

    one()


def test_a_lone_carriage_return_ends_a_line_and_a_monstrous_cell_is_refused() -> None:
    """Found by the tables above; the first is how files ended their lines on one make of machine for twenty years."""
    text = HEADS[readings.read_inspection] + "\rspan,1,,,49.303,8,,,,,\rspan,25,,,49.304,8,,,,,\r"
    assert [one.value for one in readings.read_inspection(text)] == [49.303, 49.304]
    assert told(readings.read_inspection, HEADS[readings.read_inspection] + "\n" + "9" * 140_000) is None


KINDS = ("span", "over pins", "over balls", "chordal", "runout", "pitch step", "head angle")


@st.composite
def inspections(draw: st.DrawFn) -> str:
    """Lines of kinds and values that a slip of the pen could make, so that most of them are read and come to be judged."""
    rows = []
    for _ in range(draw(st.integers(1, 6))):
        kind = draw(st.sampled_from(KINDS))
        near = {"span": 49.3, "over pins": 210.4, "over balls": 210.4, "chordal": 3.3}.get(kind, 0.0)
        value = near + draw(st.sampled_from([0.0, 0.1, -0.1, 0.001, 1.0, -near, -2 * near]))
        rows.append(
            [kind, draw(st.sampled_from(["1", "2", "97", "98"])), draw(st.sampled_from(["", "left", "right"])), "", f"{value:.4f}",
             draw(st.sampled_from(["", "1", "7", "8", "9", "40", "96"])), draw(st.sampled_from(["", "3.658", "0.01", "40"])),
             draw(st.sampled_from(["", "2.13", "0", "9"])), draw(st.sampled_from(["", "1", "2"])), draw(st.sampled_from(["", "20", "60"])),
             draw(st.sampled_from(["", "3", "0", "500"]))]
        )  # fmt: skip
    return "\n".join([HEADS[readings.read_inspection], *(",".join(row) for row in rows)])


@pytest.mark.long
@pytest.mark.parametrize("helical", [False, True])
def test_what_is_read_is_judged_or_refused(helical: bool) -> None:
    made = pinion() if helical else the_wheel()

    @FEW
    @given(inspections())
    def one(text: str) -> None:
        found = told(readings.read_inspection, text)
        if found is not None:
            told(judge, made, found)

    one()


@cache
def _lines() -> list[dict[str, Any]]:
    """An exported job with a plan, an entry and an inspection, without its digest."""
    from pathlib import Path
    from tempfile import TemporaryDirectory

    from evenpitch.store.exported import write_exported
    from store.test_exported import filled, inspected

    with TemporaryDirectory() as folder, filled(Path(folder)) as book:
        inspected(book)
        return [json.loads(line) for line in write_exported(book.give("A", "0.1.0")).splitlines()][:-1]


values = st.one_of(
    st.none(), st.booleans(), st.integers(), st.floats(allow_nan=False), st.text(max_size=8), st.lists(st.integers(), max_size=2),
    st.just({}), st.just("2026-03-12T09:30:00+00:00"),
)  # fmt: skip


@pytest.mark.long
@MANY
@given(st.data())
def test_an_exported_job_with_one_thing_changed_and_signed_again(data: st.DataObject) -> None:
    lines = json.loads(json.dumps(_lines()))
    line = data.draw(st.sampled_from(lines))
    kind = next(iter(line))
    if isinstance(line[kind], dict) and data.draw(st.booleans()):
        line[kind][data.draw(st.sampled_from([*line[kind], "strange"]))] = data.draw(values)
    else:
        line[kind] = data.draw(values)
    try:
        body = "".join(canonical(one) + "\n" for one in lines)
    except (ValueError, TypeError, Refusal):
        return
    signed = body + json.dumps({"digest": hashlib.sha256(body.encode("utf-8", "surrogatepass")).hexdigest()})
    told(read_exported, signed.encode("utf-8", "surrogatepass"))
