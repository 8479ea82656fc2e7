"""Speeds, torques and other quantities. A pound is 0.45359237 kg, standard gravity 9.80665 m/s2, both by definition (from memory)."""

import pytest

from evenpitch.quantity.physical_units import QUANTITIES
from evenpitch.quantity.read_physical import read_physical
from evenpitch.quantity.refusal import Refusal

LBF = 0.45359237 * 9.80665


@pytest.mark.parametrize(
    ("typed", "kind", "value"),
    [
        ("3 in/min", "feed", 76.2),
        ("3 ipm", "feed", 76.2),
        ('3"/min', "feed", 76.2),
        ("4½ in/min", "feed", 114.3),
        ("100 inches per minute", "feed", 2540),
        ("1 mm/s", "feed", 60),
        ("60 mm/min", "feed", 60),
        ("1 m/min", "feed", 1000),
        ("2 thou per tooth", "feed per tooth", 0.0508),
        ("0.05 mm", "feed per tooth", 0.05),
        ("60 fpm", "cutting speed", 18.288),
        ("60 ft/min", "cutting speed", 18.288),
        ("60 feet a minute", "cutting speed", 18.288),
        ("60 sfm", "cutting speed", 18.288),
        ("18 m/min", "cutting speed", 18),
        ("600 rpm", "rotation", 600),
        ("10 rev/s", "rotation", 600),
        ("600 min-1", "rotation", 600),
        ("0.12 Nm", "torque", 0.12),
        ("0.12 N m", "torque", 0.12),
        ("0.12 N·m", "torque", 0.12),
        ("120 mNm", "torque", 0.12),
        ("16 ozf in", "torque", LBF * 0.0254),
        ("16 oz-in", "torque", LBF * 0.0254),
        ("1 lbf in", "torque", LBF * 0.0254),
        ("1 lbf ft", "torque", LBF * 0.3048),
        ("1 kgf cm", "torque", 0.0980665),
        ("4 N", "force", 4),
        ("1 kgf", "force", 9.80665),
        ("1 kg", "force", 9.80665),
        ("1 lbf", "force", LBF),
        ("16 ounces", "force", LBF),
        ("5 ms", "time", 0.005),
        ("5 seconds", "time", 5),
        ("2 minutes", "time", 120),
        ("68 °F", "temperature", 20),
        ("20 °C", "temperature", 20),
        ("20C", "temperature", 20),
        ("-40 F", "temperature", -40),
        ("293.15 K", "temperature", 20),
        ("9 °F", "temperature difference", 5),
        ("2 K", "temperature difference", 2),
        ("48 V", "voltage", 48),
        ("4 A", "current", 4),
        ("800 mA", "current", 0.8),
        ("3.5 mH", "inductance", 0.0035),
        ("0.7 ohm", "resistance", 0.7),
        ("0.7 \u03a9", "resistance", 0.7),
        ("0.7 \u2126", "resistance", 0.7),
        ("6.6e-5 kg m2", "inertia", 6.6e-5),
        ("660 g·cm²", "inertia", 6.6e-5),
        ("660 g cm^2", "inertia", 6.6e-5),
        ("0.66 kg cm2", "inertia", 6.6e-5),
        ("16 kHz", "frequency", 16000),
        ("16000 pulses a second", "frequency", 16000),
        ("16 000 /s", "frequency", 16000),
        ("10 per second", "frequency", 10),
        ("60 turns/min", "frequency", 1),
        ("5 %", "share", 0.05),
        ("5 per cent", "share", 0.05),
        ("50 ppm", "share", 5e-5),
        ("0.6", "share", 0.6),
    ],
)
def test_quantities(typed, kind, value):
    assert read_physical(typed, kind, field="x") == pytest.approx(value, rel=1e-12)


def test_a_bare_number_is_in_the_unit_of_the_field_or_asked_back():
    assert read_physical("16000", "frequency", field="x", bare="Hz") == 16000
    assert read_physical(48, "voltage", field="x", bare="V") == 48
    with pytest.raises(Refusal, match="The unit is missing"):
        read_physical("5", "time", field="latency")


@pytest.mark.parametrize(
    ("typed", "kind"),
    [
        ("3 Nm", "force"),
        ("-3 N", "force"),
        ("5 mm", "feed"),
        ("", "time"),
        ("5 parsec", "time"),
        ("1,234 V", "voltage"),
        ("V", "voltage"),
    ],
)
def test_what_is_no_such_quantity_is_refused(typed, kind):
    with pytest.raises(Refusal):
        read_physical(typed, kind, field="x")


@pytest.mark.parametrize("kind", QUANTITIES)
def test_the_examples_of_every_kind_can_be_typed(kind):
    quantity = QUANTITIES[kind]
    for example in quantity.examples.replace(" or ", ", ").split(", "):
        assert read_physical(example, kind, field="x", bare="Hz" if kind == "frequency" else None) >= 0
