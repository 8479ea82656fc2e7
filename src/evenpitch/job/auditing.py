"""audit(log, order): what did the link really do, and which spaces did it hit?"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass, replace
from typing import Any

from evenpitch.checking.readings import LogRow
from evenpitch.dividing.link_ratio import LinkRatio, link_ratio
from evenpitch.gear.check import refuse_impossible
from evenpitch.gear.sizes import lead
from evenpitch.job.order import Order
from evenpitch.link.audit import Audit, Event, Found, LogSetting
from evenpitch.link.audit import audit as audit_log
from evenpitch.link.filling import Filled, fill
from evenpitch.link.gearing import OnGear, on_gear
from evenpitch.link.log import Log, log_of
from evenpitch.link.notes import note
from evenpitch.link.resolution import pulse_length
from evenpitch.link.waves import ratio_slope
from evenpitch.quantity.finding import Finding, by_weight
from evenpitch.quantity.refusal import refuse
from evenpitch.quantity.showing import number
from evenpitch.quantity.units import RADIAN_PER_ARCSEC

LOST = ("lost pulses", "extra pulses", "rotor slip")


@dataclass(frozen=True, slots=True, kw_only=True)
class LogAudit:
    """`found` on the gear; `ratio`: as the link was set; `pulse_um`: one pulse at the pitch circle; `hit`: (space, µm from there on)."""

    order: Order
    gear: OnGear
    filled: Filled
    ratio: LinkRatio
    found: Audit
    log: Log
    pulse_um: float
    hit: tuple[tuple[int, float], ...]
    findings: tuple[Finding, ...]

    def facts(self) -> dict[str, Any]:
        """Under the fixed keys of the machine-readable answer."""
        found = self.found
        return {
            "rows": found.rows,
            "observable": [{"what": row.what, "shown": row.shown, "why": row.why} for row in found.observable],
            "events": [_event(event, self.pulse_um) for event in found.events],
            "held_back": [self._held(held.first, held.last, held.most) for held in found.held],
            "ratio_error_ppm": _value(found.ratio, 1e6),
            "lag_ms": _value(found.lag, 1e3),
            "backlash_arcsec": _value(found.backlash, 1 / RADIAN_PER_ARCSEC),
            "worm_arcsec": _value(found.worm, 1 / RADIAN_PER_ARCSEC),
            "spaces": [{"space": space, "um": um} for space, um in self.hit],
            "by": found.by,
        }

    def place(self, row: int) -> float:
        """Table place of a row, mm from the start of the log."""
        return float(self.log.count[row] - self.log.count[0]) * float(self.filled.drive.count)

    def _held(self, first: int, last: int, most: int) -> dict[str, Any]:
        return {"from_mm": self.place(first), "to_mm": self.place(last), "pulses": most}


def _value(found: Found | None, factor: float) -> dict[str, float] | None:
    return None if found is None else {"value": found.value * factor, "u": found.u * factor, "U": found.U * factor}


def _event(event: Event, pulse_um: float) -> dict[str, Any]:
    return {
        "at_mm": event.at, "at_s": event.time, "kind": event.kind, "pulses": event.pulses, "u": event.u, "space": event.space,
        "um": abs(event.pulses) * pulse_um, "seen_by": event.seen_by,
    }  # fmt: skip


def columns(rows: Sequence[LogRow]) -> Log:
    """The rows of a file as a log; a column counts where every row has it."""
    motor = [row.motor for row in rows]
    work = [row.work for row in rows]
    return log_of(
        [row.time for row in rows],
        [row.count for row in rows],
        [row.pulse for row in rows],
        None if any(angle is None for angle in motor) else motor,
        None if any(angle is None for angle in work) else work,
    )


def audit(rows: Sequence[LogRow], order: Order, *, gear: int = 0, space: int = 1) -> LogAudit:
    """The log held against one gear of the order. `space`: under the cutter when the log begins."""
    wanted = order.works[gear].gear
    refuse_impossible(wanted, f"gear.{gear}")
    if not wanted.helix:
        raise refuse(
            "job",
            "a spur gear",
            "a helical gear",
            "While a spur gear is cut nothing is linked.",
            "Audit the log of a helical job.",
        )
    if order.rig.link is None:
        raise refuse("rig, link", "", "a link", "The rig has none.", "Add it on the rig page; pulses and counts must be known.")
    _refuse_unknown(order)
    on, filled = on_gear(wanted), fill(order.rig)
    drive = filled.drive
    ratio = link_ratio(abs(lead(wanted)), drive.pulses_per_turn, drive.count)
    latest = order.rig.latest_map()
    log = columns(rows)
    found = audit_log(
        log,
        LogSetting(
            lead=on.lead,
            count=drive.count,
            pulses_per_turn=drive.pulses_per_turn,
            ratio=(ratio.pulses, ratio.counts),
            worm_ratio=drive.worm_ratio,
            electrical_cycle=4 * drive.microsteps,
            reduction=drive.reduction,
            teeth=on.teeth,
            first_space=space,
            head_map=() if latest is None else tuple((h.per_turn, float(h.amplitude), float(h.phase)) for h in latest.harmonics),
        ),
    )
    pulse = 1000 * pulse_length(on.radius, drive.pulses_per_turn)
    hit = tuple((event.space, abs(event.pulses) * pulse) for event in found.events if event.kind in LOST)
    made = LogAudit(
        order=order, gear=on, filled=filled, ratio=ratio, found=found, log=log, pulse_um=pulse, hit=hit, findings=()
    )  # fmt: skip
    return replace(made, findings=by_weight((*_losses(made), *_values(made), *_reading(made))))


def _refuse_unknown(order: Order) -> None:
    """An audit on assumed pulses or counts would find the assumption, not the link."""
    link = order.rig.link
    if order.rig.pulses_per_turn() is None:
        raise refuse(
            "rig, link",
            "",
            "full steps, microsteps and belt",
            "Without them a pulse has no size.",
            "Fill them in on the rig page.",
        )
    if link is not None and link.count is None:
        raise refuse("rig, link.count", "", "the table travel of one count", "Without it a count has no length.", "Fill it in.")


def _losses(made: LogAudit) -> Iterator[Finding]:
    found, cycle = made.found, 4 * made.filled.drive.microsteps
    for event in found.events:
        size = round(abs(event.pulses))
        common = {"place": event.at, "time": event.time, "pulses": size, "space": event.space, "um": size * made.pulse_um}
        if event.kind == "rotor slip":
            turns = round(abs(event.pulses) / cycle)
            yield note("rotor-slipped", turns=turns, s="" if turns == 1 else "s", **common)
        elif event.kind in LOST:
            seen = f"Seen by {event.seen_by}"
            yield note("pulses-lost", word="lost" if event.pulses < 0 else "added", seen=seen, **common)
        elif event.kind == "gap in the log":
            yield note("log-gap", time=event.time)
        else:
            column, bits = event.seen_by.removesuffix(" bits").split(", ")
            yield note("log-wrapped", column=column, bits=bits, time=event.time)
    for held in found.held:
        space = found.spaces.space(held.first, 1, made.gear.teeth)
        yield note("held-back", first=made.place(held.first), last=made.place(held.last), pulses=abs(held.most), space=space)
    if not any(event.kind in LOST for event in found.events) and not found.held:
        by = "counts, pulses and the work's angle agree" if found.by == "work angle" else "counts and pulses agree"
        yield note("log-clean", words=f"{by} over {found.rows} rows and {found.travel:.1f} mm")


def _values(made: LogAudit) -> Iterator[Finding]:
    found, gear = made.found, made.gear
    if found.ratio is not None and found.ratio_shown:
        slope = 1000 * ratio_slope(gear.face, gear.base_helix, found.ratio.value)
        yield note(
            "ratio-off",
            ppm=number(found.ratio.value * 1e6, plus=True),
            U=found.ratio.U * 1e6,
            um=f": {slope:.1f} µm over the face",
        )
    if found.worm is not None and found.worm_shown:
        size = found.worm.value / RADIAN_PER_ARCSEC
        um = 1000 * gear.radius * found.worm.value
        yield note("worm-seen", arcsec=size, U=found.worm.U / RADIAN_PER_ARCSEC, um=um)


def _reading(made: LogAudit) -> Iterator[Finding]:
    found = made.found
    if made.log.motor is None and made.log.work is None:
        yield note("log-proves-little")
    if found.bend:
        yield note("bend-carried")
    if found.correlated > 1:
        yield note("leans-alike", factor=found.correlated)
    if found.deviation_read:
        yield note("deviations-logged")
    if found.reversed_pulses:
        yield note("pulses-against-counts")
