"""What holds for every head, every plate, every box of gears and every count."""

from __future__ import annotations

from fractions import Fraction
from itertools import islice
from math import gcd

from hypothesis import given, settings
from hypothesis import strategies as st

from evenpitch.dividing.closing import closing
from evenpitch.dividing.lead import trains_for_lead
from evenpitch.dividing.methods import Block, Compound, Differential, PlatePulses, Pulses, Simple
from evenpitch.dividing.order import spread_order
from evenpitch.dividing.positions import positions
from evenpitch.dividing.pulses import plate_drive, pulse_way
from evenpitch.dividing.trains import trains_by_ratio
from evenpitch.dividing.ways import ways
from evenpitch.rig.head import ChangeGears, Head, Plate

HEADS = st.sampled_from([40, 60, 72, 80, 90, 120, 5]).map(lambda ratio: Head(ratio=Fraction(ratio), direct=24))
PLATES = st.lists(st.integers(10, 70), min_size=1, max_size=4, unique=True).map(lambda circles: (Plate(tuple(circles)),))
BOXES = st.lists(st.integers(20, 100), min_size=0, max_size=6).map(lambda teeth: ChangeGears(tuple(sorted(teeth))))
COUNTS = st.integers(1, 400)
TOTALS = st.fractions(min_value=400, max_value=200_000, max_denominator=7)


@settings(max_examples=60, deadline=None)
@given(COUNTS, HEADS, PLATES, BOXES, TOTALS)
def test_all_moves_add_up_to_the_whole_turns(
    divisions: int, head: Head, plates: tuple[Plate, ...], box: ChangeGears, total: Fraction
) -> None:
    for way in ways(divisions, head, plates, box, total):
        assert gcd(way.skip, divisions) == 1 or divisions == 1
        if isinstance(way, Pulses | PlatePulses):
            continue
        wanted = head.ratio * way.skip
        made = divisions * (way.wanted + way.move_error)
        assert abs(made - wanted) * 1_296_000 / head.ratio <= 60
        if isinstance(way, Simple | Block):
            assert divisions * way.crank_turns() == made
        elif isinstance(way, Compound):
            assert divisions * (way.crank_turns() + way.plate_turns()) == made
            assert 0 < way.spaces < way.circle
            assert 0 < way.plate_spaces < way.plate_circle
        elif isinstance(way, Differential) and way.exact:
            assert divisions * way.crank_turns() + way.plate_turns_per_work_turn() == wanted
            assert way.mountings()


@settings(max_examples=60, deadline=None)
@given(COUNTS, HEADS, TOTALS)
def test_no_space_is_further_out_than_half_a_pulse(divisions: int, head: Head, total: Fraction) -> None:
    way = pulse_way(divisions, head, total)
    targets = way.targets()
    assert all(abs(target - k * total / divisions) <= Fraction(1, 2) for k, target in enumerate(targets))
    assert sum(size * moves for size, moves in way.counts) == targets[-1]
    assert sum(moves for _, moves in way.counts) == divisions


@settings(max_examples=30, deadline=None)
@given(st.integers(2, 200), HEADS, PLATES)
def test_crank_and_plate_pulses_make_the_turn(divisions: int, head: Head, plates: tuple[Plate, ...]) -> None:
    for way in plate_drive(divisions, head, plates, Fraction(192_000))[:20]:
        assert divisions * way.crank_turns() + way.plate_turns_per_work_turn() == head.ratio
        assert abs(way.closing) <= Fraction(1, 2)
        assert way.targets()[-1] - way.pulses_in_all == way.closing


@settings(max_examples=40, deadline=None)
@given(COUNTS, HEADS, PLATES)
def test_every_run_table_visits_each_space_once_and_comes_home(divisions: int, head: Head, plates: tuple[Plate, ...]) -> None:
    for way in islice(ways(divisions, head, plates), 6):
        table = list(positions(way, divisions))
        assert sorted(at.space for at in table[:-1]) == list(range(1, divisions + 1))
        assert table[-1].space == 1
        assert sum(many for _, many in closing(way, divisions).pitch_errors) == divisions


@given(st.integers(1, 3000))
def test_the_spread_order_leaves_no_space_out(divisions: int) -> None:
    assert sorted(spread_order(divisions)) == list(range(1, divisions + 1))


@settings(max_examples=40, deadline=None)
@given(BOXES)
def test_no_train_uses_a_gear_more_often_than_owned(box: ChangeGears) -> None:
    for (top, bottom), trains in trains_by_ratio(box).items():
        for train in trains:
            assert train.ratio() == Fraction(top, bottom)
            used = train.drivers + train.driven
            assert all(used.count(gear) <= box.teeth.count(gear) for gear in used)


@settings(max_examples=40, deadline=None)
@given(st.floats(10, 5000), BOXES, st.integers(1, 30))
def test_leads_got_are_nearest_and_in_order(lead: float, box: ChangeGears, most: int) -> None:
    head = Head(ratio=Fraction(40))
    found = trains_for_lead(lead, head, Fraction(6), box, most=most)
    errors = [abs(way.error_ppm) for way in found]
    assert errors == sorted(errors)
    every = [abs(240 / (Fraction(*ratio)) / Fraction(lead) - 1) for ratio in trains_by_ratio(box)]
    if every:
        assert errors[0] == float(min(every) * 1_000_000)
