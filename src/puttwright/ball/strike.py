"""What a strike off the sweet spot costs: length and line, for a head of given inertia."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np
import numpy.typing as npt

from puttwright.ball.head import Head
from puttwright.ball.impact import RESTITUTION, Delivery, strike
from puttwright.ball.limits import FloatArray

_NODES = 15
"""Points of the quadrature over a strike spread; 15 is exact to a thousandth of the answer."""


@dataclass(frozen=True, slots=True, kw_only=True)
class OffCentre:
    """Cost of each strike against the sweet spot.

    ``pace_share`` is the share of the rolled length that is left, ``short_m`` what
    that takes off a putt of the length asked for, ``line_rad`` how far the start
    line moves, right positive, ``wide_m`` how far that is at the hole.
    """

    pace_share: FloatArray
    short_m: FloatArray
    line_rad: FloatArray
    wide_m: FloatArray


def off_centre(
    *,
    head: Head,
    strike_toe_m: npt.ArrayLike,
    strike_high_m: npt.ArrayLike = 0.0,
    distance_m: float = 5.0,
    loft_rad: float = 0.052,
    head_speed_mps: float = 1.5,
    restitution: float = RESTITUTION,
    handed: str = "right",
) -> OffCentre:
    """Length and line lost to a strike off the sweet spot.

    Parameters
    ----------
    head
        Mass, inertia and depth of the centre of gravity.
    strike_toe_m, strike_high_m
        Point of strike from the sweet spot, -0.08 to 0.08 m.
    distance_m
        Length of the putt that the sweet spot would give.
    loft_rad, head_speed_mps, restitution, handed
        The stroke; speed does not matter to the shares.

    Returns
    -------
    OffCentre
        Rolled length goes as the square of the ball's speed.

    Examples
    --------
    >>> cost = off_centre(head=Head(moi_vertical_kg_m2=5e-4), strike_toe_m=[0.0, 0.03])
    >>> cost.pace_share.round(2), cost.short_m.round(2)
    (array([1.  , 0.87]), array([0.  , 0.65]))
    """

    def struck(toe_m: npt.ArrayLike, high_m: npt.ArrayLike) -> tuple[FloatArray, FloatArray]:
        delivery = Delivery(
            head_speed_mps=head_speed_mps,
            loft_rad=loft_rad,
            strike_toe_m=toe_m,
            strike_high_m=high_m,
            handed=handed,
        )
        hit = strike(delivery=delivery, head=head, restitution=restitution)
        return hit.ball_speed_mps, hit.start_rad

    best, _ = struck(0.0, 0.0)
    speed, start = struck(strike_toe_m, strike_high_m)
    share = np.asarray((speed / best) ** 2)
    return OffCentre(
        pace_share=share,
        short_m=(1.0 - share) * distance_m,
        line_rad=start,
        wide_m=np.asarray(distance_m * np.sin(start)),
    )


@dataclass(frozen=True, slots=True, kw_only=True)
class StrikeScatter:
    """What a golfer's strike pattern does to pace and line, as means and spreads.

    Paces are shares of the length, so 0.03 is 3 %; lines are radians, right positive.
    """

    pace_mean_share: float
    pace_sd_share: float
    line_mean_rad: float
    line_sd_rad: float


def strike_scatter(
    *,
    head: Head,
    toe_mean_m: float = 0.0,
    toe_sd_m: float,
    high_mean_m: float = 0.0,
    high_sd_m: float = 0.0,
    restitution: float = RESTITUTION,
    handed: str = "right",
) -> StrikeScatter:
    """Pace and line errors that a normal strike pattern causes with this head.

    "Forgiveness" is what these cost this golfer in putts a round: worth/ turns them into that.

    Parameters
    ----------
    head
        The head.
    toe_mean_m, toe_sd_m, high_mean_m, high_sd_m
        Where the golfer strikes it, and how that spreads.
    restitution, handed
        As in :func:`off_centre`.

    Returns
    -------
    StrikeScatter
        By Gauss-Hermite quadrature of the impact model.

    Examples
    --------
    >>> blade = strike_scatter(
    ...     head=Head(moi_vertical_kg_m2=3.5e-4, cg_depth_m=0.012), toe_sd_m=0.01
    ... )
    >>> big = strike_scatter(head=Head(moi_vertical_kg_m2=1e-3, cg_depth_m=0.03), toe_sd_m=0.01)
    >>> blade.pace_sd_share > big.pace_sd_share
    True
    """
    nodes, weights = np.polynomial.hermite_e.hermegauss(_NODES)
    share = np.outer(weights, weights) / weights.sum() ** 2
    toe = np.clip(toe_mean_m + toe_sd_m * nodes, -0.08, 0.08)
    high = np.clip(high_mean_m + high_sd_m * nodes, -0.08, 0.08)
    cost = off_centre(
        head=head,
        strike_toe_m=toe[:, None],
        strike_high_m=high[None, :],
        restitution=restitution,
        handed=handed,
    )
    pace, line = float(np.sum(share * cost.pace_share)), float(np.sum(share * cost.line_rad))
    return StrikeScatter(
        pace_mean_share=pace,
        pace_sd_share=float(np.sqrt(np.sum(share * (cost.pace_share - pace) ** 2))),
        line_mean_rad=line,
        line_sd_rad=float(np.sqrt(np.sum(share * (cost.line_rad - line) ** 2))),
    )
