"""The trial-piece sheet: its own speed and feed, the spans to expect, a scratch round that must close."""

from __future__ import annotations

from evenpitch.job.trial import Trial
from evenpitch.quantity.showing import inch, mm, number
from evenpitch.sheet.compose.gear import gear_line
from evenpitch.sheet.compose.run_table import run_table
from evenpitch.sheet.compose.words import feed_words, length, pin_words, rig_words, system_of
from evenpitch.sheet.document import (
    Blanks,
    Cell,
    Document,
    KeyFigure,
    Paper,
    Row,
    Schedule,
    Section,
    Steps,
    Table,
    TableRow,
    Words,
)

SCRATCH = 0.05


def compose_trial(made: Trial, paper: Paper | None = None) -> Document:
    """The sheet of a trial piece."""
    gear, plan = made.gear, made.plan
    system = system_of(plan.order.choice, gear)
    speeds = gear.running.speeds
    pins = "balls" if gear.gear.helix else "pins"
    rows = tuple(
        TableRow(
            (
                number(depth, 3),
                number(depth / 25.4, 4),
                number(cut.span, 3),
                number(cut.span / 25.4, 4),
                number(cut.over_balls if gear.gear.helix else cut.over_pins, 3),
                "________",
            )
        )
        for depth, cut in made.depths
    )
    heads = ("depth mm", "in", f"span over {gear.form_cut.spanned} mm", "in", f"over {pin_words(gear)} {pins} mm", "found")
    disc = Schedule(
        (
            Row("outside, as the good blank", *length(float(gear.blank.outside), system, 2)),
            Row("material", gear.work.material or ""),
            Row("spaces beside each other", str(made.spaces)),
            Row("speed", f"{number(speeds.speed.value(), 0)} rpm"),
            Row("feed", feed_words(speeds.feed.value(), system)),
            Row("swing", gear.direction.swing),
        )
    )
    steps: tuple[str, ...] = (
        f"Scratch all {gear.gear.teeth} lines first, {mm(SCRATCH, 2)} deep: the last must meet the first. "
        "If it does not, stop and read the dividing again.",
        "A helix: look at the scratch. It must lean as the sheet shows.",
        f"Cut {made.spaces} spaces to the first depth; spindle stopped, measure the span; write it beside the prediction.",
        "Go on to the next depth; each span should fall by what the table says, within what your instrument can tell.",
        "A steady difference is the blank or the touch: correct the depth. A growing one is the cutter's form or the knee.",
    )
    if not gear.gear.helix:
        steps = (steps[0], *steps[2:])
    run = run_table(gear)
    sections = [
        Section("disc", "The disc", (disc,), "left"),
        Section("do", "What to do", (Steps(steps),), "right"),
        Section(
            "spans",
            "What to expect",
            (
                Table(heads, rows, right=(0, 1, 2, 3, 4), grid=True),
                Words(f"Predicted by the form-cut rule: {gear.form_cut.note}."),
            ),
        ),
        Section("before", "Before the cutter turns", (Steps(tuple(c.do for c in plan.cautions if c.box), boxes=True),), "left"),
        Section(
            "write", "Write down", (Blanks((("depth from touch", 1), ("paper", 1), ("caliper over tips", 1), ("", 3))),), "right"
        ),
    ]
    if run is not None:
        sections.append(Section("run", "Scratch round", (run,), new_page=True))
    first = gear.blank.outside
    keys = (
        KeyFigure("turn the disc to", mm(first, 2).removesuffix(" mm"), "mm", inch(first)),
        KeyFigure("speed", number(speeds.speed.value(), 0), "rpm", feed_words(speeds.feed.value(), system)),
    )
    return Document(
        kind="trial",
        title=f"Trial piece: {gear_line(gear.gear)}",
        keys=keys,
        findings=tuple(found for found in gear.findings if found.weight == "stop"),
        sections=tuple(sections),
        cells=(
            Cell("trial piece", plan.order.title),
            Cell("gear in one line", gear_line(gear.gear)),
            Cell("rig", rig_words(plan.order.rig)),
            Cell("strength", "not checked"),
        ),
        stamp="not for cutting" if plan.stopped() else "",
        paper=paper or plan.order.choice.paper,
        sign="cut by, and when",
    )
