"""Speed, feed, travel, time, passes, room, force. Figures of the workshop's scenario unless marked."""

from __future__ import annotations

import math
from fractions import Fraction

import pytest

from evenpitch.cutting.force import Engagement, mean_force, mean_space_width, peak_force
from evenpitch.cutting.materials import MATERIALS, material_named
from evenpitch.cutting.passes import Cut, job_minutes, passes, rounds
from evenpitch.cutting.room import head_room, rapid_load, room, table_end_comes_back
from evenpitch.cutting.speeds import nearest_lower, speed_and_feed
from evenpitch.cutting.travel import approach, minutes_per_space, take_up, travel_need, travel_per_space
from evenpitch.rig.head import Head, Plate
from evenpitch.rig.machine import Spindle
from evenpitch.rig.rig import Rig
from evenpitch.sources.library import source_named

SPEEDS = (31.0, 40.0, 51.0, 65.0, 83.0, 106.0, 136.0, 174.0)
FEEDS = tuple(25.4 * feed for feed in (0.5, 0.75, 1, 1.5, 2, 3, 4.5, 6.5))
IRON = material_named("grey cast iron")


def test_a_runs_at_83_and_3_inches() -> None:
    found = speed_and_feed(IRON, 69.85, 12, SPEEDS, FEEDS)
    assert found.speed.wanted == pytest.approx(83.3, abs=0.05)
    assert found.feed.wanted / 25.4 == pytest.approx(3.0, abs=0.005)
    assert (found.speed.value(), found.feed.value()) == (83, pytest.approx(76.2))


def test_p_runs_at_106() -> None:
    found = speed_and_feed(material_named("medium-carbon steel"), 63.5, None, SPEEDS, FEEDS)
    assert found.speed.wanted == pytest.approx(107.0, abs=0.05)
    assert (found.speed.value(), found.feed.value()) == (106, pytest.approx(76.2))


def test_a_slowest_speed_that_is_too_fast_is_said() -> None:
    assert nearest_lower(20.0, SPEEDS).slowest_too_fast
    assert nearest_lower(20.0, SPEEDS).value() == 31
    assert nearest_lower(20.0, ()).value() == 20.0
    slow = speed_and_feed(IRON, 250.0, 12, SPEEDS, FEEDS)
    assert slow.speed.slowest_too_fast
    assert slow.feed.wanted == pytest.approx(0.003 * 25.4 * 12 * 31)


def test_travel_and_time_of_a() -> None:
    assert approach(4.5656, 69.85) / 25.4 == pytest.approx(0.6797, abs=0.00005)
    travel = travel_per_space(19.05, 4.5656, 69.85)
    assert travel / 25.4 == pytest.approx(1.6297, abs=0.00005)
    assert minutes_per_space(travel, 76.2) == pytest.approx(0.9747, abs=0.00005)
    assert minutes_per_space(travel_per_space(15.875, 3.4242, 63.5), 2.995 * 25.4) == pytest.approx(0.8835, abs=0.0001)


def test_approach_of_b() -> None:
    assert approach(4.5, 63.0) == pytest.approx(16.2, abs=0.05)


def _cut(teeth: int, module: float, helix: float = 0.0) -> Cut:
    if helix:
        return Cut(teeth=teeth, module=module, face=20.0, depth=4.5, cutter_outside=63.0, feed=76.2, helix=helix)
    return Cut(teeth=teeth, module=module, face=19.05, depth=4.5656, cutter_outside=69.85, feed=76.2, spanned=8)


def test_a_is_cut_in_one_round_after_a_trial() -> None:
    planned = passes(_cut(97, 25.4 / 12), IRON)
    assert [(item.name, item.spaces, item.whole_round) for item in planned] == [("trial", 9, False), ("full", 97, True)]
    assert job_minutes(planned) == pytest.approx(94.5, abs=0.1)
    assert planned[0].depth == pytest.approx(4.10)


@pytest.mark.parametrize(("teeth", "minutes"), [(28, 55), (56, 111)])
def test_b_is_cut_in_two_rounds(teeth: int, minutes: float) -> None:
    planned = passes(_cut(teeth, 2.0, math.radians(20)), None)
    assert [item.name for item in planned] == ["rough", "full"]
    assert round(job_minutes(planned)) == minutes


def test_sixteen_pitch_steel_is_cut_in_one() -> None:
    assert rounds(25.4 / 16, None) == 1
    assert rounds(1.75, material_named("mild steel")) == 2


def test_take_up_of_b() -> None:
    backlash = math.radians(3.2 / 60)
    assert take_up(backlash, 514.3825) == pytest.approx(0.0762, abs=0.00005)
    assert take_up(backlash, 1028.7651) == pytest.approx(0.1524, abs=0.00005)


def test_travel_against_table_and_scale() -> None:
    assert travel_need(41.4, 0.23, 558.8, 600.0).fits()
    assert not travel_need(24 * 25.4, 0.0, 558.8, None).fits()
    assert not travel_need(580.0, 0.0, None, 570.0).fits()


def _rig(**spindle: float) -> Rig:
    head = Head(ratio=Fraction(40), centre_height=127.0, tailstock_top=139.7)  # type: ignore[arg-type]
    return Rig(name="mill", head=head, plates=(Plate((20,)),), spindle=Spindle(**spindle))  # type: ignore[arg-type]


def test_room_of_b() -> None:
    found = room(_rig(collar=38.1, overarm=139.7), 63.594, 63.0, 4.5)
    assert found.arbor == pytest.approx(58.80, abs=0.005)
    assert found.collar == pytest.approx(39.7, abs=0.06)
    assert found.tailstock == pytest.approx(12.7)
    assert found.collar_clears == pytest.approx(39.747 - 12.7, abs=0.01)


def test_room_of_a() -> None:
    found = room(_rig(collar=38.1, overarm=139.7), 209.55, 69.85, 4.5656)
    assert found.arbor / 25.4 == pytest.approx(5.320, abs=0.0005)
    assert found.collar is not None
    assert found.collar / 25.4 == pytest.approx(4.570, abs=0.0005)
    assert found.overarm is not None
    assert found.overarm / 25.4 == pytest.approx(10.820, abs=0.0005)
    assert found.head_room == pytest.approx(127 - 104.775)


def test_room_of_a_rig_hardly_known() -> None:
    found = room(Rig(name="mill", head=Head(ratio=Fraction(40)), plates=()), 209.55, 69.85, 4.5656)
    assert (found.collar, found.overarm, found.head_room, found.collar_clears, found.over_blank) == (None,) * 5


def test_head_room_of_p() -> None:
    assert head_room(127.0, 182.5625) / 25.4 == pytest.approx(1.40625)


def test_swung_table_and_rapid_of_b() -> None:
    assert table_end_comes_back(42 * 25.4, math.radians(20)) == pytest.approx(182, abs=0.5)
    load = rapid_load(2540.0, Fraction(192000), 514.3825, 1600)
    assert load.pulses_per_second == pytest.approx(15800, abs=5)
    assert load.motor_speed == pytest.approx(593, abs=0.5)
    assert rapid_load(2540.0, Fraction(192000), 514.3825, None).motor_speed is None


def test_force_of_a_disc_cutter_in_steel() -> None:
    # derived for the link: 180 N mean, 311 N peak; the specific force is from memory
    speed = 25_000 / (math.pi * 63)
    cut = Engagement(outside=63, teeth=12, speed=speed, feed=60, depth=4.5, width=mean_space_width(2.0), k_c=1700, m_c=0.25)
    assert mean_force(cut) == pytest.approx(180, abs=0.5)
    assert peak_force(cut) == pytest.approx(311, abs=0.5)


def test_the_worst_place_of_the_cutter_is_a_tooth_leaving() -> None:
    """Second method: the cutter turned through a pitch in 2000 places."""
    cut = Engagement(outside=63, teeth=12, speed=126, feed=60, depth=4.5, width=3.14, k_c=1700, m_c=0.25)
    chip, out, apart = 60 / (126 * 12), math.acos(1 - 9 / 63), 2 * math.pi / 12
    sums = []
    for place in range(2001):
        angles = [place / 2000 * apart + k * apart for k in range(12)]
        sums.append(sum(1700 * 3.14 * (chip * math.sin(a)) ** 0.75 for a in angles if 0 < a <= out))
    assert peak_force(cut) == pytest.approx(max(sums), rel=0.002)
    assert peak_force(cut) >= max(sums) - 1e-9


@pytest.mark.parametrize(
    ("text", "words"),
    [("grey cast iron", "grey cast iron"), ("Steel, EN8", "medium-carbon steel"), ("free-cutting mild steel", "mild steel"),
     ("beryllium copper", "beryllium copper"), ("alloy steel", "tough alloy steel"), ("brass", "brass")],
)  # fmt: skip
def test_materials_are_known_by_their_words(text: str, words: str) -> None:
    found = material_named(text)
    assert found is not None
    assert found.words == words


def test_unknown_materials_are_not_guessed() -> None:
    assert material_named("unobtainium") is None
    assert material_named(None) is None


def test_dangerous_materials_carry_a_caution() -> None:
    for text in ("magnesium", "beryllium copper", "phenolic fibre", "cast iron"):
        found = material_named(text)
        assert found is not None
        assert found.cautions


def test_every_material_names_its_sources() -> None:
    assert all(source_named(source) for material in MATERIALS for source in material.sources)
