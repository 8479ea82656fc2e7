"""Causes of what comes once a turn: the bore off the axis, the wheel of the head, a depth that varied."""

from __future__ import annotations

import math
from collections.abc import Iterator

from evenpitch.checking.cause import KNOWN_CHANCE, KNOWN_FLOOR, LEAST, UM, Cause, Evidence
from evenpitch.checking.map_told import of_map, said_by_map
from evenpitch.checking.runout import Runout
from evenpitch.checking.spectrum import WaveSeen, waves

CIRCLE_SHOWN = 4.0
"""A bore is called off the axis from so many standard uncertainties of the fitted circle; by chance 3 in 10 000."""
MAP_AGREES = 0.5


def once_a_turn(wave: WaveSeen | None, seen: Evidence, unproven: WaveSeen | None = None) -> Iterator[Cause]:
    """`wave`: the wave that is believed; `unproven`: the one that was read, where scatter alone can give it."""
    circle = seen.runout
    off = circle is not None and _off_centre(circle, seen)
    if wave is None and not off:
        return
    marks = _marks(wave, seen, off)
    amplitude = wave.amplitude if wave is not None else circle.eccentricity.value if circle is not None else 0.0
    evidence = _once_evidence(wave or unproven, wave is not None, seen)
    size = 2 * max(amplitude, circle.eccentricity.value if circle is not None and off else 0.0)
    ranked = sorted(marks.items(), key=lambda one: -one[1])
    best = ranked[0][1]
    for place, (code, mark) in enumerate(ranked, 1):
        if mark > 0 and best - mark < 3 and (wave is not None or code != "wheel"):
            words, test, remedy = _ONCE[code]
            yield Cause(code, words, evidence, test, remedy, size, place, 1)


_ONCE = {
    "eccentricity": (
        "Bore off the axis of cutting (eccentric), 1 wave in a turn",
        "Span at four places: all alike means the bore, for a span does not see it. Indicate the bore on the mandrel.",
        "True the bore to the teeth, or bush and re-bore; nothing is wrong with the dividing.",
    ),
    "wheel": (
        "Worm wheel of the head, 1 wave in a turn",
        "Re-clamp the work 180° round: the wave stays with the head.",
        "Put it into the head's map and cut the next gear with it taken out.",
    ),
    "depth": (
        "Depth that varied once a turn: bent mandrel, a worn centre, the knee",
        "Span around the blank: it goes with the wave, and the two flanks run in opposite sense.",
        "Straighten the mandrel, and recut to the smallest span.",
    ),
}


def _marks(wave: WaveSeen | None, seen: Evidence, off: bool) -> dict[str, float]:
    """How much speaks for each; what has no reading speaks neither way."""
    marks = {"eccentricity": 1.0, "wheel": 0.8, "depth": 0.2}
    circle = seen.runout
    if circle is not None and wave is not None:
        like = wave.amplitude * (math.cos(seen.pressure_angle) if seen.flanks == 1 else 1.0)
        share = circle.eccentricity.value / max(like - 2 * wave.u, 0.1 * like) if off else 0.0
        if share > 0.5:
            marks["eccentricity"] += 2.0
            marks["wheel"] -= 1.5
        elif 0.5 * like > circle.eccentricity.U:
            marks["wheel"] += 2.0
            marks["eccentricity"] -= 1.5
    elif off:
        marks["eccentricity"] += 2.0
    if wave is not None:
        _by_map(marks, wave, seen)
    if _flanks_oppose(wave, seen):
        marks["depth"] += 3.0
    if seen.span_wave is not None:
        varies = seen.span_wave.shown()
        marks["depth"] += 2.5 if varies else -0.5
        marks["eccentricity"] -= 1.0 if varies else 0.0
    return marks


def _by_map(marks: dict[str, float], wave: WaveSeen, seen: Evidence) -> None:
    told = of_map(1, seen, wave.per_turn + wave.looks_like)
    if told is None:
        return
    off = abs(wave.vector() - told)
    if off <= max(MAP_AGREES * max(abs(told), wave.amplitude), 2 * wave.u) and abs(told) > 0.3 * wave.amplitude:
        marks["wheel"] += 1.5
    else:
        marks["wheel"] -= 0.3


def _flanks_oppose(wave: WaveSeen | None, seen: Evidence) -> bool:
    """Half of right less left runs once a turn by more than a bore off the axis gives it."""
    if seen.half is None:
        return False
    half = waves(seen.half)[0]
    off = (wave.amplitude if wave is not None else 0.0) * math.tan(seen.pressure_angle)
    return half.chance < KNOWN_CHANCE and half.amplitude > 2 * off + 3 * half.u


def _off_centre(circle: Runout, seen: Evidence) -> bool:
    e = circle.eccentricity
    return e.value > CIRCLE_SHOWN * e.u and e.value >= max(LEAST, KNOWN_FLOOR * seen.limit / 2)


def _once_evidence(wave: WaveSeen | None, shown: bool, seen: Evidence) -> str:
    said = []
    if wave is not None:
        doubt = "" if shown else ", which scatter alone can give"
        said.append(f"pitch {wave.amplitude * UM:.1f} ± {2 * wave.u * UM:.1f} µm once a turn{doubt}{said_by_map(1, wave, seen)}")
    if seen.runout is not None:
        e = seen.runout.eccentricity
        high = f", high at space {seen.runout.high_space()}" if e.shown() else ""
        said.append(f"runout once a turn {e.value * UM:.1f} ± {e.U * UM:.1f} µm{high}")
    if seen.span_wave is not None:
        varies = f"spans go {seen.span_wave.value * UM:.1f} µm with it" if seen.span_wave.shown() else "spans are constant"
        said.append(varies)
    return "; ".join(said)
