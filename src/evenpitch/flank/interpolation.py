"""Four-point interpolation on uneven nodes, for one row or for many rows at once."""

from __future__ import annotations

import numpy as np
from numpy.typing import NDArray

from evenpitch.flank.wanted import Array

Index = NDArray[np.int64]


def weights(nodes: Array, at: Array) -> Array:
    """Weights of the polynomial through `nodes` (..., n) at the places `at` (...): shape (..., n)."""
    n = nodes.shape[-1]
    away = at[..., None] - nodes
    out = np.ones_like(away)
    for i in range(n):
        for j in range(n):
            if i != j:
                out[..., i] *= away[..., j] / (nodes[..., i] - nodes[..., j])
    return out


def stencil(place: Index, first: int | Index, last: int | Index, width: int = 4) -> Index:
    """First node of the stencil for the interval that begins at `place`, kept between nodes `first` and `last` (inclusive)."""
    return np.asarray(np.maximum(np.minimum(place - (width // 2 - 1), np.asarray(last) - (width - 1)), first))


def along(nodes: Array, values: tuple[Array, ...], at: Array) -> tuple[Array, ...]:
    """Each of `values` (n,), given at rising `nodes` (n,), at the places `at`; four points, fewer where there are fewer."""
    width = min(4, len(nodes))
    place = np.clip(np.searchsorted(nodes, at, side="right") - 1, 0, len(nodes) - 2)
    begin = stencil(place, 0, len(nodes) - 1, width)
    around = begin[:, None] + np.arange(width)
    w = weights(nodes[around], at)
    return tuple((w * value[around]).sum(axis=1) for value in values)
