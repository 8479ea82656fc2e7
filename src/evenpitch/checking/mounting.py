"""Mounting the scale: what each comparison can prove, and what the readings of a mounting say."""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass
from fractions import Fraction

from evenpitch.checking.budget import Budget, Part
from evenpitch.checking.least_squares import straight_line
from evenpitch.checking.measured import Measured
from evenpitch.checking.notes import note
from evenpitch.quantity.finding import Finding
from evenpitch.quantity.units import INCH, Millimetre, Radian
from evenpitch.rig.tools import Instrument
from evenpitch.sources.citations import cites

USUAL_ALIGNMENT = Millimetre(0.10)
"""Millimetres along the whole scale, both planes, where its maker gives no limit; common practice."""
USUAL_BLOCK = Millimetre(100.0)
USUAL_COUNT = Millimetre(0.001)
GOOD_STROKES = 2
GOOD_COUNTS = 1


@dataclass(frozen=True, slots=True)
class Comparator:
    """A thing to compare the scale with: over what length, U (k = 2), mm; what it proves and what it cannot."""

    name: str
    over: float
    U: float
    proves: str
    cannot: str

    @property
    def of_length(self) -> float:
        """U as a part of the length: the smallest gain it can show."""
        return self.U / self.over


COMPARATORS = (
    Comparator(
        "table dial, whole turns only, lash taken up one way",
        63.5,
        0.025,
        "counts per mm, inch or metric setting, a factor of 2, 4, 5",
        "any error below 400 µm in a metre; parts of a turn",
    ),
    Comparator(
        "0.001 mm indicator",
        1.0,
        0.004,
        "no lost counts, reversal, smoothness in small moves",
        "gain (4000 µm in a metre)",
    ),
    Comparator(
        "gauge block between two zeros of one indicator",
        100.0,
        0.004,
        "gain to 40 µm in a metre, at three places",
        "waves shorter than the block",
    ),
    Comparator(
        "same block, indicator near the scale, then near the cutter",
        100.0,
        0.004 * math.sqrt(2),
        "tilt of the table between scale and cutter: the difference of the two sides, 6 µm or more",
        "less than that",
    ),
)
"""Common practice, from common instrument figures: the shop's own replace them."""


@cites("JCGM 100:2008, 5.1", "common practice", formula="u² = Σ u_i²")
def block_budget(length: Millimetre = USUAL_BLOCK, count: Millimetre = USUAL_COUNT, kelvin: float = 1.0) -> Budget:
    """The budget of a block read between two zeros of one indicator, mm."""
    return Budget(
        (
            Part("first null", 0.0012, "normal", 1.0, "instrument"),
            Part("second null", 0.0012, "normal", 1.0, "instrument"),
            Part("the block", 0.0003, "normal", 1.0, "instrument"),
            Part("block against scale, warmth", kelvin, "rectangular", 11.5e-6 * length, "setup"),
            Part("counts, first and last", count / 2, "rectangular", math.sqrt(2), "scale"),
            Part("seating", 0.0005, "normal", 1.0, "setup"),
        ),
        "mm",
    )


@cites("derived here", formula="ε = ½ (a/l)²")
def cosine_error(off: Millimetre, over: Millimetre) -> float:
    """What a scale that runs `off` to one side over a length costs of the lead, bare number."""
    return 0.5 * (off / over) ** 2


@cites("textbook mechanics", formula="Δ = h δ")
def abbe_error(offset: Millimetre, rotation: Radian) -> Millimetre:
    """What a turning of the table puts between a scale and a cutter that stand `offset` apart."""
    return Millimetre(offset * rotation)


def abbe_over(offset: Millimetre, rotation: Radian, travel: Millimetre, length: Millimetre) -> Millimetre:
    """The same shared evenly over the travel, on one length of it."""
    return Millimetre(abbe_error(offset, rotation) * length / travel)


@cites("derived here", formula="n = ceil(q/d)")
def figures_that_agree(count: Fraction, last_figure: Fraction) -> int:
    """In how many of the display's last figures agreement can be shown: 1 where a count is finer than the last figure."""
    return max(1, math.ceil(count / last_figure))


def _last_words(last_figure: Fraction) -> str:
    tenths = last_figure / INCH * 10_000
    return f"{float(tenths) / 10_000:.4f} in" if tenths.denominator == 1 else f"{float(last_figure):g} mm"


def display_words(count: Fraction, last_figure: Fraction) -> str:
    """What the last figure of a display is worth. Both in mm."""
    n = figures_that_agree(count, last_figure)
    inch, last = float(count) / 25.4, _last_words(last_figure)
    if n == 1:
        return f"A count of {float(count) * 1000:g} µm is {inch:.6f} in: agreement to one last figure of {last} can be shown."
    head = f"A count of {float(count) * 1000:g} µm is {inch:.6f} in: the last figure of {last} jumps by about {n}"
    return f"{head}, so agreement to one cannot be shown, to {n} can."


@dataclass(frozen=True, slots=True)
class Strokes:
    """Fast strokes back to one zero, mm: `walk` per stroke, and the spread of all."""

    walk: Measured
    spread: float
    finding: Finding | None


@cites("derived here", formula="line through the strokes; it walks where the slope exceeds U and half a count a stroke")
def judge_strokes(returned: Sequence[float], count: Millimetre) -> Strokes:
    """Whether the strokes come back. `returned`: reading at the zero after each stroke, mm."""
    fitted = straight_line(range(len(returned)), returned)
    walk, spread = fitted.term("slope"), max(returned) - min(returned)
    if walk.shown() and abs(walk.value) * (len(returned) - 1) > GOOD_STROKES * count:
        return Strokes(walk, spread, note("walks", um=abs(walk.value) * 1e3))
    if spread > 2 * GOOD_STROKES * count * (1 + 1e-9):
        return Strokes(walk, spread, note("strokes-scatter", um=spread * 1e3, good=GOOD_STROKES * count * 1e3))
    return Strokes(walk, spread, None)


def judge_alignment(readings: Sequence[float], over: Millimetre, limit: Millimetre = USUAL_ALIGNMENT) -> Finding | None:
    """Indicator readings along the scale body, one plane, mm; None where they lie within the limit."""
    off = max(readings) - min(readings)
    if off <= limit:
        return None
    return note("misaligned", found=off, limit=limit, ppm=cosine_error(Millimetre(off), over) * 1e6)


def judge_stops(scale_length: Millimetre, travel: Millimetre) -> Finding | None:
    """Whether the table can run beyond the scale."""
    over = travel - scale_length
    return note("stops-outside", over=over) if over > 0 else None


def judge_push(counts: int) -> Finding | None:
    """Counts that the reader moved when pushed with 10 N each way."""
    return note("bracket-gives", counts=abs(counts)) if abs(counts) > GOOD_COUNTS else None


def judge_noise(counts: int) -> Finding | None:
    """Counts gained with the table locked while spindle and motor were switched."""
    return note("noise-counts", counts=abs(counts)) if counts else None


def judge_range(value: Millimetre, instrument: Instrument) -> Finding | None:
    """Whether a reading can have been taken with an instrument."""
    least, most = instrument.least, instrument.most
    if least is None or most is None or least <= value <= most:
        return None
    return note("outside-range", value=value, kind=instrument.kind, least=least, most=most)


def judge_dial(turns: float, screw_lead: Millimetre) -> Finding | None:
    """Whether a move by the table dial was of whole turns."""
    part = abs(turns - round(turns))
    return note("part-turns", turns=turns) if part * screw_lead > 0.005 or round(turns) == 0 else None


MOST_BLOCKS = 4


def made_of_blocks(size: float, blocks: Sequence[float]) -> bool:
    """Whether a length is one block of the set or a stack of up to four."""
    wanted = round(size * 1e4)
    parts = sorted({round(block * 1e4) for block in blocks})
    pairs: set[int] = {0, *parts, *(a + b for i, a in enumerate(parts) for b in parts[i + 1 :])}
    return any(wanted - pair in pairs for pair in pairs if pair <= wanted)


def judge_block(size: Millimetre, instruments: Sequence[Instrument]) -> Finding | None:
    """Whether a block of this size is in the set of the rig; nothing is said where no set is listed."""
    sizes = [float(one) for instrument in instruments if "block" in instrument.kind.casefold() for one in instrument.sizes]
    if not sizes or made_of_blocks(abs(size), sizes):
        return None
    return note("block-not-in-set", size=f"{abs(size):g} mm")
