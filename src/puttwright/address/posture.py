"""Six points tapped in a photo from down the line: eyes, hands and shaft, and how sure.

The camera stands behind the golfer and looks along the target line. Where a point
lies beside and above the ball follows from its pixel only if one knows how far from
the camera it is, which way the camera looked, and how large a pixel is. Scale comes
from a known length in the photo, the upright from a plumb line, the rest is known
within a spread; all of it is drawn a few thousand times and the points are worked
out each time, so that every doubt reaches the figures. Pinhole camera; a phone
straightens its lens itself.
"""

from __future__ import annotations

import math
from collections.abc import Mapping
from dataclasses import dataclass
from typing import Final

import numpy as np
from numpy.typing import NDArray

from puttwright.address.posture_camera import (
    Camera,
    Draws,
    Scale,
    draw_camera,
    places,
)
from puttwright.errors import UserError
from puttwright.evidence.signs import toe_side
from puttwright.units import BALL_RADIUS_M

Pixels = Mapping[str, tuple[float, float]]

TAPPED: Final = ("eye", "hands", "grip_end", "shaft_foot", "ball_near", "ball_far")
"""What is tapped: middle of the eyes, between the hands, end of the grip, where the
shaft's line meets the ground, and the ball's two edges across the line of play."""
PLUMB: Final = ("plumb_top", "plumb_foot")
SCALE_ENDS: Final = ("scale_a", "scale_b")
BALL_MM: Final = 2000.0 * BALL_RADIUS_M
CARD_MM: Final = 85.60
"""Long side of an ID-1 card (ISO/IEC 7810)."""


class PointMissing(UserError):
    """The point {name} is missing; wanted are {needed}."""

    code = "point-missing"


class PointsTogether(UserError):
    """The points {first} and {second} lie on one spot, so they give no {gives}."""

    code = "points-together"


@dataclass(frozen=True, slots=True, kw_only=True)
class Measured:
    """A figure and its standard deviation, in the unit of its name."""

    mean: float
    sd: float


@dataclass(frozen=True, slots=True, kw_only=True)
class Posture:
    """What a photo from down the line says of a set-up.

    ``eye_inside_mm`` is positive toward the golfer, heights are above the ground,
    ``shaft_deg`` is the shaft against the ground as seen, which is the lie at which the sole
    would lie flush. ``sole_tilt_deg`` (toe up) needs the putter's own lie. ``camera_m`` is
    the distance found or assumed; ``most_doubt`` names what widens the eyes' interval most.
    """

    eye_inside_mm: Measured
    eye_height_mm: Measured
    hands_inside_mm: Measured
    hands_height_mm: Measured
    shaft_deg: Measured
    sole_tilt_deg: Measured | None
    camera_m: Measured
    most_doubt: str


def needed_points(scale: Scale) -> tuple[str, ...]:
    """The names of the points that must be there for a way of scaling."""
    ends = {"ball": (), "club": (), "length": SCALE_ENDS}[scale.kind]
    return (*TAPPED, *ends)


def measure_posture(
    points_px: Pixels, camera: Camera, *, scale: Scale, handed: str,
    lie_deg: float | None = None, tap_sd_px: float = 2.5, draws: int = 4000, seed: int = 1,
) -> Posture:  # fmt: skip
    """Work out a set-up from tapped points.

    Parameters
    ----------
    points_px
        Pixels of the upright photo by name, right and down positive: those of
        :func:`needed_points`, and of :data:`PLUMB` when a plumb line is in the photo.
    camera
        Size of the photo and what is known of how it was taken.
    scale
        The known length.
    handed
        ``right`` or ``left``.
    lie_deg
        The putter's own lie [deg]; without it there is no tilt of the sole.
    tap_sd_px
        How well a person taps [px].
    draws, seed
        How often the doubts are drawn, and from where.

    Returns
    -------
    Posture
        Means and standard deviations of the draws.

    Raises
    ------
    PointMissing, PointsTogether
        The points do not suffice.

    Examples
    --------
    >>> points = {
    ...     "eye": (470, 200),
    ...     "hands": (420, 560),
    ...     "grip_end": (400, 520),
    ...     "shaft_foot": (670, 1000),
    ...     "ball_near": (680, 985),
    ...     "ball_far": (710, 985),
    ... }
    >>> camera = Camera(size_px=(1000, 1200), distance_m=3.0, distance_sd_m=0.1)
    >>> found = measure_posture(
    ...     points, camera, scale=Scale(kind="ball", length_mm=42.67), handed="right"
    ... )
    >>> found.eye_inside_mm.mean > 0, round(found.shaft_deg.mean)
    (True, 61)
    """
    _check(points_px, scale)
    known = draw_camera(points_px, camera, scale=scale, tap_sd_px=tap_sd_px, count=draws, seed=seed)
    spots = places(known)
    ball = (spots["ball_near"] + spots["ball_far"]) / 2
    golfer = -toe_side(handed)
    eye, hands, end, foot = (spots[name] - ball for name in TAPPED[:4])
    shaft = np.degrees(np.arctan2(end[:, 1] - foot[:, 1], golfer * (end[:, 0] - foot[:, 0])))
    inside = golfer * eye[:, 0]
    ground = 1000.0 * BALL_RADIUS_M
    return Posture(
        eye_inside_mm=_measured(inside),
        eye_height_mm=_measured(eye[:, 1] + ground),
        hands_inside_mm=_measured(golfer * hands[:, 0]),
        hands_height_mm=_measured(hands[:, 1] + ground),
        shaft_deg=_measured(shaft),
        sole_tilt_deg=None if lie_deg is None else _measured(lie_deg - shaft),
        camera_m=_measured(known.distance_mm / 1000.0),
        most_doubt=_most_doubt(known, inside),
    )


def _check(points: Pixels, scale: Scale) -> None:
    needed = needed_points(scale)
    for name in needed:
        if name not in points:
            raise PointMissing(name=name, needed=", ".join(needed))
    if (PLUMB[0] in points) != (PLUMB[1] in points):
        raise PointMissing(
            name=next(name for name in PLUMB if name not in points), needed=" and ".join(PLUMB)
        )
    pairs = [(*scale.ends, "scale"), ("grip_end", "shaft_foot", "shaft")]
    if PLUMB[0] in points:
        pairs.append((*PLUMB, "upright"))
    for first, second, gives in pairs:
        if math.dist(points[first], points[second]) < 4.0:
            raise PointsTogether(first=first, second=second, gives=gives)


def _measured(values: NDArray[np.float64]) -> Measured:
    return Measured(mean=float(values.mean()), sd=float(values.std()))


def _most_doubt(known: Draws, inside: NDArray[np.float64]) -> str:
    """Which doubt goes most with the eyes' place; words that say what to measure better."""
    parts = {name: _share(cause, inside) for name, cause in known.causes.items()}
    return max(parts, key=lambda name: parts[name])


def _share(cause: NDArray[np.float64], inside: NDArray[np.float64]) -> float:
    if cause.std() < 1e-12 or inside.std() < 1e-12:
        return 0.0
    return float(np.corrcoef(cause, inside)[0, 1] ** 2)
