"""A putt on level ground through time, as a camera beside it sees it: along, up and turned.

The same physics as :mod:`puttwright.ball.skid` and :mod:`puttwright.ball.roll` in one plane, as a
row of pieces with constant acceleration, and with two things a film can tell: friction that
changes while the ball slides, and a radius of rolling that differs from the ball's own.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from typing import Any

import numpy as np

from puttwright.ball.limits import FloatArray
from puttwright.ball.roll_kernel import views
from puttwright.ball.skid import LAST_HOP_MPS, TURF_RESTITUTION
from puttwright.units import GRAVITY_MPS2

Numbers = float | FloatArray
"""Of one putt, or of many."""


@dataclass(frozen=True, slots=True, kw_only=True)
class SideStrike:
    """A ball as it leaves the face, and the turf it meets; or many, each number an array.

    Parameters
    ----------
    along_mps, rise_mps
        Velocity along the green and up.
    surface_mps
        Radius times spin, topspin positive.
    frictions
        Sliding friction while the slip falls by equal steps to nothing, one or more.
    deceleration_mps2
        Of the true roll.
    restitution
        How much a hop is thrown back.
    radius_share
        Radius of rolling over the ball's own; in true roll the surface is slower by it.
    slide_resistance_mps2
        How much the turf's resistance to rolling slows the sliding ball too; 0 in
        :mod:`puttwright.ball.skid`.
    """

    along_mps: Numbers
    rise_mps: Numbers
    surface_mps: Numbers
    frictions: Sequence[Numbers]
    deceleration_mps2: Numbers
    restitution: float = TURF_RESTITUTION
    radius_share: Numbers = 1.0
    slide_resistance_mps2: Numbers = 0.0


@dataclass(frozen=True, slots=True, kw_only=True)
class SideView:
    """Places from the face at the times asked for; ``turned_m`` is radius times angle.

    ``skid_m`` and ``skid_s`` are where and when the slip ends, ``roll_start_mps`` how fast the
    ball is then; ``hop_m`` is where it landed last, ``total_m`` where it stops. These are numbers
    of one putt, arrays of many.
    """

    along_m: FloatArray
    up_m: FloatArray
    turned_m: FloatArray
    speed_mps: FloatArray
    surface_mps: FloatArray
    hop_m: Any
    skid_m: Any
    skid_s: Any
    roll_start_mps: Any
    total_m: Any


def _numbers(strike: SideStrike) -> FloatArray:
    """The strike as :mod:`puttwright.ball.roll_kernel` takes it, (..., numbers)."""
    given = (
        strike.along_mps, strike.rise_mps, strike.surface_mps, strike.deceleration_mps2,
        strike.radius_share, strike.slide_resistance_mps2, strike.restitution, GRAVITY_MPS2,
        LAST_HOP_MPS, *strike.frictions,
    )  # fmt: skip
    return np.stack(np.broadcast_arrays(*given), axis=-1).astype(np.float64)


def side_view(strike: SideStrike, *, time_s: FloatArray) -> SideView:
    """Where the ball is, and how far it has turned, at times from the strike.

    Parameters
    ----------
    strike
        The ball and its turf.
    time_s
        Before 0 the ball rests; (times,), or (putts, times) for many.

    Returns
    -------
    SideView
        Arrays of the shape of ``time_s``; what a putt has once is a number, or an array for many.

    Examples
    --------
    >>> strike = SideStrike(
    ...     along_mps=2.0,
    ...     rise_mps=0.0,
    ...     surface_mps=0.0,
    ...     frictions=(0.4,),
    ...     deceleration_mps2=0.5486,
    ... )
    >>> seen = side_view(strike, time_s=np.array([0.0, 0.1]))
    >>> round(seen.skid_m, 3), round(seen.total_m, 2)
    (0.25, 2.11)
    """
    numbers = _numbers(strike)
    one = numbers.ndim == 1
    numbers = np.atleast_2d(numbers)
    at = np.atleast_2d(np.asarray(time_s, dtype=np.float64))
    seen, ends = views(
        numbers, np.ascontiguousarray(np.broadcast_to(at, (len(numbers), at.shape[1])))
    )
    along_m, up_m, turned_m, speed_mps, surface_mps = seen[:, 0] if one else seen
    hop_m, skid_m, skid_s, roll_start_mps, total_m = ends[0].tolist() if one else ends.T
    return SideView(
        along_m=along_m, up_m=up_m, turned_m=turned_m, speed_mps=speed_mps,
        surface_mps=surface_mps, hop_m=hop_m, skid_m=skid_m, skid_s=skid_s,
        roll_start_mps=roll_start_mps, total_m=total_m,
    )  # fmt: skip
