"""Ball and hole, simulated: what a single ball does at the rim, and what it depends on.

The shipped table (:mod:`puttwright.ball.hole`) is made with this; use it
yourself to see a lip-out or to ask what restitution and friction change.
"""

from __future__ import annotations

from dataclasses import asdict, dataclass

import numpy as np
import numpy.typing as npt

from puttwright.ball.limits import FloatArray, checked
from puttwright.ball.rim_kernel import drop, drop_all
from puttwright.units import BALL_RADIUS_M, GRAVITY_MPS2, HOLE_RADIUS_M

FATES = {1: "holed", 0: "missed", 2: "rim lip-out", 3: "hole lip-out"}


@dataclass(frozen=True, slots=True, kw_only=True)
class RimBall:
    """What the simulation assumes of turf, wall and step.

    The rim is turf and gives nothing back; the friction is of the order of
    turf's. With these the centred limit is 1.63 m/s, as published. The wall's
    restitution changes nothing (a ball that deep stays), a rim that throws the
    ball back lets faster balls drop, within 10 mm of the centre only.
    """

    rim_restitution: float = 0.0
    wall_restitution: float = 0.3
    friction: float = 0.3
    slowest_bounce_mps: float = 0.05
    hole_depth_m: float = 0.1016
    step_s: float = 2e-5
    longest_s: float = 1.5

    def as_inputs(self) -> dict[str, float]:
        """The assumptions by name, for a table's header."""
        return asdict(self)

    def as_array(self) -> FloatArray:
        """The assumptions in the kernel's order."""
        return np.array(
            [
                BALL_RADIUS_M,
                HOLE_RADIUS_M,
                self.hole_depth_m,
                self.rim_restitution,
                self.wall_restitution,
                self.friction,
                self.slowest_bounce_mps,
                self.step_s,
                self.longest_s,
            ]
        )


def _tilted_gravity(slope: npt.ArrayLike, towards_rad: npt.ArrayLike) -> FloatArray:
    grade, towards = np.broadcast_arrays(
        checked(limit="slope", value=slope), np.asarray(towards_rad, dtype=np.float64)
    )
    across = GRAVITY_MPS2 / np.hypot(1.0, grade)
    along = across * grade
    return np.stack([along * np.cos(towards), along * np.sin(towards), -across], axis=-1)


def fates(
    *,
    speed_mps: npt.ArrayLike,
    offset_m: npt.ArrayLike,
    slope: npt.ArrayLike = 0.0,
    slope_towards_rad: npt.ArrayLike = 0.0,
    ball: RimBall | None = None,
) -> npt.NDArray[np.int8]:
    """What becomes of rolling balls that cross the rim: a key of :data:`FATES` each.

    Parameters
    ----------
    speed_mps, offset_m
        Speed as the centre crosses the rim, and by how much its line misses the
        hole's centre, right positive.
    slope, slope_towards_rad
        Grade, and where downhill points from the ball's direction, right positive.
    ball
        What turf and wall are taken to be.

    Returns
    -------
    ndarray
        Broadcast of the arguments. Near the limit a hair decides; trust no single ball there.

    Examples
    --------
    >>> [FATES[int(f)] for f in fates(speed_mps=[1.0, 2.0], offset_m=0.0)]
    ['holed', 'rim lip-out']
    """
    speed = checked(limit="speed_mps", value=speed_mps)
    offset = np.asarray(offset_m, dtype=np.float64)
    shape = np.broadcast_shapes(
        speed.shape, offset.shape, np.shape(slope), np.shape(slope_towards_rad)
    )
    gravity = np.broadcast_to(_tilted_gravity(slope, slope_towards_rad), (*shape, 3))
    found = drop_all(
        np.broadcast_to(speed, shape).ravel(),
        np.broadcast_to(offset, shape).ravel(),
        gravity.reshape(-1, 3),
        (ball or RimBall()).as_array(),
    )
    return np.asarray(found.reshape(shape), dtype=np.int8)


@dataclass(frozen=True, slots=True, kw_only=True)
class RimTrack:
    """The path of one ball at the hole: time, and the centre from the hole's at green level."""

    fate: str
    lowest_m: float
    time_s: FloatArray
    centre_m: FloatArray


def track(
    *,
    speed_mps: float,
    offset_m: float,
    slope: float = 0.0,
    slope_towards_rad: float = 0.0,
    points: int = 1500,
    ball: RimBall | None = None,
) -> RimTrack:
    """Follow one ball over the rim.

    Parameters
    ----------
    speed_mps, offset_m, slope, slope_towards_rad, ball
        As in :func:`fates`.
    points
        Most rows of the track.

    Returns
    -------
    RimTrack
        Fate, lowest centre and the centre over time, from the hole's at green level.

    Examples
    --------
    >>> track(speed_mps=0.5, offset_m=0.0).fate
    'holed'
    """
    rows = np.full((points, 4), np.nan)
    gravity = _tilted_gravity(slope, slope_towards_rad)
    fate, lowest, _ = drop(speed_mps, offset_m, gravity, (ball or RimBall()).as_array(), rows)
    rows = rows[~np.isnan(rows[:, 0])]
    return RimTrack(
        fate=FATES[int(fate)], lowest_m=float(lowest), time_s=rows[:, 0], centre_m=rows[:, 1:]
    )
