"""A place at the machine in words: where the work must stand, how far it moves, what is left. Page and command line say the same."""

from __future__ import annotations

import math
from dataclasses import dataclass, replace

from evenpitch.job.following import minutes_left, target_by
from evenpitch.job.record import PassName
from evenpitch.job.standing import Moves, Standing
from evenpitch.quantity.showing import arcsec, dms, grouped, mm, number
from evenpitch.quantity.units import ARCSEC_PER_TURN
from evenpitch.web.machine import Place

PASS_WORDS: dict[PassName, str] = {
    "scratch": "scratch",
    "trial": "trial spaces",
    "rough": "rough round",
    "full": "full depth",
}


@dataclass(frozen=True, slots=True)
class Going:
    """How to go to the next space. `lead`: what to do; `big`: the figures for it, words among them small; `then`: the second line."""

    lead: str
    big: tuple[tuple[str, str], ...]
    then: str


def going(place: Place) -> Going | None:
    """How to go to the next space, or to space 1 again after a whole round; None where the work has nowhere to go."""
    here = place.target()
    if here is None:
        return None
    way = place.cutting.moves
    if way.by_motor_alone:
        return _by_link(here)
    made = _on_the_nose(way, here) if way.nose_holes else _by_crank(way, here)
    return replace(made, then=" · ".join((made.then, *_left(place, here))))


def _by_link(here: Standing) -> Going:
    move = f" · this move {grouped(here.move_pulses)}" if here.move_pulses else ""
    return Going("stand the work at", ((dms(here.angle * 360), ""),), f"pulse {grouped(here.pulse or 0)} from the datum{move}")


def _on_the_nose(way: Moves, here: Standing) -> Going:
    lead = f"worm out, pin in the plate of {way.nose_holes} on the spindle nose"
    move = f" · this move {here.nose_move} holes" if here.nose_move else ""
    return Going(lead, (("hole", ""), (str(here.nose), "")), f"the datum hole is 0 · {dms(here.angle * 360)}{move}")


def _by_crank(way: Moves, here: Standing) -> Going:
    turn = "from the datum turn the crank" if here.lost else "turn the crank"
    lead = f"{turn}, plate geared {way.gears}" if way.gears else turn
    if way.pulses:
        lead = "plate first, by the motor, then the crank"
    if way.plate_circle:
        lead = f"{turn}, then crank and plate together"
    after = " · ".join((*_sector(way, here), *_datum(here)))
    return Going(lead, _crank_figures(here), after)


def _crank_figures(here: Standing) -> tuple[tuple[str, str], ...]:
    turns, spaces = here.crank or (0, 0)
    if not here.moves and not here.lost:
        return (("stay at the datum", ""),)
    figures: list[tuple[str, str]] = []
    if turns:
        figures.append((str(turns), "turn," if turns == 1 else "turns,"))
    if spaces or not turns:
        figures.append((str(spaces), "space," if spaces == 1 else "spaces,"))
    return (*figures, (str(here.circle), "circle"))


def _sector(way: Moves, here: Standing) -> tuple[str, ...]:
    spaces = (here.crank or (0, 0))[1]
    plate = f"plate {abs(here.plate)} of {here.plate_circle} {'with' if here.plate > 0 else 'against'}" if here.plate else ""
    pulses = f"plate to pulse {grouped(here.pulse)}" if here.pulse is not None else ""
    holes = f"{spaces + 1} holes in the sector" if spaces else "back to its own hole" if here.moves else ""
    return tuple(words for words in (pulses, holes, plate) if words)


def _datum(here: Standing) -> tuple[str, ...]:
    if here.from_datum is None or here.lost or not here.moves:
        return (dms(here.angle * 360),)
    turns, spaces = here.from_datum
    return (f"{turns} turns + {spaces} from the datum",)


def _left(place: Place, here: Standing) -> tuple[str, ...]:
    """What a place picked up again has no hole for."""
    if here.left is None:
        return ("this plan does not say where the crank stands then: go by the angle",)
    seconds = round(here.left * ARCSEC_PER_TURN)
    if not seconds:
        return ()
    at = abs(float(here.left)) * math.pi * place.to.outside
    return (f"no hole there: {abs(seconds)}″ {'short' if seconds > 0 else 'past'}, {at:.2f} mm: turn the work in its dog by it",)


def picked_words(place: Place) -> str:
    """The offset by which every target goes since a tooth was picked up: "picked up +540″ ± 12″"."""
    picked = place.progress.picked
    if picked is None or not picked[0]:
        return ""
    doubt = "" if picked[1] is None else f" ± {arcsec(picked[1])}"
    return f"picked up {number(picked[0], 0, plus=True)}″{doubt}"


def by_hand_words(place: Place) -> str:
    """The same place by the crank, for who must go on by hand; "" where the plan knows no such way, or this is it."""
    way, here = place.cutting.by_hand, place.target()
    if way is None or here is None or not place.cutting.moves.by_motor_alone or way.skip != 1 or not (here.moves or here.lost):
        return ""
    by_hand = target_by(way, place.cutting, place.progress)
    if by_hand is None:
        return ""
    if by_hand.from_datum is None:
        return f"by hand: hole {by_hand.nose} of {way.nose_holes} on the nose"
    figures = " ".join(f"{figure} {words}".strip() for figure, words in _crank_figures(by_hand))
    geared = f" {way.gears}," if way.gears else ""
    turns, spaces = by_hand.from_datum
    left = "" if not by_hand.left else f", {abs(round(by_hand.left * ARCSEC_PER_TURN))}″ from it"
    return f"by hand{geared} {figures}, at {turns} + {spaces}/{by_hand.circle}{left}"


def left_words(place: Place) -> str:
    """Minutes left of the pass: "34 min left", "2 h 10 min left"; "" where nobody can say."""
    minutes = minutes_left(place.cutting, place.progress)
    if minutes is None or place.complete():
        return ""
    whole = math.ceil(minutes - 1e-9)
    return f"{whole} min left" if whole < 100 else f"{whole // 60} h {whole % 60:02d} min left"


def depth_of(place: Place) -> float | None:
    """Depth of the pass in hand, mm from metal: as set and written for the pass to full depth, else as planned."""
    progress = place.progress
    planned = place.cutting.planned(progress.running).depth
    return progress.depth if progress.running == "full" and progress.depth is not None else planned


def depth_words(place: Place) -> str:
    """The depth of the pass: "depth 4.55 mm"."""
    depth = depth_of(place)
    return "" if depth is None else f"depth {mm(depth, 2)}"


def approach_words(place: Place) -> str:
    """How the work is brought to its place."""
    way = place.cutting.moves
    if way.nose_holes:
        return "pin home, lock"
    return "approach up, lock"
