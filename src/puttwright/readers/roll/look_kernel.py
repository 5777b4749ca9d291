"""Compiled: brightness between the pixels of a picture, along rays and on the ball's side.

Everything that is compiled together stands in this file, since numba's cache watches no other.
"""

from __future__ import annotations

from numba import njit


@njit(cache=True)
def _between(picture, x, y):
    """Brightness at a place, from the four pixels round it; beyond the edge it goes on."""
    high, wide = picture.shape
    x, y = min(max(x, 0.0), wide - 1.001), min(max(y, 0.0), high - 1.001)
    column, row = int(x), int(y)
    right, down = x - column, y - row
    above = (1.0 - right) * picture[row, column] + right * picture[row, column + 1]
    below = (1.0 - right) * picture[row + 1, column] + right * picture[row + 1, column + 1]
    return (1.0 - down) * above + down * below


@njit(cache=True)
def along_rays(picture, x, y, across, below, light):
    """Fill ``light`` (rays, places) with what lies so far across and below (x, y), in pixels."""
    for ray in range(light.shape[0]):
        for place in range(light.shape[1]):
            light[ray, place] = _between(picture, x + across[ray, place], y + below[ray, place])


@njit(cache=True)
def on_ball(picture, middle, normal, lens, radius_m, least, light, seen):
    """Fill ``light`` and ``seen`` (rings, angles) at points of a ball; ``middle`` is its own.

    ``normal`` (rings, angles, 3) is where they look, ``lens`` focal length and middle [px]; a
    point is seen that faces the lens by more than ``least``, the cosine.
    """
    far = (middle[0] ** 2 + middle[1] ** 2 + middle[2] ** 2) ** 0.5
    for ring in range(light.shape[0]):
        for turn in range(light.shape[1]):
            a, b, c = normal[ring, turn]
            z = middle[2] + radius_m * c
            x = lens[1] + lens[0] * (middle[0] + radius_m * a) / z
            y = lens[2] + lens[0] * (middle[1] + radius_m * b) / z
            light[ring, turn] = _between(picture, x, y)
            facing = -(a * middle[0] + b * middle[1] + c * middle[2]) / far
            seen[ring, turn] = facing > least
