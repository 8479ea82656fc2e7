"""Picture of the waves that the spacing holds: µm against waves in a turn, lettered where a cause takes them up."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

from evenpitch.sheet.drawing import Drawing, Item, Line, Path, Point
from evenpitch.sheet.drawings.framing import framed
from evenpitch.sheet.drawings.lettering import LINE, label, text_width
from evenpitch.sheet.drawings.points import minus, nice

LEFT, RIGHT, LOW, HIGH = 46.0, 346.0, 66.0, 206.0
WIDE = 3.0


@dataclass(frozen=True, slots=True)
class WaveBar:
    """Waves in a turn, amplitude and the noise there (µm), the letter of its cause ("" for none), what it could be as well."""

    per_turn: int
    um: float
    noise: float
    letter: str = ""
    alias: int = 0


def waves_picture(bars: Sequence[WaveBar]) -> Drawing:
    """Strong bars for those above the noise; the noise as a long-dot line."""
    top = max(*(bar.um for bar in bars), *(2.5 * bar.noise for bar in bars if bar.per_turn > 1), 0.5) * 1.15
    last = max(bar.per_turn for bar in bars)

    def at(per_turn: float, um: float) -> Point:
        x = LEFT + 6 + (per_turn - 1) / max(last - 1, 1) * (RIGHT - LEFT - 12)
        return x, LOW + min(um, top) / top * (HIGH - LOW)

    items: list[Item] = [Line((LEFT, LOW), (LEFT, HIGH)), Line((LEFT, LOW), (RIGHT, LOW))]
    pitch = nice(top / 5)
    for step in range(int(top // pitch) + 1):
        y = at(1, step * pitch)[1]
        digits = 0 if pitch >= 1 else 1
        items += [Line((LEFT - 5, y), (LEFT, y), "thin"), label((LEFT - 8, y - 5), minus(step * pitch, digits), "end")]
    for tick in _ticks(last):
        x = at(tick, 0)[0]
        items += [Line((x, LOW - 5), (x, LOW), "thin"), label((x, LOW - 20), str(tick), "middle")]
    items.append(Path(tuple(at(bar.per_turn, 2 * bar.noise) for bar in bars), "centre"))
    for bar in bars:
        x, y = at(bar.per_turn, bar.um)
        if bar.letter:
            outline = ((x - WIDE, LOW), (x + WIDE, LOW), (x + WIDE, y), (x - WIDE, y))
            items.append(Path(outline, "medium", "ink", closed=True))
        else:
            items.append(Line((x, LOW), (x, y), "thin"))
    items += _letters([bar for bar in bars if bar.letter], at)
    items += [
        label((8, HIGH + 24), "µm"),
        label((LEFT, 24), "waves in one turn of the work"),
        label((LEFT, 6), "long dots: what scatter gives"),
    ]
    lettered = [bar for bar in bars if bar.letter]
    named = "; ".join(f"{bar.letter}: {_words(bar)}" for bar in lettered) or "none stands out of the scatter"
    return framed("waves", "Waves in a turn", f"Waves of the spacing: {named}.", HIGH + 44, items, "µm to scale.")


def _words(bar: WaveBar) -> str:
    count = f"{bar.per_turn}" + (f" (or {bar.alias})" if bar.alias and bar.per_turn > 1 else "")
    return f"{count} wave{'s' if bar.per_turn > 1 else ''}, {bar.um:.0f} µm" if bar.um >= 9.5 else f"{count}, {bar.um:.1f} µm"


def _letters(bars: Sequence[WaveBar], at: object) -> list[Item]:
    assert callable(at)
    items: list[Item] = []
    taken: list[tuple[float, float, float]] = []
    for bar in bars:
        x, y = at(bar.per_turn, bar.um)
        text = f"{bar.letter} · {_words(bar)}"
        wide = text_width(text)
        start = x + 7 if x + 7 + wide < RIGHT + 8 else max(LEFT + 8, x - 7 - wide)
        height = y - 4
        if start < x < start + wide:
            height = y + 5
        height = _free(start, wide, min(height, HIGH + 8), taken)
        taken.append((start, start + wide, height))
        items.append(label((start, height), text, patch=True))
    return items


def _free(start: float, wide: float, height: float, taken: Sequence[tuple[float, float, float]]) -> float:
    """The nearest height, below first, at which these words touch none that stand already."""
    tries = [height + step * sign * 3 for step in range(60) for sign in (-1, 1)]

    def clear(at: float) -> bool:
        return all(start > right + 4 or left > start + wide + 4 or abs(at - other) >= LINE for left, right, other in taken)

    return next((at for at in tries if LOW < at <= HIGH + 8 and clear(at)), height)


def _ticks(last: int) -> tuple[int, ...]:
    pitch = max(1, int(nice(last / 5)))
    inner = [tick for tick in range(pitch, last, pitch) if tick > 0.06 * last and tick < 0.92 * last]
    return (1, *inner, last)
