"""The green: its speed, its slope, and the hollow a ball sits in.

Green speed is the distance in feet a ball rolls off the ramp on level ground;
inside we use the constant deceleration behind it. A ball that rolls has 7/5 of
its mass to slow, so gravity pulls it down a slope with 5/7 g sin(theta).
"""

from __future__ import annotations

import math
from dataclasses import dataclass
from typing import Final

import numpy as np
import numpy.typing as npt

from puttwright.ball.limits import FloatArray, checked
from puttwright.units import BALL_RADIUS_M, FOOT_M, GRAVITY_MPS2, STIMP_SPEED_MPS

ROLLING_SHARE: Final = 5.0 / 7.0
"""Share of a force along the ground that accelerates a rolling uniform sphere."""

UP_DOWN_LIMIT_FT: Final = 1.5
"""Difference between up and down beyond which the booklet doubts the reading (18 in)."""

SINK_SHARE: Final = 0.025
"""Depth of the ball's hollow as a share of the height of cut; believable 0.01 to 0.04.

No source. Set so that an ordinary green (10 ft, 3.5 mm) asks for a launch near 2.6
degrees, which a putter of 3 to 4 degrees gives: the loft the trade calls usual."""


@dataclass(frozen=True, slots=True, kw_only=True)
class GreenPlane:
    """A flat piece of green.

    Parameters
    ----------
    deceleration_mps2
        Deceleration of a ball rolling on this grass on level ground.
    slope
        Steepness as a grade, metres down for each metre along the ground; 0.02 is "2 %".
    slope_towards_rad
        Where downhill points, from the target line, right positive: 0 is a
        downhill putt, pi an uphill one, pi/2 falls to the right.

    Examples
    --------
    >>> green = GreenPlane(deceleration_mps2=0.55, slope=0.02, slope_towards_rad=math.pi)
    >>> round(green.pull_mps2, 4), green.never_stops
    (0.1401, False)
    """

    deceleration_mps2: float
    slope: float = 0.0
    slope_towards_rad: float = 0.0

    def __post_init__(self) -> None:
        """Refuse what is no green."""
        checked(limit="deceleration_mps2", value=self.deceleration_mps2)
        checked(limit="slope", value=self.slope)

    @classmethod
    def of_speed(
        cls, *, speed_ft: float, slope: float = 0.0, slope_towards_rad: float = 0.0
    ) -> GreenPlane:
        """The plane of a green whose speed is known in feet."""
        return cls(
            deceleration_mps2=float(deceleration_mps2(speed_ft=speed_ft)),
            slope=slope,
            slope_towards_rad=slope_towards_rad,
        )

    @property
    def cosine(self) -> float:
        """Cosine of the angle of the slope."""
        return 1.0 / math.hypot(1.0, self.slope)

    @property
    def resistance_mps2(self) -> float:
        """Deceleration against the motion on this slope (less weight on the grass)."""
        return self.deceleration_mps2 * self.cosine

    @property
    def pull_mps2(self) -> float:
        """Acceleration of a rolling ball straight downhill, 5/7 g sin(theta)."""
        return ROLLING_SHARE * self.gravity_along_mps2

    @property
    def gravity_along_mps2(self) -> float:
        """The part of gravity that lies in the plane, pointing downhill."""
        return GRAVITY_MPS2 * self.slope * self.cosine

    @property
    def gravity_across_mps2(self) -> float:
        """The part of gravity that presses the ball on the plane."""
        return GRAVITY_MPS2 * self.cosine

    @property
    def never_stops(self) -> bool:
        """Whether a ball that heads downhill rolls on for ever (Penner 2002, eq. 18)."""
        return self.pull_mps2 >= self.resistance_mps2


def deceleration_mps2(
    *, speed_ft: npt.ArrayLike, release_speed_mps: float = STIMP_SPEED_MPS
) -> FloatArray:
    """Deceleration of a rolling ball on level ground, a = v²/(2 S).

    Parameters
    ----------
    speed_ft
        Green speed, 3 to 16 ft; outside raises.
    release_speed_mps
        Speed off the ramp. 6.00 ft/s (Holmes 1986, quoted by Penner 2002); sources
        differ, and 3 % here is 6 % in the deceleration.

    Examples
    --------
    >>> round(float(deceleration_mps2(speed_ft=10.0)), 4)
    0.5486
    """
    speed = checked(limit="speed_ft", value=speed_ft)
    checked(limit="release_speed_mps", value=release_speed_mps)
    return np.asarray(release_speed_mps**2 / (2.0 * FOOT_M * speed))


def speed_ft(
    *, deceleration_mps2: npt.ArrayLike, release_speed_mps: float = STIMP_SPEED_MPS
) -> FloatArray:
    """Green speed in feet of a deceleration; the inverse of :func:`deceleration_mps2`.

    Examples
    --------
    >>> round(float(speed_ft(deceleration_mps2=0.54864)), 6)
    10.0
    """
    deceleration = checked(limit="deceleration_mps2", value=deceleration_mps2)
    return np.asarray(release_speed_mps**2 / (2.0 * FOOT_M * deceleration))


def rho_penner2002(*, deceleration_mps2: npt.ArrayLike) -> FloatArray:
    """Penner's rolling coefficient, a = (5/7) rho g (Penner 2002, Can. J. Phys. 80:83).

    Examples
    --------
    >>> round(float(rho_penner2002(deceleration_mps2=0.54936)), 4)
    0.0784
    """
    return np.asarray(checked(limit="deceleration_mps2", value=deceleration_mps2)) / (
        ROLLING_SHARE * GRAVITY_MPS2
    )


def rolling_mu(*, deceleration_mps2: npt.ArrayLike) -> FloatArray:
    """The other books' rolling coefficient, a = mu g; 5/7 of Penner's rho.

    Examples
    --------
    >>> round(float(rolling_mu(deceleration_mps2=0.54936)), 4)
    0.056
    """
    return np.asarray(checked(limit="deceleration_mps2", value=deceleration_mps2)) / GRAVITY_MPS2


def deceleration_of_rho(*, rho: npt.ArrayLike) -> FloatArray:
    """Deceleration of Penner's rho; the inverse of :func:`rho_penner2002`."""
    return np.asarray(np.asarray(rho, dtype=np.float64) * ROLLING_SHARE * GRAVITY_MPS2)


@dataclass(frozen=True, slots=True, kw_only=True)
class LevelSpeed:
    """Green speed as it would be on level ground, and what to know about it."""

    level_ft: float
    deceleration_mps2: float
    flags: tuple[str, ...] = ()


def level_speed(
    *, up_ft: float, down_ft: float, release_speed_mps: float = STIMP_SPEED_MPS
) -> LevelSpeed:
    """Level green speed from a reading each way: the harmonic mean 2 U D/(U + D).

    Exact for a ball of constant deceleration (course-rating manual p. 31; Green
    Section Record 28(6), 1990); the plain mean is wrong on a slope.

    Parameters
    ----------
    up_ft, down_ft
        Average of three balls each way, 1 to 60 ft.
    release_speed_mps
        Speed off the ramp, as in :func:`deceleration_mps2`.

    Returns
    -------
    LevelSpeed
        Level speed, its deceleration, and flags in plain words.

    Examples
    --------
    >>> round(level_speed(up_ft=9.0, down_ft=14.0).level_ft, 3)
    10.957
    """
    checked(limit="reading_ft", value=up_ft, name="up_ft")
    checked(limit="reading_ft", value=down_ft, name="down_ft")
    level_ft = 2.0 * up_ft * down_ft / (up_ft + down_ft)
    deceleration = deceleration_mps2(speed_ft=level_ft, release_speed_mps=release_speed_mps)
    return LevelSpeed(
        level_ft=level_ft,
        deceleration_mps2=float(deceleration),
        flags=_reading_flags(up_ft=up_ft, down_ft=down_ft),
    )


def _reading_flags(*, up_ft: float, down_ft: float) -> tuple[str, ...]:
    flags = []
    if abs(down_ft - up_ft) > UP_DOWN_LIMIT_FT:
        flags.append(
            "Up and down differ by more than 18 in: read it on a more level place if there is one."
        )
    if up_ft > down_ft:
        flags.append("The uphill reading is the longer one: check which way is which.")
    return tuple(flags)


def hollow_m(*, grass_m: npt.ArrayLike, sink_share: float = SINK_SHARE) -> FloatArray:
    """Depth of the hollow a resting ball makes in the grass.

    A model of ours without a source: the ball sinks by a fixed share of the
    height of cut (see :data:`SINK_SHARE`).

    Examples
    --------
    >>> float(hollow_m(grass_m=0.004))
    0.0001
    """
    return np.asarray(checked(limit="grass_m", value=grass_m) * sink_share)


def climb_out_launch_rad(*, hollow_m: npt.ArrayLike) -> FloatArray:
    """Launch that heads from the bottom of the hollow straight at its rim.

    The hollow has the ball's own shape, so its rim lies sqrt(h (2r - h)) ahead and h
    above: tan(launch) = sqrt(h/(2r - h)). With less, the ball ploughs through the
    grass before it. A model of ours; depth matters, the ball's speed does not.

    Examples
    --------
    >>> round(math.degrees(float(climb_out_launch_rad(hollow_m=0.0001))), 2)
    2.77
    """
    depth = np.asarray(hollow_m, dtype=np.float64)
    return np.asarray(np.arctan(np.sqrt(depth / (2.0 * BALL_RADIUS_M - depth))))


def hollow_width_m(*, hollow_m: npt.ArrayLike) -> FloatArray:
    """Width of the hollow at its rim when it has the ball's own shape.

    Examples
    --------
    >>> round(float(hollow_width_m(hollow_m=0.0004)), 4)
    0.0082
    """
    depth = np.asarray(hollow_m, dtype=np.float64)
    return np.asarray(2.0 * np.sqrt(depth * (2.0 * BALL_RADIUS_M - depth)))
