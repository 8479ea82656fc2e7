"""The common shape of every answer: exact ratios as strings, twelve digits, nothing that is not JSON."""

from __future__ import annotations

import json
from fractions import Fraction

import numpy as np
import pytest

from evenpitch.quantity.figure import Figure
from evenpitch.quantity.refusal import Fault
from evenpitch.sheet.answers import answer, dumps, figures_json, plain, value_json
from sheet.every_block import PITCH, STOP


def test_values() -> None:
    assert value_json(Fraction(40, 113)) == "40/113"
    assert value_json(205.31666666666666) == 205.316666667
    assert value_json(97) == 97
    assert value_json("left") == "left"


def test_figures_by_name_with_their_sources() -> None:
    shown = figures_json((PITCH, Figure("link_ratio", Fraction(215, 576))))
    assert shown["pitch_diameter"] == {
        "value": 59.594,
        "unit": "mm",
        "symbol": "d",
        "source": ["ISO 21771:2007"],
        "formula": "d = z m_n / cos β",
        "inputs": {"z": "28", "β": "20°"},
        "note": "Of the wheel, not of the blank.",
    }
    assert shown["link_ratio"] == {"value": "215/576", "unit": "", "symbol": "", "source": []}


def test_the_whole_answer_is_one_object() -> None:
    fault = Fault("teeth", "12.5", "a whole number", "A slip.", "Type 12 or 13.")
    shown = json.loads(
        dumps(answer("gear", (PITCH,), (STOP,), (fault,), moves={1979: 60}, ratio=Fraction(7, 5), tip_um=np.float64(1 / 3)))
    )
    assert list(shown)[:5] == ["evenpitch", "command", "figures", "findings", "refusals"]
    assert shown["findings"][0]["weight"] == "stop"
    assert shown["refusals"] == [
        {"field": "teeth", "given": "12.5", "expected": "a whole number", "likely": "A slip.", "do": "Type 12 or 13."}
    ]
    assert shown["moves"] == {"1979": 60}
    assert shown["ratio"] == "7/5"
    assert shown["tip_um"] == 0.333333333333


def test_nests_of_figures_and_findings() -> None:
    assert plain({"a": (PITCH,), "b": [STOP]})["a"][0]["value"] == 59.594


def test_what_is_no_number_is_our_own_fault() -> None:
    with pytest.raises(ValueError, match="JSON"):
        dumps(answer("gear", (Figure("span", float("nan"), "mm"),)))
