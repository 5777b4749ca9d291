"""Hang: how a putter comes to rest when its shaft lies level and may turn freely.

Gravity turns it until the centre of gravity lies straight below the shaft axis. The
angle is read at the face's edge, heel to toe: 0 the face looks at the sky, 90 the toe
points at the ground, negative the heel hangs lower, beyond 90 the face looks down.
"""

from __future__ import annotations

import math

import numpy as np

from puttwright.club.body import FloatArray
from puttwright.club.limits import checked

TOE = np.array([0.0, 1.0, 0.0])


def hang_rad(*, cg_from_axis_m: float, cg_behind_face_m: float, offset_m: float = 0.0) -> float:
    """Hang from where the centre of gravity lies against the shaft axis.

    Parameters
    ----------
    cg_from_axis_m
        Square to the axis, toe positive.
    cg_behind_face_m, offset_m
        Behind the leading edge; shaft axis ahead of it.

    Returns
    -------
    float
        Between -pi and pi, the same for both hands. On the axis itself it rests
        anywhere; that reads as 0.

    Examples
    --------
    >>> round(math.degrees(hang_rad(cg_from_axis_m=0.02, cg_behind_face_m=0.02)), 6)
    45.0
    """
    checked(cg_from_axis_m, limit="from axis")
    checked(cg_behind_face_m, limit="behind face")
    checked(offset_m, limit="offset")
    return math.atan2(cg_from_axis_m, cg_behind_face_m + offset_m)


def hang_in_space_rad(*, cg_from_shaft_m: FloatArray, shaft: FloatArray) -> float:
    """Hang of a putter however its shaft stands, by the equilibrium itself.

    Parameters
    ----------
    cg_from_shaft_m
        From any point of the shaft axis to the putter's centre of gravity (3,), in
        axes target, toe, up with the sole flat.
    shaft
        Unit vector (3,) up the shaft.

    Returns
    -------
    float
        As :func:`hang_rad`.

    Examples
    --------
    >>> up = np.array([0.0, -math.cos(1.2), math.sin(1.2)])
    >>> down = np.array([-0.02, 0.02 * math.sin(1.2), 0.02 * math.cos(1.2)])
    >>> round(math.degrees(hang_in_space_rad(cg_from_shaft_m=down, shaft=up)), 6)
    45.0
    """
    edge = TOE - (TOE @ shaft) * shaft
    edge /= np.linalg.norm(edge)
    ahead = np.array([1.0, 0.0, 0.0]) - shaft[0] * shaft
    ahead -= (ahead @ edge) * edge
    ahead /= np.linalg.norm(ahead)
    return math.atan2(float(cg_from_shaft_m @ edge), -float(cg_from_shaft_m @ ahead))
