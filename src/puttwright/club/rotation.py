"""Turning vectors in the putter's axes: x to the target, y to the toe, z up.

Each turn is named by what it does, not by a right-hand rule, so it is the same
for a right-hander's putter and its mirror image.
"""

from __future__ import annotations

import math

import numpy as np

from puttwright.club.body import FloatArray


def turn(*, axis: FloatArray, angle_rad: float) -> FloatArray:
    """Rotation matrix about a unit vector, by Rodrigues' formula in these coordinates.

    Parameters
    ----------
    axis
        Unit vector (3,).
    angle_rad
        Positive takes toe to up about the target axis, up to target about the toe
        axis, and target to toe about the upright axis.

    Returns
    -------
    ndarray
        (3, 3).

    Examples
    --------
    >>> turned = turn(axis=np.array([0.0, 1.0, 0.0]), angle_rad=math.pi / 2)
    >>> (turned @ np.array([0.0, 0.0, 1.0])).round(9).tolist()
    [1.0, 0.0, 0.0]
    """
    x, y, z = axis
    cross = np.array([[0.0, -z, y], [z, 0.0, -x], [-y, x, 0.0]])
    return np.asarray(
        np.eye(3) + math.sin(angle_rad) * cross + (1.0 - math.cos(angle_rad)) * cross @ cross
    )


def handle_forward(angle_rad: float, /) -> FloatArray:
    """About the heel-toe line: up goes to the target."""
    return turn(axis=np.array([0.0, 1.0, 0.0]), angle_rad=angle_rad)


def upright(angle_rad: float, /) -> FloatArray:
    """About the target line: a shaft that leans to the golfer comes up, the toe goes down.

    That is the opposite of toe to up, and for the head alone it means toe down.
    """
    return turn(axis=np.array([1.0, 0.0, 0.0]), angle_rad=-angle_rad)
