"""Outlines in millimetres at true scale, for a file of a drawing program: the whole gear, or a few teeth; and one tooth space."""

from __future__ import annotations

import math

from evenpitch.sheet.drawing import Arc, Circle, Drawing, Item, Label, Line, Path, Point
from evenpitch.sheet.drawings.lettering import TEXT
from evenpitch.sheet.drawings.tooth_form import ToothForm, all_teeth, land_radius, space_right, tooth_polar

CHORD_ERROR = 0.0005
"""How far a straight piece may stand off the true curve, mm: half a micrometre."""


def outline_for_dxf(form: ToothForm, bore: float | None, words: str, *, spaces: int | None = None) -> Drawing:
    """Blank and teeth about the gear's centre at (0, 0), a tooth at the top. `spaces`: so many only, the middle of them at the top."""
    pen = 2.2 * form.tip_radius / 360
    reach = form.tip_radius * 1.1
    items: list[Item] = [
        Line((-reach, 0.0), (reach, 0.0), "centre"),
        Line((0.0, -reach), (0.0, reach), "centre"),
        Circle((0.0, 0.0), form.pitch_radius, "centre"),
    ]
    if bore is not None:
        items.append(Circle((0.0, 0.0), bore / 2, "thick"))
    if spaces is None or spaces >= form.teeth:
        items.append(Path(all_teeth(form, CHORD_ERROR), "thick", closed=True))
    else:
        items += _some(form, spaces)
    items.append(Label((0.0, -reach - 1.4 * TEXT * pen), words, "middle", size=TEXT))
    shown = f"all {form.teeth:g} teeth" if spaces is None or spaces >= form.teeth else f"{spaces} of {form.teeth:g} spaces"
    says = f"{words}: outline of {shown}, outside {2 * form.tip_radius:.3f} mm, root {2 * form.root_radius:.3f} mm."
    low = -reach - 2 * TEXT * pen
    return Drawing(
        "outline",
        "Outline in millimetres",
        says,
        2 * reach,
        reach - low,
        tuple(items),
        "Millimetres, true scale, centre at 0, 0; chords within 0.0005 mm of the curve; no fillet at the root.",
        (-reach, low),
        pen,
    )


def _some(form: ToothForm, spaces: int) -> list[Item]:
    """A run of spaces about the top, from the middle of one tooth to the middle of another; elsewhere the blank as it is turned."""
    step = 2 * math.pi / form.teeth
    first, last = math.pi / 2 - spaces * step / 2, math.pi / 2 + spaces * step / 2
    inside = [p for k in range(spaces + 1) for p in tooth_polar(form, first + k * step, CHORD_ERROR) if first < p[1] < last]
    land = land_radius(form)
    points = tuple((r * math.cos(a), r * math.sin(a)) for r, a in ((land, first), *inside, (land, last)))
    return [Path(points, "thick"), Arc((0.0, 0.0), form.tip_radius, math.degrees(last), math.degrees(first) + 360, "thick")]


def space_for_dxf(form: ToothForm, words: str) -> Drawing:
    """One tooth space standing upright, its middle at x = 0 and the pitch line at y = 0: the form of a fly cutter or a template."""
    right = space_right(form, CHORD_ERROR)
    width = 2.6 * right[-1][0]
    pen = width / 360
    outline = (*_floor_and_left(form, right), *right)
    high, low = right[-1][1] + 0.1 * width, right[0][1] - 0.1 * width - 1.6 * TEXT * pen
    items: list[Item] = [
        Path(outline, "thick"),
        Line((-width / 2, 0.0), (width / 2, 0.0), "centre"),
        Line((0.0, right[0][1] - 0.05 * width), (0.0, high), "centre"),
        Label((0.0, low + 0.4 * TEXT * pen), words, "middle", size=TEXT),
    ]
    says = f"{words}: the tooth space, {right[-1][1] - right[0][1]:.3f} mm deep, {2 * right[-1][0]:.3f} mm wide at the tip."
    return Drawing(
        "space-outline",
        "Tooth space in millimetres",
        says,
        width,
        high - low,
        tuple(items),
        "Millimetres, true scale; 0, 0 on the pitch line in the middle of the space; chords within 0.0005 mm of the curve.",
        (-width / 2, low),
        pen,
    )


def _floor_and_left(form: ToothForm, right: tuple[Point, ...]) -> list[Point]:
    """The left flank from the tip down, then the floor along the root circle."""
    edge = form.half_space(form.root_radius)
    step = 2 * math.acos(max(0.0, 1 - CHORD_ERROR / form.root_radius))
    count = max(1, math.ceil(2 * edge / step))
    angles = [-edge + 2 * edge * k / count for k in range(1, count)]
    r = form.root_radius
    floor = [(r * math.sin(a), r * math.cos(a) - form.pitch_radius) for a in angles]
    return [*((-x, y) for x, y in reversed(right)), *floor]
