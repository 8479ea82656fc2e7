"""The best cutter of a set, with swing and depth. Expected figures: own search by another program, four of them confirmed by the
independent method; 8 and 15 cutter sets are common practice."""

from __future__ import annotations

import math

import pytest

from evenpitch.flank.choose import Candidate, Fit, rank_cutters
from evenpitch.flank.inspection import profile_rolls, profile_trace, trace_figures
from evenpitch.flank.rule import rule_tried
from evenpitch.flank.wanted import WantedFlank
from evenpitch.quantity.units import Millimetre
from flank.shop import TWENTY, cut, gear, numbered

EIGHT = (12, 14, 17, 21, 26, 35, 55, 135)
FIFTEEN = (12, 13, 14, 15, 17, 19, 21, 23, 26, 30, 35, 42, 55, 80, 135)


def drawer(wanted: WantedFlank, counts: tuple[int, ...], outside: float) -> tuple[Candidate, ...]:
    """A set of cutters of the gear's own module."""
    return tuple(
        Candidate(name=f"c{n}", form_teeth=n, module=Millimetre(wanted.module), pressure_angle=TWENTY, outside=Millimetre(outside),
                  corner=Millimetre(0.25 * wanted.module)) for n in counts
    )  # fmt: skip


@pytest.mark.parametrize(
    ("teeth", "module", "helix", "outside", "counts", "best", "total", "swing"),
    [
        (24, 2, 15, 60, FIFTEEN, 30, 13.4, -0.46),
        (24, 2, 30, 60, EIGHT, 55, 25.5, -0.54),
        (24, 2, 30, 60, FIFTEEN, 42, 14.0, 0.09),
        (40, 2, 20, 60, EIGHT, 55, 8.4, -0.30),
        (17, 1, 25, 50, EIGHT, 35, 7.6, -0.24),
        (64, 1, 30, 50, EIGHT, 135, 4.6, -0.22),
        (40, 3, 45, 70, EIGHT, 135, 1.0, -0.04),
        (30, 1.5, 10, 50, EIGHT, 35, 14.9, -0.50),
    ],
)
def test_the_best_of_a_set(
    teeth: int, module: float, helix: float, outside: float, counts: tuple[int, ...], best: int, total: float, swing: float
) -> None:
    wanted = gear(teeth, module, helix)
    first = rank_cutters(wanted, drawer(wanted, counts, outside))[0]
    assert first.candidate.form_teeth == best
    assert 1e3 * first.figures.total == pytest.approx(total, abs=0.15)
    assert math.degrees(first.swing - wanted.helix) == pytest.approx(swing, abs=0.05)


@pytest.mark.parametrize(
    ("teeth", "best", "total", "tip"),
    [
        (20, 21, 10.6, 10.2),
        (25, 26, 7.0, 6.7),
        (34, 35, 3.9, 3.7),
        (54, 55, 1.6, 1.5),
        (100, 135, 12.9, 12.4),
        (127, 135, 2.3, 2.2),
    ],
)
def test_the_nearest_cutter_beats_the_one_of_its_range(teeth: int, best: int, total: float, tip: float) -> None:
    """Spur, module 1: outside its printed range the nearest cutter leaves less, at the price of metal left at the tip."""
    wanted = gear(teeth, 1, 0)
    first = rank_cutters(wanted, drawer(wanted, EIGHT, 50))[0]
    assert first.candidate.form_teeth == best
    assert 1e3 * first.figures.total == pytest.approx(total, abs=0.06)
    assert 1e3 * first.tip_excess == pytest.approx(tip, abs=0.1)


@pytest.mark.parametrize(
    ("teeth", "form", "total", "slope"),
    [(13, 12, 28.6, -24.5), (16, 14, 40.1, -30.0), (20, 17, 40.1, -22.4), (25, 21, 35.1, -18.4), (34, 26, 42.4, -23.4),
     (54, 35, 48.1, -27.6), (134, 55, 52.8, -31.8), (2000, 135, 35.2, -22.2)],
)  # fmt: skip
def test_the_far_end_of_every_range(teeth: int, form: int, total: float, slope: float) -> None:
    """Range ends are common practice; the figures are of the independent method, module 1, depth exact."""
    wanted = gear(teeth, 1, 0)
    found = trace_figures(profile_rolls(wanted), profile_trace(cut(wanted, numbered(form, 1, 50, nodes=384)), 1))
    assert 1e3 * found.total == pytest.approx(total, abs=0.06)
    assert 1e3 * found.slope == pytest.approx(slope, abs=0.06)


def test_the_thickness_is_held_by_the_depth() -> None:
    wanted = gear(40)
    for fit in rank_cutters(wanted, drawer(wanted, EIGHT, 60), flank_target=Millimetre(-0.03)):
        if fit.verdict != "cannot":
            assert fit.pitch == pytest.approx(-0.03, abs=1e-4)


def test_a_limit_keeps_the_tip_within_a_third_of_it() -> None:
    wanted = gear(127, 1, 0)
    fits = rank_cutters(wanted, drawer(wanted, EIGHT, 50), limit=Millimetre(0.01))
    by_count = {fit.candidate.form_teeth: fit for fit in fits}
    assert by_count[135].verdict == "within"
    assert by_count[55].verdict == "over"
    heavy = rank_cutters(wanted, drawer(wanted, EIGHT, 50), limit=Millimetre(0.003))[0]
    assert heavy.verdict == "tip heavy"


def test_a_cutter_that_cannot_do_it_is_last_and_says_why() -> None:
    wanted = gear(24)
    wrong = Candidate(
        name="blunt",
        form_teeth=26,
        module=Millimetre(2.0),
        pressure_angle=TWENTY,
        outside=Millimetre(60.0),
        corner=Millimetre(3.0),
    )
    fits: tuple[Fit, ...] = rank_cutters(wanted, (wrong, *drawer(wanted, (26, 35), 60)))
    assert (fits[-1].candidate.name, fits[-1].verdict) == ("blunt", "cannot")
    assert "tip_corner" in fits[-1].why_not
    assert math.isnan(fits[-1].swing)


@pytest.mark.parametrize(
    ("teeth", "module", "helix", "outside", "best"),
    [(28, 2, 20, 63, 37.2), (56, 2, 20, 63, 71.1), (24, 2, 30, 63, 45.8), (20, 2.5, 40, 70, 61.3), (40, 1.5, 15, 55, 46.6)],
)
def test_the_handbook_rule_is_within_two_teeth_of_the_best(
    teeth: int, module: float, helix: float, outside: float, best: float
) -> None:
    """Machinery's Handbook's rule with the cutter's diameter; best counts of another envelope program, which fits the form alone."""
    wanted = gear(teeth, module, helix)
    found = rule_tried(wanted, Millimetre(outside), Millimetre(0.25 * module))
    assert found.best == pytest.approx(best, abs=0.9)
    assert found.rule == pytest.approx(found.best, abs=2.0)
    assert found.best_left <= found.rule_left < 0.5 * found.virtual_left
