"""Where the ball's rim is on a ray, from how the brightness runs across it.

Half the brightness is reached before the rim: a matt ball darkens toward it, and the lens smears
it. So the whole run is explained: inside a ball whose light goes with where its surface looks
(Lambert's law: Ramamoorthi and Hanrahan 2001), outside turf with a slope, both smeared by lens
and motion; the rim is where that fits best. How wide the smear is, is what fits best too.
"""

from __future__ import annotations

from dataclasses import dataclass
from functools import lru_cache
from typing import Final

import numpy as np
from numpy.typing import NDArray

Floats = NDArray[np.float64]

REACH: Final = np.linspace(0.62, 1.18, 29)
"""Places on a ray at which its brightness is looked at, in radii."""
_RIMS: Final = np.linspace(0.91, 1.09, 25)
_SMEARS: Final = 0.015 * 1.15 ** np.arange(22)
"""Widths of smear that are tried, one spread of a normal, in radii."""
_FINE: Final = np.linspace(0.3, 1.54, 311)
_PLAIN: Final = 0.5
_SIDES: Final = 0.8
_SAMPLES: Final = 6
_WORST: Final = 12.0
"""A run so much worse explained than the usual one has something else in it: ink, a putter."""


@lru_cache(maxsize=1)
def _runs() -> Floats:
    """Square bases of what can be seen, (smears, places, rims, 5)."""
    facing = np.sqrt(np.clip(1.0 - (_FINE / _RIMS[:, None]) ** 2, 0.0, None))
    inside = np.clip((_RIMS[:, None] - _FINE) / (_FINE[1] - _FINE[0]) + 0.5, 0.0, 1.0)
    off = _FINE - _RIMS[:, None]
    sharp = np.stack(
        [inside, inside * off, inside * facing, 1.0 - inside, (1.0 - inside) * off], axis=-1
    )
    soft = []
    for smear in _SMEARS:
        kernel = np.exp(-0.5 * ((REACH[:, None] - _FINE) / smear) ** 2)
        kernel /= kernel.sum(axis=1, keepdims=True)
        soft.append(np.linalg.qr(np.einsum("pf,rfc->rpc", kernel, sharp, optimize=True))[0])
    return np.ascontiguousarray(np.moveaxis(np.stack(soft), 2, 1))


@dataclass(frozen=True, slots=True)
class Smear:
    """How wide an edge is smeared by the lens, and how much of a picture's time by motion."""

    lens_px: float
    share: float

    def place(self, *, angle: Floats, radius_px: Floats, step_px: Floats) -> Floats:
        """The width on each ray as a place in the row of widths, (n, rays)."""
        moved = self.share * step_px[:, None] * np.abs(np.cos(angle)) / np.sqrt(12.0)
        wide = np.hypot(self.lens_px, moved) / radius_px[:, None]
        place = np.log(wide / _SMEARS[0]) / np.log(_SMEARS[1] / _SMEARS[0])
        return np.asarray(np.clip(place, 0.0, len(_SMEARS) - 1.001))


def rims(light: Floats, *, angle: Floats, radius_px: Floats, step_px: Floats) -> Floats:
    """Distance of the rim from the middle, in radii, (n, rays); NaN where it cannot be told.

    Parameters
    ----------
    light
        Brightness, (n, rays, places) at :data:`REACH`.
    angle
        Of the rays, from the right downward.
    radius_px, step_px
        The radius that a place counts in, and how far the ball goes from picture to picture.
    """
    some = slice(None, None, max(1, len(light) // _SAMPLES))
    smear = _smear(
        _fits(light[some], np.arange(len(_SMEARS)))[1], angle=angle, radius_px=radius_px[some],
        step_px=step_px[some],
    )  # fmt: skip
    at = smear.place(angle=angle, radius_px=radius_px, step_px=step_px)
    first = int(at.min())
    found, left = _fits(light, np.arange(first, int(at.max()) + 2))
    # A smeared disc is half as bright a little within its rim, for the rim is bent.
    bent = 0.5 * (_SMEARS[0] * (_SMEARS[1] / _SMEARS[0]) ** at) ** 2
    rim, rest = _between(found, at - first), _between(left, at - first)
    usual = np.median(rest, axis=1, keepdims=True)
    good = (rim > _RIMS[1]) & (rim < _RIMS[-2]) & (rest < _WORST * usual)
    return np.where(good, rim + bent, np.nan)


def _fits(light: Floats, smears: NDArray[np.intp]) -> tuple[Floats, Floats]:
    """The best rim at each of these widths, and what it leaves over; (smears, n, rays)."""
    flat = np.asarray(light, np.float64).reshape(-1, len(REACH))
    whole = np.sum(flat**2, axis=1)
    found, left = [], []
    for base in _runs()[smears]:
        parts = (flat @ base.reshape(len(REACH), -1)).reshape(len(flat), len(_RIMS), 5)
        place, rest = _lowest(whole[:, None] - np.einsum("nrc,nrc->nr", parts, parts))
        found.append(place.reshape(light.shape[:2]))
        left.append(rest.reshape(light.shape[:2]))
    return np.stack(found), np.stack(left)


def _lowest(left: Floats) -> tuple[Floats, Floats]:
    """The rim with the least left over, to a part of a step."""
    top = np.clip(np.argmin(left, axis=1), 1, len(_RIMS) - 2)
    rows = np.arange(len(left))
    low, here, high = left[rows, top - 1], left[rows, top], left[rows, top + 1]
    bend = low - 2.0 * here + high
    off = np.where(bend > 0.0, 0.5 * (low - high) / np.where(bend > 0.0, bend, 1.0), 0.0)
    off = np.clip(off, -1.0, 1.0)
    return _RIMS[top] + (_RIMS[1] - _RIMS[0]) * off, here - 0.25 * (low - high) * off


def _smear(left: Floats, *, angle: Floats, radius_px: Floats, step_px: Floats) -> Smear:
    """What smears the edges: a lens all rays alike, motion those along the way.

    The first is looked for above the ball, then the second before and behind it.
    """
    across = np.abs(np.cos(angle))
    above = (across < _PLAIN) & (np.sin(angle) < 0.0)
    beside = (across > _SIDES) & (np.sin(angle) < 0.3)

    def cost(smear: Smear, rays: NDArray[np.bool_]) -> float:
        at = smear.place(angle=angle, radius_px=radius_px, step_px=step_px)
        return float(np.median(_between(left, at)[:, rays]))

    widths = float(np.median(radius_px)) * np.geomspace(_SMEARS[1], _SMEARS[-8], 40)
    lens = min((Smear(float(wide), 0.0) for wide in widths), key=lambda each: cost(each, above))
    shares = np.linspace(0.0, 1.0, 21)
    return min(
        (Smear(lens.lens_px, float(share)) for share in shares), key=lambda each: cost(each, beside)
    )


def _between(table: Floats, at: Floats) -> Floats:
    """Values between neighbouring widths, (n, rays)."""
    below = at.astype(np.intp)
    rest = at - below
    low = np.take_along_axis(table, below[None], axis=0)[0]
    high = np.take_along_axis(table, below[None] + 1, axis=0)[0]
    return np.asarray((1.0 - rest) * low + rest * high)
