"""The fields of a proof, as they stand on its page: what to read, in which unit, and what is usual."""

from __future__ import annotations

from evenpitch.quantity.field_names import FieldKind, FieldName

PLACES = ("left", "middle", "right")


def _field(
    path: str, label: str, kind: FieldKind, told: str, example: str, *, usual: str = "", choices: tuple[str, ...] = ()
) -> FieldName:
    table, _, word = path.partition(".")
    return FieldName(table=table, word=word, label=label, kind=kind, help=told, example=example, usual=usual, choices=choices)


ALONG = tuple(
    _field(f"along.{plane}_{place}", f"{words}, {place}", "length", "Indicator on the scale body.", "0.02 mm")
    for plane, words in (("top", "On top"), ("front", "On the front"))
    for place in PLACES
)
LIMIT = _field(
    "along.limit", "Maker's limit", "length", "Along the whole scale, both ways. Usual: 0.10 mm.", "0.10 mm", usual="0.10 mm"
)
TURNS = _field("dial.turns", "Turns of the dial", "number", "Whole turns, lash taken up one way.", "10", usual="10")
DIAL = _field("dial.read", "Dial: the scale reads", "length", "What the scale shows after those turns.", "63.493")
STROKES = _field(
    "strokes.read",
    "Strokes: the scale reads",
    "text",
    "At the indicator's zero after each fast stroke, ten times.",
    "0 0.001 0 0.001",
)
NOISE = _field("mount.noise", "Counts gained", "whole", "Table locked, spindle on and off ten times.", "0")
PUSH = _field("mount.push", "Counts when pushed", "whole", "Reader pushed 10 N each way.", "1")
LOCK = _field("mount.lock", "Counts when locked", "whole", "Table lock tightened and let go.", "0")
PULL = _field("mount.pull", "Spring balance on the crank", "text", "Motor without power, pin out, the crank just turning.", "4 N")
HANDLE = _field(
    "mount.handle", "Radius of the handle", "length", "Where the balance pulls. Usual: 100 mm.", "100 mm", usual="100 mm"
)
SIZE = _field(
    "block.size", "Size of the block", "length", "Between two zeros of one indicator. Usual: 100 mm.", "100 mm", usual="100 mm"
)
BLOCK = tuple(
    _field(f"block.{place}", f"Block near the scale, {place}", "text", "One reading or several.", "99.984") for place in PLACES
)
CUTTER = tuple(
    _field(f"cutter.{place}", f"Block near the cutter, {place}", "text", "One reading or several.", "99.983") for place in PLACES
)
MOVED = _field("link.moved", "Table moved by", "length", "A gauge block. Usual: 50 mm.", "50 mm", usual="50 mm")
ARM = _field("link.arm", "Arm of the bar", "length", "Axis to contact. Usual: 100 mm.", "100.000 mm", usual="100 mm")
ARM_KNOWN = _field("link.arm_known", "Arm known to", "length", "± so much. Usual: 0.005 mm.", "0.005 mm", usual="0.005 mm")
UP = _field("link.up", "The work turned", "text", "Degrees; or with mm the height between the contacts.", "34.9911")
DOWN = _field("link.down", "From the other side", "text", "The same, approached the other way.", "34.9378")
PEN = _field("pen.rise", "Pen line rises", "length", "Paper unrolled, over the whole move.", "30.6 mm")
PEN_BAR = _field("pen.bar", "Bar under the paper", "length", "Diameter. Usual: 50 mm.", "50 mm", usual="50 mm")
PEN_MOVED = _field("pen.moved", "Table moved for it", "length", "Usual: 100 mm.", "100 mm", usual="100 mm")
PEN_HAND = _field("pen.hand", "The line is", "choice", "As a screw thread leans.", "right", choices=("right", "left"))

ALL = (
    *ALONG, LIMIT, TURNS, DIAL, STROKES, NOISE, PUSH, LOCK, PULL, HANDLE, SIZE, *BLOCK, *CUTTER, MOVED, ARM, ARM_KNOWN, UP, DOWN,
    PEN, PEN_BAR, PEN_MOVED, PEN_HAND,
)  # fmt: skip


def path_of(name: FieldName) -> str:
    """Its name in the form."""
    return f"{name.table}.{name.word}"


PATHS = tuple(path_of(name) for name in ALL)
