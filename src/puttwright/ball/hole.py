"""The hole: which balls drop.

A ball that crosses the rim slowly enough drops. How fast it may be depends on
how far its line misses the centre, and a little on the slope. The answer comes
from a table made by a rigid-body simulation (:mod:`puttwright.ball.rim`) and
needs no compiler to read.
"""

from __future__ import annotations

import itertools
import json
import math
from functools import cache
from importlib import resources
from typing import Any, Final, NamedTuple

import numpy as np
import numpy.typing as npt

from puttwright.ball.limits import FloatArray, checked
from puttwright.units import BALL_RADIUS_M, GRAVITY_MPS2, HOLE_RADIUS_M

PENNER_CENTRED_MPS: Final = 1.63
"""Fastest centred ball that drops (Holmes 1991; Penner 2002, eq. 23)."""


class CaptureTable(NamedTuple):
    """Highest captured speed over slope, direction of downhill and offset."""

    speed_mps: FloatArray
    slope: FloatArray
    slope_towards_rad: FloatArray
    offset_m: FloatArray
    provenance: dict[str, Any]


@cache
def capture_table() -> CaptureTable:
    """The shipped table with the inputs and hashes it was made from."""
    place = resources.files("puttwright.ball") / "data" / "capture.npz"
    with place.open("rb") as file, np.load(file) as arrays:
        return CaptureTable(
            speed_mps=arrays["speed_mps"].astype(np.float64),
            slope=arrays["slope"],
            slope_towards_rad=arrays["slope_towards_rad"],
            offset_m=arrays["offset_m"],
            provenance=json.loads(str(arrays["provenance"])),
        )


def _folded(towards_rad: FloatArray) -> tuple[FloatArray, FloatArray]:
    """Direction of downhill folded to 0..pi, and the side (+1 or -1) that folding took."""
    wrapped = np.remainder(towards_rad + math.pi, 2.0 * math.pi) - math.pi
    return np.abs(wrapped), np.where(wrapped < 0.0, -1.0, 1.0)


def _between(grid: FloatArray, value: FloatArray) -> tuple[npt.NDArray[np.intp], FloatArray]:
    """Lower index and weight of the upper neighbour on an ascending grid."""
    index = np.clip(np.searchsorted(grid, value, side="right") - 1, 0, len(grid) - 2)
    weight = (value - grid[index]) / (grid[index + 1] - grid[index])
    return index, np.clip(weight, 0.0, 1.0)


def capture_rows(slope: npt.ArrayLike, towards_rad: npt.ArrayLike) -> FloatArray:
    """Captured speed at every offset node, right side of the ball last: shape (..., nodes)."""
    table = capture_table()
    grade, towards = np.broadcast_arrays(
        checked(limit="slope", value=slope), np.asarray(towards_rad, dtype=np.float64)
    )
    folded, side = _folded(towards)
    i, wi = _between(table.slope, grade)
    j, wj = _between(table.slope_towards_rad, folded)
    wi, wj = wi[..., None], wj[..., None]
    row = (1 - wi) * ((1 - wj) * table.speed_mps[i, j] + wj * table.speed_mps[i, j + 1])
    row = row + wi * ((1 - wj) * table.speed_mps[i + 1, j] + wj * table.speed_mps[i + 1, j + 1])
    return np.asarray(np.where(side[..., None] < 0.0, row[..., ::-1], row))


def capture_speed_mps(
    *,
    offset_m: npt.ArrayLike,
    slope: npt.ArrayLike = 0.0,
    slope_towards_rad: npt.ArrayLike = 0.0,
) -> FloatArray:
    """Highest speed at the rim at which a ball drops.

    Parameters
    ----------
    offset_m
        By how much the ball's line misses the hole's centre, right positive;
        0 where it misses the hole altogether.
    slope, slope_towards_rad
        Grade 0 to 0.25, and where downhill points from the ball's direction at
        the hole, right positive: 0 it runs downhill, pi uphill.

    Returns
    -------
    ndarray
        Broadcast of the arguments. 1.63 m/s for a centred ball on level ground.
        Within 5 mm of the hole's edge a ball may also fall back on a slope;
        that is left to the roll before it.

    Examples
    --------
    >>> capture_speed_mps(offset_m=[0.0, 0.03]).round(2)
    array([1.63, 1.15])
    """
    offset = np.asarray(offset_m, dtype=np.float64)
    if np.ndim(slope) == 0 and np.ndim(slope_towards_rad) == 0:
        row = capture_rows(slope, slope_towards_rad)
        return np.asarray(np.interp(offset, capture_table().offset_m, row, left=0.0, right=0.0))
    return _pointwise(offset, slope, slope_towards_rad)


def _pointwise(offset: FloatArray, slope: npt.ArrayLike, towards_rad: npt.ArrayLike) -> FloatArray:
    """Captured speed where every ball has its own slope: eight neighbours each."""
    table = capture_table()
    folded, side = _folded(np.asarray(towards_rad, dtype=np.float64))
    at = (
        _between(table.slope, checked(limit="slope", value=slope)),
        _between(table.slope_towards_rad, folded),
        _between(table.offset_m, offset * side),
    )
    total = np.zeros(np.broadcast_shapes(*(weight.shape for _, weight in at)))
    for corner in itertools.product((0, 1), repeat=3):
        index = tuple(low + up for (low, _), up in zip(at, corner, strict=True))
        share = [w if up else 1.0 - w for (_, w), up in zip(at, corner, strict=True)]
        total = total + share[0] * share[1] * share[2] * table.speed_mps[index]
    return np.where(np.abs(offset) <= HOLE_RADIUS_M, total, 0.0)


def fastest_capture_mps(*, slope: float = 0.0, slope_towards_rad: float = 0.0) -> float:
    """The fastest ball of all that drops, on whatever line.

    Parameters
    ----------
    slope, slope_towards_rad
        As in :func:`capture_speed_mps`.

    Returns
    -------
    float
        Speed at the rim, m/s.

    Examples
    --------
    >>> round(fastest_capture_mps(), 2)
    1.63
    """
    return _fastest_mps(slope, slope_towards_rad)


@cache
def _fastest_mps(slope: float, towards_rad: float) -> float:
    return float(capture_rows(slope, towards_rad).max())


@cache
def _width_curve(slope: float, towards_rad: float) -> tuple[FloatArray, FloatArray]:
    """Ascending speeds and the half-width of the hole that still takes them."""
    nodes, row = capture_table().offset_m, capture_rows(slope, towards_rad)
    top = int(np.argmax(row))
    left = np.maximum.accumulate(row[: top + 1])
    right = np.maximum.accumulate(row[top:][::-1])
    speeds = np.linspace(0.0, row[top], 801)
    edge_left = np.interp(speeds, left, nodes[: top + 1])
    edge_right = np.interp(speeds, right, nodes[top:][::-1])
    return speeds, 0.5 * np.maximum(edge_right - edge_left, 0.0)


def effective_half_width_m(
    *, speed_mps: npt.ArrayLike, slope: float = 0.0, slope_towards_rad: float = 0.0
) -> FloatArray:
    """Half the width of the hole as a ball of this speed sees it.

    Parameters
    ----------
    speed_mps
        Speed as the ball crosses the rim, 0 to 12 m/s.
    slope, slope_towards_rad
        One slope for all, as in :func:`capture_speed_mps`; on a slope the window
        shifts a little to the high side, and this is half of it.

    Returns
    -------
    ndarray
        Falls from the hole's radius (54 mm) at rest to 0 at the highest speed.

    Examples
    --------
    >>> (1000 * effective_half_width_m(speed_mps=[0.3, 1.0, 1.7])).round(0)
    array([51., 35.,  0.])
    """
    speed = checked(limit="speed_mps", value=speed_mps)
    speeds, widths = _width_curve(float(slope), float(slope_towards_rad))
    return np.asarray(np.interp(speed, speeds, widths, right=0.0))


def slope_factor_penner2002(
    *, slope: npt.ArrayLike, slope_towards_rad: npt.ArrayLike = 0.0
) -> FloatArray:
    """How much faster a ball may be on a slope, (1 + cos(b) sin(phi))^(-1/2).

    Penner 2002, eq. 30, whose b is 0 for an uphill putt; ours is 0 downhill.

    Examples
    --------
    >>> round(float(slope_factor_penner2002(slope=0.0875, slope_towards_rad=math.pi)), 3)
    1.047
    """
    grade = checked(limit="slope", value=slope)
    sine = grade / np.hypot(1.0, grade)
    return np.asarray(1.0 / np.sqrt(1.0 + np.cos(np.asarray(slope_towards_rad)) * sine))


def capture_speed_penner2002(
    *,
    offset_m: npt.ArrayLike,
    slope: npt.ArrayLike = 0.0,
    slope_towards_rad: npt.ArrayLike = 0.0,
) -> FloatArray:
    """Capture speed by the published law, 1.63 [1 - (offset/R)²] m/s.

    Penner 2002, eq. 23 and 30 (second-hand), for comparison; arguments as in
    :func:`capture_speed_mps`.

    Examples
    --------
    >>> capture_speed_penner2002(offset_m=[0.0, 0.02]).round(3)
    array([1.63 , 1.406])
    """
    share = np.asarray(offset_m, dtype=np.float64) / HOLE_RADIUS_M
    level = PENNER_CENTRED_MPS * np.maximum(1.0 - share * share, 0.0)
    return np.asarray(
        level * slope_factor_penner2002(slope=slope, slope_towards_rad=slope_towards_rad)
    )


def clean_fall_speed_mps() -> float:
    """Fastest centred ball that falls by its radius before the far wall.

    (2R - r) sqrt(g/2r) (Penner 2002): without any help of the far rim.

    Examples
    --------
    >>> round(clean_fall_speed_mps(), 3)
    1.313
    """
    return (2.0 * HOLE_RADIUS_M - BALL_RADIUS_M) * math.sqrt(GRAVITY_MPS2 / (2.0 * BALL_RADIUS_M))
