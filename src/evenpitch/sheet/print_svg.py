"""Drawing -> SVG: classes and presentation attributes only, so that a page's policy may forbid inline style.

On a page the colours come from the page's custom properties; on paper every colour is written out, black or white.
"""

from __future__ import annotations

import math
from collections.abc import Iterable
from itertools import groupby, pairwise
from typing import Literal, assert_never
from xml.sax.saxutils import escape, quoteattr

from evenpitch.sheet.drawing import Arc, Arrow, Block, Circle, Drawing, Filling, Item, Label, Line, LineClass, Path, Point
from evenpitch.sheet.strokes import DASHES, HATCHES, WIDTHS, arrow_heads, arrow_shaft, block_outline

Ink = Literal["page", "paper"]

PAPER_WORDS = "Libertinus Serif"
PAPER_FIGURES = "DejaVu Sans Mono"


def svg(drawing: Drawing, *, ink: Ink = "page", least_text: float = 0) -> str:
    """The drawing as one SVG element. `least_text`: no label smaller than so many picture units (paper: 10 pt as printed)."""
    sheet = _Sheet(drawing, ink, least_text)
    return "".join(
        (
            sheet.head(),
            f'<title id="{sheet.key}-t">{escape(drawing.title)}</title>',
            f'<desc id="{sheet.key}-d">{escape(drawing.says)}</desc>',
            sheet.patterns(),
            *sheet.body(),
            "</svg>",
        )
    )


class _Sheet:
    """One drawing being written: where its corner is, how thick its pen, which ink."""

    def __init__(self, drawing: Drawing, ink: Ink, least_text: float) -> None:
        self.drawing, self.ink, self.least_text = drawing, ink, least_text
        self.pen, self.key = drawing.pen, _identifier(drawing.key)
        self.black = "currentColor" if ink == "page" else "#000"
        self.places = max(2, 2 - math.floor(math.log10(drawing.pen))) if drawing.pen > 0 else 2

    def head(self) -> str:
        width, height = self.number(self.drawing.width), self.number(self.drawing.height)
        shown = ' class="pic"' if self.ink == "page" else f' width="{width}" height="{height}"'
        return (
            f'<svg xmlns="http://www.w3.org/2000/svg"{shown} viewBox="0 0 {width} {height}" role="img"'
            f' aria-labelledby="{self.key}-t {self.key}-d" fill="none" stroke="{self.black}"'
            f' stroke-linejoin="round">'
        )

    def number(self, value: float) -> str:
        text = f"{value:.{self.places}f}".rstrip("0").rstrip(".")
        return "0" if text in ("-0", "") else text

    def point(self, point: Point) -> Point:
        """Down from the top left, as SVG counts, from up from the lower left."""
        left, bottom = self.drawing.corner
        return point[0] - left, self.drawing.height - (point[1] - bottom)

    def pair(self, point: Point) -> str:
        x, y = self.point(point)
        return f"{self.number(x)} {self.number(y)}"

    def patterns(self) -> str:
        used = {item.fill for item in self.drawing.items if isinstance(item, (Circle, Path)) and item.fill in HATCHES}
        if not used:
            return ""
        return "<defs>" + "".join(self.pattern(fill) for fill in sorted(used)) + "</defs>"

    def pattern(self, fill: Filling) -> str:
        apart, angle = HATCHES[fill]
        pitch, middle = self.number(apart * self.pen), self.number(apart * self.pen / 2)
        turn = f' patternTransform="rotate({self.number(90 - angle)})"' if angle != 90 else ""
        return (
            f'<pattern id="{self.key}-{fill}" width="{pitch}" height="{pitch}" patternUnits="userSpaceOnUse"{turn}>'
            f'<path d="M{middle} 0V{pitch}" stroke="{self.black}" stroke-width="{self.number(WIDTHS["thin"] * self.pen)}"/>'
            "</pattern>"
        )

    def body(self) -> Iterable[str]:
        """Items in order; neighbours drawn with the same pen share one group."""
        for look, items in groupby(self.drawing.items, _pen_of):
            inner = "".join(map(self.item, items))
            yield f"<g{self.stroke(look)}>{inner}</g>" if look else inner

    def stroke(self, cls: LineClass) -> str:
        if cls == "none":
            return ' stroke="none"'
        dash = " ".join(self.number(part * self.pen) for part in DASHES.get(cls, ()))
        dashes = f' stroke-dasharray="{dash}"' if dash else ""
        return f' class="l-{cls}" stroke-width="{self.number(WIDTHS[cls] * self.pen)}"{dashes}'

    def item(self, item: Item) -> str:
        match item:
            case Line():
                return self.path((item.start, item.end))
            case Arc():
                return self.arc(item)
            case Circle():
                x, y = self.point(item.centre)
                at = f'cx="{self.number(x)}" cy="{self.number(y)}" r="{self.number(item.radius)}"'
                return f"<circle {at}{self.fill(item.fill)}/>"
            case Path():
                return self.path(item.points, self.fill(item.fill), item.closed)
            case Arrow():
                return self.arrow(item)
            case Block():
                return self.path(block_outline(item), self.fill("paper"), closed=True)
            case Label():
                return self.label(item)
            case _:
                assert_never(item)

    def path(self, points: tuple[Point, ...], more: str = "", closed: bool = False) -> str:
        return f'<path d="{self.course(points, closed)}"{more}/>' if points else ""

    def course(self, points: tuple[Point, ...], closed: bool = False) -> str:
        """Straight pieces as differences of rounded points, which are short and do not add up their rounding."""
        rounded = [tuple(round(value, self.places) for value in self.point(point)) for point in points]
        x, y = rounded[0]
        text = f"M{self.number(x)} {self.number(y)}"
        if len(rounded) > 1:
            steps = (f"{self.number(b[0] - a[0])} {self.number(b[1] - a[1])}" for a, b in pairwise(rounded))
            text += "l" + " ".join(steps).replace(" -", "-")
        return text + ("z" if closed else "")

    def arc(self, item: Arc) -> str:
        sweep = item.end - item.start
        if abs(sweep) >= 360:
            return self.item(Circle(item.centre, item.radius, item.cls))
        start, end = (_on_circle(item, angle) for angle in (item.start, item.end))
        radius = self.number(item.radius)
        large = 1 if sweep % 360 > 180 else 0
        return f'<path d="M{self.pair(start)}A{radius} {radius} 0 {large} 0 {self.pair(end)}"/>'

    def arrow(self, item: Arrow) -> str:
        heads = "".join(self.course(head, closed=True) for head in arrow_heads(item, self.pen))
        shaft = self.path(arrow_shaft(item, self.pen))
        return shaft + (f'<path d="{heads}" fill="{self.black}" stroke="none"/>' if heads else "")

    def fill(self, fill: Filling) -> str:
        match fill:
            case "none":
                return ""
            case "ink":
                return f' fill="{self.black}"'
            case "wash" | "paper":
                return f' class="f-{fill}"' if self.ink == "page" else ' fill="#fff"'
            case "hatch" | "close" | "upright":
                return f' fill="url(#{self.key}-{fill})"'
            case _:
                assert_never(fill)

    def label(self, item: Label) -> str:
        x, y = self.point(item.at)
        size = max(item.size * self.pen, self.least_text)
        attributes = [f'x="{self.number(x)}" y="{self.number(y)}"', f'font-size="{self.number(size)}"']
        if item.anchor != "start":
            attributes.append(f'text-anchor="{item.anchor}"')
        if item.bold:
            attributes.append('font-weight="700"')
        if item.turn:
            attributes.append(f'transform="rotate({self.number(-item.turn)} {self.number(x)} {self.number(y)})"')
        attributes.append(self.lettering(item, size))
        return f"<text {' '.join(part for part in attributes if part)}>{self.lines(item.text, x, size)}</text>"

    def lettering(self, item: Label, size: float) -> str:
        face = "" if self.ink == "page" else f"font-family={quoteattr(_paper_face(item.text))} "
        ground = f'fill="{self.black}" stroke="none"'
        if item.patch:
            white = 'class="patch"' if self.ink == "page" else 'stroke="#fff"'
            ground = f'fill="{self.black}" {white} stroke-width="{self.number(size * 0.45)}" paint-order="stroke"'
        return face + ground

    def lines(self, text: str, x: float, size: float) -> str:
        first, *rest = text.split("\n")
        fall = self.number(size * 1.18)
        return escape(first) + "".join(f'<tspan x="{self.number(x)}" dy="{fall}">{escape(line)}</tspan>' for line in rest)


def _pen_of(item: Item) -> LineClass | Literal[""]:
    if isinstance(item, Label):
        return ""
    return "movement" if isinstance(item, Block) else item.cls


def _on_circle(item: Arc, angle: float) -> Point:
    turn = math.radians(angle)
    return item.centre[0] + item.radius * math.cos(turn), item.centre[1] + item.radius * math.sin(turn)


def _paper_face(text: str) -> str:
    """Words in a book face, figures in a typed one."""
    return PAPER_WORDS if any(letter.isalpha() for letter in text) else PAPER_FIGURES


def _identifier(key: str) -> str:
    return "".join(letter if letter.isalnum() or letter in "-_" else "-" for letter in key)
