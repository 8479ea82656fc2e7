"""Picture of the blank and its teeth: front view, and a section (half a section for helical teeth, to show the hand)."""

from __future__ import annotations

import math
from typing import Literal

from evenpitch.sheet.drawing import Arc, Arrow, Circle, Drawing, Item, Line, Path, Point
from evenpitch.sheet.drawings.floor_plan import Hand
from evenpitch.sheet.drawings.framing import framed
from evenpitch.sheet.drawings.lettering import LINE, TEXT, label, lines_of, wrap
from evenpitch.sheet.drawings.points import along_arc, polar
from evenpitch.sheet.drawings.tooth_form import ToothForm, all_teeth, tooth_polar

Drive = Literal["clockwise", "anticlockwise"]

_CX = 110.0
_SECTION_X = 262.0
_LARGEST = 98.0
_ALL_DRAWN = 110
"""Up to this many teeth all are drawn; beyond, those near the datum, as a gear is drawn in the office."""


def blank_and_tooth(
    form: ToothForm,
    face: float,
    bore: float | None,
    words: str,
    *,
    hand: Hand = "none",
    beta_deg: float = 0.0,
    drive: Drive | None = None,
) -> Drawing:
    """Front and section to one scale, dimensions in both systems (millimetres as planned). `form`: as seen on the end face."""
    scale = min(_LARGEST / form.tip_radius, max(54 / face, 46 / form.tip_radius))
    wide = min(face * scale, 54.0)
    true_face = wide > face * scale - 1e-6
    text = _words(words, bore, drive, form, scale)
    cy = 14 + LINE * max(len(text), 3) + form.tip_radius * scale + 14
    centre = (_CX, cy)
    items: list[Item] = [*_front(form, centre, scale), *_bore(bore, centre, scale)]
    items += [*_datum(form, centre, scale), *_drive(form, bore, drive, centre, scale)]
    items += _section(form, bore, wide, cy, scale, None if hand == "none" else (hand, beta_deg))
    items += _dimensions(form, face, wide, cy, scale)
    items += lines_of((4, 8 + LINE * (len(text) - 1)), text)
    height = max(cy + form.tip_radius * scale + 16, cy + 112)
    return framed("blank", "Blank and teeth", _says(form, face, words, hand, drive), height, items, _caption(form, true_face))


def _both(mm: float) -> str:
    return f"{mm:.2f} mm = {mm / 25.4:.4f} in"


def _words(words: str, bore: float | None, drive: Drive | None, form: ToothForm, scale: float) -> tuple[str, ...]:
    lines = [*wrap(words, 222)]
    if bore is not None:
        lines.append(f"bore {_both(bore)}")
    if drive is not None and _arrow_radius(form, bore, scale) is None:
        lines.append(f"drive: {drive}")
    return tuple(lines)


def _front(form: ToothForm, centre: Point, scale: float) -> list[Item]:
    items: list[Item] = [Circle(centre, form.pitch_radius * scale, "centre")]
    reach = form.tip_radius * scale + 10
    items += [Line((centre[0] - reach, centre[1]), (centre[0] + reach, centre[1]), "centre")]
    items += [Line((centre[0], centre[1] - reach), (centre[0], centre[1] + reach), "centre")]
    rough = 0.2 / scale
    if form.teeth <= _ALL_DRAWN:
        points = tuple((centre[0] + x * scale, centre[1] + y * scale) for x, y in all_teeth(form, rough))
        return [*items, Path(points, "thick" if form.teeth <= 60 else "medium", closed=True)]
    shown = max(3, round(form.teeth / 8)) // 2
    polars = [p for k in range(-shown, shown + 1) for p in tooth_polar(form, math.pi / 2 + 2 * math.pi * k / form.teeth, rough)]
    points = tuple((centre[0] + r * scale * math.cos(a), centre[1] + r * scale * math.sin(a)) for r, a in polars)
    start, end = math.degrees(polars[-1][1]), math.degrees(polars[0][1])
    items.append(Arc(centre, form.tip_radius * scale, start, end + 360, "thick"))
    items.append(Arc(centre, form.root_radius * scale, start, end + 360, "thin"))
    return [*items, Path(points, "medium")]


def _bore(bore: float | None, centre: Point, scale: float) -> list[Item]:
    return [] if bore is None else [Circle(centre, bore / 2 * scale, "thick")]


def _datum(form: ToothForm, centre: Point, scale: float) -> list[Item]:
    """The round-headed mark on the tooth before space 1, which stands at the top."""
    x, top = centre[0], centre[1] + form.tip_radius * scale
    head = (x, top - max(20.0, (form.tip_radius - form.root_radius) * scale + 8))
    items: list[Item] = [Line((x, top - 1), head, "thick"), Circle(head, 3.4, "thick", "ink")]
    if form.root_radius * scale > 74:
        return [*items, label((x + 9, head[1] - 6), "datum", patch=True)]
    side = centre[0] + form.tip_radius * scale * 0.72 + 8
    return [*items, label((side, top - 4), "datum"), Line((side - 2, top), (x + 5, head[1] + 1), "thin")]


def _arrow_radius(form: ToothForm, bore: float | None, scale: float) -> float | None:
    """Where the drive arrow fits: between bore and root, if there is room for its word."""
    inner = (bore or 0.0) / 2 * scale
    outer = form.root_radius * scale - 22
    room = outer - inner
    return None if room < 16 or outer < 36 else max(inner + 12, 0.66 * outer)


def _drive(form: ToothForm, bore: float | None, drive: Drive | None, centre: Point, scale: float) -> list[Item]:
    radius = _arrow_radius(form, bore, scale)
    if drive is None or radius is None:
        return []
    start, end = (-25.0, -155.0) if drive == "clockwise" else (-155.0, -25.0)
    low = polar(centre, radius, -90)
    return [
        Arrow(along_arc(centre, radius, start, end, 6), "thick"),
        label((low[0], low[1] - 0.28 * TEXT), "drive", "middle", patch=True),
    ]


def _section(
    form: ToothForm, bore: float | None, wide: float, cy: float, scale: float, helix: tuple[Hand, float] | None
) -> list[Item]:
    """Cut through the axis: body hatched, teeth left plain; with a helix the lower half is seen from outside."""
    x0, x1 = _SECTION_X - wide / 2, _SECTION_X + wide / 2
    tip, root, hole = form.tip_radius * scale, form.root_radius * scale, (bore or 0.0) / 2 * scale
    sides = (1.0,) if helix else (1.0, -1.0)
    items: list[Item] = [
        Path(_rectangle(x0, x1, cy + side * hole, cy + side * root), "medium", "hatch", closed=True) for side in sides
    ]
    items.append(Path(_rectangle(x0, x1, cy - tip, cy + tip), "thick", closed=True))
    items.append(Line((x0 - 10, cy), (x1 + 10, cy), "centre"))
    if helix:
        items += _hand_lines(helix, (_SECTION_X, cy - tip / 2), wide, tip)
        items.append(Line((x0, cy), (x1, cy), "medium"))
    return items


def _hand_lines(helix: tuple[Hand, float], middle: Point, wide: float, tip: float) -> list[Item]:
    """Three lines along the teeth nearest the eye: of a right-hand helix they fall to the right."""
    hand, beta = helix
    slope = math.tan(math.radians(max(beta, 6.0))) * (-1.0 if hand == "right" else 1.0)
    half = min(wide / 2 - 3, 0.3 * tip / max(abs(slope), 0.05))
    gap = min(9.0, tip / 8)
    return [
        Line(
            (middle[0] - half, middle[1] + k * gap - half * slope),
            (middle[0] + half, middle[1] + k * gap + half * slope),
            "medium",
        )
        for k in (-1, 0, 1)
    ]


def _rectangle(x0: float, x1: float, y0: float, y1: float) -> tuple[Point, ...]:
    return ((x0, y0), (x1, y0), (x1, y1), (x0, y1))


def _dimensions(form: ToothForm, face: float, wide: float, cy: float, scale: float) -> list[Item]:
    tip = form.tip_radius * scale
    x0, x1, x = _SECTION_X - wide / 2, _SECTION_X + wide / 2, 318.0
    items: list[Item] = [Line((x1 + 3, cy + s * tip), (x + 5, cy + s * tip), "thin") for s in (1, -1)]
    items.append(Arrow(((x, cy - tip), (x, cy + tip)), "thin", both=True))
    items.append(label((x + 20, cy), f"Ø {_both(2 * form.tip_radius)}", "middle", turn=90, bold=True))
    y = cy - tip - 14
    items += [Line((xx, cy - tip - 3), (xx, y - 5), "thin") for xx in (x0, x1)]
    if wide > 26:
        items.append(Arrow(((x0, y), (x1, y)), "thin", both=True))
    else:
        items += [Arrow(((x0 - 18, y), (x0, y)), "thin"), Arrow(((x1 + 18, y), (x1, y)), "thin")]
    items += lines_of((_SECTION_X + 10, y - 22), (f"{face:.2f} mm", f"{face / 25.4:.4f} in"), "middle", bold=1)
    return items


def _says(form: ToothForm, face: float, words: str, hand: Hand, drive: Drive | None) -> str:
    parts = [
        f"{words}. Outside {_both(2 * form.tip_radius)}, face {_both(face)}",
        "the datum mark stands on the tooth before space 1",
    ]
    if hand != "none":
        parts.append(f"{hand}-hand helix")
    if drive is not None:
        parts.append(f"drive {drive} as drawn")
    return "; ".join(parts) + "."


def _caption(form: ToothForm, true_face: bool) -> str:
    teeth = "" if form.teeth <= _ALL_DRAWN else " Only the teeth near the datum are drawn."
    return ("To scale." if true_face else "Diameters to scale; face cut short.") + teeth
