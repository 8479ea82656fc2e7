"""The sheet to prove a rig by: filled in with a pencil at the machine, typed in afterwards."""

from __future__ import annotations

import math

from evenpitch.checking.good_to import OnGear
from evenpitch.checking.link_proof import pen_rise, wanted_angle
from evenpitch.checking.mounting import USUAL_ALIGNMENT, display_words
from evenpitch.job.proof_checks import GOOD_DIAL, GOOD_GAIN, GOOD_PEN
from evenpitch.quantity.showing import number
from evenpitch.quantity.units import INCH, RADIAN_PER_ARCSEC, Millimetre
from evenpitch.rig.rig import Rig
from evenpitch.sheet.compose.words import rig_words
from evenpitch.sheet.document import Block, Cell, Document, Paper, Picture, Section, Steps, Table, TableRow, Words, Working
from evenpitch.sheet.drawings.indicator_along_scale import indicator_along_scale

BLOCK, STROKE_BLOCK, PEN_BAR, PEN_MOVE, ARM = 100.0, 50.0, 50.0, 100.0, 100.0
TURNS = 10
BOXES = ("[ ]", "[ ]", "[ ]")
PLACES_OF_WORM = 12
LINE = "________"


def proving_sheet(rig: Rig, gear: OnGear | None = None, name: str = "", paper: Paper = "a4") -> Document:
    """All procedures with blanks to write in; with a gear also what its link must turn."""
    sections = (
        Section("mounting", "Mounting, motor without power", (Steps(_mounting(rig), boxes=True),), place="left"),
        Section("along", "1 Along the scale body", _along(), place="right"),
        Section("block", f"4, 5 Block of {BLOCK:g} mm, scale reading, mm", _block(), place="left"),
        Section("proves", "What each check can and cannot prove", _proves(rig), place="right"),
        Section("others", "The other checks, cutter off the arbor", (_others(rig, gear),)),
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


def _along() -> tuple[Block, ...]:
    return (Picture(indicator_along_scale(limit=USUAL_ALIGNMENT)), Words("Maker's limit, if another: ________"))


def _block() -> tuple[Block, ...]:
    rows = tuple(TableRow((row, "", "", "")) for row in ("near scale", "again", "again", "mean", "near cutter", "again"))
    return (
        Table(("", "left", "middle", "right"), rows, grid=True),
        Words("gain ________ ± ________ µm in a metre"),
        Words("degrees, first ________ last ________"),
    )


def _others(rig: Rig, gear: OnGear | None) -> Table:
    screw = rig.table.screw_lead
    turned = None if screw is None else TURNS * float(screw)
    dial = f"ten turns of the dial, {turned:.3f} mm" if turned is not None else "ten turns of the dial"
    good = f"{GOOD_DIAL * turned:.3f} mm" if turned is not None else "0.001 of it"
    rows = [
        ("2", dial, "", good, *BOXES),
        ("3", "ten strokes to one indicator zero", "", "2 counts", *BOXES),
    ]
    if gear is not None:
        angle = wanted_angle(Millimetre(STROKE_BLOCK), gear.lead)
        rise = pen_rise(Millimetre(PEN_BAR), Millimetre(PEN_MOVE), gear.lead)
        within = f"{number(angle / RADIAN_PER_ARCSEC * GOOD_GAIN, 0)}″"
        turn = f"table {STROKE_BLOCK:g} mm: bar of {ARM:g} mm must turn {math.degrees(angle):.4f}°"
        play = f"{number(rig.head.backlash / RADIAN_PER_ARCSEC / 60, 1)}′" if rig.head.backlash else "the known"
        pen = f"pen line, {PEN_MOVE:g} mm on a {PEN_BAR:g} mm bar: rise {rise:.1f} mm"
        rows += [
            ("6", turn, "", within, *BOXES),
            ("7", "the same from the other side: backlash", "", play, *BOXES),
            ("8", pen, "", f"{rise * GOOD_PEN / 100:.1f} mm", *BOXES),
        ]
    return Table(
        ("", "do", "reading, written here", "good within", "pass", "not proven", "fail"), tuple(map(TableRow, rows)), right=(3,)
    )


def _pulse(rig: Rig) -> tuple[Block, ...]:
    pulses = rig.pulses_per_turn()
    if pulses is None:
        return ()
    return (Working((f"one pulse = 1 296 000″ / {float(pulses):g} = {1_296_000 / float(pulses):.2f}″ at the work",)),)


def head_sheet(rig: Rig, paper: Paper = "a4") -> Document:
    """The procedures of the head with blanks: ratio, play, closing, worm within one crank turn, wheel by square or hexagon, drag."""
    crank = 360 / float(rig.head.ratio)
    worm = tuple(TableRow((f"{crank * place / PLACES_OF_WORM:.3f}°", *("",) * 6)) for place in range(PLACES_OF_WORM))
    heads = ("work at", "1 up", "1 down", "2 up", "2 down", "3 up", "3 down")
    faces = tuple(TableRow((f"shift {shift}", *("",) * 6)) for shift in range(1, 7))
    sections = (
        Section("first", "First", _head(rig)),
        Section("worm", "Worm: bar and indicator, three turns of the crank, µm", (Table(heads, worm, grid=True),)),
        Section(
            "wheel",
            "Wheel: square or hexagon, indicator on each face in turn, µm",
            (
                Table(("", "0°", "60°", "120°", "180°", "240°", "300°"), faces, grid=True),
                Words("Square: four shifts, at 0°, 90°, 180°, 270°."),
            ),
        ),
    )
    cells = (Cell("sheet", "know the head"), Cell("rig", rig_words(rig)), Cell("head", f"{rig.head.ratio}:1"))
    return Document(
        kind="proof",
        title="Know the head",
        lead="Up is approached as in the cut, down from the other side; write in pencil, type in afterwards.",
        sections=sections,
        cells=cells,
        paper=paper,
        sign="measured by, and when",
    )


def _head(rig: Rig) -> tuple[Block, ...]:
    steps = (
        "Turns of the crank for one turn of the work, from chalk mark to chalk mark: ________",
        "Backlash: indicator on the bar, from below and from above, five times each: ________ ________ ________ ________ ________",
        "Full turn: indicator at a radius of ________ mm, back after one turn ________, after two turns ________",
        "Drag: spring balance on the crank handle at a radius of ________ mm, just turning ________ N",
    )
    return (Steps(steps, boxes=True), *_pulse(rig))


SHORT: tuple[tuple[str, str, str], ...] = (
    ("1", "the reader runs free", "anything about the lead"),
    ("2", "counts in a mm, inch, a factor", "under 400 µm in a metre"),
    ("3", "no count lost or gained", "the gain"),
    ("4", "gain to 40 µm in a metre", "waves within the block"),
    ("5", "tilt of the table from 6 µm", "less than that"),
    ("6", "the whole link, its sign", "waves in between"),
    ("7", "the backlash", "its change round the wheel"),
    ("8", "hand, a factor, the mate's lead", "anything under 1 %"),
)
"""What each check proves and cannot, in the words of a narrow column."""


def _proves(rig: Rig) -> tuple[Block, ...]:
    count = None if rig.link is None else rig.link.count
    return (
        Table(("", "proves", "cannot prove"), tuple(map(TableRow, SHORT))),
        Words("Blocks and scale warm through together: 1.5 K not known is 17 µm in a metre."),
        Words("A scale 1 mm aslant in 500 costs 2 µm in a metre of lead: alignment protects the reader."),
        *(() if count is None else (Words(display_words(count, INCH / 10_000)),)),
        *_pulse(rig),
    )


def _result(gear: OnGear | None, name: str) -> str:
    on, face = name or LINE * 3, LINE if gear is None else f"{gear.face:g}"
    return f"On {on} this link is good to ± ________ µm over {face} mm, limited by ________________________"
