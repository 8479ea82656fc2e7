"""What is shown reads back, what is read is exact, and nothing typed breaks a reader: it is taken, or refused in four parts."""

from fractions import Fraction

import pytest
from hypothesis import given
from hypothesis import strategies as st

from evenpitch.quantity import showing
from evenpitch.quantity.names import all_names
from evenpitch.quantity.numeral import VULGAR
from evenpitch.quantity.pitch import Pitch
from evenpitch.quantity.ratios import absolute_targets, best_bounded, round_half_up
from evenpitch.quantity.reading import (
    is_unknown,
    read_angle,
    read_belt,
    read_circles,
    read_gear_line,
    read_length,
    read_limits,
    read_number,
    read_physical,
    read_pitch,
    read_ratio,
    read_whole,
    read_whole_list,
)
from evenpitch.quantity.refusal import Refusal
from evenpitch.quantity.units import INCH

lengths = st.floats(-1e7, 1e7, allow_nan=False)
fractions = st.fractions(-1000, 1000, max_denominator=128)
places = st.integers(0, 7)


@given(lengths, places)
def test_millimetres_shown_read_back(value, digits):
    assert abs(read_length(showing.mm(value, digits), field="x") - Fraction(value)) <= Fraction(1, 2 * 10**digits)


@given(lengths, places)
def test_inches_shown_read_back(value, digits):
    assert abs(read_length(showing.inch(value, digits), field="x") - Fraction(value)) <= INCH / (2 * 10**digits)


@given(lengths, st.integers(0, 3))
def test_thou_shown_read_back(value, digits):
    assert abs(read_length(showing.thou(value, digits), field="x") - Fraction(value)) <= INCH / 1000 / (2 * 10**digits)


@given(lengths, st.integers(0, 3))
def test_micrometres_shown_read_back(value, digits):
    assert abs(read_length(showing.um(value, digits), field="x") * 1000 - Fraction(value)) <= Fraction(1, 2 * 10**digits)


@given(st.floats(-3600, 3600, allow_nan=False))
def test_degrees_minutes_seconds_shown_read_back(value):
    assert abs(read_angle(showing.dms(value), field="x") - Fraction(value)) <= Fraction(1, 7200)


@given(st.floats(-3600, 3600, allow_nan=False), places)
def test_degrees_and_seconds_of_arc_shown_read_back(value, digits):
    assert abs(read_angle(showing.degrees_text(value, digits), field="x") - Fraction(value)) <= Fraction(1, 2 * 10**digits)
    assert abs(read_angle(showing.arcsec(value, digits), field="x") * 3600 - Fraction(value)) <= Fraction(1, 2 * 10**digits)


@given(st.sampled_from([name for name in all_names() if name.unit == "mm"]), lengths, st.sampled_from(["metric", "inch"]))
def test_a_length_shown_by_its_name_reads_back(name, value, system):
    unit, digits = (Fraction(1), name.places_mm) if system == "metric" else (INCH, name.places_inch)
    assert abs(read_length(showing.show(name.word, value, system), field="x") - Fraction(value)) <= unit / (2 * 10**digits)


@given(fractions)
def test_mixed_numbers_read_back_exactly(value):
    assert read_number(showing.mixed_number(value), field="x") == value


@given(st.integers(-(10**15), 10**15))
def test_grouped_whole_numbers_read_back_exactly(value):
    assert read_number(showing.grouped(value), field="x") == value
    assert read_whole(showing.grouped(value), field="x", least=-(10**15), most=10**15) == value


@given(st.fractions(0, 3000, max_denominator=10**6), places)
def test_what_is_shown_never_reads_minus_nought(value, digits):
    shown = showing.number(-value, digits)
    assert shown.startswith(showing.MINUS) == (read_number(shown, field="x") != 0)


@given(st.integers(0, 500), st.integers(1, 63), st.sampled_from([2, 4, 8, 16, 32, 64]), st.sampled_from([" ", "-"]))
def test_every_spelling_of_a_mixed_inch_is_the_same_length(whole, over, under, join):
    part = Fraction(over % under or 1, under) if under > 1 else Fraction(0)
    wanted = (whole + part) * INCH
    text = f"{whole}{join}{part.numerator}/{part.denominator}"
    assert (
        read_length(f"{text} in", field="x")
        == read_length(f'{text}"', field="x")
        == read_length(text, field="x", bare="in")
        == wanted
    )
    assert read_length(f"{float(whole + part)!r} in", field="x") == wanted


@given(st.decimals(0, 10**6, places=4))
def test_both_decimal_marks_are_the_same_number(value):
    text = f"{value:f}"
    assert read_number(text, field="x") == read_number(text.replace(".", ","), field="x") == Fraction(text)


@given(st.integers(1, 999), st.integers(0, 999))
def test_one_comma_and_three_digits_is_never_guessed(before, after):
    for text in (f"{before},{after:03}", f"{before},{after:03} mm", f"-{before},{after:03}"):
        with pytest.raises(Refusal) as caught:
            read_length(text, field="x")
        assert f"{before}.{after:03} or {before}{after:03}" in caught.value.faults[0].likely


@given(
    st.fractions("1/3", 60, max_denominator=64),
    st.sampled_from(["module", "diametral pitch"]),
    st.sampled_from(["normal", "transverse"]),
)
def test_a_pitch_reads_back_from_its_words(value, kind, plane):
    pitch = Pitch(kind, Fraction(round_half_up(value * 1000), 1000), plane, inch=kind == "diametral pitch")
    assert read_pitch(pitch.words(), field="pitch") == pitch


@given(st.fractions("1/4", 4, max_denominator=64), st.booleans())
def test_a_circular_pitch_reads_back_from_its_words(value, inch):
    pitch = Pitch("circular pitch", value * INCH if inch else Fraction(round_half_up(value * 1000), 1000), inch=inch)
    assert read_pitch(pitch.words(), field="pitch") == pitch


READERS = (
    read_number,
    read_length,
    read_angle,
    read_pitch,
    read_limits,
    read_ratio,
    read_belt,
    read_circles,
    read_gear_line,
    lambda text, field: read_physical(text, "torque", field=field),
    lambda text, field: read_physical(text, "temperature", field=field),
    lambda text, field: read_whole(text, field=field, least=1, most=100),
    lambda text, field: read_whole_list(text, field=field, least=1, most=100),
)
WORDS = (
    "1",
    "2.5",
    "½",
    "14½",
    "3/4",
    "in",
    "mm",
    "thou",
    "tenths",
    "mil",
    "a",
    "half",
    "of",
    "DP",
    "module",
    "mn",
    "mt",
    "transverse",
    "circular",
    "pitch",
    "t",
    "teeth",
    "face",
    "helix",
    "20°",
    "right",
    "hand",
    "Nm",
    "°",
    "'",
    '"',
    "-",
    ",",
    "=",
    ":",
    "1e9",
)
typed = st.one_of(
    st.text(max_size=250),
    st.text(alphabet="0123456789.,/- +eE°'\"½⅜dms:;=()" + VULGAR, max_size=30),
    st.lists(
        st.sampled_from(WORDS),
        max_size=12,
    ).map(" ".join),
)


@given(st.sampled_from(READERS), typed)
def test_anything_typed_is_taken_or_refused_in_four_parts(read, text):
    try:
        read(text, field="what was asked")
    except Refusal as refusal:
        for fault in refusal.faults:
            assert fault.field.startswith("what was asked")
            assert fault.expected
            assert fault.likely
            assert fault.do
            assert len(fault.given) <= 80


@given(st.text(max_size=40))
def test_dont_know_never_takes_a_number_for_ignorance(text):
    if any(ch.isdigit() for ch in text):
        assert not is_unknown(text)


@given(st.integers(1, 10**6), st.integers(1, 300))
def test_absolute_targets_close_and_never_stray(total, divisions):
    targets = absolute_targets(total, divisions)
    assert (targets[0], targets[-1], len(targets)) == (0, total, divisions + 1)
    assert all(2 * abs(target * divisions - k * total) <= divisions for k, target in enumerate(targets))


@given(st.fractions("1/10000", 10000), st.integers(1, 10**5), st.integers(1, 10**5))
def test_the_best_fraction_is_within_bounds_and_no_farther_than_the_rounded_ones(value, num, den):
    best = best_bounded(value, num, den)
    assert 1 <= best.numerator <= num
    assert 1 <= best.denominator <= den
    for q in {1, den, min(den, 7), min(den, 113)}:
        rounded = Fraction(min(max(round_half_up(value * q), 1), num), q)
        assert abs(best - value) <= abs(rounded - value)
