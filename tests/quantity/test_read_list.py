"""Lists of whole numbers."""

import pytest

from evenpitch.quantity.read_list import read_belt, read_circles, read_whole_list
from evenpitch.quantity.refusal import Refusal


@pytest.mark.parametrize("typed", ["24,24,28", "24, 24, 28", "24 24 28", "24;24;28", "24,24,28,", [24, 24, 28], ["24", 24, "28"]])
def test_lists(typed):
    assert read_whole_list(typed, field="change gears", least=8, most=300) == (24, 24, 28)


def test_an_empty_list_is_empty_unless_some_are_needed():
    assert read_whole_list("", field="change gears", least=8, most=300) == ()
    assert read_whole_list(24, field="change gears", least=8, most=300) == (24,)
    with pytest.raises(Refusal, match="at least 1"):
        read_whole_list([], field="circles", least=2, most=300, fewest=1)


def test_all_that_is_wrong_is_said_at_once():
    with pytest.raises(Refusal) as caught:
        read_whole_list("24, x, 2.5, 900", field="change gears", least=8, most=300)
    assert [fault.given for fault in caught.value.faults] == ["x", "2.5", "900"]


def test_circles():
    assert read_circles("15,16;21,23", field="circles") == ((15, 16), (21, 23))
    assert read_circles("15,16;\n21,23;", field="circles") == ((15, 16), (21, 23))
    assert read_circles([[15, 16], "21,23"], field="circles") == ((15, 16), (21, 23))
    with pytest.raises(Refusal) as caught:
        read_circles("15,x;21,0.5", field="circles")
    assert [fault.field for fault in caught.value.faults] == ["circles, plate 1", "circles, plate 2"]
    for typed in ("", ";", [], "15,1"):
        with pytest.raises(Refusal):
            read_circles(typed, field="circles")


@pytest.mark.parametrize(
    ("typed", "teeth"),
    [
        ("20:60", (20, 60)),
        ("20 : 60", (20, 60)),
        ("20/60", (20, 60)),
        ("20 to 60", (20, 60)),
        ("20 teeth : 60 teeth", (20, 60)),
        ("direct", (1, 1)),
    ],
)
def test_belts(typed, teeth):
    assert read_belt(typed, field="belt") == teeth


def test_a_belt_wants_tooth_counts():
    with pytest.raises(Refusal, match="Belt teeth are whole numbers: 20:60"):
        read_belt("1:2.5", field="belt")
    for typed in ("3", "20:60:1", "0:60", "a:b", ""):
        with pytest.raises(Refusal):
            read_belt(typed, field="belt")
