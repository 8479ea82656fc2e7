"""Picture of one pass: how far the work is off its helix along the table's travel, steps and lag visible."""

from __future__ import annotations

from collections.abc import Sequence

from evenpitch.sheet.drawing import Drawing, Item, Line, Path
from evenpitch.sheet.drawings.axes import Axes, rounded_range
from evenpitch.sheet.drawings.framing import framed
from evenpitch.sheet.drawings.lettering import LINE, label
from evenpitch.sheet.drawings.points import minus

_LEFT, _RIGHT, _LOW, _TALL = 58.0, 344.0, 58.0, 180.0

Stretch = tuple[float, float, float]
"""Table mm, least and greatest µm."""


def link_timing(track: Sequence[Stretch], travel: float, behind_from: float | None = None) -> Drawing:
    """The band between the least and the greatest error of each stretch, its middle line; where the drive falls behind."""
    values = [0.0, *(um for _, low, high in track for um in (low, high))]
    axes = Axes(_LEFT, _RIGHT, _LOW, _LOW + _TALL, (0.0, travel), rounded_range(values, 1.0))
    low, high = min(values[1:], default=0.0), max(values[1:], default=0.0)
    items: list[Item] = []
    if track:
        lower = [axes.at(mm, least) for mm, least, _ in track]
        upper = [axes.at(mm, greatest) for mm, _, greatest in track]
        items.append(Path((*upper, *reversed(lower)), "thin", "hatch", closed=True))
        items.append(Path(tuple(axes.at(mm, (a + b) / 2) for mm, a, b in track), "medium"))
    items += axes.zero() + axes.items("µm at the pitch circle, over mm of table")
    top = _LOW + _TALL + 16
    rows = [f"{minus(low, 1, sign=True)} to {minus(high, 1, sign=True)} µm"]
    if behind_from is not None:
        x = axes.at(min(behind_from, travel), 0.0)[0]
        items.append(Line((x, _LOW), (x, _LOW + _TALL), "thick"))
        rows.append(f"held back from {behind_from:.2f} mm on")
    items += [label((_LEFT, top + LINE * place), text, bold=place == 0) for place, text in enumerate(reversed(rows))]
    says = f"The work is {rows[0]} off its helix over {travel:.1f} mm of table."
    says += f" The drive holds pulses back from {behind_from:.2f} mm on." if behind_from is not None else ""
    caption = "Hatched: the staircase of pulses and counts; the line is its middle. + is ahead."
    return framed("link-timing", "Link timing", says, top + LINE * len(rows) + 4, items, caption)
