"""What the ball's models accept, and why: one table of ranges.

A value outside raises :class:`puttwright.errors.OutOfRange` with the range and
its reason. A value inside a range but outside what a source was fitted on is
answered with a flag, a plain sentence that travels to page and paper.
"""

from __future__ import annotations

from typing import Final, NamedTuple

import numpy as np
import numpy.typing as npt

from puttwright.errors import OutOfRange

FloatArray = npt.NDArray[np.float64]


class Range(NamedTuple):
    """Lowest and highest value taken, the unit they are in and the reason."""

    low: float
    high: float
    unit: str
    why: str


RANGES: Final[dict[str, Range]] = {
    "speed_ft": Range(3.0, 16.0, "ft", "greens from uncut grass to the fastest glass"),
    "reading_ft": Range(1.0, 60.0, "ft", "how far a ball rolls off the ramp, one way"),
    "deceleration_mps2": Range(
        0.05, 4.0, "m/s²", "a ball slower or faster to stop is not on grass"
    ),
    "release_speed_mps": Range(1.5, 2.5, "m/s", "published ramp speeds lie between 1.77 and 2.41"),
    "slope": Range(0.0, 0.25, "m/m", "no hole is cut on steeper ground"),
    "sliding_friction": Range(0.05, 1.0, "", "turf friction from wet mat to dry grass"),
    "turf_restitution": Range(0.0, 0.8, "", "turf does not throw a ball back harder"),
    "ball_speed_mps": Range(0.0, 12.0, "m/s", "a putt, not a chip"),
    "launch_rad": Range(-0.27, 0.36, "rad", "launch from 15 degrees down to 20 up"),
    "spin_radps": Range(-600.0, 600.0, "rad/s", "faster spin does not come off a putter"),
    "offset_m": Range(-0.2, 0.2, "m", "the hole is 54 mm in radius"),
    "speed_mps": Range(0.0, 12.0, "m/s", "a putt, not a chip"),
    "distance_m": Range(0.05, 60.0, "m", "a putt on a green"),
    "past_m": Range(0.0, 30.0, "m", "past the hole, never short of it"),
    "head_speed_mps": Range(0.05, 10.0, "m/s", "a putting stroke"),
    "head_mass_kg": Range(0.20, 0.70, "kg", "putter heads"),
    "moi_kg_m2": Range(1e-4, 2e-3, "kg m²", "putter heads about their vertical axis"),
    "cg_depth_m": Range(0.0, 0.10, "m", "centre of gravity behind the face"),
    "restitution": Range(0.5, 1.0, "", "a ball off a putter face at putting speed"),
    "face_friction": Range(0.0, 2.0, "", "a ball on a putter face"),
    "loft_rad": Range(-0.27, 0.36, "rad", "loft from -15 to 20 degrees"),
    "angle_rad": Range(-0.8, 0.8, "rad", "a putter is swung within 45 degrees of the line"),
    "strike_m": Range(-0.08, 0.08, "m", "on the face"),
    "grass_m": Range(0.001, 0.015, "m", "height of cut of a green"),
}


def checked(*, limit: str, value: npt.ArrayLike, name: str = "") -> FloatArray:
    """The value as an array of floats, or :class:`OutOfRange` for the first one outside.

    Parameters
    ----------
    limit
        Key of :data:`RANGES`.
    value
        One number or an array; not-a-number is outside of every range.
    name
        What to call it in the sentence; the key of the range if left out.

    Examples
    --------
    >>> float(checked(limit="speed_ft", value=10))
    10.0
    """
    low, high, unit, why = RANGES[limit]
    values = np.asarray(value, dtype=np.float64)
    outside = ~((values >= low) & (values <= high))
    if outside.any():
        worst = float(values[outside].flat[0]) if values.ndim else float(values)
        raise OutOfRange(name=name or limit, value=worst, low=low, high=high, unit=unit, why=why)
    return values
