"""A rig with don't-knows still gives a drive; what was assumed is told with its range, its cost and what it may do."""

from __future__ import annotations

from fractions import Fraction

import pytest

from evenpitch.link.filling import fill
from evenpitch.link.improvements import doubts, what_it_buys
from evenpitch.link.usual import BY_PATH, USUAL, assumed, at_end, changed
from evenpitch.store.files.rig_file import read_rig
from link.shop import ARCSEC, drive_of, sizes
from link.typed_rigs import typed

HEAD = 'name = "Mill"\n[head]\nratio = "40"\n[[plate]]\ncircles = [20]\n'


@pytest.mark.parametrize("letter", ["A", "B", "C", "C+"])
def test_a_rig_that_is_known_whole_is_taken_as_it_stands(letter: str) -> None:
    found = fill(typed(letter))
    wanted = drive_of(letter)
    for name in ("count", "belt", "windings", "feeding", "seating", "seated", "scale_wave", "axis_tilt", "drift", "worm_drag"):
        ours, theirs = getattr(found.drive, name), getattr(wanted, name)
        assert ours == (pytest.approx(theirs) if isinstance(theirs, float) else theirs), name
    assert found.drive.waves.worm == pytest.approx(wanted.waves.worm)
    assert found.drive.pulses_per_turn == wanted.pulses_per_turn
    assert {what.path for what in found.assumed} <= {"motor_speed", "count_rate"}
    assert not found.measured


def test_a_rig_of_which_nothing_is_known() -> None:
    found = fill(read_rig(HEAD + "[link]\n").rig, feed=1.5)
    paths = {what.path for what in found.assumed}
    assert {"count", "latency", "waves.worm", "backlash", "feeding.unevenness"} <= paths
    assert "waves.pulley" not in paths  # a direct coupling has none
    assert found.drive.feeding.mean == 1.5
    assert found.drive.pulses_per_turn == 64_000
    assert all(what.low <= what.value <= what.high and what.cost for what in found.assumed)


def test_a_head_without_a_link_asks_only_what_counts() -> None:
    found = fill(read_rig(HEAD).rig)
    assert not found.drive.linked
    assert {"count", "latency", "microsteps"}.isdisjoint(what.path for what in found.assumed)


def test_a_map_says_what_the_head_does() -> None:
    mapped = '[[map]]\ndate = 2026-03-12\nharmonics = [{ per_turn = 1, amplitude = "40 arcsec", phase = "20" }]\n'
    found = fill(read_rig(HEAD + "[link]\n" + mapped).rig)
    assert found.measured
    assert found.drive.waves.wheel == pytest.approx(40 * ARCSEC)
    assert found.drive.waves.worm == 0.0
    assert not any(what.path.startswith("waves.w") for what in found.assumed)


def test_power_feed_and_an_unseated_worm_have_their_own_usual_values() -> None:
    power = fill(read_rig(HEAD + '[link]\nfeed = "power"\nbelt = "20:60"\n').rig, seated=False)
    assert power.drive.feeding.unevenness == 0.0
    assert power.drive.feeding.difference == 0.05
    assert not power.drive.seated
    assert power.drive.seating == 0.5
    assert power.drive.belt == 3
    assert "waves.pulley" in {what.path for what in power.assumed}
    braked = fill(read_rig(HEAD.replace("[[plate]]", 'drag_brake_Nm = "2 Nm"\n[[plate]]') + "[link]\n").rig, seated=False)
    assert braked.drive.seated
    hand = fill(read_rig(HEAD + "[link]\ncrank_unevenness = 1\n").rig)
    assert hand.drive.feeding.unevenness == 0.99


@pytest.mark.parametrize("row", USUAL, ids=lambda row: row.path)
def test_every_usual_value_lies_in_its_range_and_can_be_set(row: object) -> None:
    usual = BY_PATH[getattr(row, "path")]  # noqa: B009
    assert usual.low <= usual.value <= usual.high
    inside, what = assumed(usual.path)
    moved = changed(drive_of("A"), usual.path, inside)
    assert at_end(moved, what, high=True) is not None
    assert what.shown().startswith(f"{usual.value:g}")
    assert set(what.facts()) == {"field", "words", "value", "low", "high", "unit", "cost"}


def test_exact_quantities_stay_exact() -> None:
    assert changed(drive_of("A"), "belt", 3.0).belt == Fraction(3)
    assert changed(drive_of("A"), "microsteps", 16.0).microsteps == 16
    assert changed(drive_of("A"), "windings.supply", 48.0).windings.supply == 48.0


def test_what_is_worth_finding_out_first() -> None:
    found = fill(read_rig(HEAD + "[link]\n").rig, seated=False)
    ranked = doubts(found.drive, sizes("h24"), found.assumed)
    assert [doubt.spread for doubt in ranked] == sorted((doubt.spread for doubt in ranked), reverse=True)
    assert ranked[0].what.path in ("backlash", "waves.wheel", "seating")
    assert {"um_low", "um_high"} <= set(ranked[0].facts())


def test_seating_is_worth_more_than_every_electronic_upgrade_on_the_poor_rig() -> None:
    """The invented rig C: as found by two programs for this project."""
    plain, bought = what_it_buys(drive_of("C"), sizes("h24"), 8, 1500)
    by_key = {one.key: one for one in bought}
    assert bought[0].key == "seat"
    assert by_key["seat"].gain > sum(max(0.0, by_key[key].gain) for key in ("steps", "belt", "scale", "delay"))
    assert by_key["seat"].class95 < plain.class95
    assert by_key["scale"].band[1] < by_key["scale"].band[0]
    assert set(by_key["map"].facts()) >= {"words", "before_um", "after_um", "class95", "chance"}


def test_for_a_large_prime_finer_steps_help_little_and_a_map_much() -> None:
    _, bought = what_it_buys(drive_of("A"), sizes("s127"), 8, 1500)
    by_key = {one.key: one for one in bought}
    assert bought[0].key == "map"
    assert "scale" not in by_key
    assert by_key["map"].gain > 2 * by_key["steps"].gain
