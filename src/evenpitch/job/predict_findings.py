"""What a prediction has to say beside its figures."""

from __future__ import annotations

import math
from collections.abc import Iterator
from typing import TYPE_CHECKING

from evenpitch.gear.sizes import lead
from evenpitch.job.ratio_fields import field_findings
from evenpitch.link.notes import note
from evenpitch.link.rates import TORQUE_FACTOR, turn_by_hand
from evenpitch.link.worm import TOOTH_ANGLE, efficiency, self_locking
from evenpitch.quantity.finding import Finding, by_weight
from evenpitch.quantity.units import RADIAN_PER_ARCSEC

if TYPE_CHECKING:
    from evenpitch.job.predicting import Prediction

SURE = 0.95
NOTHING = 0.05
"""Micrometres that no one looks for."""
LITTLE = 0.05
"""Gain below which an improvement is not worth naming."""


def predict_findings(found: Prediction) -> tuple[Finding, ...]:
    """All of them, stops first."""
    return by_weight((*_drive(found), *_rates(found), *_class(found), *_always(found)))


def _drive(found: Prediction) -> Iterator[Finding]:
    drive, gear = found.filled.drive, found.gear
    if found.doubts:
        worst = found.doubts[0]
        low, high = sorted((worst.low_um, worst.high_um))
        matters = worst.spread > NOTHING
        words = f"{worst.what.words}, {low:.1f} to {high:.1f} µm all together"
        told = f"The one that matters most here is: {words}." if matters else "None of them moves a micrometre on this tooth."
        first = f"Find it out first: {worst.what.cost}." if matters else "Leave them until they limit the feed."
        yield note("link-unknown", count=len(found.doubts), worst=told, first=first)
    if gear.helical and not drive.linked:
        yield note("no-link-helix")
    if gear.helical and drive.linked and not drive.seated:
        um = 1000 * gear.base_radius * drive.backlash
        yield note("not-seated", backlash=drive.backlash / RADIAN_PER_ARCSEC, um=um, instead=_seat(found))
    if found.stiffness is not None and found.stiffness.jumps:
        yield note("pulse-jumps", drag=drive.worm_drag / float(drive.belt), one=found.stiffness.one_pulse)
    if found.ratio is not None:
        um_per_ppm = 1e-3 * gear.face * gear.tan_base
        yield from field_findings(
            found.ratio, abs(lead(found.plan.gear)), drive.pulses_per_turn, drive.count, found.fields, um_per_ppm
        )
    if drive.linked and not self_locking(drive.worm_starts, drive.worm_quotient, drive.worm_friction):
        needed = math.cos(TOOTH_ANGLE) * drive.worm_starts / drive.worm_quotient
        yield note("not-self-locking", friction=drive.worm_friction, needed=needed)


def _seat(found: Prediction) -> str:
    """What would keep one flank of the worm loaded."""
    brake, drive = found.seating.brake_needed, found.filled.drive
    if found.seating.by_cut:
        return "Mill conventionally, against the feed: at this helix the cut itself seats it. Or fit a drag brake."
    cost = brake / (efficiency(drive) * float(drive.reduction))
    return f"A drag brake of {brake:.1f} Nm on the spindle (it costs the motor {cost:.2f} Nm), or a helix above 11.5°."


def _rates(found: Prediction) -> Iterator[Finding]:
    shown = found.rates
    if shown is None:
        return
    by_torque = next((limit for limit in shown.limits if limit.reason == "torque"), None)
    slower = by_torque is not None and by_torque.feed > 1
    instead = (
        f"Feed at {by_torque.feed:.0f} mm/min or slower."
        if slower and by_torque
        else "A stronger motor, a higher supply, or a belt."
    )
    if shown.factor < 1:
        yield note("motor-stalls", feed=shown.feed, needed=shown.torque_needed, there=shown.torque_there, instead=instead)
    elif shown.factor < TORQUE_FACTOR:
        yield note("torque-low", feed=shown.feed, factor=shown.factor, instead=instead)
    hard = [limit for limit in shown.limits if limit.reason not in ("torque", "lag") and limit.feed < shown.feed]
    if hard:
        yield note("table-too-fast", feed=shown.feed, pulses=shown.pulses, rpm=shown.rpm, words=hard[0].words, most=hard[0].feed)
    if 0 < shown.start < shown.pulses:
        yield note("needs-ramp", start=shown.start, pulses=shown.pulses)
    if turn_by_hand(found.gear):
        yield note("turn-by-hand", angle=math.degrees(found.gear.helix))


def _class(found: Prediction) -> Iterator[Finding]:
    chance, q, best = found.expected.chance(found.wanted), found.expected.decides(), found.best()
    if chance < SURE:
        instead = (
            f"{best.words[0].upper()}{best.words[1:]}: probability {best.chance:.2f}."
            if best is not None and best.gain > LITTLE
            else "Ask for a coarser class."
        )
        limit = q.limits[min(found.wanted, 11) - 1]
        yield note(
            "class-doubtful", cls=found.wanted, chance=chance, symbol=_symbol(q.symbol), p95=q.p95, limit=limit, instead=instead
        )
    finer = [one.gain for one in found.bought if one.key in ("steps", "belt", "scale")]
    if finer and best is not None and max(finer) < LITTLE < best.gain:
        yield note(
            "finer-no-gain", finer=max(0.0, 100 * max(finer)), symbol=_symbol(q.symbol), best=best.words, gain=100 * best.gain
        )


def _symbol(symbol: str) -> str:
    return symbol.replace("_beta", "β").replace("_", "")


def _always(found: Prediction) -> Iterator[Finding]:
    form = (
        "" if found.form_um is None else f": {found.form_um:.0f} µm, {found.form_limit:.0f} is the limit of class {found.wanted}"
    )
    if found.expected.draws < found.asked:
        yield note("draws-stopped", done=found.expected.draws, wanted=found.asked)
    yield note("form-apart", form=form)
    yield note("class-from-memory")
