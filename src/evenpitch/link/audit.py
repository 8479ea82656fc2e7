"""audit: what the link really did, from its log. Counts against pulses exactly; the work against the table by one joint fit."""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass, replace
from fractions import Fraction

import numpy as np

from evenpitch.link.exact_check import Change, Controller, HeldBack, check_controller
from evenpitch.link.fit import Fit, correlation_factor, least_squares, log_design
from evenpitch.link.indexing import Spaces, spaces_of
from evenpitch.link.jumps import Jump, find_jumps
from evenpitch.link.log import Log
from evenpitch.link.observable import Observable, observables
from evenpitch.link.pulse_train import Array, Whole
from evenpitch.link.speed import clear_of_turns, speed_of

TURN = 2 * math.pi
WORM_CHI, RATIO_T = 13.8, 3.5
"""Thresholds of a worm wave (chi-square of two) and of a ratio error (in standard uncertainties)."""
MOST_EVENTS = 12
"""Pulses that come late more often than that come late by a delay."""
NEAR_ROWS = 3
"""Rows within which a loss seen by two columns is one loss."""


@dataclass(frozen=True, slots=True, kw_only=True)
class LogSetting:
    """The link as it should be. `ratio`: pulses and counts as entered; `count` mm; `first_space`: under the cutter when the log begins.

    `head_map`: waves known of the head: times in a turn, amplitude and phase in radian.
    """

    lead: float
    count: Fraction
    pulses_per_turn: Fraction
    ratio: tuple[int, int]
    worm_ratio: Fraction
    electrical_cycle: int
    reduction: Fraction
    teeth: int
    first_space: int = 1
    head_map: tuple[tuple[float, float, float], ...] = ()


@dataclass(frozen=True, slots=True)
class Found:
    """A value and its standard uncertainty, in the unit its owner says."""

    value: float
    u: float

    @property
    def U(self) -> float:  # noqa: N802
        """Expanded, k = 2."""
        return 2 * self.u


@dataclass(frozen=True, slots=True, kw_only=True)
class Event:
    """At a place of the table (mm from the start of the log): what, how many pulses (− behind), standard uncertainty of them.

    `space`: under the cutter; `seen_by`: the columns that show it; `row`: the first it stands in.
    """

    row: int
    time: float
    at: float
    kind: str
    pulses: float
    u: float
    space: int
    seen_by: str


@dataclass(frozen=True, slots=True, kw_only=True)
class Audit:
    """`place` mm, `residuals`, `fitted`: of the rows that took part. `ratio` relative, `lag` s, `backlash` and `worm` radian at the
    work; None where this log cannot show it.

    `s`: standard deviation of a reading of the work's angle about the fit, radian; `residuals`: radian, or pulses without a work
    angle; `fitted`: the same as the fit has it; `deviation_read`: the work column held deviations, not angles.
    """

    rows: int
    travel: float
    observable: tuple[Observable, ...]
    events: tuple[Event, ...]
    held: tuple[HeldBack, ...]
    ratio: Found | None
    lag: Found | None
    backlash: Found | None
    worm: Found | None
    worm_shown: bool
    ratio_shown: bool
    s: float | None
    by: str
    place: Array
    residuals: Array
    fitted: Array
    correlated: float
    bend: bool
    deviation_read: bool
    spaces: Spaces
    reversed_pulses: bool


def audit(log: Log, setting: LogSetting) -> Audit:
    """The whole audit of one log."""
    x = (log.count - log.count[0]) * float(setting.count)
    speed = speed_of(log.time, x, float(setting.count))
    sign = _sense(log.count - log.count[0], log.pulse - log.pulse[0])
    pulses = sign * (log.pulse - log.pulse[0])
    ahead = pulses - (log.count - log.count[0]) * (setting.ratio[0] / setting.ratio[1])
    spaces = spaces_of(ahead, float(setting.pulses_per_turn), setting.teeth)
    controller, pulse_fit = _controller(log, setting, pulses, ahead - spaces.target, x, speed, spaces)
    events = [_lost(log, x, spaces, setting, change.row, float(change.pulses), 0.0, "pulses") for change in controller.changes]
    work = None if log.work is None else _work(log, setting, x, speed, spaces)
    if log.motor is not None:
        events = _merged(events, _slips(log, setting, x, pulses, spaces), NEAR_ROWS)
    if work is not None:
        jumps = [_of_jump(log, x, spaces, setting, jump) for jump in work.jumps]
        events = _merged(events, [event for event in jumps if abs(event.pulses) >= 0.5], max(NEAR_ROWS, log.rows // 100))
    events += _oddities(log, x, spaces, setting)
    return _told(
        log, setting, x, speed, spaces, sorted(events, key=lambda event: event.row), controller, pulse_fit, work, sign < 0
    )


def _sense(counts: Array, pulses: Array) -> int:
    """+1 where pulses grow with the counts, −1 where the motor is wired the other way round."""
    steps = np.diff(counts).astype(float) @ np.diff(pulses).astype(float)
    return -1 if steps < 0 else 1


def _controller(
    log: Log, setting: LogSetting, pulses: Array, level: Array, x: Array, speed: Array, spaces: Spaces
) -> tuple[Controller, Fit | None]:
    """Exactly where the log has no delay in it; where pulses run behind with the feed, by a fit that takes the delay out."""
    p, q = setting.ratio
    exact = check_controller(log.count, pulses - spaces.target.astype(np.int64), p, q, most=MOST_EVENTS)
    if exact is not None:
        return exact, None
    held = _stretches(level)
    keep = np.ones(log.rows, dtype=bool)
    for stretch in held:
        keep[stretch.first : stretch.last + 1] = False
    rows = np.nonzero(keep)[0]
    design = log_design(x[rows], speed[rows], setting.lead, 0.0, harmonics=())
    jumps, fit = find_jumps(design, level[rows])
    changes = [(int(rows[jump.row]), round(jump.size)) for jump in jumps if abs(jump.size) >= 0.5]
    made = tuple(Change(row, size) for row, size in changes if size)
    return Controller(made, tuple(held), sum(change.pulses for change in made)), fit


def _stretches(level: Array) -> list[HeldBack]:
    """Where pulses stood far behind and came back: held back, not lost."""
    middle = float(np.median(level))
    spread = 1.4826 * float(np.median(np.abs(level - middle)))
    bound = max(5.0, 8 * spread)
    far = np.abs(level - middle) > bound
    edges = np.flatnonzero(np.diff(np.concatenate([[False], far, [False]]).astype(int)))
    found = []
    for first, end in zip(edges[::2].tolist(), edges[1::2].tolist(), strict=True):
        if first > 0 and end < len(level):
            part = level[first:end] - middle
            found.append(HeldBack(first, end - 1, int(np.round(part[np.argmax(np.abs(part))]))))
    return found


@dataclass(frozen=True, slots=True)
class _Work:
    """The work against the table: jumps, the fit with them in, rows that took part, what leans alike, and how it was read."""

    jumps: tuple[Jump, ...]
    fit: Fit
    rows: Whole
    residuals: Array
    factor: float
    bend: bool
    deviation: bool


def _work(log: Log, setting: LogSetting, x: Array, speed: Array, spaces: Spaces) -> _Work:
    assert log.work is not None
    per_mm = TURN / setting.lead
    indexed = spaces.moved * TURN / setting.teeth
    wanted = per_mm * x + indexed
    angle = np.unwrap(log.work)
    angle = angle - angle[0]
    if float((angle - angle.mean()) @ (wanted - wanted.mean())) < 0:
        angle = -angle
    deviation = float(np.ptp(angle)) < 0.02 * float(np.ptp(wanted))
    y = log.work - log.work[0] if deviation else angle - wanted
    share = float(np.ptp(wanted)) / TURN
    y = y - _mapped(setting.head_map, wanted, share)
    bend = share <= 1 / 3 and not setting.head_map
    rows = np.nonzero(clear_of_turns(log.time, x, speed, float(setting.count)))[0]
    design = log_design(
        x[rows], speed[rows], setting.lead, float(setting.worm_ratio), indexed=indexed[rows], wheel=share > 1 / 3, bend=bend
    )
    factor = correlation_factor(find_jumps(design, y[rows])[1].residuals)
    jumps, fit = find_jumps(design, y[rows], factor)
    placed = tuple(replace(jump, row=int(rows[jump.row])) for jump in jumps)
    return _Work(placed, fit, rows, y[rows], factor, bend, deviation)


def _mapped(head_map: Sequence[tuple[float, float, float]], turned: Array, share: float) -> Array:
    """The slow waves known of the head, where the travel is too short to fit them."""
    total = np.zeros(len(turned))
    for per_turn, amplitude, phase in head_map if share <= 1 / 3 else ():
        if per_turn <= 4:
            total += amplitude * np.sin(per_turn * turned + phase)
    return np.asarray(total - total[0], float)


def _lost(
    log: Log, x: Array, spaces: Spaces, setting: LogSetting, row: int, pulses: float, u: float, seen: str, kind: str = ""
) -> Event:
    words = kind or ("lost pulses" if pulses < 0 else "extra pulses")
    return Event(
        row=row, time=float(log.time[row]), at=float((x[row] + x[max(row - 1, 0)]) / 2), kind=words, pulses=pulses, u=u,
        space=spaces.space(row, setting.first_space, setting.teeth), seen_by=seen,
    )  # fmt: skip


def _of_jump(log: Log, x: Array, spaces: Spaces, setting: LogSetting, jump: Jump) -> Event:
    """A jump of the work's angle in pulses; multiples of an electrical cycle are the rotor's."""
    pulse = TURN / float(setting.pulses_per_turn)
    size, u = jump.size / pulse, jump.u / pulse
    return _lost(log, x, spaces, setting, jump.row, size, u, "work angle", _slip(size, u, setting.electrical_cycle))


def _slip(size: float, u: float, cycle: int) -> str:
    """ "rotor slip" where a loss is a whole number of electrical cycles as far as it is known."""
    times = round(size / cycle)
    return "rotor slip" if times and abs(size - times * cycle) < max(3 * u, 0.6) else ""


def _slips(log: Log, setting: LogSetting, x: Array, pulses: Array, spaces: Spaces) -> list[Event]:
    """Motor angle against commanded pulses, in pulses: what the rotor did not follow."""
    assert log.motor is not None
    per_turn = float(setting.pulses_per_turn / setting.reduction)
    turned = np.unwrap(log.motor) / TURN * per_turn
    turned = turned - turned[0]
    turned *= 1 if float(np.diff(turned) @ np.diff(pulses)) >= 0 else -1
    y = turned - pulses
    design = log_design(x, speed_of(log.time, x, float(setting.count)), setting.lead, 0.0, harmonics=())
    jumps, _ = find_jumps(design, y)
    return [
        _lost(
            log,
            x,
            spaces,
            setting,
            jump.row,
            jump.size,
            jump.u,
            "motor angle",
            _slip(jump.size, jump.u, setting.electrical_cycle),
        )
        for jump in jumps
        if abs(jump.size) >= 1
    ]


def _merged(known: list[Event], more: list[Event], near: int) -> list[Event]:
    """Losses seen by two columns at one place are one loss; the surer figure stands."""
    out, left = [], list(more)
    for event in known:
        twin = next((m for m in left if abs(m.row - event.row) <= near and m.pulses * event.pulses > 0), None)
        if twin is None:
            out.append(event)
            continue
        left.remove(twin)
        sure = event if event.u <= twin.u else twin
        kind = twin.kind if twin.kind == "rotor slip" and event.u > 0 else event.kind
        out.append(
            Event(
                row=event.row, time=event.time, at=event.at, kind=kind, pulses=sure.pulses, u=sure.u, space=event.space,
                seen_by=f"{event.seen_by}, {twin.seen_by}",
            )
        )  # fmt: skip
    return out + left


def _oddities(log: Log, x: Array, spaces: Spaces, setting: LogSetting) -> list[Event]:
    gaps = [_lost(log, x, spaces, setting, row, 0.0, 0.0, "time", "gap in the log") for row in log.gaps]
    return gaps + [
        _lost(log, x, spaces, setting, wrap.row, 0.0, 0.0, f"{wrap.column}, {wrap.bits} bits", "counter wrap")
        for wrap in log.wraps
    ]


def _told(
    log: Log, setting: LogSetting, x: Array, speed: Array, spaces: Spaces, events: list[Event], controller: Controller,
    pulse_fit: Fit | None, work: _Work | None, turned: bool,
) -> Audit:  # fmt: skip
    share = float(np.ptp(x)) / setting.lead
    moving = log_design(x, speed, setting.lead, 0.0, harmonics=())
    uneven, both = "lag" in moving.names, "play" in moving.names
    wanted = float(setting.pulses_per_turn) * float(setting.count) / setting.lead
    entered = setting.ratio[0] / setting.ratio[1] / wanted - 1
    if work is not None:
        fit, k, y, by = work.fit, work.factor, work.residuals, "work angle"
    else:
        y = _pulse_residuals(log, setting, spaces, events, x)
        fit, k, by = pulse_fit or least_squares(moving, y), 1.0, "pulses"
        y = y if pulse_fit is None else np.asarray(y)
    per_pulse = TURN / float(setting.pulses_per_turn) if work is None else 1.0
    worm = work.fit.amplitude("worm 1 sin", "worm 1 cos") if work is not None else None
    ratio = Found(fit.value("ratio") * per_pulse + (entered if work is None else 0.0), fit.u("ratio") * per_pulse * k)
    return Audit(
        rows=log.rows,
        travel=float(np.ptp(x)),
        observable=observables(
            motor=log.motor is not None, work=work is not None, uneven=uneven, both_ways=both, turn_share=share
        ),
        events=tuple(events),
        held=controller.held,
        ratio=ratio,
        lag=Found(-fit.value("lag") * per_pulse, fit.u("lag") * per_pulse * k) if fit.has("lag") else None,
        backlash=Found(abs(fit.value("play")), fit.u("play") * k) if work is not None and fit.has("play") else None,
        worm=None if worm is None else Found(worm[0], worm[1] * k),
        worm_shown=worm is not None and worm[2] > WORM_CHI * k * k,
        ratio_shown=abs(ratio.value) > RATIO_T * ratio.u,
        s=None if work is None else fit.s,
        by=by,
        place=x if work is None else x[work.rows],
        residuals=y,
        fitted=y - fit.residuals if len(fit.residuals) == len(y) else np.zeros(len(y)),
        correlated=k,
        bend=work is not None and work.bend,
        deviation_read=work is not None and work.deviation,
        spaces=spaces,
        reversed_pulses=turned,
    )


def _pulse_residuals(log: Log, setting: LogSetting, spaces: Spaces, events: list[Event], x: Array) -> Array:
    """Pulses commanded less pulses due, indexing and losses taken off, in pulses."""
    counts = log.count - log.count[0]
    pulses = (log.pulse - log.pulse[0]) * _sense(counts, log.pulse - log.pulse[0])
    y = pulses - counts * (setting.ratio[0] / setting.ratio[1]) - spaces.target
    for event in events:
        if event.kind in ("lost pulses", "extra pulses"):
            y[event.row :] -= event.pulses
    return np.asarray(y, float)
