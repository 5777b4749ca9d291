"""What is believed before the readings, and the readings themselves, as arrays.

A *quantity* is anything read several times per group: where a laser points,
where putts start, how far they roll. Each group ``b`` (a putter, a machine, a
batch) has its own location and spread, partly pooled with the others:

.. code-block:: text

    reading_i  ~ Student-t_nu(location_b + drift * order_i, sqrt(spread_b^2 + instrument_i^2))
    location   ~ Normal(mean + gamma * location of the parent quantity,
                        common^2 11' + strength^2 K + effect^2 I)
    log spread ~ Normal(centre + offset_b, spread_effect^2)

``K`` is the covariance that known differences between the groups would give
their locations; ``strength`` learns whether such differences matter at all for
this one, and ``effect`` is what is each group's own. This room knows arrays,
not golf.
"""

from __future__ import annotations

from dataclasses import dataclass, field

import numpy as np
from numpy.typing import NDArray

Floats = NDArray[np.float64]
NU_GRID = np.array([4.0, 6.0, 10.0, 20.0, 60.0])
"""Degrees of freedom considered; 4 is heavy-tailed, 60 as good as normal."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Readings:
    """Readings of one quantity: ``n`` of them over ``B`` groups.

    ``value`` is nan where only an interval from ``low`` to ``high`` was seen.
    ``order`` runs from -0.5 (first) to 0.5 (last). Two readings of different
    quantities that share a number in ``pair`` (-1 for none) are known not to lie
    both between their limits, like line and length of a putt that was missed;
    of such a reading a nan ``value`` says nothing else.
    """

    value: Floats
    group: NDArray[np.int64]
    instrument_sd: Floats
    order: Floats
    low: Floats
    high: Floats
    pair: NDArray[np.int64]

    @classmethod
    def of(
        cls,
        value: Floats | list[float],
        group: NDArray[np.int64] | list[int],
        *,
        instrument_sd: float | Floats = 0.0,
        order: Floats | None = None,
        low: Floats | None = None,
        high: Floats | None = None,
        pair: NDArray[np.int64] | None = None,
    ) -> Readings:
        """Readings with the usual defaults: exact instrument, no order, nothing censored."""
        values = np.asarray(value, dtype=float)
        n = values.size
        return cls(
            value=values,
            group=np.asarray(group, dtype=np.int64),
            instrument_sd=np.broadcast_to(np.asarray(instrument_sd, dtype=float), n).copy(),
            order=np.zeros(n) if order is None else np.asarray(order, dtype=float),
            low=np.full(n, np.nan) if low is None else np.asarray(low, dtype=float),
            high=np.full(n, np.nan) if high is None else np.asarray(high, dtype=float),
            pair=np.full(n, -1) if pair is None else np.asarray(pair, dtype=np.int64),
        )

    @property
    def censored(self) -> NDArray[np.bool_]:
        """Which readings were not read themselves: an interval, or one of a pair."""
        return np.isfinite(self.low) & np.isfinite(self.high) & ~np.isfinite(self.value)


@dataclass(frozen=True, slots=True, kw_only=True)
class Prior:
    """What is believed of one quantity before its readings; ``B`` groups.

    Scales are in the quantity's unit, log scales are of natural logarithms.

    Attributes
    ----------
    mean : shape (B,)
        Expected location of each group.
    lever_covariance : shape (B, B)
        Covariance of the locations from known differences between the groups.
    strength_sd : float
        Scale of the half-normal on the strength of those differences; 0 leaves them out.
    common_sd : float
        Spread of what all groups share.
    effect_sd : float
        Scale of the half-normal on each group's own effect.
    log_spread_mean, log_spread_sd : float
        Normal prior of the common log spread.
    log_spread_offset : shape (B,)
        Known differences in log spread.
    spread_effect_sd : float
        Scale of the half-normal on how log spreads differ between groups.
    drift_sd : float
        Spread of the drift from first reading to last.
    """

    mean: Floats
    lever_covariance: Floats
    common_sd: float
    effect_sd: float
    log_spread_mean: float
    log_spread_sd: float
    spread_effect_sd: float
    log_spread_offset: Floats
    strength_sd: float = 1.0
    drift_sd: float = 0.0

    @property
    def groups(self) -> int:
        """Number of groups."""
        return self.mean.size


@dataclass(frozen=True, slots=True, kw_only=True)
class Quantity:
    """A quantity: its readings, its prior and the quantity it partly follows."""

    name: str
    readings: Readings
    prior: Prior
    parent: str | None = None
    gamma_mean: float = 0.0
    gamma_sd: float = 1.0


@dataclass(frozen=True, slots=True, kw_only=True)
class Draws:
    """Posterior draws of one quantity, chains laid end to end.

    ``location`` and ``spread`` have shape (draws, B); the rest (draws,).
    ``spread`` is the scale of the t distribution, ``nu`` its degrees of freedom.
    """

    location: Floats
    spread: Floats
    effect: Floats
    strength: Floats
    spread_centre: Floats
    spread_effect: Floats
    drift: Floats
    gamma: Floats
    nu: Floats


@dataclass(frozen=True, slots=True, kw_only=True)
class Diagnostics:
    """Whether the chains agree: worst rank-normalised R-hat and smallest effective sample size."""

    r_hat_max: float
    ess_min: float
    worst: str

    @property
    def poor(self) -> bool:
        """Chains that disagree or hold too little: the numbers must not be trusted as they are."""
        return not (self.r_hat_max < 1.05 and self.ess_min > 100.0)


@dataclass(frozen=True, slots=True, kw_only=True)
class Posterior:
    """Draws of every quantity by name, with how well they were made."""

    draws: dict[str, Draws]
    diagnostics: Diagnostics
    chains: int
    reruns: int = field(default=0)
