"""What each cutter would leave, in the sign of the pages (+ takes too much), ranked; and slips in one cut.

Outside figures: the quick rule of the plan, itself held against job.md's table; the published spacing of ranges; depth error by arithmetic.
"""

from __future__ import annotations

import math

import pytest

from evenpitch.gear.span import span_target
from evenpitch.job.drawer import held, standard_set
from evenpitch.job.plan import Plan
from evenpitch.job.slips import Slips, cut_seen
from evenpitch.job.virtual_cutting import VirtualCut, depth_thins, virtual_cut, wanted_of
from evenpitch.quantity.refusal import Refusal
from evenpitch.quantity.units import Millimetre, Radian, degrees
from job.cut_cases import NO_1, the_pinion, the_wheel, weighed, with_cutters
from job.shop import museum_mill, pair, pinion, wheel


@pytest.mark.parametrize(
    ("key", "tip"), [("12-dp-no2-55", 90), ("12-dp-no2-68", 50), ("12-dp-no1.5-80", 25), ("12-dp-no1-135", -33)]
)
def test_the_cutters_of_the_wheel_without_thinning(key: str, tip: float) -> None:
    """Tip relief of 97 teeth, 12 DP, 14½ degrees, by the form alone: own computation by an independent method (job of the workshop).
    There the tip is taken just inside the corner, here at the very tip and by depth: 8 % apart at most."""
    one = weighed(wheel(thinning=None)).by_key(key)
    assert one.left.tip == pytest.approx(tip, rel=0.09)
    assert one.left.pitch == 0.0


def test_the_sign_is_that_of_the_plans_own_table() -> None:
    plan = wheel(thinning=None)
    quick = {(choice.cutter, choice.made_for): choice.tip_um for choice in plan.gears[0].tools.all() if choice.tip_um is not None}
    both = [(one.left.tip, quick[(one.held.cutter, one.held.made_for)]) for one in weighed(plan).weighed
            if one.left is not None and (one.held.cutter, one.held.made_for) in quick]  # fmt: skip
    assert len(both) >= 3
    for here, there in both:
        assert math.copysign(1, here) == math.copysign(1, there)
        assert here == pytest.approx(there, rel=0.12 if abs(there) < 120 else 0.3)


def test_the_wheel_takes_the_best_it_has_and_says_it_is_over() -> None:
    _, cut = the_wheel()
    best = cut.recommended
    assert (best.held.name(), best.held.made_for, best.verdict) == ("12 DP No. 1½", 80, "over")
    assert cut.weighed[0] is best
    assert "fly cutter" in cut.reason
    assert cut.quick is best


def test_a_cutter_outside_its_printed_range_is_recommended_with_the_reason() -> None:
    """113 teeth: the table of ranges names No. 2, which errs most; No. 1 errs 12 µm (job of the workshop)."""
    cut = weighed(wheel(teeth=113, pitch="16 DP", face="0.625 in", thinning=None))
    best = cut.recommended
    assert (best.held.name(), best.held.made_for, best.held.owned) == ("16 DP No. 1", 135, True)
    assert best.left.tip == pytest.approx(-12, abs=1)
    assert "outside its printed range, 135–rack" in cut.reason
    assert "16 DP No. 2" in cut.reason


def test_both_habits_of_a_cutter_are_weighed_and_the_usual_one_counts() -> None:
    _, cut = the_pinion()
    rows = [one for one in cut.weighed if one.held.name() == "module 2 No. 6"]
    assert {(one.held.made_for, one.held.usual) for one in rows} == {(35, True), (40, False)}
    assert cut.recommended.held.usual
    assert "if it is made for 40 (after Rose) it leaves" in cut.reason


def test_every_owned_cutter_is_listed_and_a_set_holds_no_form_twice() -> None:
    plan, cut = the_pinion()
    owned = {id(one.held.cutter) for one in cut.weighed if one.held.owned}
    assert len(owned) == len(plan.order.rig.cutters)
    alike = [(one.held.made_for, one.held.name()) for one in cut.weighed if one.left is not None]
    assert len(alike) == len(set(alike))
    keys = [one.held.key for one in cut.weighed]
    assert len(keys) == len(set(keys))
    first_set = next(k for k, one in enumerate(cut.weighed) if not one.held.owned)
    assert all(not one.held.owned for one in cut.weighed[first_set:])


def test_the_dedicated_set_only() -> None:
    plan = pinion(thinning=None)
    only = standard_set(plan.gears[0].gear, "m8", plan.order.rig.cutters)
    cut = virtual_cut(plan.order, plan.gears[0], only)
    assert [one.held.owned for one in cut.weighed] == [False] * 8
    assert {one.held.made_for for one in cut.weighed} == {12, 14, 17, 21, 26, 35, 55, 135}
    assert cut.recommended.held.made_for == 35
    assert cut.recommended.held.cutter.numbering == "module"


def test_nothing_can_cut_it() -> None:
    other = {"pitch": "module 5", "pressure_angle": "20", "number": "3", "numbering": "module", "outside": "90 mm"}
    plan = pinion(with_cutters(other))
    cut = virtual_cut(plan.order, plan.gears[0], plan.order.rig.cutters)
    assert cut.recommended is None
    assert "its pitch is" in cut.weighed[0].why_not
    with pytest.raises(Refusal, match="can cut this gear"):
        cut_seen(cut, cut.weighed[0], plan.order.rig)


def test_a_cutter_of_unknown_size_takes_that_of_its_fellows() -> None:
    gear = pinion().gears[0].gear
    for one in held(gear, standard_set(gear, "dp8", museum_mill().cutters), Millimetre(0.02), owned=False):
        assert one.outside == next(cutter.outside for cutter in museum_mill().cutters if cutter.pitch.words() == "module 2")


def test_thinning_widens_the_space_by_half_on_each_flank() -> None:
    """Span of the wanted flank against the span of the gear room."""
    from evenpitch.flank.inspection import span_place

    for plan, k in ((wheel(), 8), (pinion(), 4), (pair(), 4)):
        gear = plan.gears[0].gear
        assert span_place(wanted_of(gear), k).nominal == pytest.approx(span_target(gear, k), abs=1e-9)


def test_what_thinning_by_depth_adds() -> None:
    """First order by formula, against the cut of a form made for this very count: without thinning it leaves nothing."""
    exact = with_cutters(NO_1 | {"number": "2", "made_for": 97})
    plan = wheel(exact, thinning="0.02 mm")
    cut = virtual_cut(plan.order, plan.gears[0], exact.cutters)
    assert cut.recommended.left.tip == pytest.approx(depth_thins(plan.gears[0]), rel=0.03)
    plain = wheel(exact, thinning=None)
    assert virtual_cut(plain.order, plain.gears[0], exact.cutters).recommended.left.total < 0.05


def test_left_and_right_hand_leave_the_same() -> None:
    right, left = weighed(pinion()).recommended, weighed(pinion(hand="left")).recommended
    assert right.left.total == pytest.approx(left.left.total, abs=1e-3)
    assert right.swing == pytest.approx(-left.swing, abs=1e-9)


def test_a_blank_under_size_sinks_the_cutter_by_half_of_it() -> None:
    """Span loses 2 sin(alpha at the anvil) for each mm deeper, about; blank 0.1 under is 0.05 deeper."""
    plan, cut = the_wheel()
    seen = cut_seen(cut, cut.recommended, plan.order.rig, Slips(blank_under=Millimetre(0.1)))
    change = seen.slipped.span - seen.as_set.span
    assert change == pytest.approx(-2 * math.sin(math.radians(15.2)) * 0.05, rel=0.06)
    assert seen.slipped.spanned == seen.as_set.spanned == 8


def test_off_centre_slopes_the_flanks_opposite_ways_and_leaves_the_span() -> None:
    plan, cut = the_wheel()
    seen = cut_seen(cut, cut.recommended, plan.order.rig, Slips(off_centre=Millimetre(0.05)))
    change = seen.slipped.seen.opposite_slopes - seen.as_set.seen.opposite_slopes
    equal = seen.slipped.seen.equal_slopes - seen.as_set.seen.equal_slopes
    assert abs(change) > 20 * abs(equal)
    assert seen.slipped.span == pytest.approx(seen.as_set.span, abs=5e-5)


def test_a_lead_error_shows_in_the_helix_alone() -> None:
    """Square to the flank, over the length evaluated: lever x q x ppm x L = L sin(beta_b) ppm."""
    plan, cut = the_pinion()
    seen = cut_seen(cut, cut.recommended, plan.order.rig, Slips(lead=500.0))
    flank = seen.slipped.seen.right
    expected = (flank.z[-1] - flank.z[0]) * abs(math.sin(cut.wanted.base_helix)) * 500e-6
    assert flank.helix_figures.total == pytest.approx(expected, rel=2e-3)
    assert seen.slipped.span == pytest.approx(seen.as_set.span, abs=2e-3)


def test_a_worm_error_is_invisible_in_the_pitch_when_teeth_equal_the_worm_ratio() -> None:
    for teeth, hidden in ((40, True), (41, False)):
        plan = wheel(teeth=teeth, pitch="module 2", pressure_angle="20", thinning=None)
        cut = weighed(plan)
        seen = cut_seen(cut, cut.recommended, plan.order.rig, Slips(worm=degrees(30 / 3600)))
        cumulative = 1000 * seen.slipped.right_pitch.cumulative
        radius = cut.wanted.pitch_radius
        full = 2 * math.radians(30 / 3600) * radius * 1000
        assert cumulative == pytest.approx(0.0 if hidden else full, rel=0.01, abs=1e-6)


def test_a_lost_pulse_jumps_the_helix_by_its_own_size() -> None:
    plan, cut = the_pinion()
    seen = cut_seen(cut, cut.recommended, plan.order.rig, Slips(lost=10))
    pulse = 10 * 2 * math.pi / 192_000 * cut.wanted.lever
    assert 1000 * seen.slipped.seen.right.helix_figures.total == pytest.approx(1000 * pulse, rel=0.02)


def test_the_swing_slip_is_more_swing_for_either_hand() -> None:
    totals = []
    for plan, cut in (the_pinion(), _left()):
        for slip in (0.25, -0.25):
            seen = cut_seen(cut, cut.recommended, plan.order.rig, Slips(swing=Radian(math.radians(slip))))
            totals.append(1000 * seen.slipped.seen.right.profile_figures.total)
    assert totals[0] == pytest.approx(totals[2], abs=0.01)
    assert totals[1] == pytest.approx(totals[3], abs=0.01)
    assert abs(totals[0] - totals[1]) > 5


def _left() -> tuple[Plan, VirtualCut]:
    plan = pinion(hand="left")
    return plan, weighed(plan)


def test_no_pulse_is_lost_without_a_link() -> None:
    from job.shop import rig_of, rig_tables

    tables = rig_tables()
    tables.pop("link")
    plan = pinion(rig_of(tables))
    cut = weighed(plan)
    with pytest.raises(Refusal, match="no pulse"):
        cut_seen(cut, cut.recommended, plan.order.rig, Slips(lost=1))


def test_a_slip_that_leaves_the_work_is_refused() -> None:
    plan, cut = the_wheel()
    with pytest.raises(Refusal):
        cut_seen(cut, cut.recommended, plan.order.rig, Slips(off_centre=Millimetre(4.9)))


def test_the_picture_is_magnified_by_a_stated_factor() -> None:
    plan, cut = the_wheel()
    seen = cut_seen(cut, cut.recommended, plan.order.rig)
    worst = max(abs(float(value)) for each in seen.space.deviation for value in each)
    assert worst * seen.space.times <= 0.22 * cut.wanted.module
    assert seen.space.times in (200, 100, 50, 20, 10, 5, 2, 1)
