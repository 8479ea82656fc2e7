"""Drawing -> DXF, for a drawing program or a cutter of templates: millimetres, one layer for each class of line.

The layers bear the names of the line classes, with their widths and dashes; text and hatchings have layers of their own.
Colours are left to the reader (number 7: black on white, white on black).
"""

from __future__ import annotations

import io
import math
from typing import TYPE_CHECKING, assert_never

from evenpitch.sheet.drawing import Arc, Arrow, Block, Circle, Drawing, Filling, Item, Label, Line, Path, Point
from evenpitch.sheet.strokes import DASHES, HATCHES, WIDTHS, arrow_heads, arrow_shaft, block_outline

if TYPE_CHECKING:
    from ezdxf.document import Drawing as DxfDocument
    from ezdxf.entities import Hatch
    from ezdxf.layouts.layout import Modelspace

VERSION = "R2010"
TEXT_LAYER, HATCH_LAYER = "text", "hatching"

WEIGHTS = {"thick": 50, "medium": 35, "thin": 18, "dashed": 35, "other": 25, "centre": 18, "movement": 50, "none": 18}
"""Line weights of the layers, hundredths of a millimetre: the nearest that the format has to the widths on paper."""

CAPITAL = 0.73
"""Height of a capital in sizes of its lettering; DXF gives text by its capitals."""


def dxf_bytes(drawing: Drawing) -> bytes:
    """The drawing as a DXF file; one unit of the drawing is one millimetre."""
    from ezdxf import units
    from ezdxf.filemanagement import new

    document = new(VERSION)
    document.units = units.MM
    document.header["$MEASUREMENT"] = 1
    _lay_out(document, drawing.pen)
    sheet = _Sheet(document.modelspace(), drawing.pen)
    for item in drawing.items:
        sheet.draw(item)
    stream = io.StringIO()
    document.write(stream)
    return stream.getvalue().encode(document.output_encoding)


def _lay_out(document: DxfDocument, pen: float) -> None:
    for cls, weight in WEIGHTS.items():
        linetype = "CONTINUOUS"
        dash = DASHES.get(cls) if cls in WIDTHS else None
        if dash:
            linetype = f"EVENPITCH_{cls.upper()}"
            document.linetypes.add(linetype, pattern=_pattern(dash, pen), description=cls)
        document.layers.add(cls, color=7, linetype=linetype, lineweight=weight)
    document.layers.add(TEXT_LAYER, color=7)
    document.layers.add(HATCH_LAYER, color=7, lineweight=WEIGHTS["thin"])


def _pattern(dash: tuple[float, ...], pen: float) -> list[float]:
    """Whole length, then strokes positive and gaps negative."""
    parts = [length * pen * (-1 if k % 2 else 1) for k, length in enumerate(dash)]
    return [sum(map(abs, parts)), *parts]


class _Sheet:
    """The model space being drawn into."""

    def __init__(self, space: Modelspace, pen: float) -> None:
        self.space, self.pen = space, pen

    def draw(self, item: Item) -> None:
        match item:
            case Line():
                self.space.add_line(item.start, item.end, dxfattribs={"layer": item.cls})
            case Arc():
                self.arc(item)
            case Circle():
                self.circle(item)
            case Path():
                self.path(item.points, item.cls, item.fill, item.closed)
            case Arrow():
                self.arrow(item)
            case Block():
                self.path(block_outline(item), "movement", "none", closed=True)
            case Label():
                self.label(item)
            case _:
                assert_never(item)

    def arc(self, item: Arc) -> None:
        if abs(item.end - item.start) >= 360:
            self.space.add_circle(item.centre, item.radius, dxfattribs={"layer": item.cls})
        else:
            self.space.add_arc(item.centre, item.radius, item.start, item.end, dxfattribs={"layer": item.cls})

    def circle(self, item: Circle) -> None:
        hatch = self.hatch(item.fill)
        if hatch is not None:
            hatch.paths.add_edge_path().add_arc(item.centre, item.radius)
        if item.cls != "none":
            self.space.add_circle(item.centre, item.radius, dxfattribs={"layer": item.cls})

    def path(self, points: tuple[Point, ...], cls: str, fill: Filling, closed: bool) -> None:
        if not points:
            return
        hatch = self.hatch(fill) if len(points) > 2 else None
        if hatch is not None:
            hatch.paths.add_polyline_path(points, is_closed=True)
        if cls != "none" and len(points) > 1:
            self.space.add_lwpolyline(points, close=closed, dxfattribs={"layer": cls})

    def hatch(self, fill: Filling) -> Hatch | None:
        """The hatching of a filling; paper, wash and nothing are left to the reader's ground."""
        if fill == "ink":
            return self.space.add_hatch(color=7, dxfattribs={"layer": HATCH_LAYER})
        if fill not in HATCHES:
            return None
        apart, angle = HATCHES[fill]
        hatch = self.space.add_hatch(color=7, dxfattribs={"layer": HATCH_LAYER})
        offset = _across(apart * self.pen, angle)
        hatch.set_pattern_fill(f"EVENPITCH_{fill.upper()}", definition=[[angle, (0.0, 0.0), offset, []]])
        return hatch

    def arrow(self, item: Arrow) -> None:
        self.path(arrow_shaft(item, self.pen), item.cls, "none", closed=False)
        for head in arrow_heads(item, self.pen):
            self.path(head, "none", "ink", closed=True)

    def label(self, item: Label) -> None:
        from ezdxf.enums import TextEntityAlignment

        side = {"start": TextEntityAlignment.LEFT, "middle": TextEntityAlignment.CENTER, "end": TextEntityAlignment.RIGHT}
        height = item.size * self.pen * CAPITAL
        fall = _across(-item.size * self.pen * 1.18, item.turn)
        for k, line in enumerate(item.text.split("\n")):
            text = self.space.add_text(line, height=height, rotation=item.turn, dxfattribs={"layer": TEXT_LAYER})
            text.set_placement((item.at[0] + k * fall[0], item.at[1] + k * fall[1]), align=side[item.anchor])


def _across(distance: float, angle: float) -> Point:
    """That far to the left of the direction of an angle in degrees."""
    turn = math.radians(angle)
    return -distance * math.sin(turn), distance * math.cos(turn)
