"""The scale calibrated: case, drift, hidden drift, bad readings, whether correcting pays."""

import numpy as np
import pytest

from checking.made import case, scale
from evenpitch.checking.measured import Measured
from evenpitch.checking.paying import corrected_lead, paying, slope_over_face
from evenpitch.checking.periodic import strongest_wave, wave_at
from evenpitch.checking.readings import ScaleReading
from evenpitch.checking.scale import band, calibrate_scale
from evenpitch.checking.warmth import growth, scale_against_work
from evenpitch.quantity.refusal import Refusal


def codes(found) -> set[str]:
    return {one.code for one in found.findings}


def of_case() -> list[ScaleReading]:
    given = case("scalefit-5um")["inputs"]
    rows = zip(given["block_mm"], given["reading_mm"], given["dir"], strict=True)
    return [ScaleReading(1, "up" if side > 0 else "down", block, reading) for block, reading, side in rows]


def test_case_of_a_5_um_scale():
    """Synthetic: −80 µm/m, reversal −4 µm, counts of 5 µm; normal equations in a second program."""
    expected = case("scalefit-5um")["outputs"]
    made = calibrate_scale(of_case())
    assert made.gain.value * 1e6 == pytest.approx(expected["scale_error_ppm"], rel=1e-6)
    assert made.gain.u * 1e6 == pytest.approx(expected["u_ppm"], rel=1e-6)
    assert made.reversal.value * 1e3 == pytest.approx(expected["reversal_um"], rel=1e-6)
    assert made.reversal.u * 1e3 == pytest.approx(expected["u_reversal_um"], rel=1e-6)
    assert made.s.value * 1e3 == pytest.approx(expected["s_um"], rel=1e-6)


def test_drift_is_shown_and_fitted_beside_the_gain():
    made = calibrate_scale(scale(np.random.default_rng(3), gain=50e-6, drift=0.012))
    assert made.drift_fitted
    assert "drift" in codes(made)
    assert abs(made.drift.value - 0.012) <= made.drift.U
    assert abs(made.gain.value - 50e-6) <= made.gain.U


def test_one_row_from_end_to_end_hides_a_drift():
    rng = np.random.default_rng(4)
    readings = [ScaleReading(1, "up", 10.0 * k, 10.0 * k + rng.normal(0, 0.001)) for k in range(8)]
    made = calibrate_scale(readings)
    assert made.drift is None
    assert made.reversal is None
    assert {"drift-hidden", "direction-missing"} <= codes(made)


def test_one_reading_far_off_is_named_and_kept():
    readings = scale(np.random.default_rng(5))
    bad = readings[20]
    readings[20] = ScaleReading(bad.run, bad.direction, bad.reference, bad.reading + 0.31, line=bad.line)
    said = next(one for one in calibrate_scale(readings).findings if one.code == "reading-stands-out")
    assert said.weight == "stop"
    assert f"line {bad.line}" in said.says


def test_a_reading_in_inches_among_millimetres_is_refused():
    readings = scale(np.random.default_rng(6))
    bad = readings[8]
    readings[8] = ScaleReading(bad.run, bad.direction, bad.reference, bad.reading / 25.4, line=bad.line)
    with pytest.raises(Refusal) as caught:
        calibrate_scale(readings)
    assert f"line {bad.line}" in caught.value.faults[0].field
    assert "inches" in caught.value.faults[0].likely


@pytest.mark.parametrize(("factor", "word"), [(1 / 25.4, "inches"), (25.4, "inches"), (4, "reading --moved"), (-1, "direction")])
def test_all_readings_in_another_measure(factor, word):
    readings = [ScaleReading(o.run, o.direction, o.reference, o.reading * factor) for o in scale(np.random.default_rng(7))]
    with pytest.raises(Refusal) as caught:
        calibrate_scale(readings)
    fault = caught.value.faults[0]
    assert word in f"{fault.likely} {fault.do}"


def test_too_few_and_not_covering():
    few = [ScaleReading(1, "up", float(k), float(k)) for k in range(2)]
    with pytest.raises(Refusal):
        calibrate_scale(few)
    made = calibrate_scale(scale(np.random.default_rng(8)), travel_used=400.0)
    assert "not-covered" in codes(made)


def test_not_a_number_is_refused():
    readings = scale(np.random.default_rng(8))
    readings[3] = ScaleReading(1, "up", float("nan"), 0.0, line=5)
    with pytest.raises(Refusal):
        calibrate_scale(readings)


def test_warmth_that_moved():
    readings = [
        ScaleReading(o.run, o.direction, o.reference, o.reading, 18 + 4 * k / 66)
        for k, o in enumerate(scale(np.random.default_rng(1)))
    ]
    assert "temperature-spread" in codes(calibrate_scale(readings))


def test_band_is_narrowest_in_the_middle():
    made = calibrate_scale(scale(np.random.default_rng(2)))
    assert band(made, made.middle) < band(made, 0.0)


def test_wave_at_its_period_and_searched():
    readings = scale(np.random.default_rng(9), wave=(7.3, 0.004), places=61, runs=2, gain=-180e-6)
    known = wave_at(readings, 7.3)
    assert abs(known.amplitude.value - 0.004) <= known.amplitude.U
    found = strongest_wave(readings)
    assert found is not None
    assert found.period == pytest.approx(7.3, rel=0.01)


def test_no_wave_is_found_in_scatter():
    found = [strongest_wave(scale(np.random.default_rng(seed), places=41, runs=2)) for seed in range(40)]
    assert sum(one is not None for one in found) <= 3


def test_places_a_period_apart_cannot_show_its_wave():
    readings = [ScaleReading(1, "up", 2.0 * k, 2.0 * k + 1e-4 * (k % 3)) for k in range(20)]
    with pytest.raises(Refusal):
        wave_at(readings, 2.0)


def test_paying_on_the_face_of_b_and_on_a_rack():
    """The workshop: −180 ± 40 µm in a metre: 1.2 µm of slope over the 20 mm of B, leave it; 72 µm on a rack, correct it."""
    gain = Measured(-180e-6, 20e-6)
    base = np.radians(18.747237)
    assert slope_over_face(gain.value, 20, base) * 1e3 == pytest.approx(1.22, abs=0.005)
    on_face, on_rack = paying(gain, 20, base), paying(gain, 400)
    assert not on_face.pays
    assert on_rack.pays
    assert on_rack.over_face == pytest.approx(72)
    assert on_face.finding.code == "gain-leave"
    assert paying(Measured(-18e-6, 20e-6), 400).finding.code == "gain-not-shown"


def test_lead_to_enter_is_longer_for_a_scale_that_reads_too_much():
    from fractions import Fraction

    assert corrected_lead(Fraction(500), Fraction(1, 10_000)) == Fraction(50_005, 100)


def test_growth():
    """Guide page on ISO 230-2: 1 m, 10 K, 10 and 12 µm/m/K: 100 and 120 µm. Aluminium against a steel scale: common practice."""
    assert [growth(1000, 10, a * 1e-6) * 1e3 for a in (10, 12)] == pytest.approx([100, 120])
    assert scale_against_work(400, (11.5e-6, 28), (23e-6, 28)) * 1e3 == pytest.approx(-36.8)


def test_one_bad_reading_among_ten_bends_the_line_and_is_named_all_the_same():
    """0.31 mm for 0.01: twenty-six times the others. A residual of the line through all ten looks common; against the other nine
    it does not (deleted residuals; textbook method, from memory)."""
    out = [(0, 0.012), (40, 40.011), (81, 81.310), (125, 125.012), (160, 160.010)]
    back = [(160, 160.012), (125, 125.011), (81, 81.012), (40, 40.011), (0, 0.012)]
    rows = [("up", *one) for one in out] + [("down", *one) for one in back]
    made = calibrate_scale([ScaleReading(1, side, at, read, line=k) for k, (side, at, read) in enumerate(rows, 2)])
    said = [one for one in made.findings if one.code == "reading-stands-out"]
    assert len(said) == 1
    assert "line 4" in said[0].says
    assert "298" in said[0].says


def test_clean_readings_few_or_many_name_none():
    rng = np.random.default_rng(31)
    for places, runs in ((5, 1), (11, 3), (6, 2)):
        for _ in range(40):
            made = calibrate_scale(scale(rng, gain=1e-4, reversal=0.003, places=places, runs=runs))
            assert "reading-stands-out" not in codes(made)
