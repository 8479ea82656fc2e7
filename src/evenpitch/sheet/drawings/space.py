"""Picture of one tooth space: what is wanted, and what one or two cutters would make of it, a cutter on each flank."""

from __future__ import annotations

import math
from collections.abc import Callable, Sequence
from dataclasses import dataclass

from evenpitch.cutting.tiperror import TIP_HEIGHT, form_error
from evenpitch.quantity.units import Millimetre, Radian
from evenpitch.sheet.drawing import Anchor, Drawing, Item, Line, Path, Point
from evenpitch.sheet.drawings.framing import framed
from evenpitch.sheet.drawings.lettering import LINE, TEXT, WIDTH, label, lines_of
from evenpitch.sheet.drawings.points import along_arc, minus, nice
from evenpitch.sheet.drawings.tooth_form import ToothForm, half_width, open_radius, place_at

_MIDDLE = WIDTH / 2
_POINTS = 14
_OFF_SHEET = 60.0
"""A form so far from the wanted flank, units, is left out there: the figures say it."""


@dataclass(frozen=True, slots=True)
class CutterShown:
    """A cutter and the count its form is made for.

    `error`: µm square to the flank at a height above the pitch line (mm), + takes too much; without it, the form error of the
    two counts, both touching at the pitch line (shift left aside). `tip_um`, `floor_um`: the figures to print, if they come from elsewhere.
    """

    name: str
    made_for: float
    error: Callable[[float], float] | None = None
    tip_um: float | None = None
    floor_um: float | None = None


@dataclass(frozen=True, slots=True)
class _Flank:
    """The wanted right flank on the sheet: heights in mm, points from the middle line, leans, with the scale in units a mm."""

    heights: tuple[float, ...]
    points: tuple[Point, ...]
    leans: tuple[float, ...]
    scale: float
    pitch_y: float


def tooth_space(wanted: ToothForm, cutters: Sequence[CutterShown], seen: str) -> Drawing:
    """The space to scale, upright; first cutter on the left flank, second on the right, their differences exaggerated and hatched."""
    shown = tuple(cutters[:2])
    flank = _laid_out(wanted, 66.0 if shown else 40.0)
    times = _exaggeration(wanted, shown, flank)
    low, top = flank.points[0][1], flank.points[-1][1]
    items: list[Item] = [
        Line((_MIDDLE, low - 16), (_MIDDLE, top + 14), "centre"),
        Line((8, flank.pitch_y), (WIDTH - 8, flank.pitch_y), "centre"),
    ]
    for side, cutter in zip((-1.0, 1.0), shown, strict=False):
        items += _cutter(wanted, cutter, flank, times * flank.scale / 1000, side)
        items += _figures(wanted, cutter, side, flank)
    items.append(Path(_wanted(wanted, flank), "thick"))
    items += _key(flank.scale, times, bool(shown))
    height = top + (26 + 3 * LINE if shown else 20)
    return framed("tooth-space", "Tooth space", _says(wanted, shown, seen), height, items, _caption(seen, shown, times))


def _laid_out(wanted: ToothForm, low: float) -> _Flank:
    """The flank sampled evenly along its radius from floor to tip, and the scale at which the space fits the sheet."""
    tip = open_radius(wanted)
    radii = [wanted.root_radius + (tip - wanted.root_radius) * k / _POINTS for k in range(_POINTS + 1)]
    places = [place_at(wanted, r) for r in radii]
    scale = min(172 / (places[-1][1] - places[0][1]), 98 / places[-1][0])
    pitch_y = low + max(46.0, -places[0][1] * scale)
    points = tuple((x * scale, pitch_y + y * scale) for x, y in places)
    return _Flank(tuple(y for _, y in places), points, tuple(_lean(wanted, y) for _, y in places), scale, pitch_y)


def error_at(wanted: ToothForm, cutter: CutterShown, height: float) -> float:
    """What a cutter takes too much (+) or leaves (−), µm square to the flank, at a height above the pitch line, mm."""
    if cutter.error is not None:
        return cutter.error(height)
    return 1000 * form_error(
        wanted.teeth, cutter.made_for, Millimetre(wanted.module), Radian(wanted.pressure_angle), Millimetre(height)
    )


def _lean(form: ToothForm, height: float) -> float:
    """How far the flank leans from upright at a height, rad."""
    small = 0.01 * form.module
    return math.atan2(half_width(form, height + small) - half_width(form, height - small), 2 * small)


def _exaggeration(wanted: ToothForm, shown: Sequence[CutterShown], flank: _Flank) -> int:
    """Five times, or less where that would run off the sheet."""
    ends = (flank.heights[0], flank.heights[-1])
    worst = max((abs(error_at(wanted, c, h)) for c in shown for h in ends), default=0.0)
    return next(t for t in (5, 2, 1) if t == 1 or worst * t * flank.scale / 1000 <= 36)


def _wanted(wanted: ToothForm, flank: _Flank) -> tuple[Point, ...]:
    """Land, flank, floor, flank, land; the lands as arcs of the tip circle, the floor of the root circle."""
    centre = (_MIDDLE, flank.pitch_y - wanted.pitch_radius * flank.scale)
    right = [(_MIDDLE + x, y) for x, y in flank.points]
    left = [(WIDTH - x, y) for x, y in right]
    tip = math.dist(right[-1], centre)
    start = math.degrees(math.atan2(right[-1][1] - centre[1], right[-1][0] - centre[0]))
    land = along_arc(centre, tip, start, start - math.degrees(46 / tip), 3)[1:]
    edge = math.degrees(math.atan2(right[0][1] - centre[1], right[0][0] - centre[0]))
    floor = along_arc(centre, wanted.root_radius * flank.scale, 180 - edge, edge, 3)[1:-1]
    return (*((WIDTH - x, y) for x, y in reversed(land)), *reversed(left), *floor, *right, *land)


def _cutter(wanted: ToothForm, cutter: CutterShown, flank: _Flank, gain: float, side: float) -> list[Item]:
    """The cutter's form dashed, and what lies between it and the wanted flank hatched: open takes too much, upright leaves metal."""
    pairs = []
    for height, (x, y), lean in zip(flank.heights, flank.points, flank.leans, strict=True):
        off = error_at(wanted, cutter, height) * gain
        if abs(off) > _OFF_SHEET:
            continue
        pairs.append((off, (_MIDDLE + side * x, y), (_MIDDLE + side * (x + off * math.cos(lean)), y - off * math.sin(lean))))
    items: list[Item] = []
    for takes in (True, False):
        for first, past in _runs([off > 0.4 if takes else off < -0.4 for off, _, _ in pairs]):
            piece = pairs[max(0, first - 1) : past + 1]
            around = [wanted_at for _, wanted_at, _ in piece] + [made_at for _, _, made_at in reversed(piece)]
            items.append(Path(tuple(around), "none", "hatch" if takes else "upright", closed=True))
    if len(pairs) > 1:
        items.append(Path(tuple(made_at for _, _, made_at in pairs), "dashed"))
    return items


def _runs(marks: Sequence[bool]) -> list[tuple[int, int]]:
    """First and past-last places of each unbroken run of true."""
    runs: list[tuple[int, int]] = []
    for place, mark in enumerate(marks):
        if mark and runs and runs[-1][1] == place:
            runs[-1] = (runs[-1][0], place + 1)
        elif mark:
            runs.append((place, place + 1))
    return runs


def _figures(wanted: ToothForm, cutter: CutterShown, side: float, flank: _Flank) -> list[Item]:
    x = 4.0 if side < 0 else WIDTH - 4
    anchor: Anchor = "start" if side < 0 else "end"
    head = (cutter.name, f"made for {minus(cutter.made_for, 1).removesuffix('.0')}", f"tip: {_deed(_tip(wanted, cutter))}")
    floor = f"{minus(_floor(wanted, cutter), 0, sign=True)} µm"
    low, top = flank.points[0][1], flank.points[-1][1]
    return [
        *lines_of((x, top + 14 + 2 * LINE), head, anchor, bold=1),
        label((x, flank.pitch_y + 5), "0", anchor),
        label((x, flank.pitch_y - TEXT), "pitch line", anchor, patch=True),
        *lines_of((x, min(low + LINE, flank.pitch_y - TEXT - LINE - 3)), (floor, "at the floor"), anchor),
    ]


def _tip(wanted: ToothForm, cutter: CutterShown) -> int:
    """The error at the tip, where the table of cutters takes it: just inside the corner."""
    return round(error_at(wanted, cutter, TIP_HEIGHT * wanted.addendum) if cutter.tip_um is None else cutter.tip_um)


def _floor(wanted: ToothForm, cutter: CutterShown) -> float:
    return error_at(wanted, cutter, -wanted.dedendum) if cutter.floor_um is None else cutter.floor_um


def _deed(tip: int) -> str:
    if tip == 0:
        return "0 µm"
    return f"takes {tip} µm" if tip > 0 else f"leaves {-tip} µm"


def _key(scale: float, times: int, cutters: bool) -> list[Item]:
    bar = nice(20 / scale)
    y = 32.0 if cutters else 10.0
    items: list[Item] = [
        Line((8, y), (8 + bar * scale, y), "thick"),
        Line((8, y - 4), (8, y + 4), "medium"),
        Line((8 + bar * scale, y - 4), (8 + bar * scale, y + 4), "medium"),
        label((14 + bar * scale, y - 5), f"{bar:g} mm"),
        Line((190, y), (220, y), "thick"),
        label((226, y - 5), "wanted"),
    ]
    if cutters:
        words = f"cutter, difference × {times}" if times > 1 else "cutter"
        items += [Line((8, y - 22), (40, y - 22), "dashed"), label((46, y - 27), words)]
    return items


def _says(wanted: ToothForm, shown: Sequence[CutterShown], seen: str) -> str:
    parts = [
        f"{c.name}, made for {c.made_for:g}: at the tip {_deed(_tip(wanted, c))}, "
        f"at the floor {minus(_floor(wanted, c), 0, sign=True)} µm"
        for c in shown
    ]
    return f"The space wanted for {seen}" + (": " + "; ".join(parts) if parts else "") + "."


def _caption(seen: str, shown: Sequence[CutterShown], times: int) -> str:
    if not shown:
        return f"{seen}. Outline to scale."
    much = {5: "difference five times", 2: "difference twice", 1: "difference not exaggerated"}[times]
    return f"{seen}; exact at the pitch line. Outline to scale, {much}. Open hatch: takes too much; upright hatch: leaves metal."
