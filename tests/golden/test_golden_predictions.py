"""The prediction of a 24-tooth helical gear on each of the four invented rigs, held word for word; see test_golden.py."""

from __future__ import annotations

import os
from pathlib import Path

import pytest

from evenpitch.job.predicting import predict
from evenpitch.sheet.compose.prediction import compose_prediction
from evenpitch.sheet.print_text import text
from job.shop import order
from link.typed_rigs import typed

HERE = Path(__file__).parent
GEAR = {
    "teeth": 24,
    "pitch": "mn 2",
    "pressure_angle": "20",
    "helix": "20",
    "hand": "right",
    "face": "25 mm",
    "tolerance_class": 7,
}


@pytest.mark.parametrize("letter", ["A", "B", "C", "C+"])
def test_the_prediction_reads_as_it_did(letter: str) -> None:
    found = predict(order([{**GEAR, "material": "mild steel"}], typed(letter)), 2000, 1)
    file = HERE / f"prediction-rig-{letter.lower().replace('+', '-mended')}.txt"
    shown = text(compose_prediction(found))
    if os.environ.get("EVENPITCH_GOLDEN") == "write":
        file.write_text(shown, encoding="utf-8")
    assert shown == file.read_text(encoding="utf-8")
