"""The record sheet of the workshop's wheel, held word for word; written anew with EVENPITCH_GOLDEN=write."""

from __future__ import annotations

import math
import os
from pathlib import Path

from evenpitch.sheet.compose.record_sheet import compose_record_sheet
from evenpitch.sheet.print_pdf import pdf_bytes
from evenpitch.sheet.print_text import text
from job.inspection_cases import judged, scattered, spans, the_wheel

HELD = Path(__file__).with_name("loom-change-wheel-record.txt")


def _rows() -> list[str]:
    """Span thick; one flank in four rounds, with the waves of wheel and worm; a pin in every space."""
    angle = [2 * math.pi * place / 97 for place in range(98)]
    curve = [15 * math.sin(at + 0.35) + 5 * math.sin(40 * at) for at in angle]
    rows = spans()
    for turn in range(4):
        rows += [
            f"pitch step,{i + 1},right,,{(curve[i + 1] - curve[i] + scattered((turn + 3) * (i + 2))) / 1000:.4f}"
            for i in range(97)
        ]
    return [*rows, *(f"runout,{i + 1},,,{scattered(i + 5) / 1000:.4f}" for i in range(97))]


def test_the_record_sheet_reads_as_held() -> None:
    document = compose_record_sheet(the_wheel(), judged(_rows()), dated="12 March 2026")
    told = text(document)
    if os.environ.get("EVENPITCH_GOLDEN") == "write":
        HELD.write_text(told, encoding="utf-8")
    assert told == HELD.read_text(encoding="utf-8")
    assert pdf_bytes(document).startswith(b"%PDF")
