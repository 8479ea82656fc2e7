"""Picture of rates: pulses a second and rpm of the motor against the speed of the table, with what must not be passed."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

from evenpitch.sheet.drawing import Circle, Drawing, Item, Line, Path
from evenpitch.sheet.drawings.axes import Axes, figure_at, marks
from evenpitch.sheet.drawings.framing import framed
from evenpitch.sheet.drawings.lettering import LINE, label
from evenpitch.sheet.drawings.points import nice

_LEFT, _RIGHT, _LOW, _TALL = 66.0, 300.0, 58.0, 190.0
_MOST = 4


@dataclass(frozen=True, slots=True)
class Limit:
    """A table speed that must not be passed, mm/min, and why, in a word or two."""

    feed: float
    words: str


def rate_chart(feed: float, pulses: float, rpm: float, limits: Sequence[Limit], rapid: float | None = None) -> Drawing:
    """`pulses` a second and `rpm` at a feed in mm/min; both grow in proportion. The least limits are drawn, upright and heavy."""
    shown = sorted(limits, key=lambda limit: limit.feed)[:_MOST]
    reach = nice(
        1.15 * max(feed, shown[0].feed if shown else feed, *(one.feed for one in shown[1:] if one.feed < 6 * shown[0].feed))
    )
    drawn = [limit for limit in shown if limit.feed <= reach]
    axes = Axes(_LEFT, _RIGHT, _LOW, _LOW + _TALL, (0.0, reach), (0.0, max(pulses / feed * reach, 1e-6)))
    items: list[Item] = [*axes.items("left pulses/s, right rpm, over mm/min"), *_right(axes, rpm / feed * reach)]
    items.append(Path((axes.at(0, 0), axes.at(reach, pulses / feed * reach)), "thick"))
    for limit in drawn:
        x = axes.at(limit.feed, 0)[0]
        items += [Line((x, _LOW), (x, _LOW + _TALL + 4), "centre")]
    here = axes.at(feed, pulses)
    items.append(Circle(here, 5, "medium", "ink"))
    items += _heads(axes, drawn)
    rows = [f"at {feed:.0f} mm/min: {pulses:.0f} pulses/s, {rpm:.0f} rpm"]
    if rapid is not None:
        times = rapid / feed
        rows += [f"at the rapid of {rapid:.0f} mm/min:", f"{pulses * times:.0f} pulses/s, {rpm * times:.0f} rpm"]
    top = _LOW + _TALL + 14 + LINE * (len(drawn) + 1)
    items += [label((10, top + LINE * place), text, bold=True) for place, text in enumerate(reversed(rows))]
    says = f"A table feed of {feed:.0f} mm/min is {pulses:.0f} pulses a second and {rpm:.0f} rpm of the motor"
    says += "".join(f"; {limit.words} at {limit.feed:.0f} mm/min" for limit in shown) + "."
    caption = "Both scales to scale; upright long-dot lines are limits of the feed."
    return framed("rate-chart", "Table speed and motor", says, top + LINE * len(rows) + 4, items, caption)


def _right(axes: Axes, most: float) -> list[Item]:
    """The scale of the motor's speed at the right."""
    other = Axes(axes.left, axes.right, axes.low, axes.high, axes.x, (0.0, max(most, 1e-6)))
    items: list[Item] = [Line((axes.right, axes.low), (axes.right, axes.high), "medium")]
    for value in marks(other.y):
        y = other.at(0.0, value)[1]
        items += [Line((axes.right, y), (axes.right + 5, y), "medium"), label((axes.right + 8, y - 5), figure_at(value, other.y))]
    return items


def _heads(axes: Axes, limits: Sequence[Limit]) -> list[Item]:
    """The limits' words above the frame, one line each, the least lowest."""
    items: list[Item] = []
    for row, limit in enumerate(limits):
        x, text = axes.at(limit.feed, 0)[0], f"{limit.words}: {limit.feed:.0f}"
        side = "start" if x < 180 else "end"
        y = axes.high + 12 + LINE * row
        items.append(Line((x, axes.high + 4), (x, y + 5), "thin"))
        items.append(label((x + (4 if side == "start" else -4), y), text, "start" if side == "start" else "end", patch=True))
    return items
