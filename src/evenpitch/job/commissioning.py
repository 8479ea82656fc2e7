"""Commission a rig: readings become a calibrated scale, a known head, a proven link, and one sentence about a gear."""

from __future__ import annotations

import math
from collections.abc import Iterator, Sequence
from dataclasses import dataclass, replace
from datetime import date
from fractions import Fraction

from evenpitch.checking.aliasing import Hiding, hidden_counts, hiding
from evenpitch.checking.budget import Budget
from evenpitch.checking.closing import Drive
from evenpitch.checking.compensation import MapGain, gain_finding, map_gain, targets_without_map
from evenpitch.checking.gain_doubt import USUAL_KELVIN, gain_budget, whole_gain
from evenpitch.checking.head import HeadFound, know_head
from evenpitch.checking.measured import Measured
from evenpitch.checking.mounting import judge_block
from evenpitch.checking.notes import note
from evenpitch.checking.paying import Paying, paying
from evenpitch.checking.periodic import Wave, strongest_wave, wave_at
from evenpitch.checking.readings import HeadReading, ScaleReading
from evenpitch.checking.scale import ScaleCalibration, calibrate_scale
from evenpitch.gear.gear import Gear
from evenpitch.job.full_turn import FullTurn, full_turn
from evenpitch.job.scale_corrected import Corrected, corrected_ratios
from evenpitch.quantity.finding import Finding, by_weight
from evenpitch.quantity.units import Kelvin, Millimetre, Radian
from evenpitch.rig.maps import OLD_DAYS
from evenpitch.rig.rig import Rig

USUAL_FACE = Millimetre(20.0)
UNMAPPED = date(1, 1, 1)


@dataclass(frozen=True, slots=True, kw_only=True)
class ScaleCommission:
    """The scale: its calibration, the wave found if any, whether correcting pays over `face`.

    `gain`: with the whole of its uncertainty, whose parts stand in `budget` (µm in a metre); that of the calibration is scatter alone.
    `corrected`: the ratios to enter, where rig and helical gears are named and the gain is shown.
    """

    calibration: ScaleCalibration
    gain: Measured
    budget: Budget
    corrected: tuple[Corrected, ...]
    wave: Wave | None
    paying: Paying
    face: Millimetre
    findings: tuple[Finding, ...]


def commission_scale(
    readings: Sequence[ScaleReading],
    *,
    face: Millimetre = USUAL_FACE,
    base_helix: Radian | None = None,
    travel_used: Millimetre | None = None,
    period: Millimetre | None = None,
    rig: Rig | None = None,
    gears: Sequence[Gear] = (),
    kelvin: Kelvin = USUAL_KELVIN,
) -> ScaleCommission:
    """How true the scale reads, and whether correcting it pays."""
    made = calibrate_scale(readings, travel_used)
    wave = wave_at(readings, period) if period is not None else strongest_wave(readings)
    budget = gain_budget(made.gain, Millimetre(made.curve[-1].at - made.curve[0].at), kelvin)
    gain = whole_gain(made.gain, budget)
    pays = paying(gain, face, base_helix)
    return ScaleCommission(
        calibration=made,
        gain=gain,
        budget=budget,
        corrected=() if rig is None or not gain.shown() else corrected_ratios(gears, rig, gain.value),
        wave=wave,
        paying=pays,
        face=face,
        findings=by_weight((*made.findings, pays.finding, *_reversal(made, rig), *_blocks(readings, rig))),
    )


def _reversal(made: ScaleCalibration, rig: Rig | None) -> Iterator[Finding]:
    count = rig.link.count if rig is not None and rig.link is not None else None
    if made.reversal is None or count is None:
        return
    if made.reversal.shown() and abs(made.reversal.value) > count + made.reversal.U:
        facts = {"reversal": made.reversal.value * 1e3, "U": made.reversal.U * 1e3, "count": float(count) * 1e3}
        yield note("reversal-large", **facts)


def _blocks(readings: Sequence[ScaleReading], rig: Rig | None) -> Iterator[Finding]:
    """References that the rig's set of blocks cannot make; one word for each size."""
    if rig is None:
        return
    found = (judge_block(Millimetre(size), rig.instruments) for size in sorted({one.reference for one in readings}) if size)
    yield from (one for one in found if one is not None)


@dataclass(frozen=True, slots=True, kw_only=True)
class HeadCommission:
    """The head: what was found, which counts hide the worm's wave, whether the map pays (None where pulses are not known).

    `turn`: the closing test, None where no full turn was read.
    """

    found: HeadFound
    ratio: Fraction
    hidden: tuple[int, ...]
    examples: tuple[Hiding, ...]
    gain: MapGain | None
    pulses: Fraction | None
    turn: FullTurn | None
    findings: tuple[Finding, ...]

    def targets(self, divisions: int) -> tuple[int, ...]:
        """The absolute targets of a count with the map taken out; empty where the pulses of a turn are not known."""
        if self.pulses is None:
            return ()
        return targets_without_map(self.pulses, divisions, self.found.as_map(UNMAPPED).harmonics)


EXAMPLES = (20, 24, 25, 28, 32, 36, 40, 56, 97, 127)


def commission_head(readings: Sequence[HeadReading], ratio: Fraction, drive: Drive | None = None) -> HeadCommission:
    """How good the head is. `drive`: of its rig, where the pulses of a turn are known."""
    found = know_head(readings, ratio)
    pulses, turn = None if drive is None else drive.pulses_per_turn, full_turn(found, drive)
    gain = None
    if pulses is not None and found.shown():
        gain = map_gain(found.as_map(UNMAPPED), Radian(2 * math.pi / float(pulses)), Radian(found.s.value))
    said = None if gain is None else gain_finding(gain)
    return HeadCommission(
        found=found,
        ratio=ratio,
        hidden=hidden_counts(ratio),
        examples=tuple(hiding(count, ratio) for count in EXAMPLES),
        gain=gain,
        pulses=pulses,
        turn=turn,
        findings=by_weight((*found.findings, *(() if turn is None else turn.findings), *(() if said is None else (said,)))),
    )


def with_map(rig: Rig, found: HeadFound, day: date) -> Rig:
    """The rig with the map of that day kept; an earlier one of the same day gives way, older ones stay."""
    kept = tuple(one for one in rig.maps if one.date != day)
    return replace(rig, maps=(*kept, found.as_map(day)))


def age_findings(rig: Rig, today: date) -> tuple[Finding, ...]:
    """What to say of a head that was never mapped, or long ago."""
    latest = rig.latest_map()
    if latest is None:
        return (note("calibration-missing", what="head"),)
    days = (today - latest.date).days
    if days > OLD_DAYS:
        return (note("calibration-old", what="head", days=days, date=f"{latest.date.day} {latest.date:%B %Y}"),)
    return ()
