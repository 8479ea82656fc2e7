"""Text for the terminal: a small document as a whole, and the rules it keeps."""

from __future__ import annotations

import pytest

from evenpitch.quantity.finding import Finding
from evenpitch.sheet.document import Blanks, Block, Cell, Document, KeyFigure, Row, Schedule, Section, Steps, Table, TableRow
from evenpitch.sheet.print_text import WIDTH, block_text, text
from evenpitch.sheet.runs import Run, runs
from sheet.every_block import blocks, document

SMALL = Document(
    kind="answer",
    title="97 spaces on a 40:1 head",
    keys=(KeyFigure("each space", "8 of 20", "", "gears 48 : 40", ("pin",)), KeyFigure("worst", "0", "arcsec")),
    findings=(
        Finding("pin", "stop", "The pin is home.", "The belt fights the plate.", "Draw the **pin** before the motor has power."),
    ),
    sections=(
        Section(
            "ways",
            "Ways",
            (
                Table(
                    ("way", "worst"),
                    (TableRow(("link", "3.3″"), chosen=True, share=(0.02, 0.5)), TableRow(("crank", "0″"))),
                    right=(1,),
                ),
                Schedule((Row("pitch diameter", "205.317", "8.0833"), Row("teeth", "97")), ("mm", "in")),
                Steps(("Guard on.",), boxes=True),
                Blanks((("span found", 2),)),
            ),
        ),
    ),
    cells=(Cell("job", "A"), Cell("verdict", "recut", "fail")),
)

GOLDEN = """\
97 spaces on a 40:1 head
========================

each space  8 of 20   gears 48 : 40 [1]
worst       0 arcsec

[1] stop: The pin is home.
    The belt fights the plate.
    do: Draw the pin before the motor has power.

Ways
----
way       worst
------------------------------
link       3.3″  //////......|
(chosen)
crank        0″

                      mm       in
pitch diameter   205.317   8.0833
teeth                 97

[ ] Guard on.

span found __________ __________

job      A
verdict  x recut
"""


def test_a_small_document_whole() -> None:
    assert text(SMALL) == GOLDEN


@pytest.mark.parametrize("block", blocks(), ids=lambda block: type(block).__name__)
def test_each_block_keeps_to_the_width(block: Block) -> None:
    lines = block_text(block)
    assert lines
    assert max(map(len, lines)) <= WIDTH
    assert not any("**" in line for line in lines)


@pytest.mark.parametrize("width", [80, 88, 100])
def test_the_whole_keeps_to_the_width(width: int) -> None:
    assert max(map(len, text(document(), width).splitlines())) <= width


def test_figures_line_up_at_their_right() -> None:
    lines = block_text(Schedule((Row("a", "1.5", "0.0591"), Row("b", "205.317", "8.0833")), ("mm", "in")))
    assert len({len(line) for line in lines}) == 1


def test_a_picture_is_replaced_by_what_it_says() -> None:
    assert "All lines & fillings, once each." in text(document())


def test_numbers_of_flags_stand_beside_their_figures() -> None:
    printed = text(document())
    assert "pitch diameter [3]" in printed
    assert "teeth [2]" in printed
    assert printed.index("[1] stop") < printed.index("[2] look") < printed.index("[3] note")


def test_runs_of_a_text() -> None:
    assert runs("depth **4.566** [ ] seen ____.") == (
        Run("plain", "depth "), Run("bold", "4.566"), Run("plain", " "), Run("box", "[ ]"), Run("plain", " seen "),
        Run("line", "____"), Run("plain", "."),
    )  # fmt: skip
