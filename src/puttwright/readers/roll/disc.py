"""The ball's outline in each picture, to a small part of a pixel.

Along rays from its middle the brightness falls from ball to turf; where it is half way is the
edge. The foot is left out: grass covers it, and the ball's own shadow lies there.
"""

from __future__ import annotations

import warnings
from dataclasses import dataclass, fields
from typing import Final

import numpy as np
from numpy.typing import NDArray

from puttwright.readers.roll.clip import Clip
from puttwright.readers.roll.edge import REACH, rims
from puttwright.readers.roll.look_kernel import along_rays

Floats = NDArray[np.float64]

RAYS: Final = 72
USUAL_FOCAL_SHARE: Final = 26.0 / 36.0
"""Focal length in widths of the picture: a phone's main lens, 26 mm on 36 mm of film
(common practice, no source)."""
_FOOT_RAD: Final = 0.9
"""Rays this near to straight down are left out."""
_RADII: Final = np.concatenate([REACH, np.linspace(1.20, 1.38, 10)])
_WIDE: Final = np.linspace(0.6, 1.6, 51)
_INSIDE: Final = (0.88, 0.94)
_OUTSIDE: Final = (1.12, 1.30)
_TOGETHER: Final = 8
_NEAR: Final = 7
_INKED: Final = 0.88
"""A ray with ink on it is darker than this share of what it mostly is."""
_SMEARED_PX: Final = 4.2
"""An edge this wide along the way shows a long exposure; a short one is 3 wide (rendered clips)."""
_OTHER: Final = 1e4
_LEAST_STEP: Final = 16.0
_ROUNDS: Final = (False, False, True, True)
"""The rim itself is looked for once the circle is near it."""
_TIE: Final = 1.0
"""A picture's radius is tied to the others' trend as if by so many rays: it matters where few
hold."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Outline:
    """Middle, radius and shape of the ball in each picture, in pixels; all (n,).

    ``stretch`` is how much longer than across the outline is, away from the picture's middle.
    ``spread`` (n, 3, 3) is how ``y_px``, ``radius_px`` and ``stretch`` may err together, from what
    the rays leave over: without the foot a ball lower down looks like a smaller one. ``rays`` is
    how many held, ``blur_px`` how wide the edge is along the ball's way.
    """

    x_px: Floats
    y_px: Floats
    radius_px: Floats
    stretch: Floats
    spread: Floats
    rays: NDArray[np.intp]
    blur_px: Floats

    def some(self, which: NDArray[np.bool_]) -> Outline:
        """The outlines of some pictures."""
        return Outline(**{part.name: getattr(self, part.name)[which] for part in fields(self)})


def outlines(
    clip: Clip, *, number: NDArray[np.intp], start: tuple[Floats, Floats, Floats],
    shape: tuple[Floats, Floats] | None = None,
) -> Outline:  # fmt: skip
    """Fit the outline in pictures ``number``.

    Parameters
    ----------
    clip, number
        The pictures and which of them.
    start
        Middle and radius to begin from.
    shape
        Radius and stretch where they are known; else they are fitted with the middle.
    """
    x, y, radius = (part.copy() for part in start)
    stretch = np.zeros_like(x)
    if shape is not None:
        radius, stretch = (part.copy() for part in shape)
    wide, high = clip.size
    if shape is None:
        x, y, radius = _roughly(clip, number, (x, y, radius))
    for exact in _ROUNDS if shape is None else (True,):
        away = np.arctan2(y - 0.5 * (high - 1), x - 0.5 * (wide - 1))
        edge, slope = _edges(clip, number, (x, y, radius), exact=exact)
        found = _fit(
            edge, away=away, radius=radius, stretch=stretch, known=shape is not None,
            trend=_trend(x, radius),
        )  # fmt: skip
        x, y = x + found.step[:, 0], y + found.step[:, 1]
        if shape is None:
            radius, stretch = radius + found.step[:, 2], found.step[:, 3]
    return Outline(
        x_px=x, y_px=y, radius_px=radius, stretch=stretch, spread=found.spread,
        rays=found.rays, blur_px=_blur(slope),
    )  # fmt: skip


def _trend(x_px: Floats, radius_px: Floats) -> Floats:
    """The radius as it goes along the picture: evenly, where a ball goes straight."""
    across = (x_px - x_px.mean()) / max(float(np.ptp(x_px)), 1.0)
    design = np.stack([np.ones_like(across), across], axis=-1)
    weight = np.ones_like(across)
    line = radius_px
    for _ in range(4):
        root = np.sqrt(weight)
        line = design @ np.linalg.lstsq(design * root[:, None], radius_px * root, rcond=None)[0]
        left = radius_px - line
        spread = max(1.4826 * float(np.median(np.abs(left))), 1e-3)
        weight = np.clip(1.0 - (left / (4.0 * spread)) ** 2, 0.0, None)
    return np.asarray(line)


def _roughly(
    clip: Clip, number: NDArray[np.intp], at: tuple[Floats, Floats, Floats]
) -> tuple[Floats, Floats, Floats]:
    """A circle through the outermost steep fall on each ray; the radius is one for all."""
    x, y, radius = at
    radius = np.full_like(radius, np.median(radius))
    # The sky lights the upper half: there the ball stands out.
    upper = np.sin(_angles()) < 0.25
    for _ in range(2):
        light = _light(clip, number, (x, y, radius), reach=_WIDE)
        fall = light[..., :-2] - light[..., 2:]
        top = np.median(fall[:, upper].max(axis=-1), axis=1)
        steep = fall > 0.5 * top[:, None, None]
        last = steep.shape[-1] - 1 - np.argmax(steep[..., ::-1], axis=-1)
        edge = np.where(steep.any(axis=-1) & upper, _WIDE[last + 1], np.nan) * radius[:, None]
        found = _fit(
            edge, away=np.zeros_like(x), radius=radius, stretch=np.zeros_like(x), known=False,
            trend=radius,
        )  # fmt: skip
        x, y = x + found.step[:, 0], y + found.step[:, 1]
        radius = np.full_like(radius, np.median(radius + found.step[:, 2]))
    return x, y, radius


def _angles() -> Floats:
    return np.asarray((np.arange(RAYS) + 0.5) * (2.0 * np.pi / RAYS), np.float64)


def _edges(
    clip: Clip, number: NDArray[np.intp], at: tuple[Floats, Floats, Floats], *, exact: bool
) -> tuple[Floats, Floats]:
    """Distance of the edge from the middle along each ray, (n, rays), NaN for none; how steep."""
    light = _light(clip, number, at, reach=_RADII)
    edge, steep = _crossings(light, at[2])
    if not exact:
        return edge, steep
    # Neighbouring pictures see the ball in the same light: together they show its rim.
    group = np.arange(len(number)) // _TOGETHER
    step = np.abs(np.gradient(at[0], number)) if len(number) > 1 else np.zeros(len(number))
    rim = rims(
        _grouped(light[..., : len(REACH)].astype(np.float64), group), angle=_angles(),
        radius_px=_grouped(at[2], group), step_px=_grouped(step, group),
    )  # fmt: skip
    held = np.isfinite(edge)
    seen = _grouped(np.where(held, edge / at[2][:, None], 0.0), group)
    count = _grouped(held.astype(np.float64), group)
    shift = np.where(count > 0.5, seen / np.maximum(count, 0.5) - rim, np.nan)
    still = _grouped(step, group) < 0.3 * float(step.max())
    # A long exposure smears the ball that moves, and what holds at rest holds for it no more.
    smeared = float(np.quantile(_blur(steep), 0.9)) > _SMEARED_PX
    apart = smeared & (still[:, None] != still)
    return edge - _calm(shift, apart=apart)[group] * at[2][:, None], steep


def _calm(shift: Floats, *, apart: NDArray[np.bool_]) -> Floats:
    """Each ray's shift in the middle of nearby groups: light changes slowly along the way.

    Where it is not told, for ink lies on the ray, those next to it that are tell it.
    """
    number = np.arange(len(shift))
    far = np.abs(number[:, None] - number) + np.where(apart, _OTHER, 0.0)
    far = far[..., None] + np.where(np.isfinite(shift), 0.0, np.inf)
    near = np.argsort(far, axis=1, kind="stable")[:, :_NEAR]
    found = shift[near, np.arange(shift.shape[1])]
    distance = np.take_along_axis(far, near, axis=1)
    found[(distance >= _OTHER) & (distance[:, :1] < _OTHER)] = np.nan
    with warnings.catch_warnings():
        warnings.simplefilter("ignore", RuntimeWarning)  # a ray that is told nowhere
        return np.asarray(np.nanmedian(found, axis=1))


def _grouped(values: Floats, group: NDArray[np.intp]) -> Floats:
    """Means over pictures of one group."""
    starts = np.flatnonzero(np.diff(group, prepend=-1))
    counts = np.bincount(group).reshape((-1,) + (1,) * (values.ndim - 1))
    return np.asarray(np.add.reduceat(values, starts, axis=0) / counts)


def _foot() -> NDArray[np.bool_]:
    return np.asarray(np.cos(_angles() - 0.5 * np.pi) >= np.cos(_FOOT_RAD))


def _light(
    clip: Clip, number: NDArray[np.intp], at: tuple[Floats, Floats, Floats], *, reach: Floats
) -> NDArray[np.float32]:
    """Brightness along the rays, (n, rays, places); ``reach`` in radii."""
    angle = _angles()[:, None]
    across, down = np.cos(angle) * reach, np.sin(angle) * reach
    light = np.empty((len(number), RAYS, len(reach)), np.float32)
    for row, (which, x, y, radius) in enumerate(zip(number, *at, strict=True)):
        along_rays(clip.pictures[which], x, y, radius * across, radius * down, light[row])
    return light


def _crossings(light: NDArray[np.float32], radius: Floats) -> tuple[Floats, Floats]:
    """Where the light is half way, and how wide the fall is there."""
    inside = light[..., _within(_INSIDE)].mean(axis=-1)
    outside = light[..., _within(_OUTSIDE)].mean(axis=-1)
    step = inside - outside
    half = 0.5 * (inside + outside)
    over = light > half[..., None]
    # The outermost place that is still as bright as half way, within the window.
    window = (_RADII > 0.78) & (_RADII < 1.22)
    last = len(_RADII) - 1 - np.argmax((over & window)[..., ::-1], axis=-1)
    safe = np.minimum(last, len(_RADII) - 2)
    here = np.take_along_axis(light, safe[..., None], axis=-1)[..., 0]
    beyond = np.take_along_axis(light, safe[..., None] + 1, axis=-1)[..., 0]
    fall = np.maximum(here - beyond, 1e-3)
    spacing = _RADII[1] - _RADII[0]
    edge = (_RADII[safe] + spacing * (here - half) / fall) * radius[:, None]
    good = (step > _LEAST_STEP) & (here > half) & (beyond <= half) & window[safe]
    # Ink within the rim would pull it inwards: such a ray is not as bright as it mostly is.
    good &= inside > _INKED * np.median(inside, axis=0)
    good &= ~_foot()
    steep = np.where(good, step / fall * spacing, np.nan) * radius[:, None]
    return np.where(good, edge, np.nan), steep


def _within(limits: tuple[float, float]) -> NDArray[np.bool_]:
    reach = np.asarray(_RADII)
    return np.asarray((reach >= limits[0]) & (reach <= limits[1]))


@dataclass(frozen=True, slots=True, kw_only=True)
class _Fitted:
    step: Floats
    spread: Floats
    rays: NDArray[np.intp]


def _fit(
    edge: Floats, *, away: Floats, radius: Floats, stretch: Floats, known: bool, trend: Floats
) -> _Fitted:
    """Least squares over the rays of each picture, those far off left out."""
    angle = _angles()
    turned = np.cos(2.0 * (angle[None, :] - away[:, None]))
    base = radius[:, None] * (1.0 + 0.5 * stretch[:, None] * turned * known)
    off = edge - base
    columns = [
        np.broadcast_to(np.cos(angle), edge.shape),
        np.broadcast_to(np.sin(angle), edge.shape),
    ]
    if not known:
        columns += [np.ones_like(edge), 0.5 * radius[:, None] * turned]
    design = np.stack(columns, axis=-1)
    weight = np.isfinite(off).astype(np.float64)
    off = np.nan_to_num(off)
    step = np.zeros((len(edge), 4))
    width = design.shape[-1]
    for turn in range(4):
        normal = np.einsum("kri,kr,krj->kij", design, weight, design) + 1e-6 * np.eye(width)
        right = np.einsum("kri,kr->ki", design, weight * off)
        if not known:
            normal[:, 2, 2] += _TIE
            right[:, 2] += _TIE * (trend - radius)
            normal[:, 3, 3] += 0.1 * _TIE * (0.5 * radius) ** 2
        step[:, :width] = np.linalg.solve(normal, right[..., None])[..., 0]
        left = off - np.einsum("kri,ki->kr", design, step[:, :width])
        there = weight > 0
        spread = np.maximum(_middle_of(np.abs(left), there), 0.04)
        if turn < 3:
            weight = np.clip(1.0 - (left / (4.0 * spread[:, None])) ** 2, 0.0, None) ** 2 * there
    rays = np.sum(weight > 0, axis=1)
    together = np.zeros((len(edge), 3, 3))
    part = slice(0, width - 1)
    together[:, part, part] = np.linalg.inv(normal)[:, 1:, 1:] * spread[:, None, None] ** 2
    return _Fitted(step=step, spread=together, rays=rays)


def _middle_of(off: Floats, there: NDArray[np.bool_]) -> Floats:
    """Robust spread of each row over the rays that are there."""
    ranked = np.sort(np.where(there, off, np.inf), axis=1)
    count = there.sum(axis=1)
    middle = np.take_along_axis(
        ranked, (count // 2)[:, None] - (count == len(ranked[0]))[:, None], 1
    )
    return np.asarray(1.4826 * np.where(count > 0, middle[:, 0], 1.0))


def _blur(steep: Floats, *, sides: bool = True) -> Floats:
    """Width of the edge before and behind the ball, or above it, in pixels."""
    across = np.abs(np.cos(_angles()))
    chosen = across > 0.9 if sides else (across < 0.6) & ~_foot()
    with warnings.catch_warnings():
        warnings.simplefilter("ignore", RuntimeWarning)
        width = np.nanmedian(steep[:, chosen], axis=1)
    usual = float(np.nanmedian(width)) if np.isfinite(width).any() else 3.0
    return np.asarray(np.where(np.isfinite(width), width, usual))
