"""Small wordings that page and sheet share, so that both say the same."""

from __future__ import annotations

from evenpitch.cutting.depth import DialReading, Rung
from evenpitch.job.order import Choice
from evenpitch.job.plan import GearPlan
from evenpitch.quantity.showing import System, both, inch, mm, number, several
from evenpitch.rig.rig import Rig


def system_of(choice: Choice, plan: GearPlan) -> System:
    """The bold system: the one chosen, else that of the pitch as typed."""
    if choice.units is not None:
        return choice.units
    return "inch" if plan.gear.pitch.kind == "diametral pitch" or plan.gear.pitch.inch else "metric"


def dial_words(dial: DialReading | None) -> str:
    """A handwheel reading: "1 turn + 82.9"."""
    if dial is None:
        return ""
    turns = f"{several(dial.turns, 'turn')} + " if dial.turns else ""
    return f"{turns}{number(dial.divisions, 1)}"


def rung(plan: GearPlan, name: str) -> Rung:
    """One rung of the ladder by name."""
    return next(step for step in plan.running.ladder if step.name == name)


def rig_words(rig: Rig) -> str:
    """The rig in a few words, for a title block."""
    pulses = rig.pulses_per_turn()
    link = f", link {number(1_296_000 / float(pulses), 2)}″" if pulses is not None else ""
    return f"{rig.name}{link}"


def depth_rule(plan: GearPlan, system: System) -> str:
    """The sum for a blank turned under size, with lines to write on."""
    whole = plan.blank.whole_depth
    shown = mm(whole) if system == "metric" else inch(whole)
    return f"depth {shown} less half of what the blank is under: blank ________ under ________ half ________ depth ________"


def length(value: float, system: System, places_mm: int = 3, places_inch: int = 4) -> tuple[str, str]:
    """A length in the bold system and in the other."""
    metric, imperial = mm(value, places_mm), inch(value, places_inch)
    return (metric, imperial) if system == "metric" else (imperial, metric)


def feed_words(feed: float, system: System) -> str:
    """A table feed: "3 in/min (76 mm/min)"."""
    imperial = f"{number(feed / 25.4, 2).rstrip('0').rstrip('.')} in/min"
    metric = f"{number(feed, 0)} mm/min"
    return f"{imperial} ({metric})" if system == "inch" else f"{metric} ({imperial})"


def span_words(plan: GearPlan) -> str:
    """The span with its limits, both systems."""
    check = next((check for check in plan.checks if check.name == "span"), None)
    return "" if check is None else f"{both(check.most)} to {both(check.least)}"


def pin_words(plan: GearPlan) -> str:
    """The pin in the system it was bought in: inch pins for a diametral pitch."""
    pin = plan.form_cut.pin
    return inch(pin, 3) if plan.gear.pitch.kind == "diametral pitch" or plan.gear.pitch.inch else mm(pin)


def limit_words(upper: float, lower: float) -> str:
    """Limits of a size: "+0 −0.05 mm"."""

    def one(value: float, sign: str) -> str:
        return f"{sign}0" if not value else number(value, 3, plus=True).rstrip("0").rstrip(".")

    return f"{one(upper, '+')} {one(lower, '−')} mm"
