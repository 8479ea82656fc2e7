"""A document that holds every kind of block, drawing item, filling and weight once: what each printer is tried on."""

from __future__ import annotations

from evenpitch.quantity.figure import Figure
from evenpitch.quantity.finding import Finding
from evenpitch.sheet.document import (
    Blanks,
    Block,
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
from evenpitch.sheet.drawing import Arc, Arrow, Circle, Drawing, Filling, Item, Label, Line, LineClass, Path
from evenpitch.sheet.drawing import Block as Movement

LINES: tuple[LineClass, ...] = ("thick", "medium", "thin", "dashed", "other", "centre", "movement", "none")
FILLINGS: tuple[Filling, ...] = ("none", "hatch", "close", "upright", "ink", "wash", "paper")

STOP = Finding(
    "travel", "stop", "Travel needed is 24.5 in; the table has 22.", "The run-outs do not fit.", "Cut from two settings."
)
LOOK = Finding("head-map", "look", "The head is off by ±40″ <once> a turn.", "", "Use the **map** of 3 Nov.", ("MR",))
NOTE = Finding("strength", "note", "Strength & wear are not checked.", "", "", about="pitch_diameter")

PITCH = Figure(
    "pitch_diameter",
    59.594,
    "mm",
    "d",
    "d = z m_n / cos β",
    (("z", "28"), ("β", "20°")),
    ("ISO 21771:2007",),
    "Of the wheel, not of the blank.",
)


def drawing() -> Drawing:
    """Every item, line class and filling."""
    items: list[Item] = [Line((10, 10 + 8 * k), (90, 10 + 8 * k), cls) for k, cls in enumerate(LINES)]
    items += [Circle((120, 20 + 30 * k), 12, "thick", fill) for k, fill in enumerate(FILLINGS)]
    items += [
        Path(((150, 20), (200, 20), (200, 60)), "medium", fill="hatch", closed=True),
        Path(((150, 80), (200, 80)), "dashed"),
        Arc((180, 120), 20, 30, 200),
        Arc((180, 160), 10, 0, 360),
        Arrow(((220, 20), (300, 20)), both=True),
        Arrow(tuple((260 + 2.0 * k, 60 + 0.1 * k * k) for k in range(20)), "thick"),
        Movement((220, 120), (280, 150)),
        Label((220, 180), "8 spaces < 9 holes", bold=True, patch=True),
        Label((340, 200), "59.594\n2.3462", "end", turn=90),
        Label((300, 30), "middle", "middle"),
    ]
    return Drawing("every-item", "Every item", "All lines & fillings, once each.", 360, 240, tuple(items), "Not to scale.")


def blocks() -> tuple[Block, ...]:
    """Every kind of block; tables in all their kinds."""
    ways = (
        TableRow(("**Link**", "6857 × 24\n28 moves", "2.9″"), chosen=True, share=(0.01, 0.23)),
        TableRow(("Simple", "1 turn + 9 of 21", "0″"), choose=Choose("way", "simple <1>"), share=(0, 0.23)),
        TableRow(("Direct", "24 holes do not hold 28"), strong=True),
    )
    verdicts = tuple(TableRow((f"reading {k}", word), verdict=(1, word)) for k, word in enumerate(("pass", "not proven", "fail")))
    run = tuple(TableRow((f"**{k + 1}**", f"{k}° 0′ 0″", f"{1979 * k}")) for k in range(12))
    return (
        Words("Depth **4.566** less half of what the blank is under; gain ____ µm, [ ] seen.", strong=True),
        Schedule(
            (Row("pitch diameter", "59.594", "2.3462", PITCH), Row("teeth", "28, right-hand", flags=("head-map",))), ("mm", "in")
        ),
        Schedule((Row("direction", "conventional"), Row("feed", "3 in/min", "76 mm/min"))),
        Table(
            ("way", "each space", "worst,\nangle"),
            ways,
            right=(2,),
            note="Hatched: the head.",
            share_head="of class 8",
            share_before=2,
        ),
        Table(("reading", "verdict"), verdicts, grid=True),
        Table(("space", "angle", "pulses"), run, right=(0, 1, 2), heavy=10, columns=3, boxes=True),
        Steps(("Guard on.", "Knee **down** first."), boxes=True),
        Steps(("Set the table.",)),
        Notes((STOP,)),
        Picture(drawing(), ("travel",)),
        Working(("28 × 10/7 = 40",)),
        Blanks((("span found", 4), ("rough", 1), ("full", 1), ("", 2))),
    )


def document() -> Document:
    """The whole sheet."""
    first, *rest = blocks()
    return Document(
        kind="plan",
        title="28 teeth, mn 2 & <b>",
        lead="One sentence under the heading.",
        keys=(KeyFigure("full depth", "4.50", "mm", "177.2 thou", ("strength",)),),
        findings=(NOTE, LOOK, STOP),
        sections=(
            Section("opening", "Opening", (first,), "left", lead="runs on"),
            Section("aside", "", (Words("No heading here."),), "right"),
            Section("every-thing", "Everything", tuple(rest), "wide", new_page=True),
            Section("shares", "Shares", (Words("In the notes column."),), "notes"),
        ),
        cells=(Cell("sheet", "2 plan"), Cell("job", "B"), Cell("verdict", "recut", "fail")),
        stamp="not for cutting",
        sign="issued by, and when",
        dated="12 March 2026",
    )
