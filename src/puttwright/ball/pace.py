"""The read: how hard and where to start a putt so that it goes over the hole and a bit past.

Every motion of :mod:`puttwright.ball.roll` scales: twice the speed draws the same
line four times as large (launch angle and spin per speed kept). So the aim alone
decides the shape; one search finds the aim whose line runs over the hole with
the wanted share of its length beyond, and the speed follows.
"""

from __future__ import annotations

import math
from dataclasses import dataclass
from typing import Final

import numpy as np

from puttwright.ball.green import GreenPlane
from puttwright.ball.hodograph import Glide
from puttwright.ball.limits import FloatArray, checked
from puttwright.ball.roll import Launch, Stages, rolled_to, to_true_roll, true_roll
from puttwright.ball.roots import falling_root
from puttwright.ball.skid import SLIDING_FRICTION, TURF_RESTITUTION, Ball
from puttwright.errors import NotAllowed
from puttwright.units import BALL_RADIUS_M

_STEEPEST_AIM_RAD: Final = 0.49 * math.pi
_AIMS: Final = 128
_ALMOST: Final = 1.0 - 1e-15


@dataclass(frozen=True, slots=True, kw_only=True)
class Stroke:
    """How the ball leaves the face, whatever its speed.

    ``spin_share`` is spin as a share of the spin of true roll at that speed,
    topspin positive.
    """

    launch_rad: float = 0.0
    spin_share: float = 0.0
    sliding_friction: float = SLIDING_FRICTION
    turf_restitution: float = TURF_RESTITUTION


@dataclass(frozen=True, slots=True, kw_only=True)
class Read:
    """A putt that would run over the hole's centre and stop some way beyond.

    ``aim_rad`` is the start line, right positive; ``aim_offset_m`` how far right
    of the hole that line passes it; ``hole_speed_mps`` and ``hole_direction_rad``
    are the ball's at the hole's centre.
    """

    ball_speed_mps: float
    aim_rad: float
    aim_offset_m: float
    hole_speed_mps: float
    hole_direction_rad: float


def _at_unit_speed(aims: FloatArray, stroke: Stroke, green: GreenPlane) -> Stages:
    return to_true_roll(
        launch=Launch(
            ball_speed_mps=1.0,
            launch_rad=stroke.launch_rad,
            start_rad=aims,
            spin_radps=stroke.spin_share / BALL_RADIUS_M,
        ),
        green=green,
        sliding_friction=stroke.sliding_friction,
        turf_restitution=stroke.turf_restitution,
    )


def _at_share(ball: Ball, green: GreenPlane, share: float) -> tuple[Glide, FloatArray]:
    """Where the path left is ``share`` of the way from the start, and that place."""
    end = true_roll(ball, green=green)

    def left(z: FloatArray) -> FloatArray:
        rolled = true_roll(ball, green=green, p=-np.log1p(-z))
        way = np.hypot(*rolled_to(ball, rolled=rolled, green=green))
        return np.asarray(end.path_m - rolled.path_m - share * way)

    if share == 0.0:
        return end, rolled_to(ball, rolled=end, green=green)
    nothing, all_of_it = np.zeros_like(end.path_m), np.full_like(end.path_m, _ALMOST)
    z = falling_root(left, low=nothing, high=all_of_it, digits=13)
    rolled = true_roll(ball, green=green, p=-np.log1p(-z))
    return rolled, rolled_to(ball, rolled=rolled, green=green)


def _bracket(aims: FloatArray, turned: FloatArray) -> tuple[float, float]:
    """The two neighbouring aims, nearest to straight, whose lines pass the hole on either side."""
    across = np.flatnonzero((turned[:-1] > 0.0) & (turned[1:] <= 0.0))
    if not len(across):
        raise NotAllowed(what="No start line brings the ball to the hole on this slope.")
    nearest = across[np.argmin(np.abs(aims[across] + aims[across + 1]))]
    return float(aims[nearest]), float(aims[nearest + 1])


def read(
    *,
    distance_m: float,
    past_m: float = 0.0,
    green: GreenPlane,
    stroke: Stroke | None = None,
) -> Read:
    """Launch speed and start line of a putt that ends ``past_m`` beyond the hole.

    Parameters
    ----------
    distance_m
        Ball to the hole's centre, 0.05 to 60 m.
    past_m
        Length of path left at the hole's centre, 0 (it dies there) to 30 m.
    green
        The plane, its direction seen along the line from ball to hole.
    stroke
        Launch, spin and friction; a level launch without spin if left out.

    Returns
    -------
    Read
        Of several lines the one aimed nearest the hole. Raises ``NotAllowed`` on a
        slope where balls never stop, and where the ball would still be skidding
        at the hole.

    Examples
    --------
    >>> green = GreenPlane.of_speed(speed_ft=10, slope=0.02, slope_towards_rad=math.pi / 2)
    >>> putt = read(distance_m=3.0, past_m=0.4, green=green)
    >>> round(putt.ball_speed_mps, 2), round(math.degrees(putt.aim_rad), 1)
    (2.53, -5.3)
    """
    checked(limit="distance_m", value=distance_m)
    checked(limit="past_m", value=past_m)
    if green.never_stops:
        raise NotAllowed(what="On this slope a ball that runs downhill never stops.")
    stroke = stroke or Stroke()
    share = past_m / distance_m

    def turned(aims: FloatArray) -> FloatArray:
        """How far left of the hole the place lies where the ball should pass it."""
        ball = _at_unit_speed(aims, stroke, green).rolling
        _, place = _at_share(ball, green, share)
        return np.asarray(-np.arctan2(place[1], place[0]))

    aims = np.linspace(-_STEEPEST_AIM_RAD, _STEEPEST_AIM_RAD, _AIMS)
    low, high = _bracket(aims, turned(aims))
    aim = falling_root(turned, low=np.array([low]), high=np.array([high]), digits=11)
    return _scaled(float(aim[0]), distance_m=distance_m, past_m=past_m, green=green, stroke=stroke)


def _scaled(
    aim: float, *, distance_m: float, past_m: float, green: GreenPlane, stroke: Stroke
) -> Read:
    """The read of a start line: its unit putt made as large as the distance asks."""
    ball = _at_unit_speed(np.array([aim]), stroke, green).rolling
    rolled, place = _at_share(ball, green, past_m / distance_m)
    whole = true_roll(ball, green=green).path_m
    if past_m > 0.0 and not rolled.path_m[0] < whole[0]:
        raise NotAllowed(what="The hole cannot be reached that way on this slope.")
    if rolled.path_m[0] <= 1e-12 * whole[0]:
        raise NotAllowed(what="At that pace the ball would still be skidding at the hole.")
    speed = math.sqrt(distance_m / float(np.hypot(*place)[0]))
    turn = float(np.arctan2(rolled.across_mps, rolled.along_mps)[0]) + green.slope_towards_rad
    return Read(
        ball_speed_mps=speed,
        aim_rad=aim,
        aim_offset_m=distance_m * math.sin(aim),
        hole_speed_mps=speed * float(rolled.speed_mps[0]),
        hole_direction_rad=math.remainder(turn, 2.0 * math.pi),
    )
