"""Circle closure: an artefact of n unknown faces divides a circle, and its parts add to a whole turn. No master is needed."""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np

from evenpitch.quantity.refusal import refuse
from evenpitch.sources.citations import cites

NIST = "NIST J. Res. 103(2) 1998"


@dataclass(frozen=True, slots=True)
class Closed:
    """Deviations of the head's places and of the artefact's faces, each with the sum 0; `u`: standard uncertainty of a place."""

    head: tuple[float, ...]
    artefact: tuple[float, ...]
    s: float
    u: float
    freedom: int


@cites(NIST, formula="u = s √(n − 1)/n")
def all_shifts_factor(faces: int) -> float:
    """u of a place from all n shifts, for a reading of standard deviation 1."""
    return math.sqrt(faces - 1) / faces


@cites(NIST, formula="u = s √(1 − 1/n)")
def one_series_factor(faces: int) -> float:
    """u of a part from one series of n readings against one unknown reference, for a reading of standard deviation 1."""
    return math.sqrt(1 - 1 / faces)


@cites(NIST, formula="head_i = mean over shifts − mean of all; face_k = mean over i + j ≡ k − mean of all")
def all_shifts(readings: Sequence[Sequence[float]]) -> Closed:
    """From readings [place i][shift j], where face (i + j) mod n stands before the indicator. The zero of a shift does not matter."""
    table = np.asarray(readings, float)
    n = len(table)
    if n < 3 or table.shape != (n, n):
        raise refuse(
            "readings",
            "x".join(map(str, table.shape)),
            "n places by n shifts, n at least 3",
            "A shift is missing.",
            "Turn the artefact on by one face until every face has stood at every place.",
        )
    rest = table - table.mean()
    places = np.arange(n)
    faces = (places[:, None] + places[None, :]) % n
    head, shift = rest.mean(axis=1), rest.mean(axis=0)
    artefact = np.array([rest[faces == face].mean() for face in range(n)])
    left = rest - head[:, None] - shift[None, :] - artefact[faces]
    freedom = (n - 1) * (n - 2)
    s = math.sqrt(float((left**2).sum()) / freedom)
    return Closed(tuple(head.tolist()), tuple(artefact.tolist()), s, s * all_shifts_factor(n), freedom)


@cites(NIST, formula="θ = (360° − Σ m)/n; part_i = θ + m_i")
def one_series(readings: Sequence[float]) -> tuple[float, tuple[float, ...]]:
    """From parts measured against one unknown reference: the reference's own deviation, and that of each part (they add to 0)."""
    reference = -math.fsum(readings) / len(readings)
    return reference, tuple(reading + reference for reading in readings)
