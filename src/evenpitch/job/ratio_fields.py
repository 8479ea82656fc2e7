"""Fields of a controller too small for the link's ratio: how far off it then is, and what larger ones would give."""

from __future__ import annotations

from fractions import Fraction

from evenpitch.dividing.link_ratio import LinkRatio, link_ratio
from evenpitch.link.notes import note
from evenpitch.quantity.finding import Finding
from evenpitch.quantity.showing import grouped, number

SMALL = 100.0
"""Parts in a million from which a ratio is said to be off: a micrometre over a face of 27 mm at 20°; common practice."""
FIELDS = (999, 4095, 9999, 32_767, 65_535, 999_999, 2**31 - 1)
"""Largest numbers that fields are made for: so many digits, or so many bits."""


def field_findings(
    found: LinkRatio,
    lead: Fraction | float,
    pulses_per_turn: Fraction,
    count: Fraction,
    largest: tuple[int, int],
    um_per_ppm: float | None = None,
) -> tuple[Finding, ...]:
    """Nothing where the ratio is near. `largest`: pulses, counts; `um_per_ppm`: slope over the face that a millionth makes."""
    off = abs(found.error_ppm)
    if off <= SMALL:
        return ()
    um = "" if um_per_ppm is None else f", {number(off * um_per_ppm, 1)} µm over the face"
    return (
        note(
            "ratio-fields-small",
            pulses=grouped(largest[0]),
            counts=grouped(largest[1]),
            ppm=number(found.error_ppm, 0, plus=True),
            um=um,
            instead=_larger(lead, pulses_per_turn, count, largest),
        ),
    )


def _larger(lead: Fraction | float, pulses_per_turn: Fraction, count: Fraction, largest: tuple[int, int]) -> str:
    for field in FIELDS:
        if field <= min(largest):
            continue
        wider = max(field, largest[0]), max(field, largest[1])
        found = link_ratio(lead, pulses_per_turn, count, largest_pulses=wider[0], largest_counts=wider[1])
        if abs(found.error_ppm) <= SMALL:
            better = f"{found.pulses} pulses for every {found.counts} counts, {number(found.error_ppm, 1)} ppm off"
            return (
                f"Enter it where both fields take {grouped(field)}: {better}. Or choose another count or other parts of a pulse."
            )
    return "Choose another count, or other parts of a pulse: no field brings this ratio near."
