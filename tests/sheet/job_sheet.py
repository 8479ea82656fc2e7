"""A sheet for the wall as full as a real one: two columns of schedules, pictures and steps, then a run table."""

from __future__ import annotations

from fractions import Fraction

from evenpitch.sheet.document import Blanks, Cell, Document, Paper, Picture, Row, Schedule, Section, Steps, Table, TableRow, Words
from evenpitch.sheet.drawing import Circle, Drawing, Label

PULSES = 192_000


def job_sheet(spaces: int, paper: Paper, cautions: int = 8) -> Document:
    """The sheet of a wheel of so many spaces."""
    return Document(
        kind="sheet",
        title="A · loom change wheel",
        sections=(*_left(), *_right(cautions), _pencil(), *_run(spaces)),
        cells=tuple(Cell(label, value) for label, value in _CELLS),
        sign="cut by, and when",
        paper=paper,
    )


_CELLS = (
    ("job sheet", "A · loom change wheel"), ("gear in one line", "97 t, 12 DP, 14½°, spur"), ("plan", "1, issued"), ("dated", "12 March"),
    ("material", "grey cast iron"), ("rig", "mill + 40:1, link 6.75″"), ("hand", "none"), ("cut time", "95 min"),
    ("strength", "not checked"),
)  # fmt: skip


def _left() -> tuple[Section, ...]:
    return (
        Section("sketch", "", (Picture(_picture("sketch", 290)),), "left"),
        Section(
            "blank", "Blank and depth", (_schedule(3), Words("depth **4.566** less half of what the blank is under")), "left"
        ),
        Section("cutter", "Cutter", (_schedule(5),), "left"),
        Section("set-up", "Set up", (_schedule(4),), "left"),
        Section("dividing", "Dividing", (_schedule(5),), "left"),
        Section("wrong", "If it goes wrong", (Steps(("Lost count: fill from the datum, count the rest back.",) * 6),), "left"),
    )


def _right(cautions: int) -> tuple[Section, ...]:
    deeper = tuple(TableRow((f"{49.54 - 0.02 * k:.2f}", f"{0.46 - 0.039 * k:.2f}", f"{18.2 - 1.54 * k:.1f}")) for k in range(12))
    measure = Schedule(tuple(Row(f"span over 8, {k}", "49.328", "1.9421") for k in range(5)), ("mm", "in"))
    return (
        Section("depth", "Depth from touch", (Picture(_picture("ladder", 310)), Blanks((("touch", 1), ("full", 1)))), "right"),
        Section("deeper", "How much deeper", (Table(("span mm", "go mm", "thou"), deeper, right=(0, 1, 2), columns=2),), "right"),
        Section("measure", "Measure", (measure, Blanks((("span found", 4), ("space no.", 4)))), "right"),
        Section(
            "before",
            "Before the cutter turns",
            (Steps(("Stop button tried: the motor lets go.",) * cautions, boxes=True),),
            "right",
        ),
    )


def _pencil() -> Section:
    return Section("pencil", "Pencil", (Blanks((("", 2),)),), "wide")


def _run(spaces: int) -> tuple[Section, ...]:
    rows = tuple(
        TableRow((f"**{k % spaces + 1}**", f"{360 * k // spaces}°00′00″", f"{round(Fraction(PULSES * k, spaces))}"))
        for k in range(spaces + 1)
    )
    table = Table(("space", "angle", "pulses"), rows, right=(0, 1, 2), heavy=10, columns=3, boxes=True)
    return (
        Section(
            "run", "Run table", (table,), "wide", new_page=True, lead="every move is **8 spaces on the 20 circle**, gears 48 : 40"
        ),
        Section(
            "check",
            "",
            (Words("**Check by hand** 97 moves of 8/20 turn are 38.8 turns; the plate adds 1.2; together 40."),),
            "left",
        ),
        Section("sources", "", (Words("**Sources** tooth form: ISO 21771; direction: common practice."),), "right"),
    )


def _schedule(count: int) -> Schedule:
    return Schedule(tuple(Row(f"travel each space {k}", "41.4 mm", "1.630 in") for k in range(count)))


def _picture(key: str, height: float) -> Drawing:
    circle = Circle((120, height / 2), height / 2 - 10, "thick", "hatch")
    return Drawing(key, key, f"A picture of the {key}.", 360, height, (circle, Label((260, height / 2), "209.55 mm")))
