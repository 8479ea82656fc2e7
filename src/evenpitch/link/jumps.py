"""A jump in a log: the exact likelihood ratio of one at every row, from suffix sums, in one sweep."""

from __future__ import annotations

import math
from dataclasses import dataclass

import numpy as np

from evenpitch.link.fit import Design, Fit, least_squares
from evenpitch.link.pulse_train import Array
from evenpitch.sources.citations import cites

THRESHOLD = 4.5
"""|z| above which a jump is taken for one: 99 of 100 clean logs stay below 4.0."""


@dataclass(frozen=True, slots=True)
class Jump:
    """From row `row` on the readings stand off by `size` ± `u` (standard), in their own unit; `z`: how clearly. `s`: with it in."""

    row: int
    size: float
    u: float
    z: float
    s: float


@cites("derived here", formula="z_c² = (Σ_{i≥c} r_i)²/den_c,  den_c = n_c − |Σ_{i≥c} q_i|²")
def scan(basis: Array, residuals: Array) -> tuple[Array, Array]:
    """For a jump at each row: the sum of residuals from it on, and what is left of its column beside the design."""
    num = np.cumsum(residuals[::-1])[::-1]
    rest = np.cumsum(basis[::-1], axis=0)[::-1]
    left = np.arange(len(residuals), 0, -1) - np.einsum("ij,ij->i", rest, rest)
    return num, left


def largest_jump(fit: Fit) -> Jump | None:
    """The likeliest jump, however unlikely; None where no row can hold one."""
    num, left = scan(fit.basis, fit.residuals)
    able = left > 1.0
    if not able.any():
        return None
    square = np.where(able, num * num / np.where(able, left, 1.0), 0.0)
    row = int(np.argmax(square))
    whole = float(fit.residuals @ fit.residuals)
    freedom = max(1, len(fit.residuals) - len(fit.values) - 1)
    s = math.sqrt(max(0.0, whole - float(square[row])) / freedom)
    den = float(left[row])
    return Jump(row, float(num[row]) / den, s / math.sqrt(den), math.sqrt(float(square[row])) / s if s else math.inf, s)


def with_jump(design: Design, row: int, name: str) -> Design:
    """The design with a jump from that row on."""
    step = (np.arange(len(design.columns)) >= row).astype(float)
    return Design((*design.names, name), np.column_stack([design.columns, step]))


MOST_JUMPS = 12


def find_jumps(design: Design, y: Array, factor: float = 1.0) -> tuple[tuple[Jump, ...], Fit]:
    """Jumps one after another, the clearest first, each fitted together with the rest; and the fit with all of them in.

    `factor`: by which readings that lean alike weaken every proof.
    """
    found: list[int] = []
    fit = least_squares(design, y)
    while len(found) < MOST_JUMPS:
        jump = largest_jump(fit)
        if jump is None or jump.z < THRESHOLD * factor or jump.row in found:
            break
        found.append(jump.row)
        design = with_jump(design, jump.row, f"jump {jump.row}")
        fit = least_squares(design, y)
    jumps = tuple(
        Jump(
            row,
            fit.value(f"jump {row}"),
            fit.u(f"jump {row}") * factor,
            abs(fit.value(f"jump {row}")) / max(fit.u(f"jump {row}"), 1e-300),
            fit.s,
        )
        for row in sorted(found)
    )
    return jumps, fit
