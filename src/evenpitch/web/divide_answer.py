"""The dividing question: typed words in, every way out."""

from __future__ import annotations

from dataclasses import replace
from fractions import Fraction
from typing import Any

from evenpitch.dividing.counts import MOST_RATIO
from evenpitch.dividing.methods import Pulses
from evenpitch.job.dividing_question import Dividing, ask_divide, dividing_on
from evenpitch.quantity.read_angle import read_angle
from evenpitch.quantity.read_list import read_circles, read_whole_list
from evenpitch.quantity.read_number import read_number, read_ratio, read_whole
from evenpitch.quantity.refusal import refuse
from evenpitch.rig.generic import GEAR_SETS, PLATE_SETS
from evenpitch.rig.head import ChangeGears, Head, Plate
from evenpitch.rig.rig import Rig
from evenpitch.sheet.answers import answer
from evenpitch.sheet.compose.dividing import compose_divide
from evenpitch.web.answer import Answer
from evenpitch.web.typed import Collected, Typed, rig_of

USUAL_PLATES = PLATE_SETS["three plates, 15 to 49 holes"]
USUAL_GEARS = GEAR_SETS["twelve gears, 24 to 100"]
USUAL_RATIO = Fraction(40)
USUAL_DIRECT = 24
PULSES_WORDS = "from 1 to 1 000 000 000"
PULSES_SLIP = "Pulses for one turn of the work are asked, not of the motor nor of one space."
PULSES_DO = "Write full steps x microsteps x belt x worm ratio, such as 192000."
MOST_DIVISIONS = 10_000_000
MOST_GEARS = 40
"""Different change gears in one question: every train of more would take minutes."""


def head_question(typed: Typed, rig: Rig | None, collected: Collected) -> Dividing:
    """Head, plates, gears and link: the rig's, each overruled by what was typed."""
    if rig is None:
        usual = Dividing(
            head=Head(ratio=USUAL_RATIO, direct=USUAL_DIRECT), plates=USUAL_PLATES, change_gears=USUAL_GEARS, pulses_per_turn=None
        )
    else:
        usual = dividing_on(rig)
    ratio = collected.read(typed, "worm-ratio", _ratio, usual.head.ratio)
    direct = collected.read(typed, "direct", lambda text: _direct(text), usual.head.direct)
    plates = collected.read(typed, "circles", _plates, usual.plates)
    gears = collected.read(typed, "change-gears", _gears, usual.change_gears)
    if "change-gears" not in typed:
        few_enough(gears, MOST_GEARS)
    pulses = collected.read(typed, "pulses-per-turn", _pulses, usual.pulses_per_turn)
    return replace(
        usual, head=replace(usual.head, ratio=ratio, direct=direct), plates=plates, change_gears=gears, pulses_per_turn=pulses
    )


def _ratio(text: str) -> Fraction:
    found = read_ratio(text, field="worm-ratio")
    if found > MOST_RATIO:
        likely = "The crank turns this often for one turn of the work; 40 is usual."
        raise refuse("worm-ratio", text, f"up to {MOST_RATIO}", likely, "Turn the crank for one turn of the work, and count.")
    return found


def _direct(text: str) -> int | None:
    return read_whole(text, field="direct", least=0, most=400) or None


def _plates(text: str) -> tuple[Plate, ...]:
    return tuple(Plate(circles) for circles in read_circles(text, field="circles"))


def _gears(text: str) -> ChangeGears:
    if text.strip().casefold() in ("none", "no", "0"):
        return ChangeGears(())
    gears = ChangeGears(tuple(sorted(read_whole_list(text, field="change-gears", least=8, most=300))))
    few_enough(gears, MOST_GEARS)
    return gears


def few_enough(gears: ChangeGears, most: int) -> None:
    """Refuse a box of so many different gears that trying every train would take minutes."""
    different = len(set(gears.teeth))
    if different > most:
        likely = "Every train of four is tried, and there are too many of them."
        raise refuse(
            "change-gears", f"{different} different gears", f"at most {most} different ones", likely, "Name those you would use."
        )


def _pulses(text: str) -> Fraction:
    found = read_number(text, field="pulses-per-turn")
    if not 1 <= found <= 10**9:
        raise refuse("pulses-per-turn", text, PULSES_WORDS, PULSES_SLIP, PULSES_DO)
    return found


def divide_question(typed: Typed, *, rig: bytes | None = None, everything: bool = False, targets: bool = False) -> Answer:
    """The dividing question answered: a count, an angle, or the chart."""
    if "chart" in typed:
        from evenpitch.web.charts import divide_chart

        return divide_chart(typed, rig)
    collected = Collected()
    question = head_question(typed, rig_of(rig), collected)
    divisions = collected.read(typed, "divisions", _divisions, None)
    angle = collected.read(typed, "angle", lambda text: read_angle(text, field="angle"), None)
    collected.settle()
    if (divisions is None) == (angle is None):
        given = "neither" if divisions is None else "both"
        raise refuse(
            "divisions",
            given,
            "a count or --angle",
            "One of the two is asked.",
            "evenpitch divide 113, or evenpitch divide --angle 20d5m",
        )
    found = ask_divide(replace(question, divisions=divisions, angle=angle, everything=everything))
    shown = []
    for method in found.methods:
        facts = method.facts()
        if targets and isinstance(method, Pulses):
            facts["targets"] = list(method.targets())
        shown.append(facts)
    asked: dict[str, Any] = {"divisions": divisions} if angle is None else {"angle_deg": str(angle)}
    return Answer(compose_divide(found), answer("divide", (), found.findings, **asked, methods=shown))


def _divisions(text: str) -> int:
    return read_whole(text, field="divisions", least=1, most=MOST_DIVISIONS)
