"""The joint fit of a log on table position: ratio, lag, play, worm and wheel together, since one fitted alone takes from the others."""

from __future__ import annotations

import math
from dataclasses import dataclass

import numpy as np

from evenpitch.link.pulse_train import Array
from evenpitch.sources.citations import cites


@dataclass(frozen=True, slots=True)
class Design:
    """Columns of the fit by name; `values` have as many rows."""

    names: tuple[str, ...]
    columns: Array

    def place(self, name: str) -> int:
        """Of one column."""
        return self.names.index(name)


@dataclass(frozen=True, slots=True)
class Fit:
    """Coefficients, their covariance, standard deviation of a reading, residuals; `basis`: orthonormal columns of the design."""

    design: Design
    values: Array
    covariance: Array
    s: float
    residuals: Array
    basis: Array

    def value(self, name: str) -> float:
        """One coefficient."""
        return float(self.values[self.design.place(name)])

    def u(self, name: str) -> float:
        """Its standard uncertainty."""
        place = self.design.place(name)
        return math.sqrt(max(0.0, float(self.covariance[place, place])))

    def has(self, name: str) -> bool:
        """Whether the column was fitted."""
        return name in self.design.names

    def amplitude(self, first: str, second: str) -> tuple[float, float, float]:
        """Of a sine and cosine pair: amplitude, its standard uncertainty, and the chi-square of both being nothing."""
        a, b = self.design.place(first), self.design.place(second)
        pair = np.array([self.values[a], self.values[b]])
        cov = self.covariance[np.ix_([a, b], [a, b])]
        size = float(np.hypot(*pair))
        along = pair / size if size else np.array([1.0, 0.0])
        chi = float(pair @ np.linalg.solve(cov, pair)) if np.linalg.det(cov) > 0 else math.inf
        return size, math.sqrt(max(0.0, float(along @ cov @ along))), chi


def _orthogonal(columns: Array) -> tuple[Array, Array]:
    """Orthonormal columns and the triangle that gives the old ones back (QR), by two passes of Cholesky's rule.

    For long logs of few columns that is many times as quick as reflections, and two passes leave nothing to be seen of the first
    one's rounding. Columns too much alike for it go to the usual routine.
    """
    basis, upper = columns, np.eye(columns.shape[1])
    try:
        for _ in range(2):
            triangle = np.linalg.cholesky(basis.T @ basis).T
            basis = basis @ np.linalg.inv(triangle)
            upper = triangle @ upper
    except np.linalg.LinAlgError:
        found = np.linalg.qr(columns)
        return found[0], found[1]
    return basis, upper


def least_squares(design: Design, y: Array) -> Fit:
    """Fit by orthogonal columns (QR)."""
    size = np.sqrt((design.columns**2).sum(axis=0))
    size[size == 0] = 1.0
    basis, triangle = _orthogonal(design.columns / size)
    upper = triangle * size
    values = np.linalg.solve(upper, basis.T @ y)
    rest = y - basis @ (basis.T @ y)
    freedom = max(1, len(y) - len(values))
    s = math.sqrt(float(rest @ rest) / freedom)
    inverse = np.linalg.inv(upper)
    return Fit(design, values, s * s * inverse @ inverse.T, s, rest, basis)


@cites(
    "derived here",
    formula="y = a + ε (2π/L) x − (2π τ/L) v + (B/2) d + Σ_h A_h sin(h i_w θ + p_h) + wheel (or a slow bend),  θ = 2π x/L + index",
)
def log_design(
    x: Array,
    speed: Array | None,
    lead: float,
    worm_ratio: float,
    *,
    indexed: Array | None = None,
    harmonics: tuple[int, ...] = (1, 2),
    wheel: bool = False,
    bend: bool = False,
) -> Design:
    """Columns over position x (mm): those that these rows can tell apart. `speed`: mm/s signed, or None where it is steady.

    `indexed`: work angle, radian, that indexing added. `wheel`: waves once and twice in a turn of the work, where the travel
    covers enough of it; `bend`: a slow curve in their place.
    """
    turn = 2 * math.pi / lead
    turned = turn * x if indexed is None else turn * x + indexed
    columns: dict[str, Array] = {"start": np.ones(len(x)), "ratio": turn * (x - x.mean())}
    columns |= {} if speed is None else _of_speed(speed, turn)
    for times in harmonics:
        angle = times * worm_ratio * turned
        columns[f"worm {times} sin"], columns[f"worm {times} cos"] = np.sin(angle), np.cos(angle)
    for times in (1, 2) if wheel else ():
        columns[f"wheel {times} sin"], columns[f"wheel {times} cos"] = np.sin(times * turned), np.cos(times * turned)
    if bend and not wheel:
        part = 2 * (x - x.min()) / max(float(np.ptp(x)), 1e-12) - 1
        columns["bend 2"], columns["bend 3"] = part**2 - 1 / 3, part**3 - 0.6 * part
    return Design(tuple(columns), np.column_stack(list(columns.values())))


STEADY = 0.05
"""Spread of the feed, as a part of it, below which a delay cannot be told from the start; and least share of rows each way."""


def _of_speed(speed: Array, turn: float) -> dict[str, Array]:
    """Lag and play, where the feed varies or turns round: at a steady feed one way a delay only shifts the start."""
    direction = np.sign(speed)
    both = STEADY < (direction > 0).mean() < 1 - STEADY
    size = np.abs(speed[speed != 0])
    found: dict[str, Array] = {}
    if both or (len(size) and size.std() > STEADY * size.mean()):
        found["lag"] = turn * (speed - speed.mean())
    if both:
        found["play"] = direction / 2
    return found


@cites("derived here", formula="√((1 + r_1)/(1 − r_1))")
def correlation_factor(residuals: Array) -> float:
    """By which uncertainties grow where neighbouring readings lean the same way; never below 1."""
    centred = residuals - residuals.mean()
    whole = float(centred @ centred)
    r = float(centred[1:] @ centred[:-1]) / whole if whole else 0.0
    return math.sqrt((1 + r) / (1 - r)) if r > 2 / math.sqrt(len(residuals)) else 1.0


@cites("derived here", formula="u = σ L √12/(2π R √N)")
def ratio_uncertainty(sigma: float, rows: int, travel: float, lead: float) -> float:
    """Of the ratio, relative, from so many readings of sigma radian over a travel in mm."""
    return sigma * lead * math.sqrt(12) / (2 * math.pi * travel * math.sqrt(rows))


@cites("derived here", formula="u = σ √(2/N)")
def wave_uncertainty(sigma: float, rows: int) -> float:
    """Of an amplitude, in the unit of sigma."""
    return sigma * math.sqrt(2 / rows)


@cites("derived here", formula="u = 4 σ/√N")
def jump_uncertainty(sigma: float, rows: int) -> float:
    """Of a jump in the middle of a log with its slope fitted, in the unit of sigma."""
    return 4 * sigma / math.sqrt(rows)


@cites("derived here", formula="least ≈ (threshold + 1.64) u")
def least_found(threshold: float, u: float) -> float:
    """What is found 95 times in 100."""
    return (threshold + 1.64) * u
