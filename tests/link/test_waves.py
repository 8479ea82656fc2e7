"""What waves, settings and jumps leave: closed forms against tests/data/link.json and a numeric scan."""

from __future__ import annotations

import math
from fractions import Fraction
from typing import Any

import numpy as np
import pytest

from evenpitch.link.budget import amplitude_of, budget, combined, contribution
from evenpitch.link.waves import (
    abbe_error,
    axis_slopes,
    bessel,
    cosine_error,
    cumulative_share,
    eccentric_blank,
    form_share,
    jump_slope,
    jump_slope_sd,
    jump_total,
    phases,
    ratio_slope,
    single_share,
    slope_share,
)
from evenpitch.quantity.units import Millimetre, Radian
from link.shop import ARCSEC, drive_of, rows, sizes


@pytest.mark.parametrize("case", rows("cyclic_pitch"), ids=lambda case: str(case["id"]))
def test_waves_in_the_spacing(case: dict[str, Any]) -> None:
    i, out = case["inputs"], case["outputs"]
    size = i["A_arcsec"] * ARCSEC * i["d"] / 2 * 1000
    assert cumulative_share(i["h"], i["z"]) * size == pytest.approx(out["Fp_um"], rel=1e-4, abs=1e-6)
    assert single_share(i["h"], i["z"]) * size == pytest.approx(out["fp_um"], rel=1e-4, abs=1e-6)
    assert phases(i["h"], i["z"]) == out["distinct_phases"]


@pytest.mark.parametrize(
    ("teeth", "met", "total", "single"),
    [(20, 1, 0, 0), (40, 1, 0, 0), (24, 3, 1.732, 1.732), (30, 3, 1.732, 1.732), (60, 3, 1.732, 1.732), (25, 5, 1.902, 1.902),
     (32, 4, 2.0, 1.414), (36, 9, 1.970, 0.684), (127, 127, 2.0, 1.671)],
)  # fmt: skip
def test_aliasing_of_a_forty_to_one_worm(teeth: int, met: int, total: float, single: float) -> None:
    """Derived here; each row also by a scan over the phase."""
    assert phases(40, teeth) == met
    assert cumulative_share(40, teeth) == pytest.approx(total, abs=0.0006)
    assert single_share(40, teeth) == pytest.approx(single, abs=0.0006)
    k = np.arange(teeth)
    angle = 2 * math.pi * (40 * k % teeth) / teeth
    scan = np.sin(angle[None, :] + np.linspace(0, 2 * math.pi, 2880)[:, None])
    assert np.ptp(scan, axis=1).max() == pytest.approx(cumulative_share(40, teeth), abs=0.005)
    assert np.abs(scan - np.roll(scan, 1, axis=1)).max() == pytest.approx(single_share(40, teeth), abs=0.005)


@pytest.mark.parametrize("case", rows("cyclic_helix"), ids=lambda case: str(case["id"]))
def test_waves_along_the_face(case: dict[str, Any]) -> None:
    i, out = case["inputs"], case["outputs"]
    size = i["A_arcsec"] * ARCSEC * i["db"] / 2 * 1000
    found = slope_share(i["h"], i["b"], i["lead"]) * size
    assert found == pytest.approx(out["fHb_max_um"], rel=0.005)
    assert found / math.sqrt(2) == pytest.approx(out["fHb_rms_um"], rel=0.005)
    x = np.linspace(0, i["b"], 20_001)
    angle = 2 * math.pi * i["h"] * x / i["lead"]
    centred = x - x.mean()
    fit = centred / (centred @ centred) * i["b"] * size
    assert math.hypot(np.sin(angle) @ fit, np.cos(angle) @ fit) == pytest.approx(found, rel=0.005)  # over all phases


@pytest.mark.parametrize("case", rows("eccentric"), ids=lambda case: str(case["id"]))
def test_blank_off_centre(case: dict[str, Any]) -> None:
    i, out = case["inputs"], case["outputs"]
    cumulative, _, runout = eccentric_blank(i["e_um"], i["z"], Radian(math.radians(i["alpha_t_deg"])))
    assert (runout, cumulative) == pytest.approx((out["Fr_um"], out["Fp_um"]), rel=2e-4)
    if "fHb_max_um" in out:
        assert i["e_um"] * slope_share(1, i["b"], i["lead"]) == pytest.approx(out["fHb_max_um"], rel=2e-4)


def test_settings_of_the_machine() -> None:
    (case,) = rows("align")
    i, out = case["inputs"], case["outputs"]
    per_mm = 1e-2  # µm in 100 mm to µm a mm
    found = axis_slopes(i["b"], i["side_um_per_100"] * per_mm, i["vert_um_per_100"] * per_mm, math.radians(i["alpha_t_deg"]))
    assert found == pytest.approx((out["fHb_flank1_um"], out["fHb_flank2_um"]), rel=1e-6)
    assert cosine_error(Radian(i["scale_tilt_mrad"] / 1000)) * 1e6 == pytest.approx(out["cosine_ppm"], rel=1e-6)
    assert abbe_error(Millimetre(i["abbe_mm"]), Radian(i["rot_urad"] * 1e-6)) * 1000 == pytest.approx(out["abbe_um"], rel=1e-6)


@pytest.mark.parametrize("case", rows("jump_helix"), ids=lambda case: str(case["id"]))
def test_a_jump_along_the_face(case: dict[str, Any]) -> None:
    i, out = case["inputs"], case["outputs"]
    assert jump_slope(i["J_um"], i["xj"] / i["b"]) == pytest.approx(out["fHb_um"], rel=1e-3)
    assert jump_total(i["J_um"]) == pytest.approx(out["Fb_um"], rel=1e-3)


def test_the_scatter_of_a_jump_by_drawing() -> None:
    random = np.random.default_rng(2)
    drawn = jump_slope(1.0, 0.5) * 0 + 6 * (2 * random.random(400_000) - 1) * (part := random.random(400_000)) * (1 - part)
    assert drawn.std() == pytest.approx(jump_slope_sd(1.0), rel=0.005)


def test_a_ratio_that_is_off() -> None:
    """0.73 for 0.725789: 49 µm over 25 mm of the 24-tooth gear; derived here."""
    gear = sizes("h24")
    assert ratio_slope(gear.face, gear.base_helix, 0.73 / 0.725789285963716 - 1) * 1000 == pytest.approx(49, abs=0.5)


def test_small_things() -> None:
    assert bessel(1e-4) == pytest.approx(1e-4 / 3)
    assert slope_share(40, Millimetre(10), Millimetre(math.inf)) == form_share(40, Millimetre(10), Millimetre(math.inf)) == 0
    assert form_share(40, Millimetre(25), Millimetre(440.9)) == 2.0
    assert 0 < form_share(1, Millimetre(25), Millimetre(440.9)) < 0.02


def test_the_sum_as_the_gum_sums() -> None:
    (case,) = rows("gum")
    shapes = {"rect": "rectangular", "arcsine": "sine", "normal": "normal"}
    parts = tuple(contribution(t["c"], t["a"], shapes[t["dist"]]) for t in case["inputs"]["terms"])  # type: ignore[arg-type]
    assert combined(parts) == pytest.approx(case["outputs"]["u"], rel=1e-9)
    assert parts.index(max(parts)) == case["outputs"]["largest"]


@pytest.mark.parametrize(("letter", "u"), [("A", 2.54), ("B", 0.96), ("C", 14.4), ("C+", 1.75)])
def test_slope_of_one_flank_on_the_invented_rigs(letter: str, u: float) -> None:
    """Closed form, two programs; no outside figure."""
    found = budget(drive_of(letter), sizes("h24"))
    assert found.slope_u_um == pytest.approx(u, abs=0.055 if u > 10 else 0.006)
    assert [source.size_um for source in found.sources] == sorted((s.size_um for s in found.sources), reverse=True)
    assert sum(share for _, share in found.slope_shares()) == pytest.approx(1)


def test_shares_named_for_the_invented_rigs() -> None:
    """A: blank 1.7, axis 1.35 to 1.44, worm 0.8, wheel 0.7, scale 0.1 µm; C: play 13.1. Two programs; no outside figure."""
    of_a = {source.name: source.slope_u_um for source in budget(drive_of("A"), sizes("h24")).sources}
    assert of_a["blank off centre"] == pytest.approx(1.7, abs=0.05)
    assert of_a["axis against travel"] == pytest.approx(1.44, abs=0.01)
    assert of_a["worm, once a turn"] == pytest.approx(0.8, abs=0.05)
    assert of_a["wheel, once a turn"] == pytest.approx(0.7, abs=0.05)
    assert of_a["scale, too long or short"] == pytest.approx(0.1, abs=0.01)
    of_c = {source.name: source.slope_u_um for source in budget(drive_of("C"), sizes("h24")).sources}
    assert of_c["play, not seated"] == pytest.approx(13.1, abs=0.1)
    assert budget(drive_of("C"), sizes("h24")).largest().name == "play, not seated"
    spur = budget(drive_of("A"), sizes("s127"))
    assert spur.by_owner("scale") == 0
    assert spur.by_owner("head") > spur.by_owner("motor") > 0
    assert amplitude_of(10, 0.65, 0.35) == pytest.approx(6.807, abs=0.001)
    assert not any(source.owner == "motor" for source in budget(drive_of("A", linked=False), sizes("s127")).sources)


def test_the_worm_is_invisible_where_the_count_divides_its_ratio() -> None:
    from evenpitch.link.gearing import on_gear
    from link.shop import gear_of

    gear = on_gear(gear_of(20, 2, 0, 10))
    assert "worm, once a turn" not in {s.name for s in budget(drive_of("C"), gear).sources}
    assert Fraction(40) % 20 == 0
