"""DXF files open, audit clean, measure in millimetres and keep lines on the layers of their classes."""

from __future__ import annotations

from pathlib import Path

import ezdxf
import pytest
from ezdxf import bbox

from evenpitch.sheet.drawing import Arc, Drawing, Label, Line
from evenpitch.sheet.print_dxf import dxf_bytes
from sheet.every_block import LINES, drawing


def opened(shown: Drawing, folder: Path) -> ezdxf.document.Drawing:
    file = folder / "drawing.dxf"
    file.write_bytes(dxf_bytes(shown))
    return ezdxf.readfile(file)


def test_opens_and_audits_clean(tmp_path: Path) -> None:
    document = opened(drawing(), tmp_path)
    audit = document.audit()
    assert not audit.errors
    assert not audit.fixes
    assert document.dxfversion == "AC1024"
    assert document.units == ezdxf.units.MM


def test_layers_bear_the_names_of_the_line_classes(tmp_path: Path) -> None:
    document = opened(drawing(), tmp_path)
    assert set(LINES) <= {layer.dxf.name for layer in document.layers}
    assert document.layers.get("thick").dxf.lineweight == 50
    assert document.layers.get("centre").dxf.linetype == "EVENPITCH_CENTRE"
    used = {entity.dxf.layer for entity in document.modelspace()}
    assert used >= {*LINES, "text", "hatching"} - {"none"}


def test_sizes_are_kept(tmp_path: Path) -> None:
    shown = Drawing(
        "k", "t", "d", 300, 300, (Line((-104.775, 0), (104.775, 0), "thick"), Arc((0, 0), 104.775, 0, 180)), corner=(-150, -150)
    )
    box = bbox.extents(opened(shown, tmp_path).modelspace())
    assert box.size.x == pytest.approx(209.55, abs=1e-9)
    assert box.extmax.y == pytest.approx(104.775, abs=1e-9)


def test_lettering_by_its_capitals_and_lines_one_beneath_the_other(tmp_path: Path) -> None:
    shown = Drawing("k", "t", "d", 100, 100, (Label((10, 50), "209.55 mm\n8.2500 in", size=10),), pen=0.5)
    first, second = opened(shown, tmp_path).modelspace().query("TEXT")
    assert first.dxf.height == pytest.approx(3.65)
    assert second.dxf.insert.y == pytest.approx(50 - 5.9)
