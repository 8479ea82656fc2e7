"""What the gain of a scale is good to: the scatter of the readings, and what no repetition shows, the blocks and their warmth."""

from __future__ import annotations

from evenpitch.checking.budget import Budget, Part
from evenpitch.checking.measured import Measured
from evenpitch.checking.warmth import EXPANSION
from evenpitch.quantity.units import Kelvin, Millimetre
from evenpitch.sources.citations import cites

USUAL_KELVIN = Kelvin(1.0)
"""By no more than this blocks and scale differ in warmth after they stood together; common practice."""
BLOCK = 0.3
"""Standard uncertainty of a stack of blocks, µm; common practice."""
MILLION = 1e6


@cites("JCGM 100:2008", "derived here", formula="u² = u_scatter² + (α ΔT/√3)² + (u_block/reach)²")
def gain_budget(gain: Measured, reach: Millimetre, kelvin: Kelvin = USUAL_KELVIN, block: float = BLOCK) -> Budget:
    """Parts of the gain's uncertainty, µm in a metre. `reach`: between the first place and the last, mm; `block`: of the stack, µm."""
    return Budget(
        (
            Part("scatter of the readings", gain.u * MILLION, owner="instrument", freedom=gain.freedom),
            Part("warmth, blocks against scale", kelvin, "rectangular", EXPANSION["steel"] * MILLION),
            Part("the blocks", block, weight=1e3 / reach, owner="instrument"),
        ),
        "µm in a metre",
    )


def whole_gain(gain: Measured, budget: Budget) -> Measured:
    """The gain with the whole of its uncertainty, a bare number as before."""
    return Measured(gain.value, budget.u / MILLION, budget.freedom)
