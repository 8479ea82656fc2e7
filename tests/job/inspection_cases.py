"""Inspections that a person could type, on the workshop's wheel and pinion; and for every finding of one a case that brings it out."""

from __future__ import annotations

import math
from collections.abc import Callable, Sequence
from functools import cache
from typing import Any

from evenpitch.job.judging import Verdict, judge
from evenpitch.job.picking_up import Touch, pick_up
from evenpitch.job.plan import Plan
from evenpitch.job.repeating import repeat
from evenpitch.quantity.finding import Finding
from evenpitch.store.files.readings import read_inspection
from job.shop import pinion, rig_of, rig_tables, wheel

HEAD = "kind,space,flank,instrument,value_mm,k,pin_mm,height_mm,round,temperature_c,u_um"


def table(rows: Sequence[str], head: str = HEAD) -> str:
    """A table of readings: each row with as many of the columns as it has."""
    wide = head.count(",")
    return "\n".join([head, *(row + "," * (wide - row.count(",")) for row in rows)])


@cache
def the_wheel() -> Plan:
    """The wheel as it was turned and is to be judged."""
    return wheel(tolerance_class=8, bore="0.75 in", outside_found="209.51 mm")


def spans(value: float = 49.452, k: int = 8, places: Sequence[int] = (1, 25, 50, 74)) -> list[str]:
    """The same span at several places."""
    return [f"span,{space},,disc micrometer,{value:.3f},{k}" for space in places]


def steps(um: Callable[[int], float], rounds: int = 1, flank: str = "right", teeth: int = 97) -> list[str]:
    """Pitch steps round the gear, µm, in rounds that are told by a space that comes again."""
    return [
        f"pitch step,{space},{flank},comparator,{um(space) / 1000:.5f}" for _ in range(rounds) for space in range(1, teeth + 1)
    ]


def scattered(space: int) -> float:
    """A scatter that is no wave: the same each time."""
    return 3 * math.sin(space * space * 1.7)


def judged(rows: Sequence[str], plan: Plan | None = None, head: str = HEAD) -> Verdict:
    """The verdict on the wheel, or on another plan."""
    return judge(plan or the_wheel(), read_inspection(table(rows, head)))


def changed(**tables: Any) -> Any:
    """The museum rig without some of its tables."""
    raw = rig_tables()
    for name, value in tables.items():
        if value is None:
            raw.pop(name, None)
        else:
            raw[name] = value
    return rig_of(raw)


def _angles(values: Callable[[int], float], count: int) -> list[str]:
    return [f"head angle,{space},right,indicator,{values(space):.3f}" for space in range(1, count + 1)]


ARCSEC = "kind,space,flank,instrument,value_arcsec"


def _picked(*touches: tuple[int, float, float]) -> tuple[Finding, ...]:
    made = tuple(Touch(space, math.radians(left), math.radians(right)) for space, left, right in touches)
    return pick_up(the_wheel().gears[0], made).findings


def at(space: int, off_arcsec: float = 0.0) -> tuple[int, float, float]:
    """Both touches in a space of the wheel, degrees."""
    nominal = 360 * (space - 1) / 97 + off_arcsec / 3600
    return space, nominal - 0.5, nominal + 0.5


def _pinion_balls() -> float:
    return float(pinion(pin="3.5 mm").gears[0].form_cut.over_balls)


def _repeat(**rig: Any) -> tuple[Finding, ...]:
    return repeat(the_wheel().order, changed(**rig)).findings


CASES: dict[str, Callable[[], tuple[Finding, ...]]] = {
    "span-swapped": lambda: judged([*spans(49.19, 9), *spans(55.63, 8)]).findings,
    "span-step": lambda: judged([*spans(49.19, 8), *spans(49.25, 9)]).findings,
    "size-varies": lambda: judged([f"span,{s},,,{v},8" for s, v in ((1, 49.30), (25, 49.40), (50, 49.31), (74, 49.42))]).findings,
    "span-thin": lambda: judged(spans(49.20)).findings,
    "pins-under-tips-read": lambda: judged(["over pins,1,,,209.4,,3.658"]).findings,
    "chord-undersize": lambda: judged(["chordal,1,,gear-tooth vernier,3.28,,,2.13"]).findings,
    "reading-beyond-range": lambda: judged(["over pins,1,,disc micrometer,210.3,,3.658"]).findings,
    "reading-odd": lambda: (
        judged([f"runout,{s},,indicator,{0.31 if s == 40 else scattered(s) / 1000:.4f}" for s in range(1, 98)]).findings
    ),
    "work-warm": lambda: judged(["span,1,,,49.31,8,,,,30"]).findings,
    "temperature-asked": lambda: judged(spans()).findings,
    "size-budget": lambda: judged(spans()).findings,
    "scatter-inflates": lambda: judged(steps(scattered)).findings,
    "head-unmapped": lambda: judged(_angles(lambda s: 0.0, 97), wheel(changed(map=None)), ARCSEC).findings,
    "head-angles-partial": lambda: judged(_angles(lambda s: 0.0, 60), None, ARCSEC).findings,
    "runout-few": lambda: judged([f"runout,{s},,,0.001" for s in (1, 20, 40)]).findings,
    "runout-partial": lambda: judged([f"runout,{s},,,{0.01 * math.cos(s / 15):.4f}" for s in range(1, 97, 10)]).findings,
    "pick-up-first": lambda: judged(spans()).findings,
    "recut-approximate": lambda: (
        judge(pinion(), read_inspection(table([f"over balls,1,,,{_pinion_balls() + 0.3:.3f},,3.5"]))).findings
    ),
    "rescue-strength": lambda: judged(spans()).findings,
    "pick-up-spread": lambda: _picked(at(1), at(30, 60), at(70, -90)),
    "pick-up-few": lambda: _picked(at(1), at(50)),
    "repeat-cutter": lambda: _repeat(cutter=[]),
    "repeat-same": _repeat,
}


@cache
def told(code: str) -> tuple[Finding, ...]:
    """The findings of the case of that code."""
    return CASES[code]()
