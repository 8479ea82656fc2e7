"""The sheet to prove a rig by: filled in with a pencil at the machine, typed in afterwards."""

from __future__ import annotations

import math

from evenpitch.checking.good_to import OnGear
from evenpitch.checking.link_proof import pen_rise, wanted_angle
from evenpitch.checking.mounting import USUAL_ALIGNMENT, display_words
from evenpitch.job.proof_checks import GOOD_DIAL, GOOD_GAIN, GOOD_PEN, PROVES, CheckKind
from evenpitch.quantity.showing import number
from evenpitch.quantity.units import INCH, RADIAN_PER_ARCSEC, Millimetre
from evenpitch.rig.rig import Rig
from evenpitch.sheet.compose.words import rig_words
from evenpitch.sheet.document import Blanks, Block, Cell, Document, Paper, Section, Steps, Table, TableRow, Words, Working

BLOCK, STROKE_BLOCK, PEN_BAR, PEN_MOVE, ARM = 100.0, 50.0, 50.0, 100.0, 100.0
TURNS = 10
BOXES = "[ ] pass  [ ] not proven  [ ] fail"
LINE = "________"


def proving_sheet(rig: Rig, gear: OnGear | None = None, name: str = "", paper: Paper = "a4") -> Document:
    """All procedures with blanks to write in; with a gear also what its link must turn."""
    sections = (
        Section("mounting", "Mounting, motor without power", (Steps(_mounting(rig), boxes=True),), place="left"),
        Section("along", "1 Along the scale body", _along(rig), place="left"),
        Section("block", f"4, 5 Block of {BLOCK:g} mm, scale reading, mm", _block(), place="right"),
        Section("others", "The other checks, cutter off the arbor", (_others(rig, gear),)),
        Section("head", "The head", _head(rig)),
        Section("proves", "What each check can and cannot prove", (_proves(),)),
        Section("result", "", (Words(_result(gear, name), strong=True),)),
    )
    cells = (
        Cell("sheet", "prove the rig"),
        Cell("rig", rig_words(rig)),
        Cell("proof", f"before {name}" if name else ""),
        Cell("good until", "a belt, a plate or the scale is moved"),
        Cell("scale count", _count(rig)),
    )
    return Document(
        kind="proof",
        title="Prove the rig",
        lead="Scale and link; write in pencil, type in afterwards.",
        sections=sections,
        cells=cells,
        paper=paper,
        sign="proved by, and when",
    )


def _count(rig: Rig) -> str:
    link = rig.link
    return LINE if link is None or link.count is None else f"{float(link.count) * 1000:g} µm"


def _mounting(rig: Rig) -> tuple[str, ...]:
    link, travel = rig.link, rig.table.travel
    length = None if link is None else link.scale_length
    stops = "Table stops set inside the length of the scale."
    if length is not None and travel is not None:
        stops = f"Table stops set inside the length of the scale: {length:g} mm, travel {travel:.0f} mm."
    return (
        stops,
        "Reader and cable clear over the whole travel, and over the whole swing.",
        "Bracket pushed 10 N each way: 1 count at most, and back. counts ________",
        "Lock tightened and let go: 1 count at most. counts ________",
        "Scale cable apart from motor and spindle cables; power off and wait before plugging.",
        "Spindle on and off ten times, table locked: no count gained. counts ________",
        "Belt guarded; the stop button cuts the motor's power.",
        "Index crank handle off or covered before the motor has power.",
        "Rapid traverse locked out while linked.",
    )


def _along(rig: Rig) -> tuple[Block, ...]:
    heads = ("indicator, mm", "left", "middle", "right")
    rows = tuple(TableRow((side, "", "", "")) for side in ("on top", "on the front"))
    within = f"Good within {USUAL_ALIGNMENT:.2f} both ways, or the maker's limit ________; stand fixed."
    words = f"{within} 1 mm in 500 costs 2 µm in a metre of lead."
    blocks: list[Block] = [Table(heads, rows, grid=True), Words(words)]
    if rig.link is not None and rig.link.count is not None:
        blocks.append(Words(display_words(rig.link.count, INCH / 10_000)))
    return tuple(blocks)


def _block() -> tuple[Block, ...]:
    rows = tuple(TableRow((row, "", "", "")) for row in ("near scale", "again", "again", "mean", "near cutter", "again"))
    return (
        Table(("", "left", "middle", "right"), rows, grid=True),
        Words("gain ________ ± ________ µm in a metre"),
        Words("degrees, first ________ last ________"),
        Words("Blocks and scale warm through together: 1.5 K not known is 17 µm in a metre."),
    )


def _others(rig: Rig, gear: OnGear | None) -> Table:
    screw = rig.table.screw_lead
    turned = None if screw is None else TURNS * float(screw)
    dial = f"ten turns of the dial, {turned:.3f} mm" if turned is not None else f"ten turns of the dial, {LINE} mm"
    good = f"{GOOD_DIAL * turned:.3f} mm" if turned is not None else "0.001 of it"
    rows = [
        ("2", dial, LINE, good, BOXES),
        ("3", "ten strokes to one indicator zero", LINE, "2 counts", BOXES),
    ]
    if gear is not None:
        angle = wanted_angle(Millimetre(STROKE_BLOCK), gear.lead)
        rise = pen_rise(Millimetre(PEN_BAR), Millimetre(PEN_MOVE), gear.lead)
        within = f"{number(angle / RADIAN_PER_ARCSEC * GOOD_GAIN, 0)}″"
        turn = f"table {STROKE_BLOCK:g} mm: bar of {ARM:g} mm must turn {math.degrees(angle):.4f}°"
        play = f"{number(rig.head.backlash / RADIAN_PER_ARCSEC / 60, 1)}′" if rig.head.backlash else LINE
        pen = f"pen line, {PEN_MOVE:g} mm on a {PEN_BAR:g} mm bar: rise {rise:.1f} mm"
        rows += [
            ("6", turn, LINE, within, BOXES),
            ("7", "the same from the other side: backlash", LINE, play, BOXES),
            ("8", pen, LINE, f"{rise * GOOD_PEN / 100:.1f} mm", BOXES),
        ]
    return Table(("", "do", "reading", "good within", "verdict"), tuple(map(TableRow, rows)))


def _head(rig: Rig) -> tuple[Block, ...]:
    steps = (
        "Turns of the crank for one turn of the work, from chalk mark to chalk mark: ________",
        "Backlash: indicator on the bar, from below and from above, five times each: ________ ________ ________ ________ ________",
        "Full turn: indicator at a radius of ________ mm, back after one turn ________, after two turns ________",
        "Worm: twelve places within one turn of the crank, over three turns; from below and from above.",
        "Wheel: square or hexagon turned on by one face until every face has stood at every place.",
        "Drag: spring balance on the crank handle at a radius of ________ mm, just turning ________ N",
    )
    blocks: list[Block] = [Steps(steps, boxes=True), Blanks((("bar reads", 2),))]
    pulses = rig.pulses_per_turn()
    if pulses is not None:
        blocks.append(Working((f"one pulse = 1 296 000″ / {float(pulses):g} = {1_296_000 / float(pulses):.2f}″ at the work",)))
    return tuple(blocks)


def _proves() -> Table:
    order: tuple[tuple[str, CheckKind], ...] = (
        ("2", "dial"),
        ("3", "strokes"),
        ("4", "block"),
        ("5", "near the cutter"),
        ("6", "link"),
        ("7", "other side"),
        ("8", "pen line"),
    )
    rows = (
        TableRow(("1", "the reader runs free all along", "anything about the lead")),
        *(TableRow((no, *PROVES[kind])) for no, kind in order),
    )
    return Table(("check", "proves", "cannot prove"), rows)


def _result(gear: OnGear | None, name: str) -> str:
    on, face = name or LINE * 3, LINE if gear is None else f"{gear.face:g}"
    return f"On {on} this link is good to ± ________ µm over {face} mm, limited by ________________________"
