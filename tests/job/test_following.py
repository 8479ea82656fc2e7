"""Where a cut stands: the figures of the museum's wheel, corrections, counts, passes, and what is refused."""

from __future__ import annotations

from dataclasses import replace
from datetime import timedelta
from fractions import Fraction
from itertools import pairwise

import pytest

from evenpitch.checking.slip_sizes import slip_sizes
from evenpitch.job.cut_doubts import doubts, of_that_size
from evenpitch.job.following import (
    complete,
    finished,
    follow,
    minutes_left,
    next_space,
    nothing_cut,
    sequence,
    target,
    target_by,
    then,
)
from evenpitch.job.record import Entry, entry_of, payload_of
from evenpitch.job.standing import stand
from evenpitch.quantity.refusal import Refusal
from evenpitch.quantity.showing import dms
from job.cut_records import START, Hand, by_gears, by_link, in_blocks, two_rounds
from job.shop import museum_mill


def test_targets_of_the_97_tooth_wheel() -> None:
    """Figures of the run sheet: space 2 at 1979, 3 at 3959, 4 at 5938, 97 at 190 021, then 192 000; 62 at 226° 23′ 30″ and 120 742.

    Worked by hand: round((k − 1) 192 000/97), (k − 1) 360°/97.
    """
    way = by_link().moves
    assert [stand(way, space, None).pulse for space in (1, 2, 3, 4, 61, 62, 97)] == [
        0,
        1979,
        3959,
        5938,
        118_763,
        120_742,
        190_021,
    ]
    here = stand(way, 62, 61)
    assert here.move_pulses == 1979
    assert dms(here.angle * 360) == "226° 23′ 30″"
    again = stand(way, 1, 97, again=True)
    assert (again.pulse, again.move_pulses, again.angle) == (192_000, 1979, 0)


def test_the_same_by_crank_and_gears() -> None:
    """61 moves of 8 spaces in the 20 circle are 24 turns and 8 spaces: 61 x 8 = 488 = 24 x 20 + 8."""
    here = stand(by_gears(), 62, 61)
    assert here.crank == (0, 8)
    assert here.from_datum == (24, 8)
    assert here.circle == 20


def test_targets_go_by_a_tooth_picked_up() -> None:
    """540″ ahead, worked by hand: 192 000 x 540/1 296 000 = 80 pulses; 226° 23′ 30″ and 9′ are 226° 32′ 30″.

    The crank makes 38.8 turns of 20 spaces, 776, in a turn of the work, so that one space is 1670.1″ and 540″ is none: all is left over.
    """
    hand = Hand(by_link())
    hand.cut(61)
    hand.write("picked up", offset=540.0, u=12.0)
    here = target(hand.cutting, hand.progress)
    assert here is not None
    assert (here.pulse, here.move_pulses, dms(here.angle * 360)) == (120_822, None, "226° 32′ 30″")
    by_crank = target_by(by_gears(), hand.cutting, hand.progress)
    assert by_crank is not None
    assert (by_crank.crank, by_crank.from_datum, by_crank.left) == ((24, 8), (24, 8), Fraction(1, 2400))
    hand.write("cut", 62)
    here = target(hand.cutting, hand.progress)
    assert here is not None
    assert (here.pulse, here.move_pulses) == (122_802, 1980)  # round(62 x 192 000/97) = 122 722
    hand.write("picked up", offset=1670.0, u=12.0)
    by_crank = target_by(by_gears(), hand.cutting, hand.progress)
    assert by_crank is not None
    assert by_crank.crank == (24, 17)  # 62 x 8 = 496 = 24 x 20 + 16, and one space more
    assert abs((by_crank.left or 0) * 1_296_000) < 0.2
    hand.write("picked up", offset=-540.0, u=12.0)
    here = target(hand.cutting, hand.progress)
    assert here is not None
    assert here.pulse == 122_642  # the newest takes the place of the one before


def test_before_the_datum_is_a_turn_on() -> None:
    """Space 1, 1670″ behind, is one space of the circle before the datum: 775 of 776, 38 turns and 15 spaces."""
    hand = Hand(replace(two_rounds(97), moves=by_gears()))
    hand.write("picked up", offset=-1670.0, u=12.0)
    here = target(hand.cutting, hand.progress)
    assert here is not None
    assert here.crank == (38, 15)
    assert dms(here.angle * 360) == "359° 32′ 10″"


def test_an_offset_that_is_none_is_refused() -> None:
    hand = Hand(by_link())
    for offset in (None, 700_000.0, float("nan")):
        with pytest.raises(Refusal):
            hand.write("picked up", offset=offset)


def test_a_finished_round_may_be_recut() -> None:
    hand = Hand(two_rounds(12))
    hand.write("begin", pass_name="rough")
    hand.cut(12)
    hand.write("begin", pass_name="full")
    hand.cut(3)
    with pytest.raises(Refusal):
        hand.write("begin", pass_name="full")
    hand.cut(9)
    assert finished(hand.cutting, hand.progress)
    hand.write("picked up", offset=90.0, u=9.0)
    hand.write("begin", pass_name="full")
    assert (hand.progress.cut, next_space(hand.cutting, hand.progress)) == ((), 1)
    assert not finished(hand.cutting, hand.progress)
    hand.cut(12)
    assert finished(hand.cutting, hand.progress)


def test_every_move_adds_up_to_the_round() -> None:
    for cutting in (by_link(), two_rounds(), in_blocks()):
        way = cutting.moves
        stops = [*way.in_turn, 1]
        stood = [stand(way, space, before) for before, space in pairwise(stops)]
        assert sorted(way.in_turn) == list(range(1, cutting.spaces + 1))
        assert {one.moves for one in stood} == {1}
        if way.pulses:
            assert sum(one.move_pulses or 0 for one in stood) == way.pulses[-1]
        else:
            turned = sum(one.crank[0] + Fraction(one.crank[1], one.circle) for one in stood if one.crank)
            assert turned == 40 * way.skip  # a 40:1 head; a block way goes round `skip` times


def test_spread_goes_onward_only_and_ends_everywhere() -> None:
    way = by_link().moves
    assert sorted(way.spread) == list(range(1, 98))
    for before, space in pairwise(way.spread):
        here = stand(way, space, before)
        assert here.move_pulses is not None
        assert 0 < here.move_pulses < 192_000
        assert (way.pulses[before - 1] + here.move_pulses) % 192_000 == way.pulses[space - 1]


def test_cut_so_far_and_next_are_two_things() -> None:
    hand = Hand(by_link())
    hand.cut(61)
    assert (len(hand.progress.cut), next_space(hand.cutting, hand.progress)) == (61, 62)
    hand.write("not cut", 61)
    assert (len(hand.progress.cut), next_space(hand.cutting, hand.progress)) == (60, 61)
    hand.write("not cut", 30)
    assert next_space(hand.cutting, hand.progress) == 30
    here = target(hand.cutting, hand.progress)
    assert here is not None
    assert here.pulse == 57_402  # 29 x 192 000/97 = 57 402.06
    assert here.move_pulses == 192_000 - (stand(hand.cutting.moves, 60, None).pulse or 0) + 57_402


def test_a_space_is_not_written_twice_and_none_is_skipped() -> None:
    hand = Hand(by_link())
    hand.cut(3)
    for space, expected in (
        (3, "space 4, the next"),
        (5, "space 4, the next"),
        (98, "1 to 97"),
        (0, "1 to 97"),
        (None, "1 to 97"),
    ):
        with pytest.raises(Refusal) as refused:
            hand.write("cut", space)
        assert refused.value.faults[0].expected == expected
    with pytest.raises(Refusal):
        hand.write("not cut", 4)
    assert len(hand.entries) == 3


def test_two_counts_must_add_up() -> None:
    """61 forward and 35 back are 96 of 97."""
    hand = Hand(by_link())
    hand.cut(61)
    with pytest.raises(Refusal) as refused:
        hand.write("count", forward=61, back=35)
    assert refused.value.faults[0].given == "61 + 35 = 96"
    assert refused.value.faults[0].expected == "together 97"
    assert hand.write("count", forward=61, back=36).off == 0


def test_counts_that_add_up_but_differ_from_the_record_stop_until_it_is_mended() -> None:
    hand = Hand(by_link())
    hand.cut(61)
    assert hand.write("count", forward=62, back=35).off == 1
    assert hand.write("cut", 62).off == 0
    assert hand.write("count", forward=60, back=37).off == -2
    with pytest.raises(Refusal) as refused:
        hand.write("cut", 63)
    assert "2 fewer cut" in refused.value.faults[0].likely
    hand.write("not cut", 62)
    assert hand.progress.off == -1
    hand.write("not cut", 61)
    assert hand.progress.off == 0
    hand.cut(37)
    assert finished(hand.cutting, hand.progress)


def test_wait_and_carry_on() -> None:
    hand = Hand(by_link())
    with pytest.raises(Refusal):
        hand.write("carry on")
    hand.cut(2)
    assert hand.write("wait").waiting == hand.at
    with pytest.raises(Refusal):
        hand.write("wait")
    assert hand.write("note", text="visitor").waiting is not None
    assert hand.write("carry on").waiting is None
    hand.write("wait")
    assert hand.cut(1).waiting is None  # what was cut is cut, and ends the wait


def test_scratch_trial_full() -> None:
    cutting = by_link()
    hand = Hand(cutting)
    hand.write("begin", pass_name="scratch", order="1, 2, 3")
    with pytest.raises(Refusal):
        hand.write("closing", gap=0.0)
    hand.cut(97)
    assert complete(cutting, hand.progress)
    assert target(cutting, hand.progress) == stand(cutting.moves, 1, 97, again=True)
    assert hand.write("closing", gap=0.1).closing == 0.1
    hand.write("begin", pass_name="trial")
    assert sequence(cutting, hand.progress) == tuple(range(1, 10))
    with pytest.raises(Refusal):
        hand.write("order", order="spread")
    hand.cut(9)
    assert next_space(cutting, hand.progress) is None
    assert then(cutting, hand.progress) == "full"
    hand.write("depth", depth=4.05, span=49.65)
    hand.write("begin", pass_name="full", order="spread")
    assert (len(hand.progress.cut), next_space(cutting, hand.progress)) == (0, 1)
    assert hand.cut(1).cut == (1,)
    assert next_space(cutting, hand.progress) == 33
    with pytest.raises(Refusal):
        hand.write("begin", pass_name="scratch")
    hand.cut(96)
    assert finished(cutting, hand.progress)
    assert hand.progress.done == ("scratch", "trial")


def test_rough_before_full() -> None:
    cutting = two_rounds()
    hand = Hand(cutting)
    assert nothing_cut(cutting).running == "rough"
    with pytest.raises(Refusal) as refused:
        hand.write("begin", pass_name="full")
    assert "Missing before it: rough" in refused.value.faults[0].likely
    hand.cut(5)
    for name in ("full", "trial"):
        with pytest.raises(Refusal):
            hand.write("begin", pass_name=name)
    with pytest.raises(Refusal):
        hand.write("cut", 1, pass_name="full")
    hand.cut(23)
    assert not finished(cutting, hand.progress)
    hand.write("cut", 1, pass_name="full")  # the first cut of the round that follows begins it
    assert (hand.progress.running, hand.progress.cut, hand.progress.done) == ("full", (1,), ("rough",))
    hand.cut(27)
    assert finished(cutting, hand.progress)
    with pytest.raises(Refusal):
        hand.write("cut", 1)


def test_a_way_in_blocks_keeps_its_own_order() -> None:
    hand = Hand(in_blocks())
    assert hand.cut(4).cut == (1, 4, 7, 10)
    with pytest.raises(Refusal) as refused:
        hand.write("order", order="spread")
    assert "3 spaces at each move" in refused.value.faults[0].likely


def test_a_changed_order_starts_where_it_says() -> None:
    hand = Hand(by_link())
    hand.write("order", start=41)
    assert hand.cut(57).cut == tuple(range(41, 98))
    assert hand.cut(1).cut[-1] == 1
    with pytest.raises(Refusal):
        hand.write("order", start=98)


def test_minutes_left_from_the_plan_and_then_from_the_pace() -> None:
    hand = Hand(by_link())
    hand.cut(5)
    assert minutes_left(hand.cutting, hand.progress) == pytest.approx(92 * 0.974)
    hand.cut(1)
    assert minutes_left(hand.cutting, hand.progress) == pytest.approx(91 * 0.5)
    hand.write("wait", seconds=600)
    hand.write("carry on", seconds=1200)
    hand.cut(2)
    assert minutes_left(hand.cutting, hand.progress) == pytest.approx(89 * 0.5)  # the break is no pace


def test_entries_of_the_other_gear_only_count_on() -> None:
    cutting = by_link()
    entries = (
        Entry(number=1, at=START, kind="cut", space=1),
        Entry(number=2, at=START, kind="cut", space=1, gear=2),
        Entry(number=3, at=START + timedelta(seconds=9), kind="cut", space=2),
    )
    made = follow(cutting, entries)
    assert (made.cut, made.last) == ((1, 2), 3)


def test_numbers_must_follow_one_another() -> None:
    for number in (0, 2, 7):
        with pytest.raises(Refusal):
            follow(by_link(), (Entry(number=number, at=START, kind="cut", space=1),))


@pytest.mark.parametrize(
    ("kind", "fields"),
    [
        ("note", {"text": "  "}),
        ("depth", {}),
        ("depth", {"depth": -1.0}),
        ("picked up", {}),
        ("count", {"forward": 61}),
        ("count", {"forward": -1, "back": 98}),
        ("closing", {}),
        ("begin", {}),
        ("begin", {"pass_name": "rough"}),
        ("order", {"order": "backwards"}),
    ],
)
def test_what_lacks_its_figure_is_refused(kind: str, fields: dict[str, object]) -> None:
    with pytest.raises(Refusal):
        Hand(by_link()).write(kind, **fields)


def test_an_entry_is_kept_and_read_back() -> None:
    entry = Entry(
        number=7, at=START, kind="count", gear=2, pass_name="full", order="spread", start=3, forward=1, back=96, gap=0.1, depth=4.5,
        span=49.3, offset=12.5, u=3.0, text="a",
    )  # fmt: skip
    assert entry_of(7, START, "count", None, payload_of(entry)) == entry
    with pytest.raises(Refusal):
        entry_of(7, START, "moved", None, {})
    with pytest.raises(Refusal):
        entry_of(7, START, "cut", 1, {"colour": "blue"})


@pytest.mark.parametrize(
    ("gap", "way", "said"),
    [
        (0.27, "pulses", "one tooth of the belt on the pulley of 60 is 0.27 mm"),
        (0.115, "pulses", "one cycle of the motor (4 full steps) is 0.11 mm"),
        (0.82, "simple", "one hole of 20 is 0.82 mm"),
        (3.0, "pulses", "No slip of this way of dividing has that size."),
    ],
)
def test_a_closing_gap_is_named_by_its_size(gap: float, way: str, said: str) -> None:
    """On the wheel's 209.55 mm: 9.0′ a belt tooth, 216″ a motor cycle, 27′ a hole of 20 (own figures of the job), by r times the angle."""
    slips = slip_sizes(museum_mill(), way, (20,) if way == "simple" else ())
    assert said in of_that_size(gap, 209.55, slips)
    hand = Hand(by_link(12))
    hand.cut(12)
    hand.write("closing", gap=gap)
    (found,) = doubts(hand.cutting, hand.progress, 209.55, slips)
    assert said in found.why
