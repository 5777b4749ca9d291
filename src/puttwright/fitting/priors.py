"""What is believed of each quantity before its readings: one readable table.

Units: aim, start and launch in degrees, pace and skid as fractions of the
roll, strike in mm, roll share in percent. ``source`` says where the scale comes from.
"""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass
from typing import Final

import numpy as np

from puttwright.belief.model import Floats, Prior
from puttwright.evidence import Build
from puttwright.fitting.levers import expected_location, lever_covariance


@dataclass(frozen=True, slots=True, kw_only=True)
class QuantityPrior:
    """One row: how far bias, builds and spread may lie from what is usual."""

    name: str
    usual: float
    common_sd: float
    effect_sd: float
    spread: float
    spread_factor: float
    spread_effect: float
    drift_sd: float
    source: str


PRIORS: Final = (
    QuantityPrior(
        name="aim", usual=0.0, common_sd=1.0, effect_sd=0.45, spread=0.6, spread_factor=2.0,
        spread_effect=0.25, drift_sd=0.2,
        source="Science & Golf IV: mean aim error 0.7-0.8° at 2-4 m, novices 1.1-1.4°",
    ),
    QuantityPrior(
        name="start", usual=0.0, common_sd=0.8, effect_sd=0.27, spread=1.0, spread_factor=1.5,
        spread_effect=0.13, drift_sd=0.3,
        source="Bansal & Broadie 2008: 1.0° tour, 1.5° a 90-shooter",
    ),
    QuantityPrior(
        name="pace", usual=0.0, common_sd=0.10, effect_sd=0.027, spread=0.08, spread_factor=1.5,
        spread_effect=0.13, drift_sd=0.04,
        source="Karlsen & Nilsson 2008: 6.8 % at a repeated 6 m; Bansal & Broadie 2008: 6.5-8.5 %",
    ),
    QuantityPrior(
        name="launch", usual=2.0, common_sd=2.0, effect_sd=0.5, spread=0.8, spread_factor=1.7,
        spread_effect=0.2, drift_sd=0.2, source="common practice, no source",
    ),
    QuantityPrior(
        name="strike", usual=0.0, common_sd=5.0, effect_sd=2.0, spread=5.0, spread_factor=1.7,
        spread_effect=0.2, drift_sd=1.0, source="common practice, no source",
    ),
    QuantityPrior(
        name="skid", usual=0.15, common_sd=0.10, effect_sd=0.03, spread=0.03, spread_factor=2.0,
        spread_effect=0.25, drift_sd=0.01,
        source="Cochran & Stobbs 1968; Daish: 10-20 % of the putt (second hand)",
    ),
    QuantityPrior(
        name="roll_share", usual=85.0, common_sd=10.0, effect_sd=3.0, spread=3.0, spread_factor=2.0,
        spread_effect=0.25, drift_sd=1.0,
        source="complement of the skid share, 80-90 %",
    ),
)  # fmt: skip

BY_NAME: Final = {row.name: row for row in PRIORS}

LEVER_STRENGTH_SD: Final = 0.85
"""Scale of the half-normal on how strong a golfer's levers are; 1 is the table as it stands."""

FOLLOW_MEAN, FOLLOW_SD = 0.5, 0.35
"""How much of an aim bias reaches the start line, golfers steering back the rest; no source."""


def prior_of(
    name: str, *, builds: Sequence[Build], handed: str, log_spread_offset: Floats | None = None
) -> Prior:
    """The prior of a quantity for these builds, the first being the golfer's own.

    ``log_spread_offset`` is what is known of how their spreads differ, none by default.
    """
    row = BY_NAME[name]
    n = len(builds)
    return Prior(
        mean=row.usual + expected_location(builds, quantity=name, handed=handed),
        lever_covariance=lever_covariance(builds, quantity=name),
        strength_sd=LEVER_STRENGTH_SD if lever_covariance(builds, quantity=name).any() else 0.0,
        common_sd=row.common_sd,
        effect_sd=row.effect_sd,
        log_spread_mean=math.log(row.spread),
        log_spread_sd=math.log(row.spread_factor),
        log_spread_offset=np.zeros(n) if log_spread_offset is None else log_spread_offset,
        spread_effect_sd=row.spread_effect,
        drift_sd=row.drift_sd,
    )
