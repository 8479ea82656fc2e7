"""Picture of the drawing language itself: the lines and the fillings, each with what it means."""

from __future__ import annotations

from evenpitch.sheet.drawing import Block, Drawing, Filling, Item, Line, LineClass, Path
from evenpitch.sheet.drawings.framing import framed
from evenpitch.sheet.drawings.lettering import label

LINES: tuple[tuple[LineClass, str, str], ...] = (
    ("thick", "thick", "wanted; edge; limit"),
    ("medium", "medium", "measured; scales"),
    ("thin", "thin", "leaders, dimensions"),
    ("dashed", "dashed", "cutter; second way"),
    ("other", "long, dot dot", "before it moved"),
    ("centre", "long, dot", "centre, pitch line"),
)
FILLINGS: tuple[tuple[Filling, str, str], ...] = (
    ("none", "empty", "in order; still to cut"),
    ("hatch", "open", "in doubt; the setting-up"),
    ("close", "close", "failed"),
    ("upright", "upright", "motor or link"),
    ("ink", "solid", "done; a reading; head"),
)
_ROW, _TALL, _SAMPLE, _NAME, _MEANS = 24.0, 34.0, 58.0, 66.0, 190.0


def key_to_lines() -> Drawing:
    """Six lines and the outline arrow."""
    height = _ROW * (len(LINES) + 1) + 8
    items: list[Item] = []
    for row, (cls, name, means) in enumerate(LINES):
        middle = height - _ROW * (row + 0.5) - 4
        items.append(Line((4, middle), (_SAMPLE, middle), cls))
        items += [label((_NAME, middle - 5), name, bold=True), label((_MEANS, middle - 5), means)]
    middle = _ROW / 2 + 4
    items += [Block((4, middle), (_SAMPLE, middle)), label((_NAME, middle - 5), "movement", bold=True)]
    items.append(label((_MEANS, middle - 5), "it moves; push here"))
    says = "; ".join(f"{name}: {means}" for _, name, means in LINES) + "; outline arrow: something moves."
    return framed(
        "key-to-lines", "Six lines and an arrow", says, height, items, "The same in every picture, on the page and on paper."
    )


def key_to_fillings() -> Drawing:
    """Five fillings."""
    height = _TALL * len(FILLINGS) + 8
    items: list[Item] = []
    for row, (fill, name, means) in enumerate(FILLINGS):
        top = height - _TALL * row - 6
        foot = top - _TALL + 8
        items.append(Path(((4, foot), (_SAMPLE, foot), (_SAMPLE, top), (4, top)), "medium", fill, closed=True))
        items += [label((_NAME, foot + 8), name, bold=True), label((_MEANS - 48, foot + 8), means)]
    says = "; ".join(f"{name}: {means}" for _, name, means in FILLINGS) + "."
    return framed(
        "key-to-fillings", "Five fillings", says, height, items, "Hatching aslant, or upright where the motor is meant."
    )
