"""From outlines in the picture to the ball's place on its way, in metres.

The ball is 42.67 mm wide and its middle goes along a straight line: how its size and its place
change together tells where that line lies before the lens. The focal length is taken as a phone's
usual one and put right, as far as the clip tells, by how much the outline is drawn out at the rim.
"""

from __future__ import annotations

import math
from dataclasses import dataclass
from typing import Final

import numpy as np
from numpy.typing import NDArray

from puttwright.readers.files import Unreadable
from puttwright.readers.roll.disc import USUAL_FOCAL_SHARE, Outline
from puttwright.units import BALL_RADIUS_M

Floats = NDArray[np.float64]

FOCAL_SD: Final = 0.08
"""Spread of the logarithm of the focal length: main lenses are 24 to 29 mm, films are cropped."""
SCALE_SD: Final = 0.004
BEND_SD_PM: Final = 0.006
"""Spread of the scale's logarithm in the middle of the way and of its change per metre: a radius is
seen to a tenth of a pixel, alike wrong in all pictures whatever their number (rendered clips)."""
_LEAST_SD: Final = (0.10, 0.03, 0.003)
"""What a picture's place across, radius [px] and stretch may be off, however well rays hold."""
_LEAST_RAYS: Final = 24
_MANY: Final = 60
USUAL_PITCH_RAD: Final = 0.12


@dataclass(frozen=True, slots=True, kw_only=True)
class Lens:
    """The camera: focal length and middle, in pixels; its axes are right, down and forward."""

    focal_px: float
    middle_px: tuple[float, float]

    def rays(self, x_px: Floats, y_px: Floats) -> Floats:
        """Directions (n, 3), forward part 1."""
        x = (x_px - self.middle_px[0]) / self.focal_px
        y = (y_px - self.middle_px[1]) / self.focal_px
        return np.stack([x, y, np.ones_like(x)], axis=-1)

    def pixels(self, place: Floats) -> tuple[Floats, Floats]:
        """Where places (..., 3) are seen."""
        x, y, z = np.moveaxis(place, -1, 0)
        return (
            self.middle_px[0] + self.focal_px * x / z, self.middle_px[1] + self.focal_px * y / z
        )  # fmt: skip


@dataclass(frozen=True, slots=True, kw_only=True)
class Way:
    """The ball's line before the lens.

    ``start`` (3,) lies on it, ``along`` is the unit direction of travel.
    ``scale_sd`` is the spread of the scale's logarithm in the middle, ``bend_sd_pm`` of its change
    per metre.
    """

    lens: Lens
    start: Floats
    along: Floats
    scale_sd: float
    bend_sd_pm: float


def outline_of(lens: Lens, place: Floats) -> tuple[Floats, Floats, Floats, Floats]:
    """Middle, mean radius and stretch of the outline of balls at ``place`` (n, 3), exact."""
    far = np.linalg.norm(place, axis=-1)
    sine2 = (BALL_RADIUS_M / far) ** 2
    cosine2 = (place[:, 2] / far) ** 2
    across = lens.focal_px * np.sqrt(sine2 / (cosine2 - sine2))
    along = lens.focal_px * np.sqrt(sine2 * (1.0 - sine2)) / (cosine2 - sine2)
    push = cosine2 / (cosine2 - sine2)
    x = lens.middle_px[0] + lens.focal_px * place[:, 0] / place[:, 2] * push
    y = lens.middle_px[1] + lens.focal_px * place[:, 1] / place[:, 2] * push
    mean = 0.5 * (along + across)
    return x, y, mean, (along - across) / mean


def fit_way(outline: Outline, *, size: tuple[int, int]) -> Way:
    """The line the ball's middle goes along, from pictures in which it moves.

    Raises
    ------
    Unreadable
        Too few outlines held.
    """
    from scipy.optimize import least_squares  # noqa: PLC0415 - large, only for films

    good = (outline.rays >= _LEAST_RAYS) & _inside(outline, size)
    if good.sum() < 12:
        raise Unreadable(
            "does not show the ball's edge well enough; more light, and ground darker than the ball"
        )
    # Neighbours err alike: the half of them says as much.
    if good.sum() >= _MANY:
        good[np.flatnonzero(good)[1::2]] = False
    outline = outline.some(good)
    x, y, radius = outline.x_px, outline.y_px, outline.radius_px
    root = np.linalg.inv(np.linalg.cholesky(outline.spread + np.diag(np.square(_LEAST_SD))))
    forward = math.copysign(1.0, x[-1] - x[0])
    usual = USUAL_FOCAL_SHARE * max(size)
    middle = (0.5 * (size[0] - 1), 0.5 * (size[1] - 1))

    first = usual * BALL_RADIUS_M / float(np.median(radius))
    aside = first / usual * np.array([x[0] - middle[0], y[0] - middle[1]])
    begin = np.array([0.0, *aside, first, 0.0, 0.0])

    def lens_of(p: Floats) -> Lens:
        return Lens(focal_px=usual * math.exp(p[0]), middle_px=middle)

    def left(p: Floats) -> Floats:
        lens = lens_of(p)
        place = _on_line(lens, p, forward=forward, x_px=x, y_px=y)
        _, seen_y, mean, drawn = outline_of(lens, place)
        off = np.stack([seen_y - y, mean - radius, drawn - outline.stretch], axis=-1)
        return np.concatenate([
            (root @ off[..., None]).ravel(),
            [p[0] / FOCAL_SD * math.sqrt(len(x) / 8.0), p[1] - begin[1]],
        ])  # fmt: skip

    found = least_squares(left, begin, loss="soft_l1", x_scale=[0.1, 0.1, 0.1, 0.1, 0.1, 0.1])
    p = np.asarray(found.x)
    lens = lens_of(p)
    # Any point of the line would do: the first place, so that lengths count from there.
    start = _on_line(lens, p, forward=forward, x_px=x[:1], y_px=y[:1])[0]
    # Errors of one clip's outlines are alike, not drawn anew each picture: what is left stays.
    return Way(
        lens=lens, start=start, along=_along(p, forward=forward), scale_sd=SCALE_SD,
        bend_sd_pm=BEND_SD_PM,
    )  # fmt: skip


def _inside(outline: Outline, size: tuple[int, int]) -> NDArray[np.bool_]:
    reach = 1.15 * outline.radius_px
    return np.asarray(
        (outline.x_px > reach) & (outline.x_px < size[0] - 1 - reach)
        & (outline.y_px > reach) & (outline.y_px < size[1] - 1 - reach)
    )  # fmt: skip


def _along(p: Floats, *, forward: float) -> Floats:
    way = np.array([forward, p[5], p[4]])
    return np.asarray(way / np.linalg.norm(way))


def _on_line(lens: Lens, p: Floats, *, forward: float, x_px: Floats, y_px: Floats) -> Floats:
    """The places on the line that are seen at ``x_px``."""
    along, start = _along(p, forward=forward), p[1:4]
    ray = lens.rays(x_px, y_px)
    # The middle of an outline lies a little outside of where the ball's middle is seen.
    ray_x = ray[:, 0] * (1.0 - (BALL_RADIUS_M / start[2]) ** 2)
    reach = (ray_x * start[2] - start[0]) / (along[0] - ray_x * along[2])
    return np.asarray(start + reach[:, None] * along)


def upright(way: Way, *, pitch_rad: float = USUAL_PITCH_RAD) -> Floats:
    """Up from the green, square to the way; ``pitch_rad`` is how far the camera looks down."""
    up = np.array([0.0, -math.cos(pitch_rad), -math.sin(pitch_rad)])
    up = up - (up @ way.along) * way.along
    return np.asarray(up / np.linalg.norm(up))


def places(way: Way, *, x_px: Floats, y_px: Floats, up: Floats) -> tuple[Floats, Floats]:
    """How far along and how high balls are whose outline's middle is at these pixels [m]."""
    ray = way.lens.rays(x_px, y_px)
    far = float(np.linalg.norm(way.start))
    ray[:, :2] *= 1.0 - (BALL_RADIUS_M / far) ** 2
    # start + s along + h up = distance * ray, solved for s and h.
    system = np.stack([
        np.broadcast_to(way.along, ray.shape), np.broadcast_to(up, ray.shape), -ray,
    ], axis=-1)  # fmt: skip
    right = np.broadcast_to(-way.start, ray.shape)[..., None]
    found = np.asarray(np.linalg.solve(system, right)[..., 0], np.float64)
    return found[:, 0], found[:, 1]


def smooth_shape(outline: Outline) -> tuple[Floats, Floats]:
    """Radius and stretch as they change along the picture: a cubic, pictures far off left out.

    What light makes of the radius is in it: with it the middle does not move.
    """
    across = (outline.x_px - outline.x_px.mean()) / max(float(np.ptp(outline.x_px)), 1.0)
    design = np.vander(across, 4)
    smooth = []
    for value in (outline.radius_px, outline.stretch):
        weight = np.ones(len(value))
        for _ in range(4):
            fit = np.linalg.lstsq(design * weight[:, None], value * weight, rcond=None)[0]
            left = value - design @ fit
            spread = max(1.4826 * float(np.median(np.abs(left))), 1e-3)
            weight = np.clip(1.0 - (left / (4.0 * spread)) ** 2, 0.0, None)
        smooth.append(np.asarray(design @ fit))
    return smooth[0], smooth[1]
