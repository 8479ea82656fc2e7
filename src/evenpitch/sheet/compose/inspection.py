"""The inspection as a page: readings and verdict first, gauges and curve, where it comes from, what can be saved."""

from __future__ import annotations

import math
from collections.abc import Iterator, Sequence
from dataclasses import replace

import numpy as np

from evenpitch.checking.spectrum import scatter_of
from evenpitch.checking.spectrum import waves as waves_of
from evenpitch.job.expecting import Expectation
from evenpitch.job.judging import Verdict
from evenpitch.job.plan import Plan
from evenpitch.job.rescuing import Deeper
from evenpitch.job.sizes_judged import SizeJudged
from evenpitch.job.spacing_judged import AroundJudged
from evenpitch.quantity.showing import number, thou
from evenpitch.sheet.compose.words import dial_words
from evenpitch.sheet.document import Block, Cell, Document, KeyFigure, Picture, Row, Schedule, Section, Table, TableRow, Words
from evenpitch.sheet.drawings.deviation_curve import deviation_curve
from evenpitch.sheet.drawings.gauge import verdict_gauge
from evenpitch.sheet.drawings.polar_runout import polar_runout
from evenpitch.sheet.drawings.rework_curve import rework_curve
from evenpitch.sheet.drawings.span_round_blank import span_round_blank
from evenpitch.sheet.drawings.waves import WaveBar, waves_picture

UM = 1000.0
LETTERS = "ABCDEFGHJKLM"
MOST_GAUGES = 5
FEWEST_PLACES = 3


def compose_inspection(plan: Plan, verdict: Verdict, index: int = 0, expectation: Expectation | None = None) -> Document:
    """What `evenpitch inspect` prints, and its page; with what was expected of the rig beside it where that was worked out."""
    gear = verdict.gear.gear
    return Document(
        kind="answer",
        title=f"{gear.teeth} teeth, as measured",
        lead=_lead(verdict),
        keys=_keys(verdict),
        findings=verdict.findings,
        sections=(*_sections(verdict, expectation), *_saved(verdict)),
        cells=_cells(plan, verdict, index),
        paper=plan.order.choice.paper,
    )


def mend_sentence(one: Deeper) -> str:
    """How much deeper, in both systems and on the knee dial."""
    inch = thou(one.deeper.value)
    dial = f", knee dial {dial_words(one.dial)}" if one.dial is not None else ""
    if abs(one.first - one.deeper.value) < 0.005:
        return (
            f"**{number(one.deeper.value, 3)} mm deeper** ({inch}{dial}), ± {number(one.deeper.U, 3)}; in one cut, then measure."
        )
    return (
        f"**{number(one.deeper.value, 3)} mm deeper** ({inch}{dial}), ± {number(one.deeper.U, 3)}. "
        f"Take {number(one.first, 2)} first, measure again."
    )


def _lead(verdict: Verdict) -> str:
    if verdict.rescue.deeper is not None:
        return mend_sentence(verdict.rescue.deeper)
    return verdict.claim


def _keys(verdict: Verdict) -> tuple[KeyFigure, ...]:
    keys = [KeyFigure("verdict", verdict.says, "", "on these readings only")]
    if verdict.rescue.deeper is not None:
        one = verdict.rescue.deeper
        keys.append(
            KeyFigure("deeper", number(one.deeper.value, 3), "mm", f"{thou(one.deeper.value)}; first {number(one.first, 2)}")
        )
    keys += [
        KeyFigure(one.words, f"{number(one.value, 0)} ± {number(one.U, 0)}", "µm", f"limit {number(one.limit, 0)}")
        for one in verdict.deciding()[:2]
    ]
    return tuple(keys)


def _cells(plan: Plan, verdict: Verdict, index: int) -> tuple[Cell, ...]:
    rounds = max((one.rounds for one in verdict.around.judged), default=0)
    which = f" · {index + 1} of {len(plan.gears)}" if len(plan.gears) > 1 else ""
    word = "recut" if verdict.rescue.deeper is not None else verdict.says
    return (
        Cell("sheet", "5 inspect"),
        Cell("job", f"{plan.order.title} · {verdict.gear.gear.teeth} t{which}"),
        Cell("verdict", word, verdict.says),
        Cell(
            "readings", f"{len(verdict.inspection.readings)}" + (f", {rounds} round{'s' if rounds > 1 else ''}" if rounds else "")
        ),
    )


def _sections(verdict: Verdict, expectation: Expectation | None) -> Iterator[Section]:
    yield Section("readings", "", (_table(verdict), Words(verdict.claim), *_next(verdict)))
    gauges, curve = tuple(_gauges(verdict)), tuple(_curve(verdict))
    if gauges:
        yield Section("gauges", "", gauges, place="left" if curve else "wide")
    if curve:
        yield Section("deviation", "", curve, place="right" if gauges else "wide")
    yield from _expected(expectation)
    yield from _causes(verdict)
    yield from _around(verdict)


def _next(verdict: Verdict) -> tuple[Block, ...]:
    if not verdict.next_reading:
        return ()
    return (Words(f"**The next reading that takes most doubt away:** {verdict.next_reading}"),)


# ---- the table


def _table(verdict: Verdict) -> Table:
    rows = [*(_size_row(one, verdict) for one in verdict.sizes)]
    for one in verdict.deciding():
        rows += list(_around_rows(one, verdict))
    heads = ("reading", "value", "± U, k = 2", "limit", "verdict", "what would settle or mend it")
    return Table(heads, tuple(rows), right=(1, 2, 3))


def _size_row(one: SizeJudged, verdict: Verdict) -> TableRow:
    said = f"fail: {one.side}" if one.says == "fail" else one.says
    deeper = verdict.rescue.deeper
    mend = ""
    if not one.usable:
        mend = "Not judged: see the notes."
    elif deeper is not None and deeper.by is one:
        mend = mend_sentence(deeper)
    elif one.says == "fail":
        mend = "It cannot be put back: see what can be saved." if one.side == "thin" else "Deeper, as the others say."
    elif one.says == "not proven":
        part = one.budget.largest()
        mend = f"Most of U is the {part.name}, {number(part.u * UM, 1)} µm."
    limit = f"{number(one.least, 3)} – {number(one.most, 3)}"
    cells = (f"{one.words}, mm", number(one.value, 3), number(one.U, 3), limit, said, mend)
    return TableRow(cells, verdict=(4, one.says), strong=one.says == "fail")


def _around_rows(one: AroundJudged, verdict: Verdict) -> Iterator[TableRow]:
    side = f", {one.flank} flank" if one.flank else ""
    free = one.unbiased
    likely = (
        "" if free is None else f"\nwithout scatter {number(free.corrected, 0)}, {number(free.low, 0)} to {number(free.high, 0)}"
    )
    name = f"{one.words}, class {one.cls}, µm{side}"
    settle = _settle(one)
    cells = (f"{name}{likely}", _um(one.value), _um(one.U), number(one.limit, 0), one.says, settle)
    yield TableRow(cells, verdict=(4, one.says), strong=one.says == "fail")
    finer = next((row for row in one.others if row[0] == one.cls - 1), None)
    if finer is not None and one.says == "pass":
        cls, limit, says = finer
        away = abs(one.value - limit)
        why = "" if says == "pass" else _away(away, one)
        cells = (f"{one.words}, class {cls}, µm{side}", _um(one.value), _um(one.U), number(limit, 0), says, why)
        yield TableRow(cells, verdict=(4, says))


def _um(value: float) -> str:
    return number(value, 0 if value >= 9.95 else 1)


def _away(away: float, one: AroundJudged) -> str:
    if away < 1:
        return f"Only a U under {number(max(away, 0.1), 1)} could settle it. Not within reach: claim class {one.proven}."
    return f"A U under {number(away, 0)} µm would settle it." if away < one.U else f"Claim class {one.proven}."


def _settle(one: AroundJudged) -> str:
    if one.says == "pass":
        return ""
    if one.says == "not proven" and one.wanted:
        return f"{one.wanted} rounds in all: U under {number(one.settles, 0)} µm."
    coarser = "No class up to 12 is proven." if one.proven is None else f"Claim class {one.proven}."
    return coarser if one.says == "fail" else f"U under {number(max(one.settles, 0.1), 1)} µm would settle it. {coarser}"


# ---- pictures


def _gauges(verdict: Verdict) -> Iterator[Picture]:
    made = [
        verdict_gauge(
            size.words,
            size.value,
            size.U,
            f"fail: {size.side}" if size.says == "fail" else size.says,
            least=size.least,
            most=size.most,
            zones=("thin", "thick"),
        )
        for size in verdict.sizes
        if size.usable
    ]
    made += [
        verdict_gauge(f"{one.words}, class {one.cls}", one.value, one.U, one.says, most=one.limit, unit="µm", digits=0)
        for one in verdict.deciding()
    ]
    shown = made[:MOST_GAUGES]
    for place, drawing in enumerate(shown, 1):
        # what the zones mean stands once, beneath the last
        name = f"{drawing.title[0].upper()}{drawing.title[1:]}."
        caption = f"{name} {drawing.caption}" if place == len(shown) else name
        yield Picture(replace(drawing, key=f"gauge-{place}", caption=caption))


def _curve(verdict: Verdict) -> Iterator[Picture]:
    total = next((one for one in verdict.deciding() if one.name == "cumulative_pitch"), None)
    if total is None:
        return
    found = dict(verdict.around.spacing.flanks)[total.flank]
    um = tuple(float(value) * UM for value in found.cumulative)
    told = verdict.expected.curve
    yield Picture(deviation_curve(um, total.value, total.U, total.limit, total.cls, expected=told, flank=total.flank))


STANDS = {
    "more": "**more than this rig explains**: look for the cause below",
    "as expected": "as expected of this rig",
    "less": "less than was expected",
}


def _expected(expectation: Expectation | None) -> Iterator[Section]:
    if expectation is None or not expectation.rows:
        return
    rows = tuple(
        TableRow((one.words, _um(one.p50), _um(one.p95), f"{_um(one.value)} ± {_um(one.U)}", STANDS[one.stands]))
        for one in expectation.rows
    )
    head = "The head's map is in it." if expectation.measured else "The head was never measured: usual waves stand in."
    unknown = f" {expectation.unknown} quantities of the rig are not known; usual values stand in for them." * bool(
        expectation.unknown
    )
    heads = ("µm", "half below", "95 of 100 below", "found", "")
    table = Table(heads, rows, right=(1, 2, 3), note=f"{head}{unknown}")
    yield Section("expected", "What was expected beside what was found", (table,))


def lettered(verdict: Verdict) -> dict[str, str]:
    """Letters of the causes by what they explain: waves by their number, other things by their evidence."""
    letters: dict[str, str] = {}
    for cause in verdict.causes:
        key = f"wave {cause.wave}" if cause.wave else cause.evidence.split(";")[0]
        if cause.rank == 1 and key not in letters and len(letters) < len(LETTERS):
            letters[key] = LETTERS[len(letters)]
    return letters


def _waves(verdict: Verdict) -> Iterator[Picture]:
    mean = verdict.around.spacing.mean
    if mean is None:
        return
    letters = lettered(verdict)
    noise = np.sqrt(scatter_of(mean)) * 2 / mean.count / math.sqrt(2) * UM
    bars = [
        WaveBar(
            wave.per_turn,
            wave.amplitude * UM,
            float(noise[wave.per_turn]),
            letters.get(f"wave {wave.per_turn}", ""),
            wave.looks_like,
        )
        for wave in waves_of(mean)
    ]
    if bars:
        yield Picture(waves_picture(_few(bars)))


def _few(bars: Sequence[WaveBar], most: int = 60) -> list[WaveBar]:
    """Of many waves those that are lettered and the largest of each group of neighbours."""
    if len(bars) <= most:
        return list(bars)
    group = -(-len(bars) // most)
    kept = [max(bars[at : at + group], key=lambda bar: (bool(bar.letter), bar.um)) for at in range(0, len(bars), group)]
    return sorted({*kept, bars[0], bars[-1], *(bar for bar in bars if bar.letter)}, key=lambda bar: bar.per_turn)


def _causes(verdict: Verdict) -> Iterator[Section]:
    waves = tuple(_waves(verdict))
    if not waves and not verdict.causes:
        return
    rows = tuple(_cause_rows(verdict))
    heads = ("", "likely cause", "what would tell, and what mends it")
    blocks: tuple[Block, ...] = (Table(heads, rows),) if rows else (Words("No cause stands out of the scatter."),)
    if waves:
        yield Section("causes", "Where does it come from?", waves, place="left")
        yield Section("causes-table", "", blocks, place="right")
    else:
        yield Section("causes", "Where does it come from?", blocks)


def _cause_rows(verdict: Verdict) -> Iterator[TableRow]:
    letters = lettered(verdict)
    for cause in verdict.causes:
        key = f"wave {cause.wave}" if cause.wave else cause.evidence.split(";")[0]
        letter = letters.get(key, "") if cause.rank == 1 else "or"
        yield TableRow((letter, f"**{cause.cause}**\n{cause.evidence}", f"{cause.test}\n{cause.remedy}"))


def _around(verdict: Verdict) -> Iterator[Section]:
    made: list[Picture] = []
    circle = verdict.around.runout
    if circle is not None:
        readings = [
            (360 * (space - 1) / circle.count, value * UM) for space, value in zip(circle.spaces, circle.values, strict=True)
        ]
        e = circle.eccentricity
        made.append(
            Picture(
                polar_runout(
                    readings, e.value * UM, e.U * UM, math.degrees(circle.high), circle.high_space(), circle.F_r.value * UM
                )
            )
        )
    for size in verdict.sizes:
        if size.read.kind == "span" and len(size.places) >= FEWEST_PLACES and size.usable:
            teeth = verdict.gear.gear.teeth
            drawn = span_round_blank(tuple(size.places.items()), size.U, size.least, size.most, teeth, size.words)
            made.append(Picture(drawn))
            break
    if len(made) == 2:
        yield Section("runout", "Round the gear", (made[0],), place="left")
        yield Section("round", "", (made[1],), place="right")
    elif made:
        yield Section("runout", "Round the gear", tuple(made))


# ---- what can be saved


def _saved(verdict: Verdict) -> Iterator[Section]:
    if not verdict.rescue.options:
        return
    rows = tuple(TableRow((f"**{one.what}**", one.says, one.caution)) for one in verdict.rescue.options)
    table = Table(("what can be done", "in figures", "caution"), rows)
    one = verdict.rescue.deeper
    if one is None:
        yield Section("rescue", "What can be saved", (table,))
        return
    size = one.by
    drawn = rework_curve(size.words, size.value, size.least, size.most, size.per_depth, one.deeper.value, one.first)
    yield Section("mend", "How much deeper", (Words(mend_sentence(one), strong=True), _limits(one), Picture(drawn)))
    yield Section("rescue", "What can be saved", (table,))


def _limits(one: Deeper) -> Schedule:
    rows = (
        ("to the middle of the limits", f"{number(one.deeper.value, 3)} ± {number(one.deeper.U, 3)} mm", dial_words(one.dial)),
        ("at least", f"{number(one.least, 3)} mm", ""),
        ("at most", f"{number(one.most, 3)} mm", ""),
        ("first bite", f"{number(one.first, 2)} mm", dial_words(one.first_dial)),
    )
    return Schedule(tuple(Row(*row) for row in rows), heads=("", "knee dial"))
