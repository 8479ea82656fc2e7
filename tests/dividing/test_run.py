"""The run table, the order that spreads the heat, the wall chart."""

from __future__ import annotations

from fractions import Fraction

import pytest

from dividing.shop import HEAD, PLATES, PULSES, TWELVE, plate
from evenpitch.dividing.chart import chart
from evenpitch.dividing.closing import closing
from evenpitch.dividing.methods import Compound, Differential, Direct, Method, PlatePulses, Pulses, Simple
from evenpitch.dividing.order import spread_order
from evenpitch.dividing.positions import positions
from evenpitch.dividing.pulses import pulse_way
from evenpitch.dividing.rank import turns_by_hand
from evenpitch.dividing.turns import move_text, turns_text
from evenpitch.dividing.ways import ways
from evenpitch.quantity.refusal import Refusal


def first(kind: type, divisions: int, **rest: object) -> Method:
    return next(way for way in ways(divisions, HEAD, PLATES, TWELVE, PULSES, **rest) if isinstance(way, kind))  # type: ignore[arg-type]


def test_pulse_targets_in_the_run_table() -> None:
    table = list(positions(first(Pulses, 97), 97))
    assert [(table[k].space, table[k].pulse) for k in (0, 1, 2, 3, 60, 61, 96, 97)] == [
        (1, 0), (2, 1979), (3, 3959), (4, 5938), (61, 118_763), (62, 120_742), (97, 190_021), (1, 192_000),
    ]  # the workshop's own sheet  # fmt: skip


def test_crank_positions_add_up() -> None:
    way = first(Simple, 28)
    table = list(positions(way, 28))
    assert [(at.turns, at.hole, at.circle) for at in table[:3]] == [(0, 0, 49), (1, 21, 49), (2, 42, 49)]
    assert (table[28].turns, table[28].hole, table[28].space) == (40, 0, 1)
    geared = list(positions(first(Differential, 97), 97))
    assert (geared[97].turns, geared[97].hole) == (38, 16)  # 38.8 turns against the plate


def test_skipped_spaces_come_once_each() -> None:
    way = first(Compound, 97)
    table = list(positions(way, 97))
    assert [at.space for at in table[:4]] == [1, 6, 11, 16]
    assert sorted(at.space for at in table[:-1]) == list(range(1, 98))
    assert table[-1].space == 1
    assert (table[2].turns, table[2].hole, table[2].plate_hole, table[2].plate_circle) == (3, 41, 8, 47)
    back = next(way for way in ways(69, HEAD, plate(23, 33)) if isinstance(way, Compound) and way.circle == 23)
    assert list(positions(back, 69))[1].plate_hole == 33 - 11


def test_nose_plate_and_plate_drive_positions() -> None:
    assert [at.hole for at in positions(first(Direct, 8), 8)] == [0, 3, 6, 9, 12, 15, 18, 21, 0]
    driven = list(positions(first(PlatePulses, 97, motor_on="plate drive"), 97))
    assert (driven[1].hole, driven[1].pulse, driven[97].pulse) == (8, 59, 5760)


@pytest.mark.parametrize("divisions", [*range(1, 30), 97, 360])
def test_every_space_once_in_the_spread_order(divisions: int) -> None:
    order = spread_order(divisions)
    assert sorted(order) == list(range(1, divisions + 1))
    assert order[0] == 1


def test_three_equidistant_first_then_midway() -> None:
    assert spread_order(12)[:6] == (1, 5, 9, 3, 7, 11)  # Modern Machine-Shop Practice, on originating wheels
    first_three = spread_order(97)[:3]
    assert first_three == (1, 33, 66)


def test_closing_of_a_way_that_is_exact() -> None:
    told = closing(first(Differential, 97), 97)
    assert (told.closing_arcsec, told.last_move, told.worst_space, told.pitch_errors) == (0, 0, 1, ((0.0, 97),))
    assert closing(pulse_way(1, HEAD, PULSES), 1).pitch_errors == ((0.0, 1),)


def test_chart_of_the_workshop() -> None:
    rows = {row.divisions: row for row in chart(2, 400, HEAD, PLATES, TWELVE, PULSES)}
    assert list(rows) == list(range(2, 401))
    assert {n for n, row in rows.items() if not (row.simple or row.direct or (row.differential and row.differential.exact))} == {
        383
    }
    assert all(row.best() and row.motor for row in rows.values())
    prime = rows[97]
    assert isinstance(prime.best(), Pulses)
    assert prime.by_hand() == prime.differential == first(Differential, 97)
    assert prime.compound == first(Compound, 97)
    assert rows[28].by_hand() == rows[28].simple == first(Simple, 28)
    exact = rows[57]
    assert exact.compound
    assert exact.compound.exact
    near = rows[383]
    assert near.differential
    assert 0 < abs(near.differential.closing_error_arcsec) <= 60


def test_chart_without_a_motor_or_with_it_on_the_plate() -> None:
    bare = chart(95, 98, HEAD, PLATES, TWELVE)
    assert all(row.motor is None for row in bare)
    assert [row.best() for row in bare] == [row.by_hand() for row in bare]
    plate_row = {row.divisions: row for row in chart(97, 98, HEAD, PLATES, TWELVE, PULSES, motor_on="plate drive")}
    assert isinstance(plate_row[97].motor, PlatePulses)
    assert plate_row[98].motor is None
    with pytest.raises(Refusal, match="smaller count first"):
        chart(9, 8, HEAD, PLATES, TWELVE)


def test_turns_in_words() -> None:
    assert [turns_text(Fraction(text)) for text in ("194/5", "452/11", "12/11", "6/11", "-7/3", "40", "0")] == [
        "38.8", "41 1/11", "1 1/11", "6/11", "-2 1/3", "40", "0",
    ]  # fmt: skip
    assert [move_text(*move) for move in ((1, 21, 9), (5, 20, 0), (0, 20, 8), (0, 20, 0))] == [
        "1 turn + 9 of 21", "5 turns", "8 of 20", "none",
    ]  # fmt: skip


def test_a_plate_moved_back_is_turned_twice() -> None:
    found = [way for way in ways(53, HEAD, PLATES, everything=True) if isinstance(way, Compound)]
    assert all(turns_by_hand(way) == int(way.crank_turns() + abs(way.plate_turns())) for way in found)
