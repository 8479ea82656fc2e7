"""Least squares with the uncertainty of every term, and refusal of what the readings cannot tell apart."""

from __future__ import annotations

import math
from dataclasses import dataclass
from typing import Any

import numpy as np
from numpy.typing import NDArray

from evenpitch.checking.measured import Measured
from evenpitch.sources.citations import cites

Array = NDArray[np.float64]

CONDITION = 1e10
"""Beyond this ratio of the largest to the smallest singular value the terms cannot be told apart."""


@dataclass(frozen=True, slots=True)
class Fitted:
    """Terms by name, their covariance (same order), standard deviation `s` of one reading about the fit, its degrees of freedom.

    `leverage`: part of each reading's own weight in the value fitted at its place, 0 to 1.
    """

    names: tuple[str, ...]
    terms: Array
    covariance: Array
    s: float
    freedom: int
    residuals: Array
    leverage: Array

    def term(self, name: str) -> Measured:
        """One term with its standard uncertainty."""
        place = self.names.index(name)
        return Measured(float(self.terms[place]), math.sqrt(max(float(self.covariance[place, place]), 0.0)), self.freedom)

    def has(self, name: str) -> bool:
        """Whether the fit has a term of that name."""
        return name in self.names

    def correlation(self, first: str, second: str) -> float:
        """Correlation of two terms."""
        a, b = self.names.index(first), self.names.index(second)
        return float(self.covariance[a, b] / math.sqrt(self.covariance[a, a] * self.covariance[b, b]))


@cites("JCGM 100:2008, H.3", "derived here", formula="c = (AᵀA)⁻¹Aᵀy; s² = Σ r²/(n − p); u² = s² (AᵀA)⁻¹")
def fit(columns: dict[str, Any], values: Any, weights: Any = None) -> Fitted:
    """The terms that fit the values best. `columns`: one for each term, as long as `values`; `weights`: 1/u of each reading, relative.

    Columns are brought to one size first, so that mm and turns weigh alike. A ValueError where two terms cannot be told apart.
    """
    names = tuple(columns)
    design = np.column_stack([np.broadcast_to(np.asarray(column, float), np.shape(values)) for column in columns.values()])
    target = np.asarray(values, float)
    scaled, wanted = (design, target) if weights is None else (design * np.asarray(weights)[:, None], target * weights)
    size = np.sqrt((scaled**2).sum(axis=0))
    if not size.all():
        raise ValueError("a term is nowhere in the readings")
    square, triangle = np.linalg.qr(scaled / size)
    upper, singular, lower = np.linalg.svd(triangle)
    if len(scaled) < len(names) or singular[-1] * CONDITION < singular[0]:
        raise ValueError("terms cannot be told apart")
    terms = (lower.T @ ((upper.T @ (square.T @ wanted)) / singular)) / size
    left = wanted - scaled @ terms
    freedom = len(wanted) - len(names)
    s = math.sqrt(float(left @ left) / freedom) if freedom else 0.0
    covariance = s**2 * (lower.T / singular**2) @ lower / np.outer(size, size)
    return Fitted(names, terms, covariance, s, freedom, target - design @ terms, (square**2).sum(axis=1))


def straight_line(x: Any, y: Any, about: float = 0.0) -> Fitted:
    """y = at + slope (x − about): the terms "at" and "slope"."""
    distance = np.asarray(x, float) - about
    return fit({"at": np.ones(len(distance)), "slope": distance}, y)
