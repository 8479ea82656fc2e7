"""The link proven end to end: the table moved by a block, the work's angle by a bar, against 360° · move/lead."""

from __future__ import annotations

import math
from dataclasses import dataclass

from evenpitch.checking.budget import Budget, Part
from evenpitch.quantity.units import RADIAN_PER_ARCSEC, Millimetre, Radian
from evenpitch.sources.citations import cites

TURN = 2 * math.pi
NO_PAPER = Millimetre(0.0)


@cites("derived here", formula="θ = 360° x/L")
def wanted_angle(moved: Millimetre, lead: Millimetre) -> Radian:
    """The angle the work must turn while the table moves."""
    return Radian(TURN * moved / lead)


@cites("derived here", formula="x = L θ/360°")
def table_for(angle: Radian, lead: Millimetre) -> Millimetre:
    """The table move that turns the work by an angle the shop has exactly, such as the 90° of a square block."""
    return Millimetre(lead * angle / TURN)


@cites("derived here", formula="x = B L/2π")
def take_up(backlash: Radian, lead: Millimetre) -> Millimetre:
    """Table travel that closes the play after turning round; start three times as far before the blank."""
    return Millimetre(backlash * lead / TURN)


@dataclass(frozen=True, slots=True, kw_only=True)
class ProofMeans:
    """What the proof is made with; every figure can be changed. Half-widths and standard uncertainties in mm and radian."""

    radius: Millimetre = Millimetre(100.0)
    arm: Millimetre = Millimetre(0.005)
    table: Millimetre = Millimetre(0.0015)
    indicator: Millimetre = Millimetre(0.0015)
    blocks: Millimetre = Millimetre(0.0005)
    repeat: Radian = Radian(5 * RADIAN_PER_ARCSEC)
    repeat_freedom: float = math.inf
    pulse: Radian = Radian(TURN / 192_000)


@cites(
    "JCGM 100:2008, 5.1",
    "derived here",
    formula="u² = (2π u_x/L)² + (2 tan(θ/2) a_R/(√3 R))² + (√2 u_i/(R cos(θ/2)))² + u_r² + p²/12 + (u_b/(R cos(θ/2)))²",
)
def proof_budget(turned: Radian, lead: Millimetre, means: ProofMeans) -> Budget:
    """The budget of the work angle against the table, in radian at the work."""
    along = 1 / (means.radius * math.cos(turned / 2))
    return Budget(
        (
            Part("table: block and two nulls", means.table, "normal", TURN / lead, "scale"),
            Part("length of the arm", means.arm, "rectangular", 2 * math.tan(turned / 2) / means.radius, "setup"),
            Part("indicator, two readings", means.indicator, "normal", math.sqrt(2) * along, "instrument"),
            Part("repeat of the approach", means.repeat, "normal", 1.0, "head", means.repeat_freedom),
            Part("rounding to a pulse", means.pulse / 2, "rectangular", 1.0, "motor"),
            Part("blocks under the bar", means.blocks, "normal", along, "instrument"),
        ),
        "rad",
    )


SAME_FROM_BOTH_SIDES = ("length of the arm", "blocks under the bar")


@dataclass(frozen=True, slots=True, kw_only=True)
class Proof:
    """`error`: work angle less wanted, radian, approached as in the cut; `play`: up less down, or None; U expanded, 95 %."""

    moved: Millimetre
    lead: Millimetre
    wanted: Radian
    found: Radian
    budget: Budget
    play: Radian | None = None
    readings: int = 1

    @property
    def error(self) -> float:
        """Found less wanted, radian."""
        return self.found - self.wanted

    @property
    def U(self) -> float:  # noqa: N802
        """Expanded uncertainty, radian."""
        return self.budget.U

    @property
    def play_U(self) -> float:  # noqa: N802
        """Expanded uncertainty of the play, radian: arm and blocks are the same from both sides and fall out."""
        kept = tuple(part for part in self.budget.parts if part.name not in SAME_FROM_BOTH_SIDES)
        return math.sqrt(2) * Budget(kept, self.budget.unit).U

    @property
    def of_lead(self) -> float:
        """U as a part of the angle turned: what of the lead is proven."""
        return self.U / abs(self.wanted)

    def shown(self) -> bool:
        """Whether an error can be told from the doubt."""
        return abs(self.error) > self.U


@cites("derived here", formula="rise = π d x/L")
def pen_rise(bar: Millimetre, moved: Millimetre, lead: Millimetre, paper: Millimetre = NO_PAPER) -> Millimetre:
    """How far the line on paper round a bar rises when unrolled; `paper`: its thickness under the pen."""
    return Millimetre(math.pi * (bar + 2 * paper) * moved / lead)


@dataclass(frozen=True, slots=True)
class PenLine:
    """A line drawn: `off`: rise found over rise wanted less 1, `U` of the ruler, same kind; `hand` as it leans."""

    wanted: Millimetre
    found: Millimetre
    off: float
    U: float
    hand: str | None

    def shown(self) -> bool:
        """Whether an error can be told from the ruler."""
        return abs(self.off) > self.U


RULER = 0.3
"""Millimetres to which a ruler reads the rise, U; common practice."""


def pen_line(
    found: Millimetre, bar: Millimetre, moved: Millimetre, lead: Millimetre, hand: str | None = None, paper: float = 0.0
) -> PenLine:
    """The line judged."""
    wanted = pen_rise(bar, moved, lead, Millimetre(paper))
    return PenLine(wanted, found, found / wanted - 1, RULER / wanted, hand)
