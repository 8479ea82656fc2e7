"""Resolution, rates, torque and worm against tests/data/link.json and the four invented rigs; sources beside each case there."""

from __future__ import annotations

import math
from dataclasses import replace
from fractions import Fraction
from typing import Any

import pytest

from evenpitch.cutting.force import Engagement, mean_force, mean_space_width, peak_force
from evenpitch.link.drive import Windings, pulses_per_turn
from evenpitch.link.gearing import on_gear
from evenpitch.link.holding import load_angle, motor_step_error, start_rate, stiffness, torque_of_one_pulse
from evenpitch.link.rates import (
    crank_peak,
    feed_for_factor,
    lag_length,
    motor_rpm,
    normal_shift,
    pulse_rate,
    rates,
    shortest_lead,
    torque_factor,
    turn_by_hand,
)
from evenpitch.link.resolution import (
    closing_if_added,
    count_length,
    counts_per_inch,
    pulse_arcsec,
    pulse_length,
    resolution,
    rounding_cumulative,
    rounding_rms,
    rounding_single,
    take_up,
)
from evenpitch.link.torque_curve import curve, peak_torque, torque_at, torque_bound
from evenpitch.link.worm import (
    acceleration_torque,
    inertia_at_motor,
    lead_angle,
    motor_torque,
    seating,
    self_locking,
    work_torque,
    worm_efficiency,
)
from evenpitch.quantity.ratios import absolute_targets, best_bounded
from evenpitch.quantity.units import Millimetre, Newton
from link.shop import ARCSEC, drive_of, gear_of, rows, sizes


def case_id(case: dict[str, Any]) -> str:
    return str(case["id"])


@pytest.mark.parametrize("case", rows("chain"), ids=case_id)
def test_chain_of_resolution(case: dict[str, Any]) -> None:
    i, out = case["inputs"], case["outputs"]
    count = count_length(Fraction(i["scale_period_um"], 1000), i["edges_per_period"])
    assert float(count) == out["count_mm"]
    assert float(counts_per_inch(count)) == out["counts_per_inch"]
    pulses = pulses_per_turn(i["motor_steps"], i["microsteps"], Fraction(i["belt_num"], i["belt_den"]), Fraction(i["worm_ratio"]))
    assert float(pulses) == pytest.approx(out["steps_per_rev"], rel=1e-12)
    assert pulse_arcsec(pulses) == pytest.approx(out["arcsec_per_step"], rel=1e-12)
    assert pulses / i["z"] == Fraction(out["steps_per_tooth_num"], out["steps_per_tooth_den"])
    assert pulse_length(i["d"] / 2, pulses) * 1000 == pytest.approx(out["um_per_step"], rel=1e-12)


@pytest.mark.parametrize("case", rows("index"), ids=case_id)
def test_index_targets_and_their_rounding(case: dict[str, Any]) -> None:
    i, out = case["inputs"], case["outputs"]
    total, z = i["steps_per_rev"], i["z"]
    targets = absolute_targets(total, z)
    assert list(targets[: len(out["first"])]) == out["first"]
    assert targets[-1] == out["total"] == total
    assert max(abs(Fraction(total * k, z) - s) for k, s in enumerate(targets)) == pytest.approx(out["max_abs_err_steps"])
    um = pulse_length(i["d"] / 2, Fraction(total)) * 1000
    assert rounding_cumulative(Fraction(total), z) * um == pytest.approx(out["Fp_quant_um"], rel=1e-9)
    assert rounding_single(Fraction(total), z) * um == pytest.approx(out["fp_quant_um"], rel=1e-9)
    assert closing_if_added(total, z) == out["naive_closing_steps"]
    errors = [float(s - Fraction(total * k, z)) for k, s in enumerate(targets[:-1])]
    moves = [b - a for a, b in zip(errors, errors[1:] + errors[:1], strict=True)]
    assert rounding_cumulative(Fraction(total), z) == pytest.approx(max(errors) - min(errors), abs=1e-9)
    assert rounding_single(Fraction(total), z) == pytest.approx(max(map(abs, moves)), abs=1e-9)
    assert rounding_rms(Fraction(total), z) == pytest.approx(
        math.sqrt(sum((e - sum(errors) / z) ** 2 for e in errors) / z), abs=1e-9
    )


@pytest.mark.parametrize("case", rows("ratio"), ids=case_id)
def test_bounded_ratios(case: dict[str, Any]) -> None:
    i, out = case["inputs"], case["outputs"]
    lead = float(i["lead"]) if "lead" in i else math.pi * i["mn"] * i["z"] / math.sin(math.radians(i["beta"]))
    wanted = Fraction(i["steps_per_rev"]) * Fraction(i["count_mm"]) / (Fraction(i["lead"]) if "lead" in i else Fraction(lead))
    assert best_bounded(wanted, i["pmax"], i["qmax"]) == Fraction(out["P"], out["Q"])


@pytest.mark.parametrize("case", rows("rates"), ids=case_id)
def test_rates(case: dict[str, Any]) -> None:
    i, out = case["inputs"], case["outputs"]
    lead, pulses = Millimetre(i["lead"]), Fraction(i["steps_per_rev"])
    assert pulse_rate(pulses, lead, i["feed"]) == pytest.approx(out["pulse_rate"], rel=1e-9)
    assert pulse_rate(pulses, lead, 1.0) == pytest.approx(out["steps_per_mm"], rel=1e-9)
    assert motor_rpm(Fraction(i["ratio"]), lead, i["feed"]) == pytest.approx(out["motor_rpm"], rel=1e-9)
    assert shortest_lead(pulses, i["feed"], i["fmax"]) == pytest.approx(out["min_lead_pulse"], rel=1e-9)
    tangent = math.pi * i["d"] / i["lead"]
    assert lag_length(i["feed"], i["tau"], tangent) * 1000 == pytest.approx(out["lag_um"], rel=1e-9)
    assert i["count_mm"] * tangent * 1000 == pytest.approx(out["quant_um"], rel=1e-9)


@pytest.mark.parametrize("case", rows("torque_curve"), ids=case_id)
def test_torque_curve(case: dict[str, Any]) -> None:
    i = case["inputs"]
    motor = Windings(i["V"], i["I_rated"], i["I_peak"], i["T_hold"], i["L_h"], i["R"], i["rotor_teeth"])
    found = [torque for _, torque in curve(motor, i["rpm"])]
    assert found == pytest.approx(case["outputs"]["torque"], abs=1e-4)
    assert all(torque <= torque_bound(motor, rpm) + 1e-12 for rpm, torque in curve(motor, i["rpm"]))
    assert peak_torque(motor) == pytest.approx(i["T_hold"] / math.sqrt(2))  # rated current at the sine's peak: 0.707 of holding


def test_a_motor_without_resistance_at_standstill_has_its_peak_torque() -> None:
    motor = Windings(24, 2, 2, 1.2, 0.0032, 0.0, 50)
    assert torque_at(motor, 0) == torque_bound(motor, 0) == peak_torque(motor)


@pytest.mark.parametrize("case", rows("worm"), ids=case_id)
def test_worm_efficiency(case: dict[str, Any]) -> None:
    i, out = case["inputs"], case["outputs"]
    assert math.degrees(lead_angle(i["starts"], i["q_diam"])) == pytest.approx(out["lead_angle_deg"], rel=1e-9)
    assert worm_efficiency(i["starts"], i["q_diam"], i["mu"]) == pytest.approx(out["eff"], rel=1e-9)
    assert self_locking(i["starts"], i["q_diam"], i["mu"]) is out["self_locking"]


def engagement(feed: float, outside: float = 63, teeth: int = 12, speed: float = 25, module: float = 2) -> Engagement:
    """Cutter and space of the worked case."""
    rpm = speed * 1000 / (math.pi * outside)
    width = mean_space_width(Millimetre(module))
    return Engagement(
        outside=Millimetre(outside), teeth=teeth, speed=rpm, feed=feed, depth=Millimetre(2.25 * module), width=width, k_c=1700,
        m_c=0.25,
    )  # fmt: skip


def force_at(feed: float) -> Newton:
    """Peak force of the worked case at a feed in mm/min."""
    return peak_force(engagement(feed))


@pytest.mark.parametrize("case", rows("cut"), ids=case_id)
def test_cutting_torque(case: dict[str, Any]) -> None:
    i, out = case["inputs"], case["outputs"]
    cut = engagement(i["vf"])
    assert mean_force(cut) == pytest.approx(out["F_mean"], rel=0.002)
    assert peak_force(cut) == pytest.approx(out["F_peak"], rel=0.002)
    assert work_torque(sizes("h24"), Newton(out["F_peak"])) == pytest.approx(out["T_work"], rel=0.002)


@pytest.mark.parametrize("case", rows("load_angle"), ids=case_id)
def test_load_angle(case: dict[str, Any]) -> None:
    i, out = case["inputs"], case["outputs"]
    found = load_angle(i["T_load"], i["T_peak"], i["rotor_teeth"], i["ratio"])
    assert found / ARCSEC == pytest.approx(out["arcsec"], rel=1e-6)
    assert found * i["d"] / 2 * 1000 == pytest.approx(out["um"], rel=1e-6)


@pytest.mark.parametrize("case", rows("backlash"), ids=case_id)
def test_play_as_table_travel(case: dict[str, Any]) -> None:
    i, out = case["inputs"], case["outputs"]
    assert take_up(i["B_arcsec"] * ARCSEC, Millimetre(i["lead"])) == pytest.approx(out["takeup_mm"], rel=1e-6)
    assert i["B_arcsec"] * ARCSEC * i["d"] / 2 * 1000 == pytest.approx(out["flank_um"], rel=1e-6)


@pytest.mark.parametrize(
    ("letter", "torque", "factor", "feed", "factor_120"),
    [("A", 0.438, 1.94, 57, 1.27), ("B", 0.133, 10.1, None, 6.8), ("C", 0.645, 1.32, 20, 0.93)],
)
def test_torque_on_the_invented_rigs(letter: str, torque: float, factor: float, feed: float | None, factor_120: float) -> None:
    """Computed twice by two programs for this project; no outside figure."""
    drive, gear = drive_of(letter), sizes("h24")
    assert motor_torque(drive, work_torque(gear, force_at(60))) == pytest.approx(torque, abs=0.001)
    assert torque_factor(drive, gear, 60, force_at(60)) == pytest.approx(factor, rel=0.005)
    assert torque_factor(drive, gear, 120, force_at(120)) == pytest.approx(factor_120, rel=0.006)
    found = feed_for_factor(drive, gear, force_at)
    if feed is None:
        assert found is None or found > 600  # beyond any feed of a form cutter
    else:
        assert found == pytest.approx(feed, abs=0.6)


@pytest.mark.parametrize(("letter", "start"), [("A", 5650), ("B", 8961), ("C", 3975)])
def test_start_without_a_ramp(letter: str, start: float) -> None:
    """Invented rigs; the leads below which a ramp is a must, section by section, follow from it."""
    drive, gear = drive_of(letter), sizes("h24")
    load = motor_torque(drive, work_torque(gear, force_at(60)))
    found = start_rate(peak_torque(drive.windings), load, inertia_at_motor(drive), 8, 200)
    assert found == pytest.approx(start, rel=0.002)
    shown = rates(drive, gear, 60, force_at)
    assert shown.start == pytest.approx(start, rel=0.002)
    assert shown.least_lead_start == pytest.approx(float(drive.pulses_per_turn) / start, rel=0.002)


def test_rates_of_a_rig_name_what_binds() -> None:
    drive, gear = drive_of("A"), sizes("h24")
    shown = rates(drive, gear, 60, force_at, lag_allowed=0.002, rapid=2540)
    assert shown.fastest.reason == "torque"
    assert [limit.feed for limit in shown.limits] == sorted(limit.feed for limit in shown.limits)
    assert shown.pulses == pytest.approx(145.16, abs=0.01)
    assert shown.rapid is not None
    assert shown.rapid[1] == pytest.approx(145.158 * 2540 / 60, rel=1e-3)
    slow = rates(replace(drive, motor_speed=5.0), gear, 60, None)
    assert slow.fastest.reason == "motor speed"
    assert slow.fastest.feed == pytest.approx(5 * gear.lead / 40, rel=1e-9)
    assert rates(replace(drive, worm_drag=0.0), gear, 60, None).factor == math.inf
    assert feed_for_factor(replace(drive, worm_drag=5.0), gear, force_at) == 0.0


def test_hand_crank_and_short_leads() -> None:
    """A crank of 1 mm/s, unevenness 0.6, 1 turn a second: 3.8 mm/s², 547 pulses/s² on rig A, 12 000 at a lead of 20 mm. Derived here."""
    peak, acceleration = crank_peak(1.0, 0.6, 1.0)
    assert (peak, acceleration) == (pytest.approx(1.6), pytest.approx(3.77, abs=0.01))
    assert pulse_rate(Fraction(64000), sizes("h24").lead, acceleration) == pytest.approx(547, abs=1)
    assert pulse_rate(Fraction(64000), Millimetre(20), acceleration) == pytest.approx(12_000, rel=0.01)
    for lead, um in ((441, 0.43), (50, 3.0), (10, 4.8)):  # 5 µm at d 12
        assert normal_shift(5.0, 6.0, Millimetre(lead)) == pytest.approx(um, abs=0.05)
    assert not turn_by_hand(sizes("h24"))
    assert turn_by_hand(on_gear(gear_of(6, 2, 50, 20)))
    assert acceleration_torque(drive_of("A"), sizes("h24"), 3.77) < 0.001


def test_stiffness_of_a_pulse() -> None:
    """3 Nm, 8 parts: 0.585 Nm moves one pulse, 19.5 % of holding; 0.13 Nm lags 0.22 of one. Motor makers' notes, from memory."""
    assert torque_of_one_pulse(3.0, 8) == pytest.approx(0.585, abs=0.0005)
    found = stiffness(3.0, 8, 0.13)
    assert found.held_back == pytest.approx(0.22, abs=0.01)
    assert not found.jumps
    assert stiffness(3.0, 8, 0.6).jumps
    assert motor_step_error(200, 120) / ARCSEC == pytest.approx(2.7)  # ±5 % of 1.8°, motor makers' notes


def test_seating_by_the_cut() -> None:
    """sin β above 0.2, that is 11.5°, keeps the driving flank loaded; derived here."""
    force = Newton(300.0)
    assert seating(sizes("h24"), force).by_cut
    spur = seating(sizes("s127"), force)
    assert not spur.by_cut
    assert spur.brake_needed == pytest.approx(1.5 * 0.2 * 300 * 0.0635)
    assert seating(on_gear(gear_of(24, 2, 11.6, 20)), force).by_cut
    assert not seating(on_gear(gear_of(24, 2, 11.4, 20)), force).by_cut


def test_resolution_of_a_rig_on_a_gear() -> None:
    """24 teeth on 64 000 pulses: 2.507 µm a pulse, rounding 1.67 µm. Derived here."""
    found = resolution(drive_of("A"), sizes("h24"))
    assert (found.pulse_um, found.single_um, found.cumulative_um) == pytest.approx((2.507, 1.67, 1.67), abs=0.005)
    assert found.per_count == pytest.approx(0.725789285963716)
    assert found.coarser == "pulse"
    assert found.band == pytest.approx(2.338 + 1.697, abs=0.002)
    assert resolution(drive_of("A", microsteps=64), sizes("h24")).coarser == "count"
    assert resolution(drive_of("B"), sizes("h24")).single_um == 0
    assert resolution(drive_of("A"), sizes("s127")).band == 0
