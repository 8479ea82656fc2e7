"""The wall charts, asked for at the command line or on a page."""

from __future__ import annotations

import csv
import io
import re
from collections.abc import Iterable
from fractions import Fraction
from typing import Any

from evenpitch.dividing.chart import chart
from evenpitch.dividing.lead import every_lead
from evenpitch.dividing.methods import Method
from evenpitch.job.dividing_question import Dividing
from evenpitch.job.leading import exact
from evenpitch.quantity.read_length import read_length
from evenpitch.quantity.refusal import refuse
from evenpitch.quantity.showing import mixed_number
from evenpitch.sheet.answers import answer
from evenpitch.sheet.compose.charts import (
    COUNT_HEADS,
    LEAD_HEADS,
    compose_count_chart,
    compose_lead_chart,
    count_cells,
    lead_cells,
)
from evenpitch.sheet.document import Document, Paper
from evenpitch.web.answer import Answer
from evenpitch.web.divide_answer import few_enough, head_question
from evenpitch.web.lead_answer import USUAL_SCREW
from evenpitch.web.typed import Collected, Typed, rig_of

MOST_ROWS = 2_000
"""Counts in one chart; a wall holds no more."""
MOST_CHART_GEARS = 20
"""Different change gears in a chart of leads: more give tens of thousands of leads."""
USUAL_SIZE = (18, 12)
"""Circles and different gears of the usual head: of these `MOST_ROWS` take some seconds."""


def _pdf(document: Document) -> bytes:
    from evenpitch.sheet.print_pdf import pdf_bytes

    return pdf_bytes(document)


def csv_bytes(heads: tuple[str, ...], rows: Iterable[tuple[str, ...]]) -> bytes:
    """A table as CSV, UTF-8, one header line."""
    out = io.StringIO()
    writer = csv.writer(out, lineterminator="\n")
    writer.writerow(heads)
    writer.writerows(rows)
    return out.getvalue().encode()


def _paper(typed: Typed, collected: Collected) -> Paper:
    def read(text: str) -> Paper:
        word = text.strip().casefold()
        if word not in ("a4", "letter"):
            raise refuse("paper", text, "a4 or letter", "Only these two sizes are laid out.", "Leave it out for A4.")
        return "letter" if word == "letter" else "a4"

    found: Paper = collected.read(typed, "paper", read, "a4")
    return found


def _range(text: str) -> tuple[int, int]:
    match = re.fullmatch(r"\s*(\d{1,7})\s*(?:-|–|to)\s*(\d{1,7})\s*", text)
    if match is None or not 1 <= int(match[1]) <= int(match[2]) or int(match[2]) - int(match[1]) >= MOST_ROWS:
        likely = "A chart runs from one whole count to another."
        raise refuse("chart", text, f"two counts, the smaller first, at most {MOST_ROWS} apart", likely, "Write 2-400.")
    return int(match[1]), int(match[2])


def _length(text: str, field: str) -> Fraction:
    found = read_length(text, field=field)
    if not 0 < found <= 10_000:
        raise refuse(
            field, text, "a length above 0 and up to 10 m", "A sign, a digit or the unit may be wrong.", "Write it with its unit."
        )
    return found


def most_rows(question: Dividing) -> int:
    """How many counts one chart may have: fewer where there are many more circles and gears to try than usual."""
    circles = sum(len(plate.circles) for plate in question.plates) / USUAL_SIZE[0]
    gears = len(set(question.change_gears.teeth)) / USUAL_SIZE[1]
    return max(20, int(MOST_ROWS / max(1.0, circles) / max(1.0, gears) ** 5))


def _few_enough(span: tuple[int, int], question: Dividing) -> None:
    most = most_rows(question)
    if span[1] - span[0] >= most:
        likely = "Every way of every count is tried, and this head has many circles or gears."
        raise refuse(
            "chart", f"{span[0]}-{span[1]}", f"at most {most} counts on this head", likely, "Make several charts of fewer counts."
        )


def _head_words(question: Dividing) -> str:
    return f"a {mixed_number(question.head.ratio)}:1 head"


def divide_chart(typed: Typed, rig: bytes | None) -> Answer:
    """Every count in a range on one's own head."""
    collected = Collected()
    question = head_question(typed, rig_of(rig), collected)
    paper = _paper(typed, collected)
    span = collected.read(typed, "chart", _range, (2, 400))
    collected.settle()
    _few_enough(span, question)
    rows = chart(
        *span,
        question.head,
        question.plates,
        question.change_gears,
        question.pulses_per_turn,
        motor_on=question.motor_on,
        head_error_arcsec=question.head_error,
    )
    document = compose_count_chart(rows, _head_words(question), paper, motor=question.pulses_per_turn is not None)
    shown = [{"divisions": row.divisions, "best": _facts(row.by_hand()), "motor": _facts(row.motor)} for row in rows]
    files = {"pdf": lambda: _pdf(document), "csv": lambda: csv_bytes(COUNT_HEADS, map(count_cells, rows))}
    return Answer(document, answer("divide", chart=shown), files)


def _facts(method: Method | None) -> dict[str, Any] | None:
    return None if method is None else method.facts()


def lead_chart(typed: Typed, rig: bytes | None) -> Answer:
    """Every lead one's gears give."""
    collected = Collected()
    owned = rig_of(rig)
    question = head_question(typed, owned, collected)
    usual = exact(owned.table.screw_lead) if owned is not None and owned.table.screw_lead is not None else USUAL_SCREW
    screw = collected.read(typed, "screw-lead", lambda text: _length(text, "screw-lead"), usual)
    diameter = collected.read(typed, "diameter", lambda text: float(_length(text, "diameter")), None)
    paper = _paper(typed, collected)
    collected.settle()
    if len(question.change_gears.teeth) < 2:
        raise refuse(
            "change-gears", len(question.change_gears.teeth), "at least two change gears", "", "List the gears in the box."
        )
    few_enough(question.change_gears, MOST_CHART_GEARS)
    trains = every_lead(question.head, screw, question.change_gears)
    document = compose_lead_chart(trains, _head_words(question), diameter, paper)
    shown = answer("lead", chart=[train.facts() for train in trains])
    files = {
        "pdf": lambda: _pdf(document),
        "csv": lambda: csv_bytes(LEAD_HEADS, (lead_cells(train, diameter) for train in trains)),
    }
    return Answer(document, shown, files)
