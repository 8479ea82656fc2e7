"""Issued sheets come back as they were."""

from __future__ import annotations

from fractions import Fraction

from evenpitch.quantity.figure import Figure
from evenpitch.quantity.finding import Finding
from evenpitch.sheet.document import (
    Blanks,
    Cell,
    Choose,
    Document,
    KeyFigure,
    Notes,
    Picture,
    Row,
    Schedule,
    Section,
    Steps,
    Table,
    TableRow,
    Words,
    Working,
)
from evenpitch.sheet.drawing import Arc, Circle, Drawing, Line, Path
from evenpitch.sheet.kept_document import kept, kept_pages

FINDING = Finding("dust", "look", "It is fine.", "It is gritty.", "Wear a mask.", ("common practice",), "material")
FIGURE = Figure("pulses_per_count", Fraction(215, 576), "", "i", "i = q / L", (("q", "192000"),), ("derived here",), "exact")
PICTURE = Drawing(
    "spot",
    "A spot",
    "Nothing to see.",
    360.0,
    200.0,
    (Line((0, 0), (1, 2)), Arc((0, 0), 3, 0, 90), Circle((1, 1), 2), Path(((0, 0), (1, 1)))),
)
EVERY_BLOCK = (
    Words("plain", strong=True),
    Schedule((Row("ratio", "215/576", "", FIGURE, ("dust",)),), ("mm", "in")),
    Table(
        ("a", "b"),
        (TableRow(("1", "2"), chosen=True, choose=Choose("choice.way", "x"), share=(0.1, 0.2), verdict=(1, "pass")),),
        right=(1,),
    ),
    Steps(("one", "two"), boxes=True),
    Notes((FINDING,)),
    Picture(PICTURE, ("dust",)),
    Working(("97 × 8/20",)),
    Blanks((("span", 1),)),
)
PAGE = Document(
    kind="sheet",
    title="97 teeth",
    keys=(KeyFigure("depth", "4.55", "mm", "0.179 in", ("dust",)),),
    findings=(FINDING,),
    sections=(Section("all", "Every block", EVERY_BLOCK, "left", new_page=True),),
    cells=(Cell("sheet", "1 of 2", "pass"),),
    stamp="",
    paper="letter",
)


def test_a_document_of_every_block_comes_back_whole() -> None:
    assert kept_pages(kept((PAGE, PAGE))) == (PAGE, PAGE)


def test_a_field_that_is_no_longer_known_is_passed_over() -> None:
    text = kept((PAGE,)).replace('"title":', '"colour":"red","title":')
    assert kept_pages(text) == (PAGE,)
