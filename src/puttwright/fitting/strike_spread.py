"""What a golfer's strike pattern does to the spread of line and pace with heads of other inertia.

A strike off the sweet spot twists a head the more the less inertia it has, and
costs line and length by the mechanics of :mod:`puttwright.ball.strike`. So two
heads are expected to differ in spread before anyone putts, by as much as this
golfer's strikes scatter; the readings of line and pace then speak for themselves.
"""

from __future__ import annotations

import math
from collections.abc import Sequence
from functools import lru_cache
from typing import Final

import numpy as np
from numpy.typing import NDArray

from puttwright.ball.head import Head
from puttwright.ball.strike import StrikeScatter, strike_scatter
from puttwright.evidence import Build
from puttwright.fitting.priors import BY_NAME

Floats = NDArray[np.float64]

_TOUCHED: Final = ("start", "pace")
_PRIOR_READINGS: Final = 6.0
"""The usual strike spread counts as so many readings; a judgement."""
_MOST_SD_MM: Final = 25.0
_LEAST_SHARE: Final = 0.3
"""The stroke keeps at least this share of the usual spread when the strike's part is taken out."""


def head_of(build: Build) -> Head | None:
    """The head as impact sees it; none where mass, inertia or depth was not measured."""
    if None in (build.head_mass_g, build.moi_vertical_axis_g_cm2, build.cg_depth_mm):
        return None
    return Head(
        mass_kg=(build.head_mass_g or 0.0) / 1000.0,
        moi_vertical_kg_m2=(build.moi_vertical_axis_g_cm2 or 0.0) * 1e-7,
        cg_depth_m=(build.cg_depth_mm or 0.0) / 1000.0,
    )


def strike_sd_mm_of(toe_mm: Floats, build: NDArray[np.int64]) -> float:
    """Spread of the strikes along the face, each build about its own middle [mm].

    Parameters
    ----------
    toe_mm
        Strikes, toe positive, shape (n,).
    build
        Which build each was struck with, shape (n,).

    Returns
    -------
    float
        Pooled with the usual spread, which is all there is without readings.

    Examples
    --------
    >>> strike_sd_mm_of(np.array([]), np.array([], dtype=np.int64))
    5.0
    """
    usual = BY_NAME["strike"].spread
    squares, freedom = _PRIOR_READINGS * usual**2, _PRIOR_READINGS
    for number in np.unique(build):
        mine = toe_mm[build == number]
        squares += float(((mine - mine.mean()) ** 2).sum())
        freedom += mine.size - 1
    return min(math.sqrt(squares / freedom), _MOST_SD_MM)


def log_spread_offset(name: str, *, builds: Sequence[Build], strike_sd_mm: float) -> Floats:
    """Expected log spread of each build against the builds' middle, shape (B,).

    Parameters
    ----------
    name
        The quantity; only start line and pace have any of it.
    builds
        The builds; one whose head was not measured is taken to be in the middle.
    strike_sd_mm
        Spread of the golfer's strikes along the face.
    """
    offsets = np.zeros(len(builds))
    if name not in _TOUCHED:
        return offsets
    heads = [head_of(build) for build in builds]
    parts = {b: _part(name, head, strike_sd_mm) for b, head in enumerate(heads) if head is not None}
    if len(parts) < 2:
        return offsets
    usual = BY_NAME[name].spread
    middle = float(np.mean(list(parts.values())))
    stroke = max(usual**2 - middle, (_LEAST_SHARE * usual) ** 2)
    for b, part in parts.items():
        offsets[b] = 0.5 * math.log((stroke + part) / (stroke + middle))
    return offsets


@lru_cache(maxsize=256)
def _scatter(head: Head, strike_sd_mm: float) -> StrikeScatter:
    return strike_scatter(head=head, toe_sd_m=strike_sd_mm / 1000.0)


def _part(name: str, head: Head, strike_sd_mm: float) -> float:
    """Variance that the strikes add with this head, in the quantity's unit squared."""
    scatter = _scatter(head, strike_sd_mm)
    return (math.degrees(scatter.line_sd_rad) if name == "start" else scatter.pace_sd_share) ** 2
