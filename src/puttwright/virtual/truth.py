"""What an invented golfer really does with each build, and what that is really worth."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from puttwright.evidence import Build
from puttwright.evidence.signs import toe_side
from puttwright.virtual.worlds import World
from puttwright.worth.pattern import Pattern

Floats = NDArray[np.float64]


@dataclass(frozen=True, slots=True, kw_only=True)
class TrueStroke:
    """Aim, start line and pace of a golfer with each build; arrays of shape (builds,)."""

    aim_bias_deg: Floats
    aim_sd_deg: Floats
    start_bias_deg: Floats
    start_sd_deg: Floats
    pace_bias_pct: Floats
    pace_sd_pct: Floats

    @property
    def pattern(self) -> Pattern:
        """As worth takes it."""
        return Pattern(
            start_sd_rad=np.radians(self.start_sd_deg),
            start_bias_rad=np.radians(self.start_bias_deg),
            pace_sd=self.pace_sd_pct / 100.0,
            pace_bias=self.pace_bias_pct / 100.0,
        )


def invent_stroke(
    builds: Sequence[Build],
    *,
    world: World,
    handicap: float,
    handed: str,
    rng: np.random.Generator,
) -> TrueStroke:
    """Draw a golfer's true stroke with each build in a world."""
    n = len(builds)
    own = world.own
    skill = 1.0 + handicap / 36.0
    taste = {shape: rng.normal(0.0, 0.4) for shape in ("blade", "half_mallet", "mallet")}
    aim = rng.normal(0.0, 0.6) + own * rng.normal(0.0, 0.35, n)
    aim += world.lever * np.array([_aim_effect(build, taste, handed) for build in builds])
    start = (1.0 - world.steering) * aim + rng.normal(0.0, 0.3) + own * rng.normal(0.0, 0.3, n)
    pace = rng.normal(0.0, 5.0) + own * rng.normal(0.0, 3.0, n)
    pace += world.lever * np.array([_pace_effect(build) for build in builds])
    steadier = world.lever * np.array([_spread_effect(build) for build in builds])
    return TrueStroke(
        aim_bias_deg=aim,
        aim_sd_deg=0.5 * skill * np.exp(rng.normal(0.0, 0.2, n)),
        start_bias_deg=start,
        start_sd_deg=0.85
        * skill
        * np.exp(rng.normal(0, 0.12) + own * rng.normal(0, 0.1, n) + steadier),
        pace_bias_pct=pace,
        pace_sd_pct=6.5
        * skill
        * np.exp(rng.normal(0, 0.15) + own * rng.normal(0, 0.1, n) + steadier),
    )


def _aim_effect(build: Build, taste: dict[str, float], handed: str) -> float:
    shape = taste[build.head_shape or "blade"]
    offset = 0.02 * (build.offset_mm or 0.0)
    loft = -0.12 * (build.loft_deg - 3.0)
    return shape + toe_side(handed) * (loft - offset + 0.15)


def _pace_effect(build: Build) -> float:
    return 0.08 * ((build.head_mass_g or 350.0) - 350.0)


def _spread_effect(build: Build) -> float:
    inertia = build.moi_vertical_axis_g_cm2 or 5000.0
    return float(-0.12 * np.log(inertia / 5000.0))
