"""Picture of what spoils the spacing: bars in µm at the pitch line, largest first, filled by whose they are."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from typing import Literal

from evenpitch.sheet.drawing import Arrow, Drawing, Filling, Item, Line, LineClass, Path
from evenpitch.sheet.drawings.framing import framed
from evenpitch.sheet.drawings.lettering import LINE, WIDTH, label, text_width

Owner = Literal["head", "setup", "motor", "scale", "cutter", "instrument"]

_LOOKS: dict[Owner, tuple[LineClass, Filling]] = {
    "head": ("medium", "ink"),
    "setup": ("medium", "hatch"),
    "motor": ("medium", "upright"),
    "scale": ("medium", "close"),
    "cutter": ("dashed", "none"),
    "instrument": ("medium", "none"),
}
_LEFT = 10.0
_LONGEST = 288.0
_ROW = 36.0
_TALL = 11.0


@dataclass(frozen=True, slots=True)
class Share:
    """One thing that spoils the spacing: its name, µm at the pitch line, whose it is."""

    name: str
    um: float
    owner: Owner


def spacing_bars(
    shares: Sequence[Share], limit_um: float | None, limit_words: str, *, total_um: float | None = None, total_words: str = ""
) -> Drawing:
    """Bars to one scale, the limit as a long-dot line across them, the total as a dimension beneath."""
    ranked = sorted(shares, key=lambda share: -share.um)
    unit = _LONGEST / max([*(s.um for s in ranked), limit_um or 0.0, total_um or 0.0, 1e-9])
    owners = [owner for owner in _LOOKS if any(s.owner == owner for s in ranked)]
    foot = _foot(owners)
    below = LINE * len(foot) + 10 + (44 if total_um is not None else 0)
    top = below + _ROW * len(ranked)
    items: list[Item] = []
    if limit_um is not None:
        items += _limit(limit_um, limit_words, unit, below - 4, top + 4)
    items.append(Line((_LEFT, below), (_LEFT, top), "thick"))
    for row, share in enumerate(ranked):
        items += _bar(share, unit, top - row * _ROW)
    if total_um is not None:
        items += _total(total_um, total_words, unit, below - 16)
    items += _key(foot)
    says = "; ".join(f"{s.name} {_figure(s.um)} µm ({s.owner})" for s in ranked)
    says += f". Total {_figure(total_um)} µm" if total_um is not None else ""
    says += f"; {limit_words} {_figure(limit_um)} µm." if limit_um is not None else "."
    return framed("spacing", "What spoils the spacing, µm", says, top + 26, items, "µm at the pitch line, to scale.")


def _figure(um: float) -> str:
    return f"{um:.0f}" if um >= 99.5 else f"{um:.1f}".removesuffix(".0")


def _limit(um: float, words: str, unit: float, low: float, high: float) -> list[Item]:
    """The line and its words above it, kept inside the sheet."""
    x = _LEFT + um * unit
    text = f"{words}: {_figure(um)}"
    half = text_width(text, bold=True) / 2
    middle = min(max(x, half + 4), WIDTH - half - 4)
    return [Line((x, low), (x, high), "centre"), label((middle, high + 6), text, "middle", bold=True)]


def _bar(share: Share, unit: float, top: float) -> list[Item]:
    low, right = top - _ROW + 3, _LEFT + max(share.um * unit, 1.5)
    pen, fill = _LOOKS[share.owner]
    outline = ((_LEFT, low), (right, low), (right, low + _TALL), (_LEFT, low + _TALL))
    return [
        label((_LEFT + 6, top - 14), share.name, patch=True),
        Path(outline, pen, fill, closed=True),
        label((right + 6, low - 0.5), _figure(share.um), patch=True),
    ]


def _total(um: float, words: str, unit: float, y: float) -> list[Item]:
    right = _LEFT + um * unit
    return [
        Line((_LEFT, y - 5), (_LEFT, y + 5), "medium"),
        Line((right, y - 5), (right, y + 5), "medium"),
        Arrow(((_LEFT, y), (right, y)), "medium", both=True),
        label((right + 6, y - 5), _figure(um), bold=True),
        label((_LEFT + 6, y - 20), words),
    ]


def _foot(owners: Sequence[Owner]) -> list[list[Owner]]:
    """The key in rows that fit."""
    rows: list[list[Owner]] = [[]]
    wide = 0.0
    for owner in owners:
        room = 52 + text_width(owner)
        if wide + room > WIDTH - 8 and rows[-1]:
            rows.append([])
            wide = 0.0
        rows[-1].append(owner)
        wide += room
    return rows


def _key(rows: Sequence[Sequence[Owner]]) -> list[Item]:
    items: list[Item] = []
    for row, owners in enumerate(reversed(rows)):
        x, y = _LEFT, 8 + row * LINE
        for owner in owners:
            pen, fill = _LOOKS[owner]
            items.append(Path(((x, y), (x + 28, y), (x + 28, y + _TALL), (x, y + _TALL)), pen, fill, closed=True))
            items.append(label((x + 34, y), owner))
            x += 52 + text_width(owner)
    return items
