"""Picture of several equal blanks cut together, clamped on one mandrel."""

from __future__ import annotations

from evenpitch.sheet.drawing import Arrow, Drawing, Item, Line, Path, Point
from evenpitch.sheet.drawings.framing import framed
from evenpitch.sheet.drawings.lettering import LINE, TEXT, WIDTH, label, wrap

_LONGEST = 196.0
_TALLEST = 150.0


def stack_on_mandrel(quantity: int, face: float, outside: float, bore: float, root: float | None = None) -> Drawing:
    """Side view of the stack with its clamping faces (larger than half the root diameter); millimetres."""
    scale = min(_LONGEST / (quantity * face), _TALLEST / outside)
    long, half = quantity * face * scale, outside * scale / 2
    clamp = max(0.3 * (root if root is not None else 0.9 * outside), 0.6 * bore) * scale
    advice = "measure the first and the last; faces square and clean" if quantity > 1 else "faces square and clean"
    words = wrap(advice, WIDTH - 16)
    cy = 16 + LINE * len(words) + 50 + half
    x0 = (WIDTH - long) / 2
    items: list[Item] = []
    pin = bore * scale / 2
    items.append(Path(_rectangle(14, WIDTH - 14, cy - pin, cy + pin), "medium", "paper", closed=True))
    for place in range(quantity):
        left = x0 + place * face * scale
        items.append(Path(_rectangle(left, left + face * scale, cy - half, cy + half), "thick", "wash", closed=True))
    items += [
        Path(_rectangle(left, left + 15, cy - clamp, cy + clamp), "thick", "hatch", closed=True) for left in (x0 - 15, x0 + long)
    ]
    items.append(Line((6, cy), (WIDTH - 6, cy), "centre"))
    items += _length(quantity, face, x0, long, cy - half)
    items += _names(quantity, x0, long, face * scale, cy + half)
    items += [label((8, 8 + LINE * (len(words) - 1 - row)), text) for row, text in enumerate(words)]
    total = quantity * face
    says = f"{quantity} blanks of {face:g} mm face stand {total:.2f} mm long on one mandrel: one count and one setting for all."
    if quantity == 1:
        says = f"One blank of {face:g} mm face on its mandrel."
    return framed("stack", "Stack on a mandrel", says, cy + half + 30, items, "Blanks and bore to scale; mandrel cut short.")


def _rectangle(x0: float, x1: float, y0: float, y1: float) -> tuple[Point, ...]:
    return ((x0, y0), (x1, y0), (x1, y1), (x0, y1))


def _length(quantity: int, face: float, x0: float, long: float, low: float) -> list[Item]:
    total = quantity * face
    y = low - 14
    words = f"{quantity} × {face:g} = {total:.2f} mm = {total / 25.4:.3f} in"
    ends: list[Item] = [Line((x, low - 4), (x, y - 5), "thin") for x in (x0, x0 + long)]
    arrow = Arrow(((x0, y), (x0 + long, y)), "thin", both=True)
    return [*ends, arrow, label((WIDTH / 2, y - 6 - TEXT), words, "middle", bold=True)]


def _names(quantity: int, x0: float, long: float, face: float, high: float) -> list[Item]:
    """Which is first and which is last, where there is more than one."""
    if quantity < 2:
        return []
    first, last = x0 + face / 2, x0 + long - face / 2
    spread = max(0.0, 76 - (last - first)) / 2
    items: list[Item] = []
    for x, side, word in ((first, -1, "first"), (last, 1, "last")):
        items.append(label((x + side * spread, high + 12), word, "middle"))
    return items
