"""Value and slope of a series: parabolas through neighbouring pictures, those far off left out."""

from __future__ import annotations

import numpy as np
from numpy.typing import NDArray

Floats = NDArray[np.float64]

_ROUNDS = 3


def local_parabola(
    time_s: Floats, value: Floats, *, half: int = 7, floor: float = 1e-4
) -> tuple[Floats, Floats, Floats]:
    """Value, slope and what each picture is off, from a window of ``2 half + 1`` pictures.

    Parameters
    ----------
    time_s, value
        The series, (n,).
    half
        Pictures either side; at the ends the window stays whole and is looked at off its middle.
    floor
        The least spread that is believed, in the units of ``value``.

    Returns
    -------
    value, slope, off
        Each (n,).

    Examples
    --------
    >>> t = np.arange(30.0)
    >>> _, slope, _ = local_parabola(t, t**2)
    >>> bool(np.allclose(slope, 2 * t, atol=1e-4))
    True
    """
    count = len(time_s)
    size = min(2 * half + 1, count)
    begin = np.clip(np.arange(count) - half, 0, count - size)
    window = begin[:, None] + np.arange(size)[None, :]
    since = time_s[window] - time_s[:, None]
    scale = max(float(np.abs(since).max()), 1e-12)
    design = np.stack([np.ones_like(since), since / scale, (since / scale) ** 2], axis=-1)
    seen = value[window]
    weight = np.ones_like(since)
    found = np.zeros((count, 3))
    for turn in range(_ROUNDS):
        normal = np.einsum("nki,nk,nkj->nij", design, weight, design) + 1e-9 * np.eye(3)
        right = np.einsum("nki,nk->ni", design, weight * seen)
        found = np.linalg.solve(normal, right[..., None])[..., 0]
        left = seen - np.einsum("nki,ni->nk", design, found)
        if turn < _ROUNDS - 1:
            spread = np.maximum(1.4826 * np.median(np.abs(left), axis=1), floor)
            weight = np.clip(1.0 - (left / (5.0 * spread[:, None])) ** 2, 0.01, None)
    return found[:, 0], found[:, 1] / scale, value - found[:, 0]
