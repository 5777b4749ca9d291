"""Weeks later: whether the golfer with this putter has changed, or it is a day like any.

A short test is held against the fitting's own belief of the same build. Two things may
have moved: where it goes (``bias``) and how widely it scatters (``spread``). Both
changes have a prior from judgement: a golfer is mostly as before, half a degree or a
quarter of the spread different from one month to another. What the test says is told
as the probability that the change is more than a golfer would notice, and, the other
way round, as how surprising the test would be had nothing changed at all.
"""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass
from typing import Final

import numpy as np
from numpy.typing import NDArray
from scipy.special import ndtr, ndtri

from puttwright.errors import UserError
from puttwright.fitting.order import Promise

Floats = NDArray[np.float64]

CHANGE_SD: Final = 0.5
"""How far a bias moves from one month to another [°]; from judgement."""
SPREAD_CHANGE_SD: Final = 0.25
"""The same for the logarithm of the spread; from judgement."""
NOTICED: Final = 0.5
"""A change of bias [°] worth acting on."""
NOTICED_FACTOR: Final = 1.25
"""So much more spread is worth acting on."""
LEAST_READINGS: Final = 3
_NODES: Final = 15
_STEPS: Final = 121
_REACH: Final = 4.0


class TooFewToTell(UserError):
    """{count} {what} tell nothing yet; take at least {least}, better a dozen."""

    code = "too-few-to-tell"


class NotPromised(UserError):
    """The order holds no figures of {what} from the fitting, so there is nothing to hold them against; the fitting read none with this build."""  # noqa: E501

    code = "not-promised"


@dataclass(frozen=True, slots=True, kw_only=True)
class Changed:
    """What a short test says: now, then, and how sure it is that something moved.

    ``bias_change`` and ``spread_factor`` are mean and central 90 % interval;
    ``surprise`` is the chance of a mean at least as far off, had nothing changed.
    """

    readings: int
    mean_now: float
    bias_then: float
    spread_now: float
    spread_then: float
    bias_change: tuple[float, float, float]
    spread_factor: tuple[float, float, float]
    probability_moved: float
    probability_wider: float
    surprise: float


def changed(
    readings: Sequence[float], *, bias: Promise, spread: Promise, instrument_sd: float, what: str
) -> Changed:
    """Hold new readings against the fitting's figures.

    Parameters
    ----------
    readings
        Of one quantity with this build, in its unit.
    bias, spread
        What the fitting believes of the same: mean and sd of the location and of the spread.
    instrument_sd
        Standard deviation of one reading's own error, in the unit of the readings.
    what
        Their name, for errors.

    Returns
    -------
    Changed
        By quadrature, so that the same readings give the same figures.

    Raises
    ------
    TooFewToTell
        Fewer than three readings.

    Examples
    --------
    >>> then = dict(bias=Promise(mean=0.0, sd=0.2), spread=Promise(mean=1.0, sd=0.15))
    >>> told = changed([1.9, 2.2, 1.4, 2.1, 2.6, 1.7], instrument_sd=0.1, what="starts", **then)
    >>> told.probability_moved > 0.9, told.surprise < 0.01
    (True, True)
    """
    values = np.asarray(readings, dtype=float)
    n = len(values)
    if n < LEAST_READINGS:
        raise TooFewToTell(count=n, what=what, least=LEAST_READINGS)
    mean, square = float(values.mean()), float(values.var(ddof=1))
    old, weight_old = _spread_nodes(spread)
    log_factor = np.linspace(-_REACH, _REACH, _STEPS) * SPREAD_CHANGE_SD
    now = old[:, None] * np.exp(log_factor)[None, :]
    seen = now**2 + instrument_sd**2
    of_mean = bias.sd**2 + seen / n
    log_weight = (
        np.log(weight_old)[:, None]
        - 0.5 * (log_factor / SPREAD_CHANGE_SD) ** 2
        + _log_normal(mean - bias.mean, CHANGE_SD**2 + of_mean)
        - 0.5 * (n - 1) * (np.log(seen) + square / seen)
    )
    weight = np.exp(log_weight - log_weight.max())
    weight /= weight.sum()
    shrink = CHANGE_SD**2 / (CHANGE_SD**2 + of_mean)
    centre, sd = shrink * (mean - bias.mean), np.sqrt(shrink * of_mean)
    factor = np.exp(log_factor)
    of_factor = weight.sum(axis=0)
    return Changed(
        readings=n,
        mean_now=mean,
        bias_then=bias.mean,
        spread_now=math.sqrt(max(square - instrument_sd**2, 0.0)),
        spread_then=spread.mean,
        bias_change=_mixed(centre, sd, weight),
        spread_factor=_weighed(factor, of_factor),
        probability_moved=_beyond(centre, sd, weight, limit=NOTICED),
        probability_wider=float(of_factor[factor > NOTICED_FACTOR].sum()),
        surprise=_surprise(mean - bias.mean, old=old, weight=weight_old, bias=bias,
                           instrument_sd=instrument_sd, n=n),
    )  # fmt: skip


def _spread_nodes(spread: Promise) -> tuple[Floats, Floats]:
    """Spreads the fitting believes in, lognormal with its mean and sd, and their weights."""
    of_log = math.log1p((spread.sd / spread.mean) ** 2)
    x, w = np.polynomial.hermite_e.hermegauss(_NODES)
    nodes = np.exp(math.log(spread.mean) - 0.5 * of_log + math.sqrt(of_log) * x)
    return nodes, np.maximum(w / w.sum(), 1e-300)


def _log_normal(off: float, variance: Floats) -> Floats:
    return np.asarray(-0.5 * (np.log(variance) + off**2 / variance))


def _beyond(centre: Floats, sd: Floats, weight: Floats, *, limit: float) -> float:
    outside = 1.0 - ndtr((limit - centre) / sd) + ndtr((-limit - centre) / sd)
    return float((weight * outside).sum())


def _mixed(centre: Floats, sd: Floats, weight: Floats) -> tuple[float, float, float]:
    """Mean and central 90 % interval of a mixture of normals, by bisection of its CDF."""

    def quantile(share: float) -> float:
        low = float((centre + ndtri(share) * sd).min())
        high = float((centre + ndtri(share) * sd).max())
        for _ in range(60):
            middle = 0.5 * (low + high)
            below = float((weight * ndtr((middle - centre) / sd)).sum())
            low, high = (middle, high) if below < share else (low, middle)
        return 0.5 * (low + high)

    return float((weight * centre).sum()), quantile(0.05), quantile(0.95)


def _weighed(values: Floats, weight: Floats) -> tuple[float, float, float]:
    below = np.cumsum(weight) - 0.5 * weight
    low, high = np.interp([0.05, 0.95], below, values)
    return float((weight * values).sum()), float(low), float(high)


def _surprise(
    off: float, *, old: Floats, weight: Floats, bias: Promise, instrument_sd: float, n: int
) -> float:
    """Posterior predictive tail of the mean, both sides, had nothing changed."""
    sd = np.sqrt(bias.sd**2 + (old**2 + instrument_sd**2) / n)
    return float((weight * 2.0 * ndtr(-abs(off) / sd)).sum())


@dataclass(frozen=True, slots=True, kw_only=True)
class Drift:
    """An angle measured again: ``sd`` of the change comes from the gauge, both times."""

    field: str
    then: float
    now: float
    sd: float
    tolerance: float

    @property
    def change(self) -> float:
        """Now less then."""
        return self.now - self.then

    @property
    def probability_out(self) -> float:
        """That it drifted by more than its tolerance, a flat prior on the drift."""
        far = (self.tolerance - self.change) / self.sd
        near = (-self.tolerance - self.change) / self.sd
        return float(1.0 - ndtr(far) + ndtr(near))


def drift(
    *,
    field: str,
    then_deg: float,
    now_deg: float,
    error_then_deg: float,
    error_now_deg: float,
    tolerance_deg: float,
) -> Drift:
    """The drift of one angle.

    Parameters
    ----------
    field
        ``loft_deg`` or ``lie_deg``.
    then_deg, now_deg
        As it was handed over and as it is [°].
    error_then_deg, error_now_deg
        Expanded uncertainty (k = 2) of either [°].
    tolerance_deg
        How far it may be off [°].

    Examples
    --------
    >>> told = drift(
    ...     field="loft_deg",
    ...     then_deg=3.0,
    ...     now_deg=4.0,
    ...     error_then_deg=0.3,
    ...     error_now_deg=0.3,
    ...     tolerance_deg=0.5,
    ... )
    >>> round(told.probability_out, 3)
    0.991
    """
    sd = 0.5 * math.hypot(error_then_deg, error_now_deg)
    return Drift(field=field, then=then_deg, now=now_deg, sd=max(sd, 1e-6), tolerance=tolerance_deg)
