"""How far a putt of a measured speed would roll on the fitting green, were there no hole."""

from __future__ import annotations

import math

from puttwright.units import BALL_RADIUS_M, GRAVITY_MPS2
from puttwright.worth.rounds import deceleration_of

SLIDING_FRICTION = 0.4
"""Of a ball skidding on turf: the usual choice, not a universal value (Penner; second hand)."""


def roll_from_speed_m(
    *, ball_speed_mps: float, launch_deg: float | None, spin_rpm: float | None, green_ft: float
) -> float:
    """Length from impact to stop on a level green [m]: skid, then true roll.

    Parameters
    ----------
    ball_speed_mps
        Off the face.
    launch_deg, spin_rpm
        As measured; none means level and without spin.
    green_ft
        Speed of the fitting green.
    """
    v = ball_speed_mps * math.cos(math.radians(launch_deg or 0.0))
    surface = (spin_rpm or 0.0) * 2.0 * math.pi / 60.0 * BALL_RADIUS_M
    rolling = (5.0 * v + 2.0 * surface) / 7.0
    braking = SLIDING_FRICTION * GRAVITY_MPS2
    skid = abs(v * v - rolling * rolling) / (2.0 * braking)
    return skid + rolling * rolling / (2.0 * deceleration_of(speed_ft=green_ft))
