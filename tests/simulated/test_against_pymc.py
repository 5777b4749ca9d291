"""The sampler against PyMC's NUTS on the same model: equal within Monte-Carlo error."""

from __future__ import annotations

import logging
import sys

import numpy as np
import pytest

from puttwright.belief.diagnostics import bulk_ess
from puttwright.belief.model import Prior, Quantity, Readings
from puttwright.belief.sample import sample_posterior

pytestmark = [
    pytest.mark.simulated,
    pytest.mark.slow,
    # PyMC's own dependencies warn of each other's next versions; none of it is about the numbers.
    pytest.mark.filterwarnings("ignore::FutureWarning", "ignore::DeprecationWarning"),
]

BUILDS = 4
CHAINS = 4
KINDS = np.array([0, 0, 1, 1])
"""Two builds share a head shape, and so do the other two."""


def small_set():
    """Aims and start lines of four builds; some start lines seen only as inside a window."""
    rng = np.random.default_rng(41)
    facts = {
        "lever_covariance": 0.35**2 * (KINDS[:, None] == KINDS) + 0.1**2 * np.eye(BUILDS),
        "common_sd": 1.0,
        "log_spread_sd": 0.5,
        "log_spread_offset": np.array([0.0, 0.0, -0.2, 0.1]),
        "drift_sd": 0.3,
    }
    aim_group, group = np.repeat(np.arange(BUILDS), 5), np.repeat(np.arange(BUILDS), 8)
    aim_bias = np.array([0.5, 0.7, -0.4, -0.2])
    aims = aim_bias[aim_group] + 0.5 * rng.standard_normal(aim_group.size)
    starts = 0.6 * aim_bias[group] + 0.9 * rng.standard_t(5, group.size)
    holed = np.arange(group.size) % 4 == 0
    return [
        Quantity(
            name="aim",
            readings=Readings.of(
                aims, aim_group, instrument_sd=0.15, order=np.linspace(-0.5, 0.5, aims.size)
            ),
            prior=Prior(
                mean=np.array([0.0, -0.1, 0.0, 0.1]), effect_sd=0.5, log_spread_mean=-0.5,
                spread_effect_sd=0.25, **facts,
            ),
        ),
        Quantity(
            name="start",
            readings=Readings.of(
                starts,
                group,
                instrument_sd=np.where(holed, 0.25, 0.1),
                order=rng.permutation(np.linspace(-0.5, 0.5, group.size)),
                low=np.where(holed, -1.0, np.nan),
                high=np.where(holed, 1.2, np.nan),
            ),
            prior=Prior(
                mean=np.zeros(BUILDS), effect_sd=0.45, log_spread_mean=0.0,
                spread_effect_sd=0.15, **facts,
            ),
            parent="aim",
            gamma_mean=0.5,
            gamma_sd=0.35,
        ),
    ]  # fmt: skip


def ours(quantities):
    """Our draws, shape (chains, draws), by variable and group."""
    posterior = sample_posterior(quantities, seed=5, chains=CHAINS, draws=6000)
    found = {}
    for quantity in quantities:
        draws = posterior.draws[quantity.name]
        for name, values in (
            ("location", draws.location), ("log_spread", np.log(draws.spread)),
            ("effect", draws.effect), ("strength", draws.strength),
            ("centre", draws.spread_centre), ("spread_effect", draws.spread_effect),
            ("drift", draws.drift), ("gamma", draws.gamma),
        ):  # fmt: skip
            columns = values.reshape(CHAINS, -1, *values.shape[1:])
            found[f"{quantity.name}_{name}"] = columns
    return found


def columns(draws):
    """Each scalar of a variable as (chains, draws)."""
    flat = draws.reshape(*draws.shape[:2], -1)
    return [flat[..., k] for k in range(flat.shape[-1])]


def distance(one, other):
    """Difference of two means in Monte-Carlo standard errors."""
    error = sum(draws.var() / float(bulk_ess(draws[None])[0]) for draws in (one, other))
    return abs(one.mean() - other.mean()) / np.sqrt(error)


@pytest.fixture(scope="module")
def both(root):
    logging.getLogger("pymc").setLevel(logging.ERROR)
    sys.path.insert(0, str(root / "benchmarks"))
    from pymc_model import sample_nuts

    sys.path.remove(str(root / "benchmarks"))
    quantities = small_set()
    theirs = sample_nuts(quantities, seed=6, chains=2, tune=700, draws=1800)
    return ours(quantities), theirs.draws


def compared(both):
    """Every parameter both report: its name, our draws, theirs."""
    mine, theirs = both
    for name, draws in mine.items():
        if name in theirs:
            for k, pair in enumerate(zip(columns(draws), columns(theirs[name]), strict=True)):
                yield f"{name}[{k}]", *pair


# 29 parameters, and as many spreads: 4 standard errors by chance once in 270 runs of all.
BAR = 4.0


def test_every_parameter_is_compared(both):
    assert len(list(compared(both))) == 2 * (2 * BUILDS + 5) + 1


def test_posterior_means_agree(both):
    far = {name: distance(one, other) for name, one, other in compared(both)}
    assert {name: z for name, z in far.items() if z > BAR} == {}


def test_posterior_spreads_agree(both):
    far = {
        name: distance((one - other.mean()) ** 2, (other - other.mean()) ** 2)
        for name, one, other in compared(both)
    }
    assert {name: z for name, z in far.items() if z > BAR} == {}
