"""The same job on another rig: sizes and targets stay, dividing and link are redone, differences are listed."""

from __future__ import annotations

from evenpitch.job.repeating import repeat
from job.inspection_cases import changed, the_wheel
from job.shop import pair, rig_of, rig_tables


def test_the_same_rig_differs_in_nothing() -> None:
    made = repeat(the_wheel().order, changed())
    assert made.differences == ()
    assert {one.code for one in made.findings} >= {"repeat-same"}
    assert any(kept.startswith("sizes") for kept in made.kept)


def test_without_the_link_the_wheel_is_divided_by_hand() -> None:
    made = repeat(the_wheel().order, changed(link=None))
    listed = {one.what: (one.was, one.now) for one in made.differences}
    assert listed["dividing"][0].startswith("pulses")
    assert listed["dividing"][1].startswith("differential")
    assert listed["pulses for a turn of the work"] == ("192000", "none")
    assert made.was.gears[0].form_cut == made.now.gears[0].form_cut
    assert made.was.gears[0].blank == made.now.gears[0].blank
    assert "targets of span, pins and chord" in made.kept


def test_the_cutter_of_the_first_rig_is_taken_along() -> None:
    made = repeat(the_wheel().order, changed(cutter=[], link=None))
    names = [plan.gears[0].tools.chosen.cutter.name() for plan in (made.was, made.now) if plan.gears[0].tools.chosen]
    assert names[0] == names[1]
    assert "repeat-cutter" in {one.code for one in made.findings}


def test_a_pair_on_a_mill_whose_head_swings() -> None:
    made = repeat(pair().order, rig_of(rig_tables("museum-mill-head-swing")))
    listed = {one.what for one in made.differences}
    assert {"rig", "set the helix by"} <= listed
    for first, second in zip(made.was.gears, made.now.gears, strict=True):
        assert first.gear == second.gear
        assert first.form_cut == second.form_cut
    assert not made.now.stopped(), [one.says for one in made.now.findings if one.weight == "stop"]
