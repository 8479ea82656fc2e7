"""Plate drive where no circle divides: crank and motor together, told so that neither is mistaken for the other."""

from __future__ import annotations

from evenpitch.dividing.methods import Compound, PlatePulses
from evenpitch.sheet.compose.sheet import compose_sheet
from evenpitch.sheet.print_text import text
from job.shop import rig_of, rig_tables, wheel


def transposing():
    """127 teeth of module 1 on a rig without change gears, 64 000 pulses for a turn of the work."""
    tables = rig_tables("museum-mill-head-swing")
    tables.pop("change_gears")
    tables["link"]["belt"] = "1:1"
    return wheel(rig_of(tables), teeth=127, pitch="module 1", pressure_angle="20", face="10 mm", thinning="0.04 mm")


def test_what_divides_is_named_as_it_is_on_this_rig():
    made = transposing()
    chosen, by_hand = made.gears[0].indexing.chosen, made.gears[0].indexing.by_hand
    assert isinstance(chosen, PlatePulses)
    assert (chosen.crank(), chosen.counts) == ((0, 16, 5), ((3, 8), (4, 119)))
    assert isinstance(by_hand, Compound)
    told = {found.code: found for found in made.findings}
    assert told["no-simple"].says == "No circle divides 127 simply: differential by crank and motor, compound."
    assert told["plate-pulses"].do == "Never make this move with the motor's power off."


def test_the_sheet_of_crank_and_motor():
    sheet = text(compose_sheet(transposing()))
    assert "8 times 3, 119 times 4" in sheet
    assert "33.8′ (0.62 mm) out is one hole of 16" in sheet  # 360 x 60 / (16 x 40) minutes, on a radius of 63.5 mm
    assert "stop pin in, from the datum" in sheet
    assert 'by hand: 127 x (8 + 16/43 + 21/47) = 28 x 40 turns + 1/2021 turn; closes 16.03" past' in sheet
