"""How far light and shade on the ball pull the half-way place of its edge inwards.

A ball darkens toward its rim on the side away from the light, so that half the brightness is
reached before the rim. How the light falls is learnt from the inside of the ball in all pictures
together, as a smooth function of where its surface looks (harmonics of second order, which hold a
matt ball's light to a hundredth: Ramamoorthi and Hanrahan 2001), and carried on to the rim.
"""

from __future__ import annotations

from typing import Final

import numpy as np
from numpy.typing import NDArray

Floats = NDArray[np.float64]

_ROUNDS: Final = 5
_FINE: Final = np.linspace(-0.18, 0.18, 37)
"""Places about the rim, in radii, on which an edge is worked out."""


def normals(*, angle: Floats, reach: Floats, centre: Floats) -> Floats:
    """Where the surface looks, (n, rays, places, 3), in the camera's axes.

    Parameters
    ----------
    angle, reach
        Of the rays; distance from the middle in radii, below 1.
    centre
        Directions to the ball, unit vectors (n, 3).
    """
    across = np.cross(np.cross(centre, [1.0, 0.0, 0.0]), centre)
    across /= np.linalg.norm(across, axis=-1, keepdims=True)
    down = np.cross(centre, across)
    rim = np.cos(angle)[None, :, None] * across[:, None, :]
    rim = rim + np.sin(angle)[None, :, None] * down[:, None, :]
    facing = np.sqrt(np.clip(1.0 - reach**2, 0.0, None))
    return np.asarray(
        reach[:, None] * rim[:, :, None, :] - facing[:, None] * centre[:, None, None, :]
    )


def harmonics(normal: Floats) -> Floats:
    """The nine smooth functions of a direction up to second order, unnormed."""
    x, y, z = np.moveaxis(normal, -1, 0)
    return np.stack(
        [np.ones_like(x), x, y, z, x * y, y * z, x * z, x * x - y * y, 3 * z * z - 1], axis=-1
    )


def fit_light(light: NDArray[np.float32], normal: Floats) -> Floats:
    """Coefficients of the harmonics, the drawn line and the highlight left out."""
    design = harmonics(normal).reshape(-1, 9)
    seen = light.reshape(-1).astype(np.float64)
    weight = np.ones_like(seen)
    found = np.zeros(9)
    for _ in range(_ROUNDS):
        weighted = design * weight[:, None]
        normal_matrix = design.T @ weighted + 1e-3 * len(seen) / 1e4 * np.eye(9)
        found = np.asarray(np.linalg.solve(normal_matrix, weighted.T @ seen), np.float64)
        left = seen - design @ found
        spread = max(1.4826 * float(np.median(np.abs(left))), 2.0)
        # What is darker is ink: it falls out sooner than what is brighter.
        scale = np.where(left < 0, 2.5, 3.5) * spread
        weight = np.clip(1.0 - (left / scale) ** 2, 0.0, None) ** 2
    return found


def rim_shift(
    coefficients: Floats, *, angle: Floats, centre: Floats, outside: Floats, half: Floats,
    sigma: Floats,
) -> Floats:  # fmt: skip
    """Where the brightness passes ``half``, less where the rim is, in radii; (n, rays).

    Parameters
    ----------
    coefficients
        From :func:`fit_light`.
    angle, centre
        As in :func:`normals`.
    outside, half
        Levels, (n, rays).
    sigma
        Width of the lens's blur in radii, (n,).
    """
    reach = 1.0 + _FINE
    inside = np.minimum(reach, 1.0)
    normal = normals(angle=angle, reach=inside, centre=centre)
    ball = harmonics(normal) @ coefficients
    sharp = np.where(reach < 1.0, ball, outside[..., None])
    step = _FINE[1] - _FINE[0]
    far = (_FINE[:, None] - _FINE[None, :])[None] / np.maximum(sigma, step)[:, None, None]
    kernel = np.exp(-0.5 * far**2)
    kernel /= kernel.sum(axis=-1, keepdims=True)
    soft = sharp @ np.swapaxes(kernel, 1, 2)
    over = soft > half[..., None]
    middle = slice(6, -6)
    last = 6 + len(_FINE[middle]) - 1 - np.argmax(over[..., middle][..., ::-1], axis=-1)
    last = np.clip(last, 0, len(_FINE) - 2)
    here = np.take_along_axis(soft, last[..., None], axis=-1)[..., 0]
    beyond = np.take_along_axis(soft, last[..., None] + 1, axis=-1)[..., 0]
    share = np.clip((here - half) / np.maximum(here - beyond, 1e-3), 0.0, 1.0)
    return np.asarray(_FINE[last] + step * share)
