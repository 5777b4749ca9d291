"""A golfer's pattern of putts, and the noise that no putter changes."""

from __future__ import annotations

import math
from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray


@dataclass(frozen=True, slots=True, kw_only=True)
class Pattern:
    """Start line and pace of many putters or posterior draws at once.

    Arrays of one shape. ``start_bias_rad`` is positive to the right of the
    intended line; ``pace_bias`` and ``pace_sd`` are fractions of the intended
    roll, which ends :data:`PLANNED_PAST_M` beyond the hole.
    """

    start_sd_rad: NDArray[np.float64]
    start_bias_rad: NDArray[np.float64]
    pace_sd: NDArray[np.float64]
    pace_bias: NDArray[np.float64]

    @classmethod
    def of(
        cls, *, start_sd_deg: float, start_bias_deg: float, pace_sd_pct: float, pace_bias_pct: float
    ) -> Pattern:
        """One pattern from the units people speak (degrees, percent)."""
        return cls(
            start_sd_rad=np.atleast_1d(math.radians(start_sd_deg)),
            start_bias_rad=np.atleast_1d(math.radians(start_bias_deg)),
            pace_sd=np.atleast_1d(pace_sd_pct / 100.0),
            pace_bias=np.atleast_1d(pace_bias_pct / 100.0),
        )

    @property
    def shape(self) -> tuple[int, ...]:
        """The common shape of the four arrays."""
        return self.start_sd_rad.shape


PLANNED_PAST_M = 0.43
"""How far past the hole a putt is meant to roll: 17 in, Pelz & Mastroni 2004 (second hand)."""


@dataclass(frozen=True, slots=True, kw_only=True)
class ReadNoise:
    """What reading the green and the green itself add to a putt, whatever the putter.

    The start-line part has a share that does not depend on length and one that
    grows with the square root of length; pace has a relative share.
    """

    line_rad: float
    line_growth_rad_per_sqrt_m: float
    pace: float

    def line_sd_rad(self, *, distance_m: NDArray[np.float64]) -> NDArray[np.float64]:
        """Standard deviation of the read line at a distance [rad]."""
        return np.hypot(self.line_rad, self.line_growth_rad_per_sqrt_m * np.sqrt(distance_m))


NO_READ_NOISE = ReadNoise(line_rad=0.0, line_growth_rad_per_sqrt_m=0.0, pace=0.0)
