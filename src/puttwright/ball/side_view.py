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


class _Pieces:
    """Stretches of constant acceleration, one after the other; of one putt or of many at once."""

    def __init__(self, strike: SideStrike) -> None:
        given = (
            strike.along_mps, strike.rise_mps, strike.surface_mps, strike.deceleration_mps2,
            strike.radius_share, strike.slide_resistance_mps2, *strike.frictions,
        )  # fmt: skip
        self.shape = np.broadcast_shapes(*(np.shape(each) for each in given))
        self.rows: list[tuple[Numbers, ...]] = []
        self.t: Numbers = np.zeros(self.shape)
        self.x: Numbers = np.zeros(self.shape)
        self.turned: Numbers = np.zeros(self.shape)
        self.v: Numbers = strike.along_mps
        self.w: Numbers = strike.surface_mps

    def move(self, seconds: Numbers, *, pull: Numbers = 0.0, twist: Numbers = 0.0,
             rise: Numbers = 0.0, falls: Numbers = 0.0) -> None:  # fmt: skip
        """Go on for so long; ``pull`` and ``twist`` accelerate, ``rise`` and ``falls`` are up."""
        self.rows.append((self.t, self.x, self.v, pull, self.turned, self.w, twist, rise, falls))
        self.x = self.x + self.v * seconds + 0.5 * pull * seconds**2
        self.turned = self.turned + self.w * seconds + 0.5 * twist * seconds**2
        self.v = self.v + pull * seconds
        self.w = self.w + twist * seconds
        self.t = self.t + seconds

    def at(self, time_s: FloatArray) -> tuple[FloatArray, ...]:
        """The piece that each time is in: its row, (..., times)."""
        table = np.empty((9, *self.shape, len(self.rows)))
        for place, row in enumerate(self.rows):
            for part, value in enumerate(row):
                table[part, ..., place] = value
        begun = time_s[..., None] >= table[0][..., None, :]
        which = np.maximum(begun.sum(axis=-1) - 1, 0)
        return tuple(np.take_along_axis(part, which, axis=-1) for part in table)


def _hop(pieces: _Pieces, strike: SideStrike) -> None:
    """Fly and land until the ball stays down; a launch into the ground lands at once."""
    down = np.maximum(-np.asarray(strike.rise_mps), 0.0)
    _land(pieces, strike, landing_mps=down, rise_mps=strike.restitution * down)
    rise = np.where(down > 0.0, strike.restitution * down, strike.rise_mps)
    while np.any(rise > 0.0):
        pieces.move(2.0 * rise / GRAVITY_MPS2, rise=rise, falls=GRAVITY_MPS2)
        back = np.where(rise > LAST_HOP_MPS, strike.restitution * rise, 0.0)
        _land(pieces, strike, landing_mps=rise, rise_mps=back)
        rise = back


def _land(
    pieces: _Pieces, strike: SideStrike, *, landing_mps: FloatArray, rise_mps: FloatArray
) -> None:
    """Friction takes the slip, wholly if it can."""
    ratio = strike.radius_share
    slip = pieces.v - ratio * pieces.w
    most = np.abs(slip) / (1.0 + 2.5 * ratio)
    push = np.copysign(np.minimum(strike.frictions[0] * (landing_mps + rise_mps), most), slip)
    pieces.v, pieces.w = pieces.v - push, pieces.w + 2.5 * push


def _slide(pieces: _Pieces, strike: SideStrike) -> None:
    ratio = strike.radius_share
    slip = pieces.v - ratio * pieces.w
    way = np.copysign(1.0, slip)
    step = np.abs(slip) / len(strike.frictions)
    # Resistance slows the ball and its turning alike: the slip hardly feels it.
    hold = strike.slide_resistance_mps2
    for friction in strike.frictions:
        drag = friction * GRAVITY_MPS2
        fall = np.maximum((1.0 + 2.5 * ratio) * drag + way * hold * (1.0 - ratio), 0.1 * drag)
        pieces.move(step / fall, pull=-way * drag - hold, twist=2.5 * way * drag - hold)


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
    pieces = _Pieces(strike)
    _hop(pieces, strike)
    hop_m = pieces.x
    _slide(pieces, strike)
    skid_m, skid_s = pieces.x, pieces.t
    brake, ratio = strike.deceleration_mps2, strike.radius_share
    pieces.w = pieces.v / ratio
    roll_start_mps = np.maximum(pieces.v, 0.0)
    pieces.move(roll_start_mps / brake, pull=-brake, twist=-brake / ratio)
    pieces.v = pieces.w = 0.0
    pieces.move(0.0)
    at = np.asarray(time_s, dtype=np.float64)
    start, x, v, pull, turned, w, twist, rise, falls = pieces.at(at)
    since = np.maximum(at - start, 0.0)
    moves = (at >= 0.0).astype(np.float64)
    return SideView(
        along_m=x + v * since + 0.5 * pull * since**2,
        up_m=rise * since - 0.5 * falls * since**2,
        turned_m=turned + w * since + 0.5 * twist * since**2,
        speed_mps=moves * (v + pull * since), surface_mps=moves * (w + twist * since),
        hop_m=_plain(hop_m), skid_m=_plain(skid_m), skid_s=_plain(skid_s),
        roll_start_mps=_plain(roll_start_mps), total_m=_plain(pieces.x),
    )  # fmt: skip


def _plain(value: Numbers) -> Any:
    """A number of one putt, an array of many."""
    return float(value) if np.ndim(value) == 0 else value
