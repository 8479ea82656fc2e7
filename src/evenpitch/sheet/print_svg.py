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

LINE_FALL = 1.18
"""From one line of a label to the next, in sizes of its letters."""


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


def paper_width(drawing: Drawing, least_text: float) -> float:
    """Width of the drawing on paper in picture units: a little more than its own where large lettering asks for it."""
    return _Sheet(drawing, "paper", least_text).wide


class _Sheet:
    """One drawing being written: where its corner is, how thick its pen, which ink."""

    def __init__(self, drawing: Drawing, ink: Ink, least_text: float) -> None:
        self.drawing, self.ink, self.least_text = drawing, ink, least_text
        self.pen, self.key = drawing.pen, _identifier(drawing.key)
        self.black = "currentColor" if ink == "page" else "#000"
        self.wide, self.left = drawing.width, 0.0
        if ink == "paper":
            self.make_room()
        finest = 1 if ink == "page" else 2
        self.places = max(finest, finest - math.floor(math.log10(drawing.pen)))

    def make_room(self) -> None:
        """On paper lettering may be larger than it was drawn, and is cut off at the edge: widen the picture to hold it."""
        asked, edge = self.least_text, self.drawing.corner[0]
        for _ in range(3):
            spans = [self.span(item) for item in self.drawing.items if isinstance(item, Label)]
            self.left = min([0.0, *(low - edge for low, _ in spans)])
            self.wide = max([self.drawing.width, *(high - edge for _, high in spans)]) - self.left
            self.least_text = asked * self.wide / self.drawing.width

    def span(self, item: Label) -> tuple[float, float]:
        """From where to where a label reaches along the picture."""
        size = self.size(item)
        length, turn = _length(item, size), math.radians(item.turn)
        before = {"start": 0.0, "middle": 0.5, "end": 1.0}[item.anchor] * length
        ends = (item.at[0] - before * math.cos(turn), item.at[0] + (length - before) * math.cos(turn))
        rise = size * abs(math.sin(turn))
        return min(ends) - rise, max(ends)

    def size(self, item: Label) -> float:
        return max(item.size * self.pen, self.least_text)

    def head(self) -> str:
        width, height = self.number(self.wide), self.number(self.drawing.height)
        shown = ' class="pic"' if self.ink == "page" else f' width="{width}" height="{height}"'
        return (
            f'<svg xmlns="http://www.w3.org/2000/svg"{shown} viewBox="{self.number(self.left)} 0 {width} {height}" role="img"'
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
        """Items in order; neighbours drawn with the same pen share one group, neighbouring labels one lettering."""
        for look, items in groupby(self.drawing.items, self.look):
            yield f"<g{look}>{''.join(self.within(list(items)))}</g>"

    def look(self, item: Item) -> str:
        """The attributes that neighbouring items may share."""
        if isinstance(item, Label):
            return self.lettering(item)
        return self.stroke("movement" if isinstance(item, Block) else item.cls)

    def stroke(self, cls: LineClass) -> str:
        if cls == "none":
            return ' stroke="none"'
        dash = " ".join(self.number(part * self.pen) for part in DASHES.get(cls, ()))
        dashes = f' stroke-dasharray="{dash}"' if dash else ""
        return f' class="l-{cls}" stroke-width="{self.number(WIDTHS[cls] * self.pen)}"{dashes}'

    def within(self, items: list[Item]) -> Iterable[str]:
        """The items of one group; neighbours that are bare lines become one path."""
        for bare, several in groupby(items, lambda item: self.bare(item) != ""):
            if bare:
                yield f'<path d="{"".join(map(self.bare, several))}"/>'
            else:
                yield from map(self.item, several)

    def bare(self, item: Item) -> str:
        """The course of an item that is a line and nothing else; "" for any other."""
        match item:
            case Line():
                return self.course((item.start, item.end))
            case Arc():
                return self.arc(item)
            case Path(fill="none", points=(_, *_)):
                return self.course(item.points, item.closed)
            case _:
                return ""

    def item(self, item: Item) -> str:
        match item:
            case Line() | Arc():
                return f'<path d="{self.bare(item)}"/>'
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
        """An arc as a course; a whole turn or more in two halves."""
        sweep = item.end - item.start
        radius = self.number(item.radius)
        if abs(sweep) >= 360:
            halves = (self.pair(_on_circle(item, item.start + turn)) for turn in (0, 180, 360))
            return "M" + f"A{radius} {radius} 0 1 0 ".join(halves)
        large = 1 if sweep % 360 > 180 else 0
        start, end = (self.pair(_on_circle(item, angle)) for angle in (item.start, item.end))
        return f"M{start}A{radius} {radius} 0 {large} 0 {end}"

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

    def lettering(self, item: Label) -> str:
        size = self.size(item)
        look = f' font-size="{self.number(size)}" fill="{self.black}"'
        if self.ink == "paper":
            return look + f' font-family={quoteattr(_paper_face(item.text))} stroke="none"'
        if item.patch:
            return look + f' class="patch" stroke-width="{self.number(size * 0.45)}" paint-order="stroke"'
        return look + ' stroke="none"'

    def label(self, item: Label) -> str:
        x, y = self.point(item.at)
        attributes = f' x="{self.number(x)}" y="{self.number(y)}"'
        if item.anchor != "start":
            attributes += f' text-anchor="{item.anchor}"'
        if item.bold:
            attributes += ' font-weight="700"'
        turn = f' transform="rotate({self.number(-item.turn)} {self.number(x)} {self.number(y)})"' if item.turn else ""
        size = self.size(item)
        ground = self.ground(item, x, y, size, turn) if item.patch and self.ink == "paper" else ""
        return f"{ground}<text{attributes}{turn}>{self.lines(item.text, x, size)}</text>"

    def ground(self, item: Label, x: float, y: float, size: float, turn: str) -> str:
        """The white ground of a label on paper: the typesetter of the PDF paints no line behind letters."""
        lines = item.text.split("\n")
        wide = _length(item, size)
        left = x - {"start": 0.0, "middle": wide / 2, "end": wide}[item.anchor]
        top, tall = y - size * 0.82, size * (1.1 + LINE_FALL * (len(lines) - 1))
        box = f'x="{self.number(left)}" y="{self.number(top)}" width="{self.number(wide)}" height="{self.number(tall)}"'
        return f'<rect {box} fill="#fff" stroke="none"{turn}/>'

    def lines(self, text: str, x: float, size: float) -> str:
        first, *rest = text.split("\n")
        fall = self.number(size * LINE_FALL)
        return escape(first) + "".join(f'<tspan x="{self.number(x)}" dy="{fall}">{escape(line)}</tspan>' for line in rest)


def _on_circle(item: Arc, angle: float) -> Point:
    turn = math.radians(angle)
    return item.centre[0] + item.radius * math.cos(turn), item.centre[1] + item.radius * math.sin(turn)


def _length(item: Label, size: float) -> float:
    """About how long a label is printed on paper: its longest line, by the usual width of a letter of its face."""
    letter = 0.62 if _paper_face(item.text) == PAPER_FIGURES else (0.53 if item.bold else 0.49)
    return max(len(line) for line in item.text.split("\n")) * size * letter


def _paper_face(text: str) -> str:
    """Words in a book face, figures in a typed one."""
    return PAPER_WORDS if any(letter.isalpha() for letter in text) else PAPER_FIGURES


def _identifier(key: str) -> str:
    return "".join(letter if letter.isalnum() or letter in "-_" else "-" for letter in key)
