"""Causes of the waves in a spacing, by what each turning part of the rig can make."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass

from evenpitch.checking.cause import KNOWN_CHANCE, KNOWN_FLOOR, LEAST, UM, Cause, Evidence, Rigged
from evenpitch.checking.map_told import said_by_map
from evenpitch.checking.once_a_turn import once_a_turn
from evenpitch.checking.spacing import Spacing
from evenpitch.checking.spectrum import WaveSeen, folded, waves

WORM_CHANCE = 0.003
"""So often chance may give a wave as large that is put down to the worm, the likeliest of all; of other parts see KNOWN_CHANCE."""
OTHER_CHANCE = 0.002
"""The same of all waves together that no part of the rig makes."""
OTHER_FLOOR = 0.05
"""Of such a wave, the part of the total pitch tolerance below which it is nobody's trouble."""


def wave_causes(left: Spacing, seen: Evidence) -> Iterator[Cause]:
    """Of a spacing that is left when its jumps are taken out."""
    every = waves(left)
    once = every[0] if every else None
    yield from once_a_turn(once if once is not None and _believed(once, seen, known=True) else None, seen, once)
    makers = _makers(left.count, seen.rig)
    for wave in every[1:]:
        made_by = makers.get(wave.per_turn, ())
        if made_by and _believed(wave, seen, known=True, of=KNOWN_CHANCE / WORM_CHANCE if made_by[0].code == "worm" else 1):
            yield from (_made_by(part, place, wave, seen) for place, part in enumerate(made_by, 1))
        elif not made_by and _believed(wave, seen, known=False, of=len(every)):
            yield _unknown(wave)


def _believed(wave: WaveSeen, seen: Evidence, *, known: bool, of: float = 1) -> bool:
    rounding = 0.4 * (seen.rig.pulse or 0.0) * seen.radius
    floor = max(LEAST, (KNOWN_FLOOR if known else OTHER_FLOOR) * seen.limit, rounding if known else 2 * rounding)
    return wave.amplitude >= floor and wave.chance < (KNOWN_CHANCE if known else OTHER_CHANCE) / of


@dataclass(frozen=True, slots=True)
class _Part:
    code: str
    words: str
    per_turn: int


def _makers(count: int, rig: Rigged) -> dict[int, tuple[_Part, ...]]:
    """Which parts make which wave as this count shows it, the likeliest first."""
    parts = [_Part("worm wheel twice", "Wheel of the head, twice a turn", 2)]
    if rig.ratio.denominator == 1:
        ratio = int(rig.ratio)
        parts.insert(0, _Part("worm", "Worm of the head", ratio))
        parts.append(_Part("worm twice", "Worm of the head, twice its turn", 2 * ratio))
        if rig.pulley is not None and (rig.ratio * rig.pulley).denominator == 1:
            parts.append(_Part("motor pulley", "Pulley on the motor", int(rig.ratio * rig.pulley)))
    found: dict[int, tuple[_Part, ...]] = {}
    for part in parts:
        wave = folded(part.per_turn, count)
        if wave > 1 or part.per_turn == 2:
            found[wave] = (*found.get(wave, ()), part)
    return found


def _made_by(part: _Part, place: int, wave: WaveSeen, seen: Evidence) -> Cause:
    same = _alike(wave, part.per_turn)
    said = f"{wave.amplitude * UM:.1f} ± {2 * wave.u * UM:.1f} µm, {wave.per_turn} waves in a turn{said_by_map(part.per_turn, wave, seen)}"
    if part.code in ("worm", "worm twice"):
        test = (
            "Mark the worm: the wave keeps step with the mark. By hand with the belt off: if it stays, the worm; else its pulley."
        )
        remedy = "Put the worm's wave into the head's map, or re-seat worm and pulley."
    elif part.code == "motor pulley":
        test = "Turn the pulley half round on its shaft: the wave turns with it."
        remedy = "True or re-seat the pulley on the motor."
    else:
        test = "Re-clamp the work 180° round: the wave stays where it was on the head."
        remedy = "Put it into the head's map."
    return Cause(
        part.code, f"{part.words}, {part.per_turn} in a turn{same}", said, test, remedy, 2 * wave.amplitude, place, wave.per_turn
    )


def _alike(wave: WaveSeen, per_turn: int) -> str:
    other = wave.looks_like if per_turn == wave.per_turn else wave.per_turn
    return f" ({other} would look the same)"


def _unknown(wave: WaveSeen) -> Cause:
    return Cause(
        "unknown wave",
        f"A wave of {wave.per_turn} in a turn ({wave.looks_like} would look the same), of no part of this rig",
        f"{wave.amplitude * UM:.1f} ± {2 * wave.u * UM:.1f} µm",
        f"Look for what turns {wave.per_turn} or {wave.looks_like} times to one turn of the work.",
        "Find it before the next gear; the map does not hold it.",
        2 * wave.amplitude,
        1,
        wave.per_turn,
    )
