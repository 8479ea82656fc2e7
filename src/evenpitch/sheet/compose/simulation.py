"""A simulated pass becomes a document."""

from __future__ import annotations

from evenpitch.job.simulating import Simulation
from evenpitch.link.motion import CrankFeed, PowerFeed
from evenpitch.quantity.showing import grouped, number
from evenpitch.sheet.compose.gear import gear_line
from evenpitch.sheet.compose.words import rig_words
from evenpitch.sheet.document import Cell, Document, KeyFigure, Picture, Row, Schedule, Section, Words
from evenpitch.sheet.drawings.link_timing import link_timing


def feed_of(found: Simulation) -> str:
    """How the table was moved, in words."""
    match found.motion:
        case CrankFeed(mean, unevenness, turns, _):
            return f"by crank, {number(mean, 2)} mm/s, unevenness {number(unevenness, 2)}, {number(turns, 1)} turns a second"
        case PowerFeed(feed):
            return f"power feed, {number(feed * 60, 0)} mm/min"
        case _:
            return "as given"


def _play(found: Simulation) -> str:
    if found.as_set.open_play:
        return "The play is open when the pass begins: the work stands ahead until it is closed."
    return "Play is taken up before the blank."


def _tried(found: Simulation) -> list[Row]:
    """What the pass was tried with beside the rig."""
    as_set, shaken, rows = found.as_set, found.trembling, []
    if as_set.ramp is not None:
        rows.append(
            Row("ramp of the controller", f"{number(as_set.ramp, 0)} pulses/s²", f"from {number(found.start, 0)} pulses/s")
        )
    if as_set.poll is not None:
        rows.append(Row("the controller looks every", f"{number(1000 * as_set.poll, 2)} ms"))
    if shaken is not None:
        needed = f"{shaken.hysteresis} count{'' if shaken.hysteresis == 1 else 's'} of hysteresis keep it quiet"
        rows.append(Row("counts, trembling", f"{grouped(shaken.moves)} for {grouped(shaken.still)}", needed))
        rows.append(Row("back and forth", f"{grouped(shaken.reversals)} times", f"in {number(shaken.seconds, 1)} s"))
    return rows


def compose_simulation(found: Simulation) -> Document:
    """What `evenpitch simulate` prints, and its page."""
    low, high = found.error_um
    reach = f"{number(low, 1, plus=True)} to {number(high, 1, plus=True)}"
    behind = "never" if found.behind_from is None else f"{number(found.behind_from, 2)} mm on"
    facts = found.facts()
    rows = [
        Row("pulses due", grouped(found.made.pulses), f"{grouped(found.made.done)} out in time"),
        Row("time", f"{number(found.made.span, 1)} s", f"{number(found.travel, 1)} mm of table"),
        Row("largest feed", f"{number(found.peak_feed * 60, 0)} mm/min", f"{number(facts['peak_pulse_rate'], 0)} pulses/s"),
        Row("motor, at most", f"{number(facts['peak_motor_rpm'], 0)} rpm", f"{number(facts['peak_counts_per_s'], 0)} counts/s"),
        Row("ratio", found.ratio.words(), f"{number(found.ratio.error_ppm, 3)} ppm"),
        Row("longest delay", f"{number(found.delay * 1000, 1)} ms"),
        Row("mean error", f"{number(found.mean_um, 1, plus=True)} µm", "the same on every tooth: harmless"),
        Row("swing of the lag", f"{number(found.swing_um, 1)} µm"),
        Row("staircase", f"{number(found.band_um, 2)} µm"),
        Row("play closes within", f"{number(found.take_up, 3)} mm", f"begin {number(3 * found.take_up, 2)} mm before the blank"),
        *_tried(found),
    ]
    drawn = Picture(link_timing(found.track, found.travel, found.behind_from))
    return Document(
        kind="answer",
        title=f"One pass: {gear_line(found.plan.gear)}",
        lead=f"The table moves {feed_of(found)}: the work stays within {reach} µm of its helix.",
        keys=(
            KeyFigure("error", reach, "µm", "at the pitch circle"),
            KeyFigure("falls behind", behind),
            KeyFigure("longest delay", number(found.delay * 1000, 1), "ms"),
            KeyFigure("swing of the lag", number(found.swing_um, 1), "µm"),
        ),
        findings=found.findings,
        sections=(
            Section("timing", "Error along the table", (drawn,), "right"),
            Section("figures", "Figures", (Schedule(tuple(rows)),), "left"),
            Section(
                "how",
                "How it was reckoned",
                (Words(f"Every pulse is computed where it falls due; between pulses nothing happens. {_play(found)}"),),
            ),
        ),
        cells=(
            Cell("sheet", "one pass"),
            Cell("gear in one line", gear_line(found.plan.gear)),
            Cell("rig", rig_words(found.order.rig)),
        ),
        paper=found.order.choice.paper,
    )
