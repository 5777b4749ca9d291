# ruff: noqa: ANN001, ANN201 - compiled: numba finds the types
"""Rays through a picture to a ball with a line on it: the inner loop of the rendered clips."""

from __future__ import annotations

import math

import numpy as np
from numba import njit
from numpy.typing import NDArray

Floats = NDArray[np.float64]

SIDE = 4
"""So many rays a pixel across and down."""
DIMPLES = np.array([
    [31, 7, 11, 0.3], [-9, 29, 17, 1.9], [13, -21, 27, 4.0], [5, 15, -33, 2.2],
])  # fmt: skip


@njit(cache=True)
def ink(body, how):
    """How white a point of the ball is; ``body`` is a unit vector that turns with it.

    ``how``: line (1 or 0), half width, offset, wobble [mm], normal (3), reach [rad], ink, dimples,
    radius [mm].
    """
    bumps = 0.0
    for row in range(len(DIMPLES)):
        a, b, c, d = DIMPLES[row]
        bumps += math.cos(a * body[0] + b * body[1] + c * body[2] + d)
    white = 0.95 * (1.0 + how[9] * bumps / 2.0)
    if how[0] == 0.0:
        return white
    around = math.atan2(body[2], -body[1])
    if abs(around) >= how[7]:
        return white
    across = body[0] * how[4] + body[1] * how[5] + body[2] * how[6]
    from_line = abs(across * how[10] - how[3] * math.sin(3 * around + 1.0) - how[2]) - how[1]
    cover = min(max(0.5 - from_line / 0.3, 0.0), 1.0)
    return white * (1.0 - cover) + how[8] * cover


@njit(cache=True)
def shade(normal, way, sun):
    """Light on the ball: the sky, the sun, what the turf throws back, a small highlight."""
    facing = max(normal[0] * sun[0] + normal[1] * sun[1] + normal[2] * sun[2], 0.0)
    sky = 0.62 + 0.18 * normal[2]
    shine = 0.0
    for axis in range(3):
        shine += normal[axis] * (sun[axis] - way[axis])
    shine = min(max(shine, 0.0), 2.0) / 2.0
    return 215.0 * (sky + 0.38 * facing) + 30.0 * shine**24


@njit(cache=True)
def paint(patch, lens, turned, moments, how, sun, grass_m):
    """Draw the ball over ``patch``, sixteen rays a pixel, each at its own moment.

    ``lens``: focal length, middle (2) counted from the patch's corner, light; ``turned`` takes the
    camera's axes to the world's, its last row is where the camera stands; ``moments`` are along, up
    and turn (3, 16), ``how`` as in :func:`ink` with the radius last.
    """
    radius = how[10] / 1e3
    way, point, normal, body = np.empty(3), np.empty(3), np.empty(3), np.empty(3)
    for row in range(patch.shape[0]):
        for column in range(patch.shape[1]):
            cover = glow = 0.0
            for part in range(SIDE * SIDE):
                down, right = part // SIDE, part % SIDE
                x = (column + (right + 0.5) / SIDE - 0.5 - lens[1]) / lens[0]
                y = (row + (down + 0.5) / SIDE - 0.5 - lens[2]) / lens[0]
                long = math.sqrt(x * x + y * y + 1.0)
                for axis in range(3):
                    way[axis] = (x * turned[0, axis] + y * turned[1, axis] + turned[2, axis]) / long
                which = 5 * part % 16
                off_x = moments[0, which] - turned[3, 0]
                off_y, off_z = -turned[3, 1], moments[1, which] - turned[3, 2]
                near = way[0] * off_x + way[1] * off_y + way[2] * off_z
                square = near**2 - off_x**2 - off_y**2 - off_z**2 + radius**2
                if square <= 0.0:
                    continue
                reach = near - math.sqrt(square)
                for axis in range(3):
                    point[axis] = turned[3, axis] + reach * way[axis]
                normal[0] = (point[0] - moments[0, which]) / radius
                normal[1] = point[1] / radius
                normal[2] = (point[2] - moments[1, which]) / radius
                grown = grass_m * (0.7 + 0.3 * math.sin(2100 * point[0]))
                if grass_m > 0.0 and point[2] <= grown:
                    continue
                # Forward roll takes the top forward: back to where the point was on the ball.
                c, s = math.cos(moments[2, which]), math.sin(moments[2, which])
                body[0] = c * normal[0] - s * normal[2]
                body[1] = normal[1]
                body[2] = s * normal[0] + c * normal[2]
                cover += 1.0
                glow += ink(body, how) * lens[3] * shade(normal, way, sun)
            rays = SIDE * SIDE
            patch[row, column] = patch[row, column] * (1.0 - cover / rays) + glow / rays
