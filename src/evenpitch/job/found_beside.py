"""What was expected beside what was found: the prediction of the rig, the log of the link, and the map of the head."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass, replace
from typing import Any

from evenpitch.checking.cause import UM, Cause
from evenpitch.checking.jumps_between import Jump, jumps
from evenpitch.checking.spacing import Spacing
from evenpitch.job.auditing import LOST, LogAudit
from evenpitch.job.spacing_judged import AroundJudged
from evenpitch.link.prediction import Expected as Predicted

FITS = 0.15
"""A jump is what the log shows where they differ by no more than this part of it, or by what is read."""


@dataclass(frozen=True, slots=True)
class Logged:
    """One loss that the log of the link shows. `pulses` signed, - behind; `um`: of all spaces from `space` on."""

    space: int
    kind: str
    pulses: float
    um: float

    def words(self) -> str:
        """As in "35 lost pulses in space 9, 117 µm"."""
        return f"{abs(self.pulses):.0f} {self.kind.removesuffix(' pulses')} pulses in space {self.space}, {self.um:.0f} µm"


@dataclass(frozen=True, slots=True)
class Beside:
    """One line: what it is, what was expected, what was found, and what that says. `odd`: more than can be expected."""

    what: str
    expected: str
    found: str
    says: str
    odd: bool = False

    def facts(self) -> dict[str, Any]:
        """As the machine-readable answer has it."""
        return {"what": self.what, "expected": self.expected, "found": self.found, "says": self.says, "odd": self.odd}


def logged(audit: LogAudit) -> tuple[Logged, ...]:
    """What the audit of a log says was lost."""
    return tuple(
        Logged(event.space, event.kind, event.pulses, abs(event.pulses) * audit.pulse_um)
        for event in audit.found.events
        if event.kind in LOST
    )


def beside(
    judged: Sequence[AroundJudged], predicted: Predicted | None, log: Sequence[Logged] | None, spacing: Spacing | None
) -> tuple[Beside, ...]:
    """Every line there is."""
    found = () if spacing is None else jumps(spacing)
    return (*_by_prediction(judged, predicted), *_by_log(log, found, read=spacing is not None))


def _by_prediction(judged: Sequence[AroundJudged], predicted: Predicted | None) -> Iterator[Beside]:
    if predicted is None:
        return
    known = {one.name: one for one in predicted.quantiles}
    for one in judged:
        told = known.get(one.name)
        if told is None:
            continue
        value = one.value if one.unbiased is None else one.unbiased.corrected
        low = value - one.U
        side = f", {one.flank} flank" if one.flank else ""
        if low > told.p95:
            says = "more than 95 of 100 such gears have: something beside the known errors of this rig"
        elif value > told.p50:
            says = "as this rig cuts; in the worse half"
        else:
            says = "as this rig cuts"
        yield Beside(
            f"{one.words}{side}",
            f"{told.p50:.0f} µm in half of such gears, {told.p95:.0f} in 95 of 100",
            f"{value:.0f} ± {one.U:.0f} µm",
            says,
            low > told.p95,
        )


def _by_log(log: Sequence[Logged] | None, found: Sequence[Jump], *, read: bool) -> Iterator[Beside]:
    if log is None:
        return
    if not log:
        yield Beside("log of the link", "no pulse lost", "", "what jumps in the spacing is not of the pulses" if found else "")
    for one in log:
        jump = _of(one, found)
        if jump is not None:
            size, says = f"{abs(jump.size) * UM:.0f} ± {jump.U * UM:.0f} µm from space {jump.first} on", "the same loss"
        else:
            size, says = (
                "not seen" if read else "spacing not read",
                "in the path of that space alone, or made good" if read else "",
            )
        yield Beside("log of the link", one.words(), size, says, jump is not None)


def _of(one: Logged, found: Sequence[Jump]) -> Jump | None:
    return next((jump for jump in found if _same(one, jump)), None)


def _same(one: Logged, jump: Jump) -> bool:
    near = jump.first in (one.space, one.space + 1)
    return near and abs(abs(jump.size) * UM - one.um) <= max(jump.U * UM, FITS * one.um)


def by_log(causes: tuple[Cause, ...], log: Sequence[Logged], spacing: Spacing | None) -> tuple[Cause, ...]:
    """The causes with what the log shows put first for the jump it explains; the others of that jump stand behind it."""
    if spacing is None or not log:
        return causes
    for jump in jumps(spacing):
        one = next((one for one in log if _same(one, jump)), None)
        if one is None:
            continue
        mine = [cause for cause in causes if abs(cause.size - abs(jump.size)) < 1e-9 and not cause.wave]
        cause = Cause(
            "logged slip",
            f"The log shows it: {one.words()}",
            f"{abs(jump.size) * UM:.0f} ± {jump.U * UM:.0f} µm found from space {jump.first} on; by the log {one.um:.0f}",
            "Audit the log of the next gear: a loss at the same place of the table is of scale or wiring, at the same speed of the motor.",
            "Less feed, a slower ramp or more current. Recut the spaces that are off if there is stock.",
            abs(jump.size),
        )
        causes = (cause, *(replace(other, rank=other.rank + 1) if other in mine else other for other in causes))
    return tuple(sorted(causes, key=lambda one: (one.rank, -one.size)))
