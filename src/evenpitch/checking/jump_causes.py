"""Causes of a jump in a spacing: a slip of a known size, a side of approach, a closing gap, a reading that slipped."""

from __future__ import annotations

import math
from collections.abc import Iterator

from evenpitch.checking.cause import UM, Cause, Evidence
from evenpitch.checking.jumps_between import Jump
from evenpitch.checking.slip_sizes import explain_size


def jump_causes(jump: Jump, seen: Evidence) -> Iterator[Cause]:
    """The likeliest first; a slip of this rig only where its size fits."""
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
