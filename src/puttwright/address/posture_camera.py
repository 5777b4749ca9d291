"""The camera behind the golfer: what is known of it, drawn, and where its pixels then lie.

Right, up and toward the target are positive from the camera on; a point's depth
is how far it lies nearer to the camera than the ball. Spreads without a source are
guesses, wide on purpose.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from typing import Final

import numpy as np
from numpy.typing import NDArray

Vector = NDArray[np.float64]

ASSUMED_M: Final = (3.0, 0.7)
"""How far away a photo is taken when nobody says; a guess."""
LEVEL_SD_DEG: Final = 4.0
"""How far up or down a camera looks that is held level by eye; a guess."""
BY_LEVEL_SD_DEG: Final = 1.0
"""The same when the phone's own level was looked at; a guess."""
ALONG_SD_DEG: Final = 4.0
"""How far to a side a camera looks that is pointed along the line by eye; a guess."""
UPRIGHT_SD_DEG: Final = 1.5
"""How far a camera is tilted that is held upright by eye; a guess."""
FOCAL_SD_SHARE: Final = 0.04
DEPTHS_MM: Final[Mapping[str, tuple[float, float]]] = {
    "eye": (50.0, 60.0),
    "hands": (20.0, 50.0),
    "shaft_foot": (20.0, 20.0),
}
"""Nearer to the camera than the ball, and the spread: eyes a little behind the ball is common
practice, no source; the spreads are guesses. The grip's end goes with the hands."""
_ROUNDS: Final = 8


@dataclass(frozen=True, slots=True, kw_only=True)
class Camera:
    """How the photo was taken: what is not known is ``None`` and drawn wide."""

    size_px: tuple[int, int]
    distance_m: float | None = None
    distance_sd_m: float = 0.1
    focal_px: float | None = None
    eye_behind_mm: float | None = None
    eye_behind_sd_mm: float = 25.0
    level_sd_deg: float = LEVEL_SD_DEG
    along_sd_deg: float = ALONG_SD_DEG


@dataclass(frozen=True, slots=True, kw_only=True)
class Scale:
    """A known length: ``ball``, ``club`` (grip end to ground), or a ``length`` between two points.

    ``depth_mm`` is how much nearer than the ball a ``length`` lies, within ``depth_sd_mm``.
    """

    kind: str
    length_mm: float
    length_sd_mm: float = 0.0
    depth_mm: float = 0.0
    depth_sd_mm: float = 50.0

    @property
    def ends(self) -> tuple[str, str]:
        """The points at its ends."""
        if self.kind == "club":
            return ("grip_end", "shaft_foot")
        return ("ball_near", "ball_far") if self.kind == "ball" else ("scale_a", "scale_b")


@dataclass(frozen=True, slots=True, kw_only=True)
class Draws:
    """Each doubt drawn: rays by point, depths by point, distance; and the causes by their words."""

    rays: dict[str, Vector]
    depths_mm: dict[str, Vector]
    distance_mm: Vector
    causes: dict[str, Vector]


def places(known: Draws) -> dict[str, Vector]:
    """Where the points lie from the camera, right and up [mm], shape (draws, 2) each."""
    return {
        name: ray * (known.distance_mm - known.depths_mm[name])[:, None]
        for name, ray in known.rays.items()
    }


def draw_camera(
    points_px: Mapping[str, tuple[float, float]], camera: Camera, *, scale: Scale,
    tap_sd_px: float, count: int, seed: int,
) -> Draws:  # fmt: skip
    """Draw everything that is not known, and solve for the distance that the scale asks for.

    Parameters
    ----------
    points_px
        Pixels of the upright photo by name, right and down positive.
    camera
        What is known of the camera.
    scale
        The known length; its ends are among the points.
    tap_sd_px
        Spread of a tap [px].
    count, seed
        How many draws, and from where.

    Returns
    -------
    Draws
        Arrays of ``count`` each.

    Examples
    --------
    >>> known = draw_camera(
    ...     {"eye": (500, 200), "ball_near": (680, 985), "ball_far": (710, 985)},
    ...     Camera(size_px=(1000, 1200), distance_m=3.0),
    ...     count=500,
    ...     seed=1,
    ...     tap_sd_px=1.0,
    ...     scale=Scale(kind="ball", length_mm=42.67),
    ... )
    >>> round(float(known.distance_mm.mean()) / 1000, 1)
    3.0
    """
    rng = np.random.default_rng(seed)
    middle = (np.asarray(camera.size_px, float) - 1.0) / 2.0
    seen = {
        name: (np.asarray(at, float) - middle) * (1.0, -1.0)
        + rng.normal(0.0, tap_sd_px, (count, 2))
        for name, at in points_px.items()
    }
    pitch = np.radians(camera.level_sd_deg) * rng.standard_normal(count)
    yaw = np.radians(camera.along_sd_deg) * rng.standard_normal(count)
    guess = np.radians(UPRIGHT_SD_DEG) * rng.standard_normal(count)
    depths = _depths(seen, camera, scale, rng=rng, count=count)
    length = scale.length_mm + scale.length_sd_mm * rng.standard_normal(count)
    wanted, focal = _optics(camera, rng=rng, count=count)
    for _ in range(_ROUNDS):
        roll = _upright(seen, focal, pitch, yaw) if "plumb_top" in seen else guess
        rays = {name: _ray(at / focal[:, None], roll, pitch, yaw) for name, at in seen.items()}
        first, second = scale.ends
        distance = _distance(
            (rays[first], rays[second]), (depths[first], depths[second]), length_mm=length
        )
        if wanted is None:
            break
        focal = focal * wanted / distance
    # A pair of taps is one cause: what it does to the scale.
    apart = np.linalg.norm(seen[first] - seen[second], axis=1)
    causes = {
        "where the scale's ends were tapped": apart,
        "how far the camera stood": focal if wanted is None else wanted,
        "whether the camera looked level": pitch,
        "whether the camera looked along the line": yaw,
        "whether the camera stood upright": guess if "plumb_top" not in seen else pitch * 0.0,
        "how far behind the ball the eyes are": depths["eye"],
        "how near the scale lies": depths[first],
        "where the eyes were tapped": seen["eye"][:, 0],
    }
    return Draws(rays=rays, depths_mm=depths, distance_mm=distance, causes=causes)


def _depths(
    seen: Mapping[str, Vector], camera: Camera, scale: Scale, *, rng: np.random.Generator,
    count: int,
) -> dict[str, Vector]:  # fmt: skip
    """How much nearer than the ball each point lies; what is on the ball lies with it."""
    depths = {name: np.zeros(count) for name in seen}
    for name, (mean, sd) in DEPTHS_MM.items():
        depths[name] = mean + sd * rng.standard_normal(count)
    if camera.eye_behind_mm is not None:
        off = camera.eye_behind_sd_mm * rng.standard_normal(count)
        depths["eye"] = camera.eye_behind_mm + off
    depths["grip_end"] = depths["hands"] + 10.0 * rng.standard_normal(count)
    if scale.kind == "length":
        near = scale.depth_mm + scale.depth_sd_mm * rng.standard_normal(count)
        depths["scale_a"] = depths["scale_b"] = near
    return depths


def _optics(
    camera: Camera, *, rng: np.random.Generator, count: int
) -> tuple[Vector | None, Vector]:
    """The distance wanted, or ``None`` when the focal length is known and says it; and a focal."""
    if camera.distance_m is None and camera.focal_px is not None:
        share = FOCAL_SD_SHARE * rng.standard_normal(count)
        return None, camera.focal_px * np.exp(share)
    mean, sd = ASSUMED_M
    if camera.distance_m is not None:
        mean, sd = camera.distance_m, camera.distance_sd_m
    wanted = 1000.0 * mean * np.exp(sd / mean * rng.standard_normal(count))
    return wanted, np.full(count, 0.8 * max(camera.size_px))


def _ray(at: Vector, roll: Vector, pitch: Vector, yaw: Vector) -> Vector:
    """Right and up per unit of distance along the line, for pixels per focal length."""
    x = at[:, 0] * np.cos(roll) - at[:, 1] * np.sin(roll)
    y = at[:, 0] * np.sin(roll) + at[:, 1] * np.cos(roll)
    up = y * np.cos(pitch) + np.sin(pitch)
    along = np.cos(pitch) - y * np.sin(pitch)
    right = x * np.cos(yaw) + along * np.sin(yaw)
    ahead = along * np.cos(yaw) - x * np.sin(yaw)
    return np.column_stack([right / ahead, up / ahead])


def _upright(seen: Mapping[str, Vector], focal: Vector, pitch: Vector, yaw: Vector) -> Vector:
    """The roll that puts the ends of the plumb line above each other, by Newton's rule."""
    top, foot = (seen[name] / focal[:, None] for name in ("plumb_top", "plumb_foot"))
    along = top - foot
    roll = np.arctan2(along[:, 0], along[:, 1])

    def off(turn: Vector) -> Vector:
        ends = (_ray(end, turn, pitch, yaw)[:, 0] for end in (top, foot))
        return next(ends) - next(ends)

    for _ in range(6):
        slope = (off(roll + 1e-5) - off(roll - 1e-5)) / 2e-5
        roll = roll - off(roll) / slope
    return roll


def _distance(
    rays: tuple[Vector, Vector], depths: tuple[Vector, Vector], *, length_mm: Vector
) -> Vector:
    """Where the two ends of a length come to be that far apart: the larger root of a square."""
    ends = [np.column_stack([ray, np.ones(len(ray))]) for ray in rays]
    apart = ends[0] - ends[1]
    shift = ends[0] * depths[0][:, None] - ends[1] * depths[1][:, None]
    a = np.maximum((apart**2).sum(axis=1), 1e-12)
    b = (apart * shift).sum(axis=1)
    c = (shift**2).sum(axis=1) - length_mm**2
    root: Vector = (b + np.sqrt(np.maximum(b * b - a * c, 0.0))) / a
    return root
