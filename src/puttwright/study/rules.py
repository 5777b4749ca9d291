"""Simple rules a fitter might use instead of belief: what the study holds ours against.

Each takes a fitting and returns which build it would choose (0 is the own
putter, first in :func:`~puttwright.fitting.believe.own_first` order) and the
strokes a round it would promise.
"""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass
from typing import Final

import numpy as np
from numpy.typing import NDArray

from puttwright.evidence import Fitting
from puttwright.fitting.believe import own_first
from puttwright.fitting.readings import Gathered, Row, gather
from puttwright.fitting.value import course_of
from puttwright.worth.pattern import Pattern
from puttwright.worth.rounds import putts_per_round

Floats = NDArray[np.float64]

_RESAMPLES: Final = 60
_LEAST_SD: Final = {"start": 0.2, "pace": 0.02}
_HOLES: Final = 18.0


@dataclass(frozen=True, slots=True, kw_only=True)
class Pick:
    """What a rule says: the build chosen and the strokes a round promised."""

    build: int
    promised: float


def raw_averages(fitting: Fitting) -> Pick:
    """Take each build's averages and spreads as they stand and choose the best."""
    saved = _raw_saved(fitting)
    best = int(saved.argmax())
    return Pick(build=best, promised=float(saved[best]))


def two_standard_errors(fitting: Fitting) -> Pick:
    """As raw averages, but only if the gain is beyond two bootstrap standard errors."""
    rng = np.random.default_rng(0)
    saved = _raw_saved(fitting)
    again = np.array([_raw_saved(fitting, rng) for _ in range(_RESAMPLES)])
    best = int(saved.argmax())
    if best and saved[best] > 2.0 * float(again[:, best].std(ddof=1)):
        return Pick(build=best, promised=float(saved[best]))
    return Pick(build=0, promised=0.0)


def most_holed(fitting: Fitting) -> Pick:
    """Choose the build with the greatest share of putts holed."""
    share = np.array([_holed_share(fitting, build.build_id) for build in own_first(fitting)])
    best = int(share.argmax())
    return Pick(build=best, promised=float(_HOLES * (share[best] - share[0])))


def keep(fitting: Fitting) -> Pick:  # noqa: ARG001 - a rule takes a fitting
    """Never change anything."""
    return Pick(build=0, promised=0.0)


RULES: Final[dict[str, Callable[[Fitting], Pick]]] = {
    "raw averages": raw_averages,
    "most holed": most_holed,
    "only if two standard errors": two_standard_errors,
    "keep": keep,
}


def _holed_share(fitting: Fitting, build_id: str) -> float:
    holed = [putt.holed for putt in fitting.used_putts if putt.build_id == build_id]
    return float(np.mean([bool(x) for x in holed])) if holed else 0.0


def raw_pattern(fitting: Fitting, rng: np.random.Generator | None = None) -> Pattern:
    """Plain averages and spreads of each build as a pattern, the own putter first.

    With ``rng`` the readings are drawn again with replacement.
    """
    gathered = gather(fitting)
    builds = [build.build_id for build in own_first(fitting)]
    start = [_mean_and_sd(gathered, "start", one, rng) for one in builds]
    pace = [_mean_and_sd(gathered, "pace", one, rng) for one in builds]
    return Pattern(
        start_sd_rad=np.radians([sd for _, sd in start]),
        start_bias_rad=np.radians([mean for mean, _ in start]),
        pace_sd=np.array([sd for _, sd in pace]),
        pace_bias=np.array([mean for mean, _ in pace]),
    )


def _raw_saved(fitting: Fitting, rng: np.random.Generator | None = None) -> Floats:
    putts = putts_per_round(raw_pattern(fitting, rng), course=course_of(fitting))
    return np.asarray(putts[0] - putts)


def _mean_and_sd(
    gathered: Gathered, quantity: str, build_id: str, rng: np.random.Generator | None
) -> tuple[float, float]:
    """Plain mean and standard deviation; a putt seen only as holed counts as the middle."""
    values = np.array(
        [_plain_value(row) for row in gathered.rows[quantity] if row.build_id == build_id]
    )
    if values.size < 2:
        return 0.0, 5.0 * _LEAST_SD[quantity]
    if rng is not None:
        values = rng.choice(values, values.size)
    return float(values.mean()), max(float(values.std(ddof=1)), _LEAST_SD[quantity])


def _plain_value(row: Row) -> float:
    return 0.5 * (row.low + row.high) if np.isnan(row.value) else row.value
