"""The nomenclature: complete, consistent, and every example can be typed."""

import re
from fractions import Fraction

import pytest

from evenpitch.quantity import reading
from evenpitch.quantity.glossary import GLOSSARY
from evenpitch.quantity.names import all_names, field_named, fields, name_of
from evenpitch.quantity.physical_units import QUANTITIES
from evenpitch.sources.library import source_named

CONTRACT = """
teeth z · module m_n · diametral_pitch P · pressure_angle alpha_n · helix_angle beta · hand · profile_shift x · face_width b ·
transverse_module m_t · transverse_pressure_angle alpha_t · base_helix_angle beta_b · pitch_diameter d · outside_diameter d_a ·
root_diameter d_f · base_diameter d_b · addendum h_a · dedendum h_f · whole_depth h · circular_pitch p · base_pitch p_b · lead p_z ·
tooth_thickness s · spanned_teeth k · span W_k · span_face_needed · pin_diameter D_M · over_pins M · over_balls · chordal_thickness ·
chordal_height · caliper_points · caliper_jaws · virtual_teeth · cutter_form_teeth · table_swing · depth_from_touch · cutter_speed ·
table_feed · time_per_space · job_time · centre_distance a · working_pressure_angle · contact_ratio · overlap_ratio ·
backlash_normal j_bn · backlash_normal_circular · backlash_circular j_t · pulses_per_turn · pulses_per_count · pulses_per_mm ·
single_pitch f_p · cumulative_pitch F_p · profile_total F_alpha · profile_form f_f_alpha · profile_slope f_H_alpha · helix_total F_beta ·
helix_form f_f_beta · helix_slope f_H_beta · runout F_r · span_nominal · over_pins_nominal · over_balls_nominal · chordal_thickness_nominal
"""
UNITS = {"", "mm", "deg", "arcsec", "um", "rpm", "mm/min", "N", "Nm", "s", "ppm"}
AVOIDED = re.compile(
    r"\b(steps?|homing|jog|setup|profiles?(?! shift)|defaults?|spirals?|preset|project|accuracy)\b", re.IGNORECASE
)


@pytest.mark.parametrize("entry", [entry.split() for entry in CONTRACT.split("·")], ids=lambda entry: entry[0])
def test_every_figure_of_the_contract_is_named(entry):
    name = name_of(entry[0])
    if len(entry) == 2:
        assert name.symbol == entry[1]


def test_names_are_unique_and_whole():
    names = all_names()
    assert len({name.word for name in names}) == len(names)
    for name in names:
        assert name.unit in UNITS, name.word
        assert name.help.endswith("."), name.word
        assert name.trade, name.word
        assert name.least <= name.most, name.word
        assert source_named(name.standard).key
        assert not AVOIDED.search(f"{name.help} {name.trade}"), name.word
        if name.unit != "mm" and name.unit != "mm/min":
            assert name.places_mm == name.places_inch, name.word
        else:
            assert name.places_mm <= name.places_inch, name.word  # an inch is the longer unit


def test_printed_symbols_are_greek():
    assert name_of("base_helix_angle").printed() == "β_b"
    assert name_of("profile_total").printed() == "F_α"
    assert name_of("pitch_diameter").printed() == "d"


def test_unknown_names_are_a_key_error():
    with pytest.raises(KeyError):
        name_of("size of the moon")
    with pytest.raises(KeyError):
        field_named("gear", "colour")


def test_fields_are_unique_and_whole():
    found = fields()
    assert len({(field.table, field.word) for field in found}) == len(found)
    for field in found:
        assert field.help.endswith((".", "?")), field.word
        assert field.label, field.word
        assert (field.kind == "choice") == (bool(field.choices) and field.kind != "yes or no"), field.word
        assert field.least is None or field.most is None or field.least < field.most, field.word
        assert not AVOIDED.search(f"{field.label} {field.help}"), field.word
    assert [field.word for field in fields("pair")] == ["centre_distance", "backlash"]


TYPED = [(field, typed) for field in fields() for typed in (field.example, field.usual) if typed]


@pytest.mark.parametrize(
    ("field", "typed"), TYPED, ids=lambda part: part if isinstance(part, str) else f"{part.table}.{part.word}"
)
def test_every_example_and_usual_value_can_be_typed_and_lies_in_its_range(field, typed):
    for value in _values(field, typed):
        assert field.least is None or value >= Fraction(field.least)
        assert field.most is None or value <= Fraction(field.most)


def _values(field, typed):
    kind, name = field.kind, field.label
    if kind in QUANTITIES:
        return [read_list_of(kind, typed, name)]
    if kind == "choice":
        assert typed in field.choices
        return []
    if kind == "whole":
        return [reading.read_whole(typed, field=name, least=int(field.least), most=int(field.most))]
    if kind == "number":
        return [reading.read_number(typed, field=name)]
    if kind == "ratio":
        return [reading.read_ratio(typed, field=name)]
    if kind == "length":
        return [reading.read_length(typed, field=name)]
    if kind == "angle":
        return [reading.read_angle(typed, field=name)]
    if kind == "whole list":
        return reading.read_whole_list(typed, field=name, least=1, most=1000)
    if kind == "circles":
        return [hole for plate in reading.read_circles(typed, field=name) for hole in plate]
    if kind == "length list":
        return [reading.read_length(part, field=name) for part in typed.split(";")]
    if kind == "feed list":
        return [read_list_of("feed", part, name) for part in typed.split(";")]
    if kind == "rotation list":
        return [read_list_of("rotation", part, name) for part in typed.split(",")]
    if kind == "pitch":
        assert reading.read_pitch(typed, field=name)
    elif kind == "limits":
        assert reading.read_limits(typed, field=name)
    elif kind == "belt":
        assert reading.read_belt(typed, field=name)
    else:
        assert kind in {"text", "date", "dial", "harmonics", "length range", "train", "yes or no"}
    return []


def read_list_of(kind, typed, name):
    return reading.read_physical(typed, kind, field=name, bare={"frequency": "Hz", "rotation": "rpm"}.get(kind))


def test_the_glossary_is_in_order_and_sourced():
    terms = [term.term for term in GLOSSARY]
    assert terms == sorted(terms, key=str.casefold)
    assert len(set(terms)) == len(terms)
    for term in GLOSSARY:
        assert source_named(term.source).key
        assert term.meaning
        assert not AVOIDED.search(term.meaning), term.term
