"""The fitting green under the readings: how far a sensed putt would roll, and what broke it."""

from __future__ import annotations

import math
from collections.abc import Sequence
from functools import lru_cache

import numpy as np
from numpy.typing import NDArray

from puttwright.ball.green import GreenPlane
from puttwright.ball.pace import read
from puttwright.ball.roll import Launch, roll
from puttwright.evidence import FittingGreen, Putt
from puttwright.worth.pattern import PLANNED_PAST_M

Floats = NDArray[np.float64]

_REFINEMENTS = 8
_FASTEST_MPS = 11.0


def plane_of(green: FittingGreen) -> GreenPlane:
    """The fitting green as a plane."""
    return GreenPlane.of_speed(
        speed_ft=green.speed_ft,
        slope=(green.slope_pct or 0.0) / 100.0,
        slope_towards_rad=math.radians(green.slope_towards_deg or 0.0),
    )


def sensed_rolls_m(putts: Sequence[Putt], *, plane: GreenPlane) -> Floats:
    """How far from the ball each putt would stop, were there no hole [m].

    Parameters
    ----------
    putts
        Each with a ball speed; no launch or spin measured means level and without spin.
    plane
        The fitting green.
    """
    launch = Launch(
        ball_speed_mps=np.array([putt.ball_speed_mps for putt in putts], dtype=float),
        launch_rad=np.radians([putt.launch_deg or 0.0 for putt in putts]),
        spin_radps=np.array([putt.spin_rpm or 0.0 for putt in putts]) * (2.0 * math.pi / 60.0),
    )
    rolled = roll(launch=launch, green=plane)
    return np.hypot(rolled.stop_x_m, rolled.stop_y_m)


@lru_cache(maxsize=4096)
def stops_towards_rad(*, length_m: float, start_rad: float, plane: GreenPlane) -> float:
    """Where a putt started on a line stops, seen from the ball, that rolls ``length_m`` [rad].

    The speed is found by rescaling: lengths go nearly as its square. On level
    ground, and where the ball would never stop, the line is where it stops.
    """
    if plane.slope == 0.0:
        return start_rad
    speed = math.sqrt(2.6 * plane.deceleration_mps2 * length_m)
    for _ in range(_REFINEMENTS):
        rolled = roll(launch=Launch(ball_speed_mps=speed, start_rad=start_rad), green=plane)
        reached = math.hypot(float(rolled.stop_x_m), float(rolled.stop_y_m))
        if not math.isfinite(reached):
            return start_rad
        speed = min(speed * math.sqrt(length_m / max(reached, 1e-6)), _FASTEST_MPS)
    return math.atan2(float(rolled.stop_y_m), float(rolled.stop_x_m))


@lru_cache(maxsize=256)
def needed_line_rad(*, distance_m: float, plane: GreenPlane) -> float:
    """Start line that a putt meant to end a little past the hole needs [rad], right positive."""
    if plane.slope == 0.0 or plane.never_stops:
        return 0.0
    return read(distance_m=distance_m, past_m=PLANNED_PAST_M, green=plane).aim_rad
