"""A putt on level ground through time, as a camera beside it sees it: along, up and turned.

The same physics as :mod:`puttwright.ball.skid` and :mod:`puttwright.ball.roll` in one plane, as a
row of pieces with constant acceleration, and with two things a film can tell: friction that
changes while the ball slides, and a radius of rolling that differs from the ball's own.
"""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np

from puttwright.ball.limits import FloatArray
from puttwright.ball.skid import LAST_HOP_MPS, TURF_RESTITUTION
from puttwright.units import GRAVITY_MPS2


@dataclass(frozen=True, slots=True, kw_only=True)
class SideStrike:
    """A ball as it leaves the face, and the turf it meets.

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

    along_mps: float
    rise_mps: float
    surface_mps: float
    frictions: Sequence[float]
    deceleration_mps2: float
    restitution: float = TURF_RESTITUTION
    radius_share: float = 1.0
    slide_resistance_mps2: float = 0.0


@dataclass(frozen=True, slots=True, kw_only=True)
class SideView:
    """Places from the face at the times asked for; ``turned_m`` is radius times angle.

    ``skid_m`` and ``skid_s`` are where and when the slip ends, ``roll_start_mps`` how fast the
    ball is then; ``hop_m`` is where it landed last, ``total_m`` where it stops.
    """

    along_m: FloatArray
    up_m: FloatArray
    turned_m: FloatArray
    speed_mps: FloatArray
    surface_mps: FloatArray
    hop_m: float
    skid_m: float
    skid_s: float
    roll_start_mps: float
    total_m: float


class _Pieces:
    """Stretches of constant acceleration, one after the other."""

    def __init__(self, strike: SideStrike) -> None:
        self.rows: list[tuple[float, ...]] = []
        self.t = self.x = self.turned = 0.0
        self.v, self.w = strike.along_mps, strike.surface_mps

    def move(self, seconds: float, *, pull: float = 0.0, twist: float = 0.0, rise: float = 0.0,
             falls: float = 0.0) -> None:  # fmt: skip
        """Go on for so long; ``pull`` and ``twist`` accelerate, ``rise`` and ``falls`` are up."""
        self.rows.append((self.t, self.x, self.v, pull, self.turned, self.w, twist, rise, falls))
        self.x += self.v * seconds + 0.5 * pull * seconds**2
        self.turned += self.w * seconds + 0.5 * twist * seconds**2
        self.v += pull * seconds
        self.w += twist * seconds
        self.t += seconds


def _hop(pieces: _Pieces, strike: SideStrike) -> None:
    """Fly and land until the ball stays down; a launch into the ground lands at once."""
    rise = strike.rise_mps
    if rise < 0.0:
        rise = _land(pieces, strike, landing_mps=-rise, rise_mps=-strike.restitution * rise)
    while rise > 0.0:
        pieces.move(2.0 * rise / GRAVITY_MPS2, rise=rise, falls=GRAVITY_MPS2)
        back = strike.restitution * rise if rise > LAST_HOP_MPS else 0.0
        rise = _land(pieces, strike, landing_mps=rise, rise_mps=back)


def _land(pieces: _Pieces, strike: SideStrike, *, landing_mps: float, rise_mps: float) -> float:
    """Friction takes the slip, wholly if it can; gives how fast the ball rises again."""
    ratio = strike.radius_share
    slip = pieces.v - ratio * pieces.w
    most = abs(slip) / (1.0 + 2.5 * ratio)
    push = math.copysign(min(strike.frictions[0] * (landing_mps + rise_mps), most), slip)
    pieces.v, pieces.w = pieces.v - push, pieces.w + 2.5 * push
    return rise_mps


def _slide(pieces: _Pieces, strike: SideStrike) -> None:
    ratio = strike.radius_share
    slip = pieces.v - ratio * pieces.w
    way = math.copysign(1.0, slip)
    step = abs(slip) / len(strike.frictions)
    # Resistance slows the ball and its turning alike: the slip hardly feels it.
    hold = strike.slide_resistance_mps2
    for friction in strike.frictions:
        drag = friction * GRAVITY_MPS2
        fall = max((1.0 + 2.5 * ratio) * drag + way * hold * (1.0 - ratio), 0.1 * drag)
        pieces.move(step / fall, pull=-way * drag - hold, twist=2.5 * way * drag - hold)


def side_view(strike: SideStrike, *, time_s: FloatArray) -> SideView:
    """Where the ball is, and how far it has turned, at times from the strike.

    Parameters
    ----------
    strike
        The ball and its turf.
    time_s
        Before 0 the ball rests.

    Returns
    -------
    SideView
        Arrays of the shape of ``time_s``.

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
    pieces = _Pieces(strike)
    _hop(pieces, strike)
    hop_m = pieces.x
    _slide(pieces, strike)
    skid_m, skid_s = pieces.x, pieces.t
    brake, ratio = strike.deceleration_mps2, strike.radius_share
    pieces.w = pieces.v / ratio
    roll_start_mps = max(pieces.v, 0.0)
    rolls_s = roll_start_mps / brake
    pieces.move(rolls_s, pull=-brake, twist=-brake / ratio)
    pieces.v = pieces.w = 0.0
    pieces.move(0.0)
    rows = np.array(pieces.rows)
    at = np.asarray(time_s, dtype=np.float64)
    which = np.maximum(np.searchsorted(rows[:, 0], at, side="right") - 1, 0)
    start, x, v, pull, turned, w, twist, rise, falls = rows[which].T
    since = np.maximum(at - start, 0.0)
    moves = (at >= 0.0).astype(np.float64)
    return SideView(
        along_m=x + v * since + 0.5 * pull * since**2,
        up_m=rise * since - 0.5 * falls * since**2,
        turned_m=turned + w * since + 0.5 * twist * since**2,
        speed_mps=moves * (v + pull * since), surface_mps=moves * (w + twist * since),
        hop_m=hop_m, skid_m=skid_m, skid_s=skid_s, roll_start_mps=roll_start_mps,
        total_m=pieces.x,
    )  # fmt: skip
