"""Picture of the depth from touch: one scale, millimetres left and thousandths right, the places to stop at."""

from __future__ import annotations

from evenpitch.sheet.drawing import Arrow, Drawing, Item, Label, Line
from evenpitch.sheet.drawings.framing import framed
from evenpitch.sheet.drawings.lettering import LINE, TEXT, WIDTH, apart, label, lines_of, wrap
from evenpitch.sheet.drawings.points import minus, nice

_SCALE_X = 146.0
_LONG = 206.0
_RUNG = 190.0
_TEXT_X = 216.0


def depth_ladder(
    rough_mm: float,
    full_mm: float,
    *,
    measure_mm: float | None = None,
    measure_words: str = "span here",
    paper_mm: float | None = None,
    blank: tuple[float, float, float] | None = None,
) -> Drawing:
    """Depths from the metal of the blank, to scale: touch, rough, measure, full.

    `measure_mm`: where to stop and measure (usual: the rough depth). `blank`: outside found, depth as planned, what is taken off
    it, mm; `full_mm` is the depth worked. `paper_mm`: thickness of the paper at touch, where known.
    """
    measure = rough_mm if measure_mm is None else measure_mm
    foot = _foot(blank)
    top = 66.0 + LINE * len(foot) + _LONG
    unit = _LONG / (full_mm * 1.03)
    deep = (0.0, *([rough_mm] if rough_mm < full_mm else []), full_mm)
    items: list[Item] = [Line((_SCALE_X, top + 8), (_SCALE_X, top - _LONG), "thick")]
    items += [label((_SCALE_X - 20, top + 16), "mm", "end"), label((_SCALE_X + 14, top + 16), "thou")]
    items += _millimetres(full_mm, unit, top, deep)
    items += _thousandths(full_mm, unit, top, deep)
    items += _rungs(rough_mm, full_mm, paper_mm, unit, top)
    if measure < full_mm:
        items += _measure(measure, full_mm, measure_words, unit, top)
    items += [label((8, 8 + LINE * (len(foot) - 1 - row)), text) for row, text in enumerate(foot)]
    says = f"From touch: {_rough_words(rough_mm, full_mm)}full depth {full_mm:.2f} mm ({_thou(full_mm)} thou). "
    says += f"{' '.join(foot).capitalize()}."
    return framed("depth-ladder", "Depth from touch", says, top + 34, items, "Depth from metal, to scale.")


def _rough_words(rough: float, full: float) -> str:
    return f"rough to {rough:.2f} mm ({_thou(rough)} thou), measure, then " if rough < full else ""


def _thou(mm: float) -> str:
    return f"{mm / 0.0254:.1f}"


def _foot(blank: tuple[float, float, float] | None) -> tuple[str, ...]:
    if blank is None:
        return ("deeper is thinner",)
    found, planned, less = blank
    sign = "−" if less >= 0 else "+"
    return wrap(
        f"deeper is thinner · blank found {found:.2f}: {planned:.3f} {sign} {abs(less):.3f} = {planned - less:.3f}", WIDTH - 12
    )


def _millimetres(full: float, unit: float, top: float, taken: tuple[float, ...]) -> list[Item]:
    """Ticks to the left; numbers kept clear of each other."""
    every = nice((TEXT + 8) / unit)
    fine = nice(6 / unit)
    items: list[Item] = []
    for k in range(int(full / fine + 1e-6) + 1):
        y = top - k * fine * unit
        whole = abs(k * fine / every - round(k * fine / every)) < 1e-6
        items.append(Line((_SCALE_X - (14 if whole else 6), y), (_SCALE_X, y), "medium" if whole else "thin"))
        if whole and _clear(k * fine, taken[-1:], unit):
            items.append(label((_SCALE_X - 19, y - 5), f"{round(k * fine, 6):g}", "end"))
    return items


def _thousandths(full: float, unit: float, top: float, taken: tuple[float, ...]) -> list[Item]:
    every = nice((TEXT + 16) / unit / 0.0254) * 0.0254
    items: list[Item] = []
    for k in range(1, int(full / every + 1e-6) + 1):
        y = top - k * every * unit
        items.append(Line((_SCALE_X, y), (_SCALE_X + 9, y), "medium"))
        if _clear(k * every, taken, unit):
            items.append(label((_SCALE_X + 12, y - 5), f"{round(k * every / 0.0254, 3):g}"))
    return items


def _clear(depth: float, taken: tuple[float, ...], unit: float) -> bool:
    return all(abs(depth - other) * unit > TEXT / 2 + 6 for other in taken)


def _rungs(rough: float, full: float, paper: float | None, unit: float, top: float) -> list[Item]:
    """Thick rungs with leaders out to their words, which keep clear of each other."""
    thick = "t" if paper is None else f"{paper:.2f} mm"
    further = "t" if paper is None else f"{paper:.2f}"
    touch = ("touch", *wrap(f"through paper {thick} thick: knee goes {further} further", WIDTH - _TEXT_X))
    rungs = [(0.0, touch)]
    if rough < full:
        rungs.append((rough, (f"rough {minus(rough, 2)} mm", f"{_thou(rough)} thou")))
    rungs.append((full, (f"full {minus(full, 2)} mm", f"{_thou(full)} thou")))
    items: list[Item] = []
    rooms = [len(words) * LINE + 6 for _, words in rungs]
    wished = [top - depth * unit - room / 2 + LINE * 0.75 for (depth, _), room in zip(rungs, rooms, strict=True)]
    low = top - _LONG - 28
    placed = apart(wished[::-1], rooms[::-1], low, top + 16)[::-1]
    for (depth, words), middle, room in zip(rungs, placed, rooms, strict=True):
        y, first = top - depth * unit, middle + room / 2 - 3 - 0.78 * TEXT
        items.append(Line((_SCALE_X - 12, y), (_RUNG - 10, y), "thick"))
        bend = (_RUNG + 12, first + 5)
        items += [Line((_RUNG - 10, y), bend, "medium"), Line(bend, (_TEXT_X - 4, first + 5), "medium")]
        items += lines_of((_TEXT_X, first), words, bold=1)
    return items


def _measure(measure: float, full: float, words: str, unit: float, top: float) -> list[Item]:
    """To the left: where to stop and measure, and what is then still to go."""
    high, low = top - measure * unit, top - full * unit
    items: list[Item] = [Line((22, y), (_SCALE_X - 42, y), "thin") for y in (high, low)]
    x = 44.0
    if high - low > 22:
        items.append(Arrow(((x, high), (x, low)), "thin", both=True))
    else:
        items += [Arrow(((x, high + 20), (x, high)), "thin"), Arrow(((x, low - 20), (x, low)), "thin")]
    above = high + 26 + LINE
    first = above if above + TEXT < top + 20 else low - 20
    texts: tuple[Label, ...] = lines_of((8, first), ("measure", words))
    return [*items, *texts]
