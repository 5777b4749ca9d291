"""Belief of a fitting: 8 builds, 120 putts and 48 aims, beside PyMC's NUTS on the same model."""

from __future__ import annotations

import logging
import time
from collections.abc import Callable, Iterator

import numpy as np
from pymc_model import sample_nuts

from puttwright.belief.diagnostics import bulk_ess
from puttwright.belief.model import Prior, Quantity, Readings
from puttwright.belief.sample import CHAINS, DRAWS, sample_posterior

BUILDS, PUTTS, AIMS = 8, 15, 6
NUTS_CHAINS, NUTS_TUNE, NUTS_DRAWS = CHAINS, 500, DRAWS
"""As many draws as ours keeps; tuning at half of PyMC's default."""


def fitting() -> list[Quantity]:
    """Aim, start line and pace of an invented golfer."""
    rng = np.random.default_rng(8)
    kinds = rng.integers(3, size=(3, BUILDS))
    covariance = 0.3**2 * sum((kind[:, None] == kind).astype(float) for kind in kinds)
    aim_group = np.repeat(np.arange(BUILDS), AIMS)
    group = np.repeat(np.arange(BUILDS), PUTTS)
    aim = 0.3 * rng.standard_normal(BUILDS)
    start = 0.5 * aim + 0.2 * rng.standard_normal(BUILDS)
    return [
        Quantity(
            name="aim",
            readings=_readings(aim[aim_group], aim_group, rng, sd=0.6, instrument_sd=0.1),
            prior=_prior(covariance, scale=1.0, spread=0.6),
        ),
        Quantity(
            name="start",
            readings=_readings(start[group], group, rng, sd=1.0, instrument_sd=0.1),
            prior=_prior(covariance, scale=0.8, spread=1.0),
            parent="aim",
            gamma_mean=0.5,
            gamma_sd=0.35,
        ),
        Quantity(
            name="pace",
            readings=_readings(0.0 * start[group], group, rng, sd=0.08, instrument_sd=0.025),
            prior=_prior(0.01 * covariance, scale=0.1, spread=0.08),
        ),
    ]


def _readings(
    mean: np.ndarray,
    group: np.ndarray,
    rng: np.random.Generator,
    *,
    sd: float,
    instrument_sd: float,
) -> Readings:
    order = rng.permutation(np.linspace(-0.5, 0.5, group.size))
    value = mean + sd * rng.standard_normal(group.size)
    return Readings.of(value, group, instrument_sd=instrument_sd, order=order)


def _prior(covariance: np.ndarray, *, scale: float, spread: float) -> Prior:
    return Prior(
        mean=np.zeros(BUILDS),
        lever_covariance=covariance,
        common_sd=scale,
        effect_sd=0.5 * scale,
        log_spread_mean=float(np.log(spread)),
        log_spread_sd=0.5,
        log_spread_offset=np.zeros(BUILDS),
        spread_effect_sd=0.2,
        drift_sd=0.3 * scale,
    )


def _timed(work: Callable[[], object]) -> tuple[float, object]:
    started = time.perf_counter()
    result = work()
    return time.perf_counter() - started, result


def _smallest_ess(chains: list[np.ndarray]) -> float:
    """Of the locations and log spreads of all quantities, each (chains, draws, builds)."""
    return min(float(bulk_ess(np.moveaxis(one, -1, 0)).min()) for one in chains)


def rows() -> Iterator[tuple[str, float, str, float]]:
    """Time for the draws each keeps, then time per effective draw of its worst parameter."""
    logging.getLogger("pymc").setLevel(logging.ERROR)
    quantities = fitting()
    sample_posterior(quantities, seed=1)
    runs = [_timed(lambda: sample_posterior(quantities, seed=2)) for _ in range(7)]
    ours_s, posterior = min(runs, key=lambda run: run[0])
    trace = sample_nuts(quantities, seed=2, chains=NUTS_CHAINS, tune=NUTS_TUNE, draws=NUTS_DRAWS)
    peer_s = trace.sampling_s
    peer = "PyMC NUTS, 4 × 500 draws, without compiling"
    yield "belief of 8 builds, 120 putts, 48 aims, warm", ours_s, peer, peer_s
    names = [quantity.name for quantity in quantities]
    mine = [
        values.reshape(CHAINS, -1, BUILDS)
        for name in names
        for values in (posterior.draws[name].location, np.log(posterior.draws[name].spread))
    ]
    theirs = [
        trace.draws[f"{name}_{part}"] for name in names for part in ("location", "log_spread")
    ]
    yield (
        "the same per effective draw of the worst location or spread",
        ours_s / _smallest_ess(mine), "PyMC NUTS", peer_s / _smallest_ess(theirs),
    )  # fmt: skip
