"""Read and green noise: what stands between a stroke and the hole besides the stroke.

Fitted by ``scripts/calibrate_noise.py`` so that a tour player (start line 1.0°
of Bansal & Broadie 2008, pace 6.3 % of Karlsen & Nilsson 2008) holes what the
31 rows of Broadie 2018 say and needs the tour's expected putts. Club golfers
read worse: Bansal & Broadie put a 90-shooter's read error at 0.25 to the
tour's 0.15, and that ratio is taken at handicap 18, in a straight line between.
"""

from __future__ import annotations

import math
from typing import Final

from puttwright.worth.pattern import ReadNoise

TOUR_START_SD_DEG: Final = 1.0
TOUR_PACE_SD_PCT: Final = 6.3

TOUR_READ_NOISE: Final = ReadNoise(
    line_rad=math.radians(0.689),
    line_growth_rad_per_sqrt_m=math.radians(0.456),
    pace=0.0472,
)

_CLUB_RATIO: Final = 0.25 / 0.15
_CLUB_HANDICAP: Final = 18.0
_MOST_RATIO: Final = 2.5
UNKNOWN_HANDICAP: Final = 12.0
"""Assumed where the golfer told none; common practice, no source."""


def read_noise_for(*, handicap: float | None) -> ReadNoise:
    """Read and green noise of a golfer of this handicap index (negative: better than scratch)."""
    told = UNKNOWN_HANDICAP if handicap is None else handicap
    ratio = 1.0 + (_CLUB_RATIO - 1.0) * max(told, 0.0) / _CLUB_HANDICAP
    ratio = min(ratio, _MOST_RATIO)
    return ReadNoise(
        line_rad=ratio * TOUR_READ_NOISE.line_rad,
        line_growth_rad_per_sqrt_m=ratio * TOUR_READ_NOISE.line_growth_rad_per_sqrt_m,
        pace=ratio * TOUR_READ_NOISE.pace,
    )
