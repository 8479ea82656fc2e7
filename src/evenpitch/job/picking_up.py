"""Pick up a tooth again after the work was moved: both touches in several cut spaces give one offset, and what it costs."""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass
from typing import Any

from evenpitch.checking.measured import Measured
from evenpitch.gear.sizes import pitch_diameter, transverse_pressure_angle
from evenpitch.job.findings import finding
from evenpitch.job.plan import GearPlan
from evenpitch.quantity.finding import Finding
from evenpitch.quantity.refusal import Fault, Refusal
from evenpitch.quantity.units import RADIAN_PER_ARCSEC
from evenpitch.sources.citations import cites

WANTED = 3
TOUCH = 0.01
"""Standard uncertainty of one touch by a rocked cutter or a stylus, mm at the pitch line; common practice."""
AGREE = 0.02
"""Centres that differ by more than this from their mean do not agree, mm; common practice."""
UM = 1000.0


@dataclass(frozen=True, slots=True)
class Touch:
    """Head angles at which one cut space touches on its left and its right, radians from the datum."""

    space: int
    left: float
    right: float


@dataclass(frozen=True, slots=True)
class PickedUp:
    """`offset`: the work stands ahead by this, radian; `at_pitch`: the same at the pitch line, mm; `clean_up`: depth that recuts both
    flanks wholly, mm; `centres`: (space, offset of its own, mm)."""

    offset: Measured
    at_pitch: Measured
    clean_up: float
    centres: tuple[tuple[int, float], ...]
    findings: tuple[Finding, ...]

    @property
    def sentence(self) -> str:
        """What it comes to."""
        arcsec = self.offset.times(1 / RADIAN_PER_ARCSEC)
        way = "ahead of" if arcsec.value >= 0 else "behind"
        return (
            f"The work stands {abs(arcsec.value):.0f}″ {way} its old place, ± {arcsec.U:.0f}″: "
            f"±{self.at_pitch.U * UM:.0f} µm at the pitch line; a recut cleans up with {self.clean_up:.2f} mm."
        )

    def facts(self) -> dict[str, Any]:
        """Under the keys of the machine-readable answer."""
        return {
            "offset_arcsec": self.offset.times(1 / RADIAN_PER_ARCSEC).facts(),
            "at_pitch_um": self.at_pitch.times(UM).facts(),
            "clean_up_mm": self.clean_up,
            "spaces": [{"space": space, "off_um": off * UM} for space, off in self.centres],
            "sentence": self.sentence,
        }


@cites("derived here", "JCGM 100:2008", formula="δ = mean of ((L + R)/2 − 360° (i − 1)/z);  e = 2 U r/tan α_t")
def pick_up(plan: GearPlan, touches: Sequence[Touch]) -> PickedUp:
    """The offset from readings in several spaces; a Refusal where there is none, or a space is none of this gear."""
    teeth, radius = plan.gear.teeth, float(pitch_diameter(plan.gear)) / 2
    _refuse(teeth, touches)
    turn = 2 * math.pi
    off = []
    for one in touches:
        nominal = turn * (one.space - 1) / teeth
        off.append((_wrapped((one.left + one.right) / 2 - nominal), one.space))
    first = off[0][0]
    near = [first + _wrapped(value - first) for value, _ in off]
    mean = math.fsum(near) / len(near)
    spread = math.sqrt(math.fsum((value - mean) ** 2 for value in near) / (len(near) - 1)) if len(near) > 1 else 0.0
    own = TOUCH / math.sqrt(2) / radius
    # few spaces cannot show less scatter than a touch has
    u, freedom = (spread, len(near) - 1) if spread > own else (own, math.inf)
    offset = Measured(mean, u / math.sqrt(len(near)), freedom)
    at_pitch = offset.times(radius)
    clean = 2 * at_pitch.U / math.tan(transverse_pressure_angle(plan.gear))
    centres = tuple((space, (value - mean) * radius) for value, (_, space) in zip(near, off, strict=True))
    return PickedUp(offset, at_pitch, clean, centres, tuple(_said(centres)))


def _wrapped(angle: float) -> float:
    """Within half a turn."""
    return (angle + math.pi) % (2 * math.pi) - math.pi


def _refuse(teeth: int, touches: Sequence[Touch]) -> None:
    faults = []
    if not touches:
        faults.append(
            Fault("pick up", "none", "both touches in three spaces", "Nothing was typed.", "Touch left and right in a space.")
        )
    seen: set[int] = set()
    for one in touches:
        if not 1 <= one.space <= teeth:
            faults.append(
                Fault("space", str(one.space), f"1 to {teeth}", "Another gear, or a slip of the pen.", "Count from the datum.")
            )
        elif one.space in seen:
            faults.append(Fault("space", str(one.space), "each space once", "It was typed twice.", "Strike one of the two out."))
        seen.add(one.space)
        if abs(_wrapped(one.right - one.left)) > math.pi / teeth:
            likely = "The two touches are further apart than half a pitch."
            faults.append(
                Fault(
                    f"space {one.space}",
                    f"{math.degrees(one.right - one.left):.3f}°",
                    f"under {180 / teeth:.3f}°",
                    likely,
                    "Read again.",
                )
            )
    if faults:
        raise Refusal(*faults)


def _said(centres: Sequence[tuple[int, float]]) -> list[Finding]:
    told = []
    if len(centres) < WANTED:
        told.append(finding("pick-up-few", have=len(centres)))
    spread = max(abs(off) for _, off in centres)
    if spread > AGREE:
        told.append(finding("pick-up-spread", spread=spread * UM, within=AGREE * UM))
    return told
