"""From what was read to what may have caused it: each cause with its evidence, the test that separates it, and the remedy."""

from __future__ import annotations

import math
from collections.abc import Iterator
from dataclasses import dataclass
from fractions import Fraction

from evenpitch.checking.jumps_between import Jump, jumps, without
from evenpitch.checking.measured import Measured
from evenpitch.checking.runout import Runout
from evenpitch.checking.slip_sizes import SlipSize, explain_size
from evenpitch.checking.spacing import Spacing
from evenpitch.checking.spectrum import WaveSeen, folded, seen_as, waves
from evenpitch.rig.maps import Harmonic
from evenpitch.sources.citations import cites

UM = 1000.0
KNOWN_CHANCE = 0.0008
"""A wave that a part of the rig can make is believed when chance gives one so large this often."""
WORM_CHANCE = 0.003
"""The same of the worm, the likeliest of all."""
OTHER_CHANCE = 0.002
"""The same of all other waves together."""
KNOWN_FLOOR, OTHER_FLOOR = 0.02, 0.05
"""Amplitudes below these parts of the total pitch tolerance are nobody's trouble."""
LEAST = 0.001
CIRCLE_SHOWN = 4.0
"""A bore is called off the axis from so many standard uncertainties of the fitted circle; by chance 3 in 10 000."""
MAP_AGREES = 0.5


@dataclass(frozen=True, slots=True)
class Cause:
    """`code`: its fixed word; `size`: what it does to the spacing, mm from end to end; `wave`: its waves in a turn, or 0.

    `rank`: 1 for the likeliest of what one thing seen can be, 2 and on for the others.
    """

    code: str
    cause: str
    evidence: str
    test: str
    remedy: str
    size: float
    rank: int = 1
    wave: int = 0


@dataclass(frozen=True, slots=True, kw_only=True)
class Rigged:
    """What the rig can do to a gear: its worm and belt, the sizes of its slips, the head's map, the play, the pulses given out."""

    ratio: Fraction = Fraction(40)
    pulley: Fraction | None = None
    sizes: tuple[SlipSize, ...] = ()
    harmonics: tuple[Harmonic, ...] = ()
    backlash: float | None = None
    pulse: float | None = None


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class Evidence:
    """All that was read. `mean`: of the flanks; `half`: half of right less left, where both were read; `flanks`: how many.

    `span_wave`: once-a-turn wave of spans read around, mm; `radius`: of the circle the spacing belongs to; `limit`: F_pT, mm.
    """

    radius: float
    pressure_angle: float
    limit: float
    mean: Spacing | None = None
    half: Spacing | None = None
    flanks: int = 1
    runout: Runout | None = None
    span_wave: Measured | None = None
    rig: Rigged = Rigged()


@cites("derived here", "common practice", formula="size and shape of what is seen against what each part of the rig can do")
def causes(seen: Evidence) -> tuple[Cause, ...]:
    """Ranked: the largest first, then what else the same things may be. A clean gear has none."""
    found: list[Cause] = []
    if seen.mean is not None:
        odd = jumps(seen.mean)
        for jump in odd:
            found += _jump(jump, seen)
        found += _waves(without(seen.mean, odd), seen)
    else:
        found += _once(None, seen)
    return tuple(sorted(found, key=lambda cause: (cause.rank, -cause.size)))


# ---- waves


def _waves(left: Spacing, seen: Evidence) -> Iterator[Cause]:
    every = waves(left)
    once = every[0] if every else None
    yield from _once(once if once is not None and _believed(once, seen, known=True) else None, seen, once)
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
    said = f"{wave.amplitude * UM:.1f} ± {2 * wave.u * UM:.1f} µm, {wave.per_turn} waves in a turn{_said_by_map(part.per_turn, wave, seen)}"
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


def _of_map(per_turn: int, seen: Evidence, count: int) -> complex | None:
    """What the map says of that wave, as it is seen in the spacing of this count; mm."""
    told = next((one for one in seen.rig.harmonics if one.per_turn == per_turn), None)
    if told is None:
        return None
    phase = seen_as(per_turn, count, told.phase)
    return told.amplitude * seen.radius * complex(math.cos(phase), math.sin(phase))


def _said_by_map(per_turn: int, wave: WaveSeen, seen: Evidence) -> str:
    count = wave.per_turn + wave.looks_like
    told = _of_map(per_turn, seen, count)
    if told is None:
        return "; no map says what to expect" if not seen.rig.harmonics else "; the map has no such wave"
    return f"; the map says {abs(told) * UM:.0f} µm, found {wave.amplitude * UM:.0f}"


# ---- once a turn: bore, wheel, depth


def _once(wave: WaveSeen | None, seen: Evidence, unproven: WaveSeen | None = None) -> Iterator[Cause]:
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
    told = _of_map(1, seen, wave.per_turn + wave.looks_like)
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
        said.append(f"pitch {wave.amplitude * UM:.1f} ± {2 * wave.u * UM:.1f} µm once a turn{doubt}{_said_by_map(1, wave, seen)}")
    if seen.runout is not None:
        e = seen.runout.eccentricity
        high = f", high at space {seen.runout.high_space()}" if e.shown() else ""
        said.append(f"runout once a turn {e.value * UM:.1f} ± {e.U * UM:.1f} µm{high}")
    if seen.span_wave is not None:
        varies = f"spans go {seen.span_wave.value * UM:.1f} µm with it" if seen.span_wave.shown() else "spans are constant"
        said.append(varies)
    return "; ".join(said)


# ---- jumps


def _jump(jump: Jump, seen: Evidence) -> Iterator[Cause]:
    assert seen.mean is not None
    count, um = seen.mean.count, jump.size * UM
    angle = jump.size / seen.radius
    way = "ahead" if jump.size > 0 else "behind"
    arc = f"{abs(um):.0f} ± {jump.U * UM:.0f} µm, {abs(math.degrees(angle)) * 60:.1f}′ {way}"
    if jump.shape == "two levels":
        yield _levels(jump, arc, seen)
        return
    if jump.shape == "closing":
        yield _closing(jump, arc, angle, seen)
        return
    if jump.shape == "one pitch":
        yield _one_pitch(jump, arc, count)
        return
    where = _where(jump, count)
    slips = explain_size(angle, jump.U / seen.radius, seen.rig.sizes)
    for place, slip in enumerate(slips[:3], 1):
        test, remedy = _SLIPS[slip.kind.code]
        off = abs(slip.off) * seen.radius * UM
        cause = f"{slip.words()[0].upper()}{slip.words()[1:]}, {_DEEDS[slip.kind.code]}: {where}"
        evidence = (
            f"{where} {arc}; {slip.words()} is {slip.times * slip.kind.angle * seen.radius * UM:.0f} µm, {off:.0f} off that"
        )
        yield Cause(slip.kind.code, cause, evidence, test, remedy, abs(jump.size), place)
    yield Cause(
        "nudge",
        f"Swarf under the work, a nudge, or cut twice: {where}",
        f"{where} {arc}" + ("" if slips else "; no slip of this rig has that size"),
        "Look at the space: two cuts side by side show a ridge.",
        _THIN,
        abs(jump.size),
        min(len(slips), 3) + 1,
    )


def _where(jump: Jump, count: int) -> str:
    if jump.shape == "one space":
        return f"space {jump.first} alone"
    if jump.shape == "from here on":
        return f"from space {jump.first} on"
    return f"spaces {jump.first} to {jump.last}"


_THIN = "If a tooth is thin by it: scrap, or leave it in a slow train at half depth of load; else note it."
_RECUT = f"Recut the spaces that are off if there is stock; {_THIN[0].lower()}{_THIN[1:]}"
_DEEDS = {
    "hole": "pin in the wrong hole",
    "direct hole": "pin in the wrong hole",
    "crank turn": "miscounted",
    "belt tooth": "belt jumped",
    "motor cycle": "motor lost it",
    "pulse": "lost or added",
}
_SLIPS = {
    "hole": ("Set the sector arms again and go over the spaces by the plate.", _RECUT),
    "direct hole": ("Count the holes of the plate from the datum.", _RECUT),
    "crank turn": ("Count turns from the datum over ten spaces.", _RECUT),
    "belt tooth": ("Mark belt and pulleys, turn once round by the motor: the marks must meet.", f"Tighten the belt. {_RECUT}"),
    "motor cycle": (
        "Mark the worm dial, index 20 spaces and back: the mark must return.",
        f"Slower acceleration or more current. {_RECUT}",
    ),
    "pulse": (
        "Index round and back to the mark of the worm dial, and compare the count.",
        f"Look for noise on the pulse line. {_RECUT}",
    ),
}


def _levels(jump: Jump, arc: str, seen: Evidence) -> Cause:
    play = seen.rig.backlash
    expected = "" if play is None else f"; the play of the head is {play * seen.radius * UM:.0f} µm there"
    return Cause(
        "sawtooth",
        "Uneven side of approach: some spaces were come to from the other side of the play",
        f"{len(jump.places)} spaces stand on a second level, {arc}{expected}",
        "Come to one space from both sides under an indicator: the difference is this size.",
        "Approach from one side only, overshoot well beyond the play and come back.",
        abs(jump.size),
    )


def _closing(jump: Jump, arc: str, angle: float, seen: Evidence) -> Cause:
    assert seen.mean is not None
    count, pulse = seen.mean.count, seen.rig.pulse
    each = f"; {abs(angle) / pulse:.0f} pulses in all" if pulse else ""
    return Cause(
        "last space",
        f"Last space only, {count} to 1: the same rounded move repeated, or a wrong ratio",
        f"only the closing pitch is off, by {arc}{each}; every other pitch takes {abs(jump.size) / count * UM:.1f} µm of it",
        f"{count} moves from the datum, and read what is missing at space 1.",
        "Plan from the datum with absolute targets, and redo from there.",
        abs(jump.size),
    )


def _one_pitch(jump: Jump, arc: str, count: int) -> Cause:
    return Cause(
        "slipped reading",
        f"A slipped indicator or a misread figure at space {jump.first}",
        f"the pitch from space {jump.first} to {jump.first % count + 1} alone is off by {arc}, and none takes it back",
        "Read that pitch again, and its neighbours.",
        "Drop the reading or repeat the round.",
        abs(jump.size),
    )
