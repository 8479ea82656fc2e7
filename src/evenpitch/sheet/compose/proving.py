"""What readings of a scale, a head or a link give, as documents."""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import replace
from fractions import Fraction

from evenpitch.checking.good_to import GoodTo
from evenpitch.checking.measured import Measured
from evenpitch.checking.readings import Direction
from evenpitch.checking.wrong_reading import Explanation
from evenpitch.job.commissioning import HeadCommission, ScaleCommission
from evenpitch.job.plan import LinkPromise
from evenpitch.job.proof_checks import PROVES, ProofCheck
from evenpitch.job.proving import LinkProven
from evenpitch.quantity.showing import number
from evenpitch.quantity.units import RADIAN_PER_ARCSEC
from evenpitch.sheet.compose.full_turn import turn_sections
from evenpitch.sheet.compose.scale_gain import scale_sections
from evenpitch.sheet.document import Cell, Document, KeyFigure, Picture, Row, Schedule, Section, Table, TableRow, Words
from evenpitch.sheet.drawings.calibration import PlaceShown, calibration_plot
from evenpitch.sheet.drawings.scale_calibration import ErrorAt, LineFound, scale_calibration
from evenpitch.sheet.drawings.spacing import Owner, Share, spacing_bars

UM = 1e3
PPM = 1e6
MOST_PLACES = 60
"""Places of a scale that a table shows."""


def plus_minus(found: Measured, factor: float, places: int, unit: str) -> str:
    """A value with its expanded uncertainty: "−76 ± 13 µm in a metre"."""
    return f"{number(found.value * factor, places, plus=True)} ± {number(found.U * factor, places)} {unit}".rstrip()


def compose_scale(made: ScaleCommission) -> Document:
    """What `evenpitch scale` prints, and its page."""
    found = made.calibration
    keys = (
        KeyFigure(
            "gain",
            f"{number(made.gain.value * PPM, 0, plus=True)} ± {number(made.gain.U * PPM, 0)}",
            "µm in a metre",
            _way(made.gain),
        ),
        KeyFigure("over the face", number(made.paying.over_face, 1), "µm", f"{made.face:g} mm"),
        KeyFigure("over a rack", number(made.paying.over_rack, 0), "µm", "400 mm"),
        KeyFigure("correct it", "yes" if made.paying.pays else "no", "", "lead × (1 + gain)" if made.paying.pays else ""),
    )
    rows = [Row("one reading about the line", f"{number(found.s.value * UM, 1)} µm")]
    if found.reversal is not None:
        rows.append(Row("reversal, up less down", plus_minus(found.reversal, UM, 1, "µm")))
    if found.drift is not None:
        rows.append(Row("drift, first reading to last", plus_minus(found.drift, UM, 1, "µm")))
    if made.wave is not None:
        rows.append(Row(f"wave of {made.wave.period:.3g} mm", plus_minus(made.wave.amplitude, UM, 1, "µm")))
    sections = [
        Section("found", "Found", (Schedule(tuple(rows)),)),
        *scale_sections(made),
        *_positioning(made),
        _curve(made),
    ]
    return Document(
        kind="answer",
        title="The scale, from its readings",
        lead=_of_gain(made),
        keys=keys,
        findings=made.findings,
        sections=tuple(sections),
        cells=(Cell("sheet", "scale"), Cell("readings", str(len(found.readings))), Cell("places", str(len(found.curve)))),
    )


def _of_gain(made: ScaleCommission) -> str:
    """The sentence under the heading."""
    gain, pays = made.gain.times(PPM), made.paying
    if not gain.shown():
        return f"The scale reads true as far as these readings can tell: within **{number(gain.U, 0)} µm in a metre**."
    way = "too much" if gain.value > 0 else "too little"
    size = f"**{number(abs(gain.value), 0)} ± {number(gain.U, 0)} µm in a metre**"
    over = f"{number(pays.over_face, 1)} µm over {made.face:g} mm"
    return f"The scale reads {way} by {size}: {over}, {'correct it' if pays.pays else 'leave it'}."


def _way(gain: Measured) -> str:
    if not gain.shown():
        return "none can be shown"
    return "reads too much" if gain.value > 0 else "reads too little"


def _positioning(made: ScaleCommission) -> tuple[Section, ...]:
    found = made.calibration.positioning
    if found is None:
        return ()
    names = (
        ("whole error A", found.A),
        ("systematic E", found.E),
        ("repeatability R", found.R),
        ("reversal B", found.B),
        ("mean M", found.M),
    )
    rows = tuple(Row(name, "one side only" if value is None else f"{number(value * UM, 1)} µm") for name, value in names)
    words = Words(f"{found.places} places, {found.runs} runs at least; the standard asks for 5 runs.")
    return (Section("positioning", "In the manner of ISO 230-2", (Schedule(rows), words)),)


def _curve(made: ScaleCommission) -> Section:
    found = made.calibration
    each = max(1, -(-len(found.curve) // MOST_PLACES))
    rows = tuple(
        TableRow((f"{one.at:.3f}", number(one.left.value * UM, 1, plus=True), number(one.left.U * UM, 1), str(one.readings)))
        for one in found.curve[::each]
    )
    gain = found.gain.value * PPM
    places = [PlaceShown(one.at, one.left.value * UM, one.left.U * UM) for one in found.curve]
    said = f"{number(gain, 0, plus=True)} ± {number(made.gain.U * PPM, 0)} µm in a metre"
    picture = Picture(calibration_plot(places, f"gain {said} taken out"))
    note = f"One in {each} of {len(found.curve)} places; all of them with --json." if each > 1 else ""
    table = Table(("at, mm", "left, µm", "± U", "readings"), rows, right=(0, 1, 2, 3), note=note)
    return Section("curve", "Both ways, and what the line leaves", (_both_ways(made, said), picture, table))


def _both_ways(made: ScaleCommission, said: str) -> Picture:
    """Error against place, read upwards and from the other side, with the line through it."""
    found = made.calibration
    sums: dict[tuple[float, Direction], list[float]] = {}
    for one in found.readings:
        sums.setdefault((one.reference, one.direction), []).append(one.error)
    means = {key: math.fsum(errors) / len(errors) for key, errors in sums.items()}
    errors = [ErrorAt(at, error * UM, side) for (at, side), error in sorted(means.items())]
    n = len(found.readings)
    level = math.fsum(one.error for one in found.readings) / n
    if found.reversal is not None:
        ups = sum(one.direction == "up" for one in found.readings)
        level -= found.reversal.value * (2 * ups - n) / (2 * n)
    line = LineFound(found.middle, level * UM, found.gain.value * UM, found.s.value * UM)
    return Picture(scale_calibration(errors, line, f"gain {said}"))


def compose_head(made: HeadCommission, count: int | None = None) -> Document:
    """What `evenpitch head` prints, and its page; with a count also its targets with the map taken out."""
    found = made.found
    waves = tuple(
        TableRow(
            (
                _wave_name(wave.per_turn, made.ratio),
                f"±{number(wave.amplitude.value / RADIAN_PER_ARCSEC, 1)}″",
                f"{number(wave.amplitude.U / RADIAN_PER_ARCSEC, 1)}″",
                f"{number(math.degrees(wave.phase) % 360, 0)}°",
                "shown" if wave.amplitude.shown() else "not shown",
            )
        )
        for wave in found.waves
    )
    rows = [Row("one reading", f"{number(found.s.value / RADIAN_PER_ARCSEC, 1)}″")]
    for name, value in (("backlash, down less up", found.backlash), ("a full turn leaves", found.closure)):
        if value is not None:
            rows.append(Row(name, plus_minus(value, 1 / RADIAN_PER_ARCSEC, 1, "″")))
    hidden = ", ".join(map(str, made.hidden)) or "none"
    counts = tuple(
        TableRow(
            (str(one.count), str(one.phases), number(one.cumulative, 2), number(one.single, 2), "hidden" if one.hides else "")
        )
        for one in made.examples
    )
    table = Table(("teeth", "phases met", "total pitch / A", "single pitch / A", ""), counts, right=(0, 1, 2, 3))
    sections = (
        Section("waves", "Waves", (*_waves_table(waves), Schedule(tuple(rows)))),
        Section(
            "counts",
            "Which counts show the worm",
            (Words(f"Its wave is hidden where the count divides {made.ratio}: {hidden}."), table),
        ),
    )
    largest = max(found.waves, key=lambda wave: wave.amplitude.value, default=None)
    keys = (
        []
        if largest is None
        else [
            KeyFigure(
                "largest wave",
                f"±{number(largest.amplitude.value / RADIAN_PER_ARCSEC, 0)}",
                "″",
                _wave_name(largest.per_turn, made.ratio),
            )
        ]
    )
    if found.backlash is not None:
        arcmin = found.backlash.value / RADIAN_PER_ARCSEC / 60
        doubt = found.backlash.U / RADIAN_PER_ARCSEC
        keys.append(KeyFigure("backlash", number(arcmin, 1), "′", f"± {number(doubt, 1 if doubt < 10 else 0)}″"))
    if made.gain is not None:
        keys.append(
            KeyFigure(
                "the map makes it", number(made.gain.factor, 1), "times as good", "pays" if made.gain.pays else "does not pay"
            )
        )
    cells = (Cell("sheet", "head"), Cell("readings", str(len(found.readings))), Cell("head", f"{made.ratio}:1"))
    return Document(
        kind="answer",
        title="The head, from its readings",
        lead=_of_waves(made),
        keys=tuple(keys),
        findings=made.findings,
        sections=(*sections, *turn_sections(made.turn), *_targets(made, count)),
        cells=cells,
    )


def _waves_table(rows: tuple[TableRow, ...]) -> tuple[Table, ...]:
    return (Table(("wave", "amplitude A", "± U", "phase", ""), rows, right=(1, 2, 3)),) if rows else ()


def _targets(made: HeadCommission, count: int | None) -> tuple[Section, ...]:
    """The absolute pulse of every space, plain and with the map taken out."""
    if count is None or made.pulses is None:
        return ()
    rows = []
    for space, target in enumerate(made.targets(count)):
        even = round(made.pulses * space / count)
        rows.append(TableRow((str(space + 1), number(even, 0), number(target, 0), number(target - even, 0, plus=True))))
    table = Table(("space", "plain", "map out", "pulses"), tuple(rows), right=(0, 1, 2, 3), heavy=10, columns=2, boxes=True)
    return (Section("targets", f"Targets of {count} with the map taken out", (table,)),)


def _of_waves(made: HeadCommission) -> str:
    """The sentence under the heading: the waves that are shown, and the play."""
    shown = made.found.shown()
    said = [
        f"±{number(wave.amplitude.value / RADIAN_PER_ARCSEC, 0)}″ by its {_wave_name(wave.per_turn, made.ratio).partition(',')[0]}"
        for wave in shown
    ]
    waves = f"The head errs by **{' and '.join(said)}**" if said else "No wave of the head can be shown by these readings"
    if made.found.backlash is None:
        return f"{waves}."
    return f"{waves}; its play is {number(made.found.backlash.value / RADIAN_PER_ARCSEC / 60, 1)}′."


def _wave_name(per_turn: int, ratio: Fraction) -> str:
    if per_turn == ratio:
        return f"worm, {per_turn} in a turn"
    if per_turn == 2 * ratio:
        return f"worm twice, {per_turn} in a turn"
    return "wheel, once a turn" if per_turn == 1 else f"{per_turn} in a turn"


def compose_proof(made: LinkProven, rig: str) -> Document:
    """What `evenpitch prove` prints, and its page."""
    verdicts = [check.verdict for check in made.checks]
    keys = (
        KeyFigure("good to", f"±{number(made.good.size * UM, 1)}", "µm", f"over {made.gear.face:g} mm"),
        KeyFigure("checks made", str(len(verdicts))),
        KeyFigure("proven", str(verdicts.count("pass"))),
        KeyFigure("not proven", str(len(verdicts) - verdicts.count("pass"))),
    )
    sections = (
        Section(
            "checks",
            "Checks",
            (Table(("check", "found ± U", "good within", "verdict"), tuple(map(check_row, made.checks)), right=(1, 2)),),
        ),
        *_link(made),
        Section(
            "shares",
            f"Where the ±{number(made.good.size * UM, 1)} µm comes from",
            (_bars(made.good), _shares(made)),
            place="notes",
        ),
        Section("proves", "What each check can and cannot prove", (_can_and_cannot(made.checks),)),
        Section("scale", "Scale or screw encoder", (Words(made.buys.words()),)),
    )
    cells = (
        Cell("sheet", "prove the rig"),
        Cell("rig", rig),
        Cell("good on", f"±{number(made.good.size * UM, 1)} µm over {made.gear.face:g} mm"),
        Cell("until", "belt, plate or scale is moved"),
    )
    return Document(
        kind="proof",
        title="Prove the rig: scale and link",
        lead=made.sentence,
        keys=keys,
        findings=made.findings,
        sections=sections,
        cells=cells,
        sign="proved by, and when",
    )


def check_row(check: ProofCheck) -> TableRow:
    """Found ± U, what is good, and the verdict."""
    places = 2 if abs(check.good) < 1 else 1 if abs(check.good) < 10 else 0
    found = f"{number(check.found, places, plus=True)} ± {number(check.U, places)} {check.unit}"
    name = f"{check.kind}\n{check.words}" if check.words else check.kind
    return TableRow((name, found, f"{number(check.good, places)} {check.unit}", check.verdict), verdict=(3, check.verdict))


def _link(made: LinkProven) -> tuple[Section, ...]:
    proof = made.proof
    if proof is None:
        return ()
    arcsec = 1 / RADIAN_PER_ARCSEC
    turned = f"the work must turn {math.degrees(proof.wanted):.4f}°; it turned {math.degrees(proof.found):.4f}°"
    off = f"{number(proof.error * arcsec, 0, plus=True)}″ ± {number(proof.U * arcsec, 0)}"
    words = f"Table {proof.moved:g} mm: {turned}, {off}: {'an error' if proof.shown() else 'no error can be shown'}."
    rows = tuple(TableRow((part.name, part.owner, number(part.u * arcsec, 1))) for part, _ in proof.budget.shares())
    table = Table(
        ("what", "whose", "u, ″"), (*rows, TableRow(("together, U", "", number(proof.U * arcsec, 0)), strong=True)), right=(2,)
    )
    return (Section("link", "Table against work", (Words(words), table)),)


_OWNERS: dict[str, Owner] = {"head": "head", "motor": "motor", "scale": "instrument", "setup": "setup"}


def promise_section(made: LinkPromise) -> Section:
    """What the link is good to on a gear of a plan: the sentence, and its shares as bars."""
    when = f"Proven on {made.proven.day} {made.proven:%B %Y}." if made.proven is not None else ""
    words = (Words(made.sentence, strong=True), *((Words(when),) if when else ()))
    return Section("link-good", "How good the link is on this gear", (*words, _bars(made.good)), "right")


def _bars(good: GoodTo) -> Picture:
    """The shares as bars, the root of their squares beneath."""
    shares = [Share(one.words, one.size * UM, _OWNERS[one.owner]) for one in good.shares]
    drawn = spacing_bars(shares, None, "", total_um=good.size * UM, total_words="together, root of the squares")
    return Picture(replace(drawn, key="shares", title="Where the ± comes from, µm", caption="± µm along the face, to scale."))


def _shares(made: LinkProven) -> Table:
    rows = [TableRow((one.words, one.owner, number(one.size * UM, 1))) for one in made.good.shares]
    rows.append(TableRow(("together, root of the squares", "", number(made.good.size * UM, 1)), strong=True))
    return Table(("along the face", "whose", "± µm"), tuple(rows), right=(2,))


def _can_and_cannot(checks: Sequence[ProofCheck]) -> Table:
    return Table(("check", "proves", "cannot prove"), tuple(TableRow((check.kind, *PROVES[check.kind])) for check in checks))


def compose_reading(moved: str, shown: str, causes: Sequence[Explanation]) -> Document:
    """What `evenpitch reading` prints, and its page."""
    if not causes:
        told: tuple[Section, ...] = (
            Section(
                "causes", "Causes", (Words("Nothing known here explains it, alone or two together. Begin from the mounting."),)
            ),
        )
        keys: tuple[KeyFigure, ...] = ()
    else:
        rows = tuple(TableRow((str(place), one.words, one.test), chosen=place == 1) for place, one in enumerate(causes, 1))
        told = (
            Section(
                "causes", "Causes, likeliest first", (Table(("", "what may be", "the test that decides"), rows, right=(0,)),)
            ),
        )
        keys = (KeyFigure("likeliest", causes[0].words), KeyFigure("test", causes[0].test))
    return Document(
        kind="answer", title=f"Moved {moved}, shows {shown}", keys=keys, sections=told, cells=(Cell("sheet", "wrong reading"),)
    )
