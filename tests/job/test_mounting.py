"""Mount and prove the scale: each check by itself, what it may say, and the sentence."""

from __future__ import annotations

from dataclasses import replace

import pytest

from evenpitch.checking.readings import ProofReading
from evenpitch.job.mounting import Mounted, mounted_findings, prove_mounting
from evenpitch.quantity.units import Millimetre, Newton
from job.shop import museum_mill, rig_of, rig_tables


def read(check: str, place: str, moved: float, reading: float) -> ProofReading:
    return ProofReading(check, place, "up", Millimetre(moved), Millimetre(reading))


def block(left: float, middle: float, right: float, *cutter: float) -> list[ProofReading]:
    near = [read("block", place, 100, 100 + um / 1000) for place, um in (("left", left), ("middle", middle), ("right", right))]
    return near + [read("near cutter", "middle", 100, 100 + um / 1000) for um in cutter]


def codes(made) -> set[str]:
    return {found.code for found in made.findings}


def kinds(made) -> dict[str, str]:
    return {check.kind: check.verdict for check in made.checks}


def test_the_workshop_evening():
    """Source of the figures: the workshop's own scenario, made up for it."""
    mounted = Mounted(on_top=(0, 0.02, 0.03), on_front=(0, -0.01, 0.02), push=1, lock=0, noise=0, turns=10.0)
    rows = [
        read("dial", "", 63.5, 63.493),
        *(read("stroke", "", 0, um / 1000) for um in (0, 1, 2, 0)),
        *block(-16, -18, -21, -17),
    ]
    made = prove_mounting(museum_mill(), mounted, rows)
    assert kinds(made) == {
        "along the scale": "pass", "dial": "pass", "strokes": "pass", "block": "pass", "near the cutter": "not proven",
    }  # fmt: skip
    assert made.gain is not None
    assert made.gain.value * 1e6 == pytest.approx(-183, abs=1)
    assert pytest.approx(40, abs=2) == made.gain.U * 1e6  # gain to 40 µm in a metre: the budget of the block
    assert "the same at left, middle and right within 5 µm" in made.sentence
    assert codes(made) == {"not-proven", "gain-leave"}


def test_places_that_differ_are_said_to():
    made = prove_mounting(museum_mill(), Mounted(), block(-16, -18, 20))
    assert "not the same at left, middle and right within 38 µm" in made.sentence


def test_a_gain_within_its_doubt_is_none():
    made = prove_mounting(museum_mill(), Mounted(), block(1, -1, 0))
    assert made.sentence.startswith("Your scale reads true within")
    assert "gain-not-shown" in codes(made)


@pytest.mark.parametrize(
    ("mounted", "code"),
    [
        (Mounted(on_top=(0, 0.1, 0.25)), "misaligned"),
        (Mounted(on_front=(0, None, -0.2)), "misaligned"),
        (Mounted(push=3), "bracket-gives"),
        (Mounted(lock=2), "bracket-gives"),
        (Mounted(noise=1), "noise-counts"),
        (Mounted(turns=9.5), "part-turns"),
    ],
)
def test_each_doubt_of_a_mounting_is_named(mounted: Mounted, code: str):
    assert code in codes(prove_mounting(museum_mill(), mounted, block(0, 0, 0)))


def test_the_makers_limit_takes_the_place_of_the_usual_one():
    planes = {"on_top": (0, 0.1, 0.15)}
    usual, wide = (prove_mounting(museum_mill(), Mounted(**planes, **more), ()) for more in ({}, {"limit": Millimetre(0.2)}))
    assert kinds(usual)["along the scale"] == "fail"
    assert kinds(wide)["along the scale"] == "pass"
    assert usual.sentence == "Your scale is not proven: along the scale fails."


def test_a_scale_shorter_than_the_travel_stops():
    tables = rig_tables()
    tables["link"]["scale_length"] = "500 mm"
    made = prove_mounting(rig_of(tables), Mounted(), block(0, 0, 0))
    assert "stops-outside" in codes(made)
    assert any("59 mm" in found.says for found in made.findings)  # 558.8 of travel less 500


def test_a_rig_without_a_link_can_be_mounted_too():
    tables = rig_tables()
    tables.pop("link")
    assert kinds(prove_mounting(rig_of(tables), Mounted(), block(-16, -18, -21)))["block"] == "pass"


def test_strokes_that_walk_and_a_display_of_a_fifth():
    walking = [read("stroke", "", 0, um / 1000) for um in (0, 3, 6, 9, 13)]
    assert "walks" in codes(prove_mounting(museum_mill(), Mounted(), walking))
    fifth = prove_mounting(museum_mill(), Mounted(turns=10.0), [read("dial", "", 63.5, 12.7)])
    assert "count-entered-wrong" in codes(fifth)
    assert kinds(fifth)["dial"] == "fail"


def test_readings_of_the_link_are_left_to_the_link():
    rows = [*block(0, 0, 0), ProofReading("link", "", "up", Millimetre(50), None, None, Millimetre(100))]
    assert set(kinds(prove_mounting(museum_mill(), Mounted(), rows))) == {"block"}


def test_a_spring_balance_on_the_crank_settles_the_drag_of_the_worm():
    """4 N at 100 mm is 0.40 Nm at the worm, 0.13 at the motor through 20:60; of 3 Nm a pulse of 1/8 step is 0.585: 0.23 pulse (own)."""
    link = museum_mill().link
    assert link is not None
    unknown = replace(museum_mill(), link=replace(link, worm_drag=None))
    (said,) = mounted_findings(replace(unknown, table=replace(unknown.table, travel=None)), Mounted(pull=Newton(4.0)))
    assert said.code == "worm-drag"
    assert "0.40 Nm at the crank, 0.13 Nm at the motor, which it holds back by 0.23 pulse" in said.says
    assert "it has none" in said.do
    codes = {one.code for one in mounted_findings(unknown, Mounted(pull=Newton(20.0)))}
    assert {"worm-drag", "worm-sticks"} <= codes
    same = list(mounted_findings(museum_mill(), Mounted(pull=Newton(float(link.worm_drag or 0) * 10))))
    assert any("the same" in one.do for one in same)
