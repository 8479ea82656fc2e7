"""A prediction becomes a document: the class to expect, what spoils it, what is worth mending, what is not known."""

from __future__ import annotations

import math

from evenpitch.job.predicting import Numbers, Prediction, numbers_out
from evenpitch.link.rates import FeedLimit, Rates
from evenpitch.quantity.showing import grouped, number
from evenpitch.sheet.compose.controller import ratio_rows, targets_table
from evenpitch.sheet.compose.gear import gear_line
from evenpitch.sheet.compose.words import rig_words
from evenpitch.sheet.document import Block, Cell, Document, KeyFigure, Picture, Row, Schedule, Section, Table, TableRow, Words
from evenpitch.sheet.drawing import Drawing
from evenpitch.sheet.drawings.rate_chart import Limit, rate_chart
from evenpitch.sheet.drawings.spacing import Share, spacing_bars

_SMALLEST = 0.05
"""µm under which a bar is not drawn."""
_MOST_BARS = 8
_TARGETS = 9
"""Targets shown on paper; the rest are in the files."""


def symbol(word: str) -> str:
    """f_H_beta as fHβ."""
    return word.replace("_beta", "β").replace("_", "")


def compose_prediction(found: Prediction) -> Document:
    """What `evenpitch predict` prints, and its page."""
    sections = (
        Section("class", "Class to expect", (_quantiles(found), _classes(found)), "left"),
        Section("budget", "What spoils it, on this tooth", _budget(found), "right"),
        Section("mend", "What each improvement would buy", (_bought(found),)),
        *_motion(found),
        *_doubts(found),
        *_numbers(numbers_out(found)),
        Section("how", "How it was reckoned", (Words(_how(found)),)),
    )
    return Document(
        kind="answer",
        title=f"What this rig will leave: {gear_line(found.plan.gear)}",
        lead=found.sentence(),
        keys=_keys(found),
        findings=found.findings,
        sections=sections,
        cells=(
            Cell("sheet", "prediction"),
            Cell("gear in one line", gear_line(found.plan.gear)),
            Cell("rig", rig_words(found.order.rig)),
            Cell("class", _class(found.expected.class95)),
        ),
        paper=found.order.choice.paper,
    )


def _class(cls: int) -> str:
    return str(cls) if cls <= 11 else "none"


def _keys(found: Prediction) -> tuple[KeyFigure, ...]:
    expected, q = found.expected, found.expected.decides()
    largest = found.budget.largest()
    keys = [
        KeyFigure("class in 95 of 100", _class(expected.class95), "", "spacing and helix"),
        KeyFigure(f"class {found.wanted}", f"{expected.chance(found.wanted):.2f}", "", "probability"),
        KeyFigure(f"{symbol(q.symbol)} decides", number(q.p95, 1), "µm", "95 of 100 below"),
        KeyFigure("largest", number(largest.size_um, 1), "µm", largest.name),
    ]
    if found.rates is not None:
        keys.append(KeyFigure("fastest feed", number(found.rates.fastest.feed, 0), "mm/min", found.rates.fastest.reason))
    return tuple(keys)


def _quantiles(found: Prediction) -> Table:
    place = min(found.wanted, 11) - 1
    rows = tuple(
        TableRow((symbol(q.symbol), number(q.p50, 1), number(q.p95, 1), number(q.limits[place], 1)))
        for q in found.expected.quantiles
        if q.p95 > 0
    )
    form = (
        ()
        if found.form_um is None
        else (TableRow(("Fα, by the cutter", "", number(found.form_um, 1), number(found.form_limit, 1))),)
    )
    return Table(("µm", "half below", "95 of 100 below", f"class {found.wanted}"), (*rows, *form), right=(1, 2, 3))


def _classes(found: Prediction) -> Table:
    chances = [(cls, found.expected.chance(cls)) for cls in range(1, 12)]
    shown = [(cls, p) for cls, p in chances if 0.005 < p < 0.995]
    first = next((cls for cls, p in chances if p >= 0.995), None)
    if first is not None:
        shown.append((first, 1.0))
    rows = tuple(
        TableRow((f"class {cls} or better{_to_expect(found, cls)}", f"{p:.2f}"), strong=cls == found.expected.class95)
        for cls, p in shown or [(11, chances[-1][1])]
    )
    return Table(("class", "probability"), rows, right=(1,), note="of the worst of fp, Fp and Fβ")


def _to_expect(found: Prediction, cls: int) -> str:
    return ": the one to expect" if cls == found.expected.class95 else ""


def budget_bars(found: Prediction) -> Drawing:
    """The bars, largest first."""
    sources = [source for source in found.budget.sources if source.size_um > _SMALLEST][:_MOST_BARS]
    shares = [Share(source.name, source.size_um, source.owner) for source in sources]
    limit = found.expected.quantile("cumulative_pitch").limits[min(found.wanted, 11) - 1]
    return spacing_bars(shares, limit, f"Fp of class {found.wanted}")


def _budget(found: Prediction) -> tuple[Block, ...]:
    rows = tuple(
        TableRow((s.name, s.owner, number(s.single_um, 1), number(s.cumulative_um, 1), number(s.slope_um, 1)))
        for s in found.budget.sources
        if s.size_um > _SMALLEST
    )
    heads = ("source, alone", "whose", "fp µm", "Fp µm", "fHβ µm")
    note = f"Standard uncertainty of a flank's slope, all together: {number(found.budget.slope_u_um, 2)} µm."
    return Picture(budget_bars(found)), Table(heads, rows, right=(2, 3, 4), note=note)


def _bought(found: Prediction) -> Table:
    rows = tuple(
        TableRow(
            (one.words, number(one.before, 1), number(one.after, 1), _class(one.class95), f"{one.chance:.2f}"),
            strong=one is found.best() and one.gain > 0.05,
        )
        for one in found.bought
    )
    q = symbol(found.expected.decides().symbol)
    return Table(
        ("improvement", f"{q} µm now", "then", "class", f"class {found.wanted}"), rows, right=(1, 2, 3, 4), note="95 of 100 below"
    )


def _motion(found: Prediction) -> tuple[Section, ...]:
    rates, res = found.rates, found.resolution
    if res is None:
        return ()
    rows = [
        Row("pulses for one turn of the work", _exact(res.pulses_per_turn)),
        Row("one pulse", f"{number(res.arcsec, 2)}″", f"{number(res.pulse_um, 2)} µm"),
        Row("rounding, fp and Fp", f"{number(res.single_um, 2)} µm", f"{number(res.cumulative_um, 2)} µm"),
    ]
    if found.gear.helical:
        rows.append(Row("staircase on the helix", f"{number(res.band, 2)} µm", f"the {res.coarser} is the coarser"))
    if found.stiffness is not None:
        rows.append(
            Row(
                "torque of one pulse",
                f"{number(found.stiffness.one_pulse, 2)} Nm",
                f"drag holds back {number(found.stiffness.held_back, 2)}",
            )
        )
    blocks: tuple[Block, ...] = (Schedule(tuple(rows)),)
    if rates is None:
        return (Section("link", "Pulses", blocks, "left"),)
    return (
        Section("link", "Pulses, torque, feed", (Schedule((*rows, *_rate_rows(rates, found))), _limits(rates.limits)), "left"),
        Section("rates", "Table speed and motor", (Picture(_chart(rates)),), "right"),
    )


def _exact(value: object) -> str:
    text = str(value)
    return grouped(int(text)) if text.isdigit() else text


def _rate_rows(rates: Rates, found: Prediction) -> tuple[Row, ...]:
    ramp = "" if math.isinf(rates.least_lead_start) else f"without a ramp {number(rates.least_lead_start, 1)} mm"
    factor = "" if math.isinf(rates.factor) else f"factor {number(rates.factor, 2)}"
    seat = "yes, by the cut" if found.seating.by_cut else "no"
    return (
        Row(f"at {number(rates.feed, 0)} mm/min", f"{number(rates.pulses, 0)} pulses/s", f"{number(rates.rpm, 1)} rpm"),
        Row("torque needed", f"{number(rates.torque_needed, 2)} Nm", f"{factor} of {number(rates.torque_there, 2)} Nm"),
        Row("shortest lead", f"{number(rates.least_lead, 1)} mm", ramp),
        Row("start without a ramp", f"{number(rates.start, 0)} pulses/s"),
        Row("worm kept seated", seat),
    )


def _limits(limits: tuple[FeedLimit, ...]) -> Table:
    rows = tuple(
        TableRow((limit.reason, limit.words, number(limit.feed, 0)), strong=place == 0) for place, limit in enumerate(limits)
    )
    return Table(("limit", "what sets it", "mm/min"), rows, right=(2,))


def _chart(rates: Rates) -> Drawing:
    limits = tuple(Limit(limit.feed, limit.reason) for limit in rates.limits)
    return rate_chart(rates.feed, rates.pulses, rates.rpm, limits, None if rates.rapid is None else rates.rapid[0])


def _doubts(found: Prediction) -> tuple[Section, ...]:
    if not found.doubts:
        return ()
    rows = tuple(
        TableRow(
            (doubt.what.words, doubt.what.shown(), f"{number(doubt.low_um, 1)} to {number(doubt.high_um, 1)}", doubt.what.cost)
        )
        for doubt in found.doubts
    )
    table = Table(
        ("not known", "taken (range)", "all sources, µm", "what it costs to find out"),
        rows,
        note="The one worth finding out stands first.",
    )
    return (Section("unknown", "What is not known", (table,)),)


def _numbers(numbers: Numbers | None) -> tuple[Section, ...]:
    if numbers is None:
        return ()
    blocks = (Schedule(ratio_rows(numbers)), targets_table(numbers, _TARGETS))
    return (Section("numbers", "Numbers for the controller", blocks),)


def _how(found: Prediction) -> str:
    draws = grouped(found.expected.draws)
    head = (
        "The head's waves come from its map." if found.filled.measured else "The head was never measured: usual waves stand in."
    )
    return (
        f"{draws} gears drawn, each with its own waves, play, load, lag and setting; class limits by ISO 1328-1. "
        f"{head} The staircase of pulses and counts is left out of the helix: the cutter's width and the filter of the standard level it."
    )
