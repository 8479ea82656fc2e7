"""Picture of the helix over the face: where each way of making the lead would put the flank, against what is wanted."""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass

from evenpitch.sheet.drawing import Drawing, Item, Line, LineClass, Path, Point
from evenpitch.sheet.drawings.framing import framed
from evenpitch.sheet.drawings.lettering import LINE, TEXT, label
from evenpitch.sheet.drawings.points import minus, nice

_LEFT, _RIGHT = 56.0, 340.0
_TALL = 190.0
_LOW = 50.0
_PENS: tuple[LineClass, ...] = ("thick", "dashed", "other", "medium")


@dataclass(frozen=True, slots=True)
class FlankLine:
    """One way of making the lead. `um`: µm off at the far end; `track`: (mm, µm) where it is not straight; `words` instead of `um`."""

    name: str
    um: float
    track: tuple[Point, ...] = ()
    words: str | None = None


def helix_over_face(
    face: float, lines: Sequence[FlankLine], limit_um: float | None = None, limit_words: str = "limit"
) -> Drawing:
    """Millimetres along the face, micrometres across; 0 is the wanted flank; at most four lines, the first the one chosen."""
    shown = tuple(lines[:4])
    low, high, every = _range(shown, limit_um)
    rows = len(shown) + (limit_um is not None)

    def at(mm: float, um: float) -> Point:
        return _LEFT + mm / face * (_RIGHT - _LEFT), _LOW + (um - low) / (high - low) * _TALL

    items: list[Item] = []
    if limit_um is not None:
        items.append(Path((at(0, 0), at(face, limit_um), at(face, -limit_um)), "thin", "hatch", closed=True))
    items += _axes(face, low, high, every, at(0, 0)[1])
    for pen, line in zip(_PENS, shown, strict=False):
        track = line.track or ((0.0, 0.0), (face, line.um))
        items.append(Path(tuple(at(mm, um) for mm, um in track), pen))
    items += _key(shown, limit_um, limit_words, _LOW + _TALL + 22 + LINE * (rows - 1))
    says = "Off at the far end of the face: " + "; ".join(_named(line) for line in shown) + "."
    if limit_um is not None:
        says += f" {limit_words}: ±{_figure(limit_um)} µm."
    height = _LOW + _TALL + 22 + LINE * rows
    return framed("helix", "Helix over the face", says, height, items, f"Helix over the {face:g} mm face. 0 is the wanted flank.")


def _named(line: FlankLine) -> str:
    return f"{line.name}: {line.words or minus(line.um, 0 if abs(line.um) >= 2 else 1, sign=True)}"


def _figure(um: float) -> str:
    return f"{um:.0f}" if um >= 10 else f"{um:.1f}"


def _range(lines: Sequence[FlankLine], limit: float | None) -> tuple[float, float, float]:
    values = [0.0, *(line.um for line in lines), *(um for line in lines for _, um in line.track)]
    values += [limit, -limit] if limit is not None else []
    every = nice(max(max(values) - min(values), 1.0) / 6)
    return math.floor(min(values) / every) * every, max(every, math.ceil(max(values) / every) * every), every


def _axes(face: float, low: float, high: float, every: float, zero_y: float) -> list[Item]:
    items: list[Item] = [Line((_LEFT, _LOW), (_LEFT, _LOW + _TALL), "medium"), Line((_LEFT, _LOW), (_RIGHT, _LOW), "medium")]
    items.append(Line((_LEFT, zero_y), (_RIGHT, zero_y), "centre"))
    digits = max(0, -math.floor(math.log10(every)))
    for k in range(round((high - low) / every) + 1):
        y = _LOW + k * every / (high - low) * _TALL
        items += [Line((_LEFT - 5, y), (_LEFT, y), "medium"), label((_LEFT - 8, y - 5), minus(low + k * every, digits), "end")]
    step = nice(face / 5)
    for k in range(int(face / step + 1e-9) + 1):
        x = _LEFT + k * step / face * (_RIGHT - _LEFT)
        items += [Line((x, _LOW - 5), (x, _LOW), "medium"), label((x, _LOW - 6 - TEXT), f"{round(k * step, 6):g}", "middle")]
    return [*items, label((_LEFT - 30, 8), "µm across, mm along the face")]


def _key(lines: Sequence[FlankLine], limit: float | None, limit_words: str, top: float) -> list[Item]:
    items: list[Item] = []
    for row, (pen, line) in enumerate(zip(_PENS, lines, strict=False)):
        y = top - row * LINE
        items += [Line((_LEFT, y + 5), (_LEFT + 40, y + 5), pen), label((_LEFT + 48, y), _named(line))]
    if limit is not None:
        y = top - len(lines) * LINE
        box = ((_LEFT, y), (_LEFT + 40, y), (_LEFT + 40, y + 10), (_LEFT, y + 10))
        items += [Path(box, "thin", "hatch", closed=True), label((_LEFT + 48, y), f"{limit_words}: ±{_figure(limit)}")]
    return items
