"""The questions that are asked without a job: their words, their fields, examples to try. One table for pages and help."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, replace

from evenpitch.quantity.field_names import FieldName
from evenpitch.quantity.names import field_named


@dataclass(frozen=True, slots=True, kw_only=True)
class Question:
    """One question. `first`: the fields in its first row; `more`: those under a fold, headed `more_head`, open before
    an answer where `more_open`. Fields bear the command's names.

    `examples`: (words, what is typed).
    """

    name: str
    title: str
    lead: str
    first: tuple[FieldName, ...]
    more: tuple[FieldName, ...] = ()
    more_head: str = ""
    more_open: bool = False
    on_a_rig: bool = True
    examples: tuple[tuple[str, Mapping[str, str]], ...] = ()

    def fields(self) -> tuple[FieldName, ...]:
        """All of them."""
        return (*self.first, *self.more)


def _as(table: str, word: str, name: str = "", **change: object) -> FieldName:
    """A field of the nomenclature under the name it has at the command line; nothing is needed before it is asked."""
    return replace(field_named(table, word), table="job", word=name or word.replace("_", "-"), needed=False, **change)  # type: ignore[arg-type]


def _own(word: str, label: str, kind: str, says: str, example: str, **more: object) -> FieldName:
    return FieldName(table="job", word=word, label=label, kind=kind, help=says, example=example, **more)  # type: ignore[arg-type]


_FREE = "Bare numbers are millimetres."
_HELIX_OF = _own(
    "helix-of", "or that of a gear", "text", "Its pressure angle is 20 unless alpha says another.", "z=28 mn=2 beta=20"
)
_FACE_OF = _own("face", "Face of that gear", "length", "Adds micrometres over the face.", "20 mm")
_PULSES = _own("pulses-per-turn", "Pulses a turn", "number", "Full steps × microsteps × belt × head ratio.", "192000")
_LEAD = _own("lead", "Lead", "length", f"Table travel for one turn of the work. {_FREE}", "20.25 in")
_HEAD = (
    _as("head", "ratio", "worm-ratio", usual="40"),
    _as("head", "direct"),
    _as("plate", "circles", usual="three plates, 15 to 49 holes"),
    _as("change_gears", "teeth", "change-gears", usual="twelve gears, 24 to 100"),
)
_RATIO, _DIRECT, _CIRCLES, _GEARS = _HEAD
_SCREW = _as("table", "screw_lead", usual="0.25 in")

GEAR = Question(
    name="gear",
    title="One gear",
    lead="Every size of it, and what to measure. Bare lengths are millimetres.",
    first=(
        _as("gear", "teeth"),
        _as("gear", "pitch"),
        _as("gear", "pressure_angle"),
        _as("gear", "face", help="Length of the teeth; may be left out."),
    ),
    more=(
        _as("gear", "helix"),
        _as("gear", "hand"),
        _as("gear", "shift"),
        _as("gear", "depth", usual="", help="Usual: full, and 14.5 at 14½°."),
        _as("gear", "thinning"),
        _as("gear", "spanned"),
        _as("gear", "pin"),
        _as("gear", "tolerance_class", usual="", help="Of ISO 1328-1: adds its limits."),
    ),
    more_head="Helix, depth, what to measure over, class",
    on_a_rig=False,
    examples=(
        ("97 teeth, 12 DP, 14½°", {"teeth": "97", "pitch": "12 DP", "pressure-angle": "14½", "face": "3/4 in"}),
        ("28 teeth, module 2, 20° helix", {"teeth": "28", "pitch": "module 2", "face": "20 mm", "helix": "20", "hand": "right"}),
        ("22 teeth, 10 DP, class 8", {"teeth": "22", "pitch": "10 DP", "tolerance-class": "8", "face": "1 in"}),
    ),
)

DIVIDE = Question(
    name="divide",
    title="Divide a circle",
    lead="Every way the head can make that number, best first, each with a sum to check it by.",
    first=(
        _own("divisions", "Spaces", "whole", "How many in the full circle.", "113", least=1, most=1_000_000),
        _own("angle", "or one angle", "angle", "Of a single move.", "20d5m12s"),
    ),
    more=(_RATIO, _DIRECT, _CIRCLES, _GEARS, _PULSES),
    more_head="The head: ratio, plates, change gears, link",
    examples=(
        ("113 spaces", {"divisions": "113"}),
        ("97 spaces, also by a link", {"divisions": "97", "pulses-per-turn": "192000"}),
        ("a move of 20° 5′ 12″", {"angle": "20d5m12s"}),
    ),
)

LEAD = Question(
    name="lead",
    title="Change gears for a lead",
    lead="Every train worth having from the gears in the box, nearest first.",
    first=(_LEAD, _HELIX_OF),
    more=(
        _FACE_OF,
        _own("pair-with", "Lead of the mate", "length", "Both trains are chosen together, so that the pair suits.", "1028.77 mm"),
        _SCREW,
        _RATIO,
        _GEARS,
    ),
    more_head="Face, mate, machine, gears in the box",
    examples=(
        ("a lead of 20.25 in", {"lead": "20.25 in"}),
        ("28 teeth, module 2, 20° helix, face 20 mm", {"helix-of": "z=28 mn=2 beta=20", "face": "20 mm"}),
        ("and its mate of 56", {"helix-of": "z=28 mn=2 beta=20", "face": "20 mm", "pair-with": "1028.765 mm"}),
    ),
)

RATIO = Question(
    name="ratio",
    title="The link's ratio for a lead",
    lead="Whole pulses for whole counts, and what a rounded decimal would cost.",
    first=(_LEAD, _HELIX_OF),
    more=(
        _PULSES,
        _own("count", "One count", "length", "Table travel of one count of the scale.", "1 um"),
        _FACE_OF,
        _own("largest-pulses", "Largest pulses", "whole", "That the pulse field takes.", "65535", usual="65535"),
        _own("largest-counts", "Largest counts", "whole", "That the count field takes.", "65535", usual="65535"),
    ),
    more_head="The link: pulses a turn, one count, largest numbers",
    more_open=True,
    examples=(
        ("514.38 mm at 192 000 pulses", {"lead": "514.38 mm", "pulses-per-turn": "192000", "count": "1 um"}),
        (
            "28 teeth, module 2, 20° helix",
            {"helix-of": "z=28 mn=2 beta=20", "face": "20 mm", "pulses-per-turn": "192000", "count": "1 um"},
        ),
    ),
)

QUESTIONS: dict[str, Question] = {question.name: question for question in (GEAR, DIVIDE, LEAD, RATIO)}

COUNTS = Question(
    name="counts",
    title="Wall chart of every count",
    lead="For the wall beside the head: how to make each number.",
    first=(_own("chart", "Counts", "text", "From and to, at most 2000 of them.", "2-400", usual="2-400"),),
    more=(_RATIO, _DIRECT, _CIRCLES, _GEARS, _PULSES),
    more_head="The head: ratio, plates, change gears, link",
)

LEADS = Question(
    name="leads",
    title="Wall chart of every lead",
    lead="Every lead that the gears in the box give, rising.",
    first=(_own("diameter", "Diameter", "length", "Adds the helix angle on it; may be left out.", "60 mm"),),
    more=(_SCREW, _RATIO, _GEARS),
    more_head="The machine and the gears in the box",
)

CHARTS: dict[str, Question] = {chart.name: chart for chart in (COUNTS, LEADS)}
