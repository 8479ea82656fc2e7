"""Bare numbers, whole numbers, ratios. The spellings are those met on old drawings and cards (common practice)."""

from fractions import Fraction

import pytest

from evenpitch.quantity.read_number import is_unknown, read_number, read_ratio, read_whole
from evenpitch.quantity.refusal import Refusal


@pytest.mark.parametrize(
    ("typed", "value"),
    [
        ("14.5", Fraction(29, 2)),
        ("14½", Fraction(29, 2)),
        ("14 ½", Fraction(29, 2)),
        ("14-½", Fraction(29, 2)),
        ("14 1/2", Fraction(29, 2)),
        ("1-3/8", Fraction(11, 8)),
        ("1 3/8", Fraction(11, 8)),
        ("1  3 / 8", Fraction(11, 8)),
        ("3/8", Fraction(3, 8)),
        ("⅞", Fraction(7, 8)),
        ("⅓", Fraction(1, 3)),
        (".375", Fraction(3, 8)),
        ("0,375", Fraction(3, 8)),
        (",375", Fraction(3, 8)),
        ("12,5", Fraction(25, 2)),
        ("1234,567", Fraction(1234567, 1000)),
        ("5.", Fraction(5)),
        ("192 000", Fraction(192000)),
        ("192\u202f000", Fraction(192000)),
        ("1 028.7651", Fraction(10287651, 10000)),
        ("−5", Fraction(-5)),
        ("-1 1/2", Fraction(-3, 2)),
        ("-½", Fraction(-1, 2)),
        ("+3", Fraction(3)),
        ("6.6e-5", Fraction(33, 500000)),
        ("  7  ", Fraction(7)),
        (7, Fraction(7)),
        (0.1, Fraction(1, 10)),
    ],
)
def test_numbers_are_taken_exactly(typed, value):
    assert read_number(typed, field="x") == value


@pytest.mark.parametrize(
    "typed",
    [
        "",
        "  ",
        "nan",
        "inf",
        "-",
        ".",
        "/",
        "1e999999",
        "1e31",
        "1/2e3",
        "--5",
        "+-5",
        "5-",
        "1 4/4",
        "1/0",
        "1 - 3/8",
        "1 -3/8",
        "½½",
        "½4",
        "1.5½",
        "1.2.3",
        "12 34",
        "12\t345",
        "12\n345",
        "5²",
        "٣",
        "１２",
        "x" * 201,
        "9" * 500,
        "1,",
        "1.234,5",
        "1,234,567",
        "twelve",
        "0x10",
        "1_000",
        True,
    ],
)
def test_what_is_not_one_number_is_refused(typed):
    with pytest.raises(Refusal) as caught:
        read_number(typed, field="shift")
    (fault,) = caught.value.faults
    assert fault.field == "shift"
    assert fault.expected
    assert fault.likely
    assert fault.do


@pytest.mark.parametrize("typed", ["1,234", "12,345", "999,000", "1,234 "])
def test_a_comma_before_three_digits_is_asked_back(typed):
    with pytest.raises(Refusal) as caught:
        read_number(typed, field="x")
    before, after = typed.strip().split(",")
    assert f"{before}.{after} or {before}{after}" in caught.value.faults[0].likely


def test_the_range_is_said_with_the_refusal():
    with pytest.raises(Refusal) as caught:
        read_number("3", field="shift", least=-1, most=Fraction(3, 2))
    assert caught.value.faults[0].expected == "a number from -1 to 1.5"
    assert "above 1.5" in caught.value.faults[0].likely
    with pytest.raises(Refusal, match="of at least 0"):
        read_number("-1", field="x", least=0)
    with pytest.raises(Refusal, match="of at most 5"):
        read_number("6", field="x", most=5)


def test_a_number_with_something_behind_it_is_refused():
    with pytest.raises(Refusal, match="'mm' is not part of a number"):
        read_number("5 mm", field="x")


def test_whole_numbers():
    assert read_whole("97", field="teeth", least=5, most=1000) == 97
    assert read_whole("97.0", field="teeth", least=5, most=1000) == 97
    assert read_whole("97 teeth", field="teeth", least=5, most=1000, words=("teeth",)) == 97
    assert read_whole(97, field="teeth", least=5, most=1000) == 97
    with pytest.raises(Refusal) as caught:
        read_whole("12.5", field="teeth", least=5, most=1000)
    assert caught.value.faults[0].given == "12.5"
    assert caught.value.faults[0].expected == "a whole number from 5 to 1000"
    for typed in ("4", "1001", "97 holes", "1e6"):
        with pytest.raises(Refusal):
            read_whole(typed, field="teeth", least=5, most=1000)


@pytest.mark.parametrize(
    ("typed", "value"),
    [("40", 40), ("40:1", 40), ("40 : 1", 40), ("40 to 1", 40), ("5/2", Fraction(5, 2)), ("5:2", Fraction(5, 2))],
)
def test_ratios(typed, value):
    assert read_ratio(typed, field="head, ratio") == value


def test_a_ratio_turned_over_is_asked_back():
    with pytest.raises(Refusal, match="Write 40:1"):
        read_ratio("1:40", field="head, ratio")
    assert read_ratio("1:40", field="plate turns", turned_over=True) == Fraction(1, 40)
    assert read_ratio("1:1", field="plate turns") == 1


@pytest.mark.parametrize("typed", ["0", "-40", "40:0", "40:1:1", "a:b", ":", "40:"])
def test_what_is_no_ratio_is_refused(typed):
    with pytest.raises(Refusal):
        read_ratio(typed, field="ratio")


@pytest.mark.parametrize(
    "typed", ["don't know", "dont know", "don’t know", "Don't Know.", "do not know", "unknown", "UNKNOWN", "?", "", "  ", None]
)
def test_dont_know_is_understood(typed):
    assert is_unknown(typed)


@pytest.mark.parametrize("typed", ["0", "none", "know", "20", 0])
def test_other_answers_are_known(typed):
    assert not is_unknown(typed)
