"""Logs audited: worked cases of tests/data/link.json, rates of detection, and logs as a person would bring them."""

from __future__ import annotations

import math
import os
from fractions import Fraction
from typing import Any

import numpy as np
import pytest

from evenpitch.link.audit import Audit, LogSetting, audit
from evenpitch.link.exact_check import change_rows, check_controller, deviations
from evenpitch.link.fit import (
    correlation_factor,
    jump_uncertainty,
    least_found,
    least_squares,
    log_design,
    ratio_uncertainty,
    wave_uncertainty,
)
from evenpitch.link.jumps import THRESHOLD, find_jumps, largest_jump, with_jump
from evenpitch.link.log import Log, log_of
from evenpitch.link.speed import speed_of
from evenpitch.quantity.refusal import Refusal
from link.logs import ARCSEC, COUNT, LEAD, TURN, Made, P, Q, exact_pulses, made
from link.shop import rows

FULL = os.environ.get("EVENPITCH_FULL") == "1"
SETTING = LogSetting(
    lead=LEAD, count=Fraction(1, 200), pulses_per_turn=Fraction(TURN), ratio=(P, Q), worm_ratio=Fraction(40), electrical_cycle=32,
    reduction=Fraction(40), teeth=24,
)  # fmt: skip


@pytest.mark.parametrize("case", rows("audit"), ids=lambda case: str(case["id"]))
def test_worked_logs(case: dict[str, Any]) -> None:
    i, out = case["inputs"], case["outputs"]
    x, v, y = (np.array(i[key]) for key in ("x", "v", "resid_arcsec"))
    design = log_design(x, v, i["lead"], i["worm_ratio"], harmonics=(1,))
    jump = largest_jump(least_squares(design, y))
    assert jump is not None
    assert jump.size == pytest.approx(out["jump_arcsec"], rel=1e-6)
    assert jump.u == pytest.approx(out["jump_u"], rel=0.003)  # the case counts one column more in its degrees of freedom
    assert [x[jump.row - 1], x[jump.row]] == out["jump_between"]
    fit = least_squares(with_jump(design, jump.row, "jump"), y)
    assert fit.value("ratio") * ARCSEC == pytest.approx(out["ratio_error"], rel=1e-6)
    assert -fit.value("lag") * ARCSEC == pytest.approx(out["lag_s"], rel=1e-6)
    assert fit.amplitude("worm 1 sin", "worm 1 cos")[0] == pytest.approx(out["worm_amp_arcsec"], rel=1e-6)


def test_whole_numbers() -> None:
    (case,) = rows("audit_exact")
    i, out = case["inputs"], case["outputs"]
    dev = deviations(i["counts"], i["steps"], i["P"], i["Q"])
    assert dev[-1] == out["deviation_final"]
    assert list(change_rows(dev)) == out["change_rows"]
    found = check_controller(i["counts"], i["steps"], i["P"], i["Q"])
    assert found is not None
    assert [change.row for change in found.changes] == out["change_rows"]
    assert found.final == -3
    assert not found.held


def test_pulses_held_back_are_not_lost() -> None:
    counts = np.arange(0, 6000, 20)
    pulses = exact_pulses(counts).copy()
    pulses[100:150] -= 40
    found = check_controller(counts + 7, pulses + 3, P, Q)  # neither counter began at zero
    assert found is not None
    assert found.changes == ()
    assert [(held.first, held.last) for held in found.held] == [(100, 149)]
    assert found.held[0].most == pytest.approx(-40, abs=1)
    assert check_controller(counts, pulses - np.arange(len(pulses)), P, Q, most=5) is None


@pytest.mark.parametrize("case", rows("detect"), ids=lambda case: str(case["id"]))
def test_uncertainties_in_closed_form(case: dict[str, Any]) -> None:
    i, out = case["inputs"], case["outputs"]
    sigma = i["sd_arcsec"]
    found = ratio_uncertainty(sigma * ARCSEC, i["N"], i["range_mm"], i["lead"])
    assert found == pytest.approx(out["u_ratio"], rel=0.01)
    assert wave_uncertainty(sigma, i["N"]) == pytest.approx(out["u_worm_arcsec"], rel=0.01)
    assert jump_uncertainty(sigma, i["N"]) == pytest.approx(out["u_jump_arcsec"], rel=0.01)
    assert least_found(4.5, 1.0) == pytest.approx(6.14)


def test_the_scan_equals_a_refit_at_every_row() -> None:
    log = made(np.random.default_rng(8), 300, sd=6, lost=1, worm=10)
    design = log_design(log.place, log.speed, LEAD, 40)
    jump = largest_jump(least_squares(design, log.residual))
    assert jump is not None
    best, size = math.inf, 0.0
    for row in range(2, 299):
        columns = np.column_stack([design.columns, np.arange(300) >= row])
        values, *_ = np.linalg.lstsq(columns, log.residual, rcond=None)
        left = log.residual - columns @ values
        if left @ left < best:
            best, place, size = float(left @ left), row, float(values[-1])
    assert place == jump.row
    assert size == pytest.approx(jump.size, rel=1e-6)


def found_in(log: Made) -> tuple[bool, bool, bool]:
    """Jump, ratio error, worm: found or not, by the thresholds of the trade's statistics (F1 to F5)."""
    design = log_design(log.place, log.speed, LEAD, 40)
    fit = least_squares(design, log.residual)
    jump = largest_jump(fit)
    assert jump is not None
    chi = fit.amplitude("worm 1 sin", "worm 1 cos")[2]
    return jump.z > THRESHOLD, abs(fit.value("ratio")) > 3.5 * fit.u("ratio"), chi > 13.8


JUMPS = [
    (5, 100, (0.81, 1, 1, 1, 1)), (5, 600, (1, 1, 1, 1, 1)), (15, 100, (0.14, 0.94, 1, 1, 1)), (15, 600, (1, 1, 1, 1, 1)),
    (40, 100, (0.01, 0.07, 0.76, 1, 1)), (40, 600, (0.18, 0.98, 1, 1, 1)),
]  # fmt: skip
RATIOS = [
    (5, 100, (0.17, 0.93, 1)), (5, 600, (1, 1, 1)), (15, 100, (0.02, 0.27, 0.98)), (15, 600, (0.54, 1, 1)),
    (40, 100, (0, 0.01, 0.15)), (40, 600, (0.02, 0.31, 0.99)),
]  # fmt: skip
WORMS = [
    (50, (0.01, 0.02, 0.24), (0.05, 0.24, 0.95)), (100, (0.01, 0.07, 0.66), (0.14, 0.66, 1)), (200, (0.05, 0.24, 0.99), (0.45, 0.98, 1)),
    (600, (0.29, 0.93, 1), (0.99, 1, 1)),
]  # fmt: skip
Cell = tuple[int, dict[str, Any], int, float]
CELLS: list[Cell] = [
    *((n, {"sd": sd, "lost": lost}, 0, want) for sd, n, row in JUMPS for lost, want in zip((1, 2, 4, 8, 32), row, strict=True)),
    *((n, {"sd": sd, "ratio": e}, 1, want) for sd, n, row in RATIOS for e, want in zip((5e-5, 1e-4, 2e-4), row, strict=True)),
    *((n, {"sd": 2, "worm": a, "table": 0.005}, 2, want) for n, row, _ in WORMS for a, want in zip((3, 5, 10), row, strict=True)),
    *((n, {"sd": 2, "worm": a}, 2, want) for n, _, row in WORMS for a, want in zip((3, 5, 10), row, strict=True)),
]
QUICK = [cell for cell in CELLS if cell[0] == 100 and 0.6 < cell[3] < 0.9]
"""Between sure and hopeless, where a wrong test would show."""


@pytest.mark.long
@pytest.mark.parametrize("cell", CELLS if FULL else QUICK, ids=lambda cell: f"{cell[0]} {cell[1]}")
def test_rates_of_detection(cell: Cell) -> None:
    """As two programs found them with 4000 logs each; no outside figure."""
    n, put_in, which, wanted = cell
    logs = 2000 if FULL else 500
    random = np.random.default_rng(2026)
    share = sum(found_in(made(random, n, **put_in))[which] for _ in range(logs)) / logs
    assert share == pytest.approx(wanted, abs=0.05 if FULL else 0.08)


@pytest.mark.long
def test_false_alarms_on_clean_logs() -> None:
    """At most 1 in 100 of clean logs; found about 1 in 900."""
    random, logs = np.random.default_rng(11), 1000 if FULL else 300
    alarms = sum(found_in(made(random, 200, sd=5))[0] for _ in range(logs))
    assert alarms <= logs / 100


def logged(log: Made, **columns: Any) -> Log:
    return log_of(log.time, log.counts, log.pulses, columns.get("motor"), log.work)


def close(found: object, wanted: float, off: float) -> bool:
    return abs(getattr(found, "value") - wanted) < off  # noqa: B009


def test_a_clean_log_proves_the_link() -> None:
    found = audit(logged(made(np.random.default_rng(1))), SETTING)
    assert found.events == ()
    assert not found.held
    assert close(found.ratio, 0.0, 5e-5)
    assert not found.ratio_shown
    assert not found.worm_shown
    assert found.by == "work angle"
    assert found.bend  # less than a third of a turn and no map: a slow bend is carried
    shown = {row.what: row.shown for row in found.observable}
    assert shown["lag"]
    assert not shown["backlash"]
    assert not shown["scale"]


@pytest.mark.parametrize(("lost", "kind"), [(3, "lost pulses"), (32, "rotor slip"), (64, "rotor slip")])
def test_a_loss_is_found_with_its_place_and_size(lost: int, kind: str) -> None:
    log = made(np.random.default_rng(4), lost=lost)
    found = audit(logged(log), SETTING)
    (event,) = found.events
    assert event.kind == kind
    assert event.pulses == pytest.approx(-lost, abs=0.5)
    assert event.at == pytest.approx(log.jump_at, abs=0.5)
    assert event.space == 1
    assert abs(event.pulses + lost) < 5 * event.u


def test_a_loss_in_the_controller_is_exact() -> None:
    log = made(np.random.default_rng(4), latency=0.0)
    pulses = log.pulses - 5 * (np.arange(600) >= 300)
    found = audit(log_of(log.time, log.counts, pulses), SETTING)
    (event,) = found.events
    assert (event.row, event.pulses, event.u, event.seen_by) == (300, -5.0, 0.0, "pulses")
    assert found.by == "pulses"
    assert found.worm is None
    assert found.backlash is None
    assert close(found.ratio, 0.0, 5e-5)


def test_a_motor_encoder_shows_slip_alone() -> None:
    log = made(np.random.default_rng(4), latency=0.0)
    motor = 2 * math.pi * (log.pulses - 32 * (np.arange(600) >= 400)) / 1600
    found = audit(log_of(log.time, log.counts, log.pulses, motor), SETTING)
    (event,) = found.events
    assert (event.kind, event.row, event.seen_by) == ("rotor slip", 400, "motor angle")
    assert event.pulses == pytest.approx(-32, abs=0.01)


def test_slip_seen_twice_is_one_slip() -> None:
    log = made(np.random.default_rng(4), lost=32)
    motor = 2 * math.pi * (log.pulses - 32 * (log.place > log.jump_at)) / 1600
    (event,) = audit(log_of(log.time, log.counts, log.pulses, motor, log.work), SETTING).events
    assert event.seen_by == "motor angle, work angle"
    assert event.kind == "rotor slip"


def test_lag_and_play_of_a_pass_both_ways() -> None:
    """5 ms and 90″ put in."""
    log = made(np.random.default_rng(6), sd=3, latency=0.005, both_ways=True, play=90, controller_lag=True)
    found = audit(logged(log), SETTING)
    assert found.lag is not None
    assert found.backlash is not None
    assert close(found.lag, 0.005, 0.0012)
    assert found.backlash.value / ARCSEC == pytest.approx(90, abs=8)
    assert 2 * found.backlash.u == found.backlash.U


def test_lag_of_the_controller_alone() -> None:
    log = made(np.random.default_rng(6), latency=0.02, controller_lag=True)
    found = audit(log_of(log.time, log.counts, log.pulses), SETTING)
    assert found.lag is not None
    assert close(found.lag, 0.02, 0.002)
    assert found.events == ()


def test_loss_and_hold_beside_a_lag() -> None:
    log = made(np.random.default_rng(6), latency=0.02, controller_lag=True)
    held = log.pulses - 300 * ((np.arange(600) >= 200) & (np.arange(600) < 240))
    found = audit(log_of(log.time, log.counts, held - 3 * (np.arange(600) >= 420)), SETTING)
    assert [(stretch.first, stretch.last) for stretch in found.held] == [(200, 239)]
    (event,) = found.events
    assert event.pulses == -3
    assert event.row == pytest.approx(420, abs=3)


def test_worm_and_ratio_are_shown_with_their_doubt() -> None:
    found = audit(logged(made(np.random.default_rng(7), worm=20, ratio=3e-4)), SETTING)
    assert found.worm is not None
    assert found.worm_shown
    assert found.worm.value / ARCSEC == pytest.approx(20, abs=2.5)
    assert found.ratio_shown
    assert close(found.ratio, 3e-4, 6e-5)


def test_a_wheel_wave_is_no_ratio_error_once_its_map_is_known() -> None:
    log = made(np.random.default_rng(7))
    wave = 25 * ARCSEC * np.sin(2 * math.pi * log.place / LEAD + 1.0)
    columns = log_of(log.time, log.counts, log.pulses, None, log.work + wave)
    from dataclasses import replace

    mapped = audit(columns, replace(SETTING, head_map=((1.0, 25 * ARCSEC, 1.0), (40.0, 1e-5, 0.0))))
    assert not mapped.bend
    assert close(mapped.ratio, 0.0, 5e-5)
    assert audit(columns, SETTING).events == ()


def test_over_more_than_a_third_of_a_turn_the_wheel_is_fitted() -> None:
    from dataclasses import replace

    log = made(np.random.default_rng(7))
    short = replace(SETTING, lead=LEAD / 4, ratio=(4 * P, Q))
    work = 8 * math.pi * COUNT * log.counts / LEAD
    wave = 25 * ARCSEC * np.sin(work + 1.0)
    noise = 3 * ARCSEC * np.random.default_rng(1).standard_normal(600)
    found = audit(log_of(log.time, log.counts, exact_pulses(4 * log.counts), None, work + wave + noise), short)
    assert {row.what: row.shown for row in found.observable}["worm wheel"]
    assert found.events == ()


def test_deviations_instead_of_angles_are_noticed() -> None:
    log = made(np.random.default_rng(4), lost=32)
    found = audit(log_of(log.time, log.counts, log.pulses, None, log.residual * ARCSEC), SETTING)
    assert found.deviation_read
    assert found.events[0].pulses == pytest.approx(-32, abs=0.6)


def test_a_motor_wired_the_other_way_round() -> None:
    log = made(np.random.default_rng(4), latency=0.0)
    found = audit(log_of(log.time, log.counts, -log.pulses, None, -log.work), SETTING)
    assert found.reversed_pulses
    assert found.events == ()


def whole_job(lost_in: int) -> Audit:
    """Three passes with an indexing move between; pulses lost in one of them."""
    one = np.arange(0, 6000, 10)
    there = np.concatenate([one, one[::-1]])
    counts, pulses = [], []
    for space in range(3):
        due = exact_pulses(there)
        counts.append(there)
        pulses.append(due + (2 * space * TURN + 24) // 48 - (4 * (np.arange(len(there)) >= 300) if space == lost_in else 0))
        if space >= lost_in >= 0 and space > lost_in:
            pulses[-1] = pulses[-1] - 4
    n, s = np.concatenate(counts), np.concatenate(pulses)
    return audit(log_of(np.arange(len(n)) * 0.05, n, s), SETTING)


def test_the_space_that_was_hit() -> None:
    found = whole_job(1)
    assert found.spaces.moves == 2
    (event,) = found.events
    assert (event.kind, event.pulses, event.space) == ("lost pulses", -4.0, 2)


def test_gaps_and_wraps_are_said() -> None:
    log = made(np.random.default_rng(1), latency=0.0)
    time = log.time + 30.0 * (np.arange(600) >= 200)
    counts = (log.counts + 60_000) % 65_536
    found = audit(log_of(time, counts, log.pulses), SETTING)
    kinds = [event.kind for event in found.events]
    assert kinds.count("gap in the log") == 1
    assert kinds.count("counter wrap") == 1
    assert {"lost pulses", "extra pulses"}.isdisjoint(kinds)
    wide = log_of(log.time, (log.counts + 2**32 - 3000) % 2**32, log.pulses)
    assert [(wrap.column, wrap.bits) for wrap in wide.wraps] == [("count", 32)]


@pytest.mark.parametrize(
    ("change", "words"),
    [
        ({"time": [0.0, 1.0, 1.0, *range(2, 20)]}, "each time once"),
        ({"time": [0.0, 2.0, 1.0, *range(3, 21)]}, "times that rise"),
        ({"count": [0.5, *range(1, 21)]}, "whole numbers"),
        ({"pulse": [math.nan, *range(1, 21)]}, "a number in every row"),
        ({"work": [0.0, math.inf, *range(2, 21)]}, "a number in every row"),
        ({"motor": [0.0]}, "columns of one length"),
    ],
)
def test_logs_that_cannot_be_read(change: dict[str, list[float]], words: str) -> None:
    columns: dict[str, Any] = {"time": list(range(21)), "count": list(range(21)), "pulse": list(range(21))}
    with pytest.raises(Refusal, match=words):
        log_of(**{**columns, **change})


def test_a_log_too_short() -> None:
    with pytest.raises(Refusal, match="10 or more"):
        log_of([0.0, 1.0], [0, 1], [0, 1])


def test_columns_alike_still_fit_and_neighbours_that_lean_alike_weaken_the_proof() -> None:
    x = np.linspace(0, 60, 100)
    design = log_design(x, np.ones(100), LEAD, 40)
    assert "lag" not in design.names  # a steady feed hides it
    doubled = with_jump(with_jump(design, 50, "one"), 50, "two")
    assert np.isfinite(least_squares(doubled, np.sin(x)).residuals).all()
    random = np.random.default_rng(3)
    white = random.standard_normal(2000)
    assert correlation_factor(white) == 1.0
    assert correlation_factor(np.convolve(white, np.ones(5) / 5, "valid")) > 2
    assert correlation_factor(np.zeros(10)) == 1.0
    assert find_jumps(design, white[:100])[0] == ()
    assert speed_of(np.arange(5.0), np.zeros(5), 0.005).tolist() == [0.0] * 5
