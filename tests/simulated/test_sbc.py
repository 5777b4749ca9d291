"""Simulation-based calibration: truths drawn from the prior rank evenly among posterior draws.

Talts, Betancourt, Simpson, Vehtari & Gelman 2018, arXiv:1804.06788, algorithm 2: for a truth
drawn from the prior and readings drawn from the model, the truth's rank among thinned posterior
draws is uniform. Any fault of the sampler, and any disagreement between it and the model as it is
written down, bends a histogram of ranks.
"""

from __future__ import annotations

import dataclasses
from concurrent.futures import ThreadPoolExecutor

import numpy as np
import pytest
from scipy.stats import chisquare, norm

from puttwright.belief.model import NU_GRID, Prior, Quantity, Readings
from puttwright.belief.sample import sample_posterior

pytestmark = [pytest.mark.simulated, pytest.mark.slow]

BUILDS = 4
GOLFERS = 480
SWEEPS = 4000
KEPT = 39
BINS = 10
"""39 thinned draws make 40 ranks, four to a bin; 480 golfers put 48 in each bin."""
LEVEL = 0.01
KINDS = np.array([0, 0, 1, 1])
WINDOW = (-0.6, 0.8)
"""A start line in this window is seen only as being in it, like that of a holed putt."""

SHARED = {
    "lever_covariance": 0.35**2 * (KINDS[:, None] == KINDS),
    "common_sd": 1.0,
    "log_spread_sd": 0.5,
    "log_spread_offset": np.array([0.0, 0.1, -0.2, 0.0]),
    "drift_sd": 0.4,
}
AIM = Prior(
    mean=np.array([0.0, -0.1, 0.2, 0.0]), effect_sd=0.5, log_spread_mean=-0.5,
    spread_effect_sd=0.4, **SHARED,
)  # fmt: skip
START = Prior(
    mean=np.zeros(BUILDS), effect_sd=0.45, log_spread_mean=0.0, spread_effect_sd=0.3, **SHARED
)
PACE = Prior(
    mean=np.zeros(BUILDS), effect_sd=0.4, log_spread_mean=0.1, spread_effect_sd=0.25, **SHARED
)
FOLLOW_MEAN, FOLLOW_SD = 0.5, 0.35
COUNTS = {"aim": (6, 4, 0, 5), "start": (8, 5, 6, 0)}
"""Readings a build, of pace as many as of start; one was never aimed, another never putted."""
ONLY_HOLED_OR_NOT = 0.4
PACE_WINDOW = (-0.5, 1.2)
"""Of so many putts only that is known: both in their windows, or not both."""


def draw_truth(prior, rng, *, parent=None):
    """Parameters of one quantity from its prior."""
    effect, strength = np.abs(rng.standard_normal(2)) * (prior.effect_sd, prior.strength_sd)
    gamma = FOLLOW_MEAN + FOLLOW_SD * rng.standard_normal() if parent else 0.0
    covariance = prior.common_sd**2 + strength**2 * prior.lever_covariance
    covariance = covariance + effect**2 * np.eye(BUILDS)
    location = rng.multivariate_normal(prior.mean, covariance)
    if parent:
        location = location + gamma * parent["location"]
    centre = rng.normal(prior.log_spread_mean, prior.log_spread_sd)
    width = prior.spread_effect_sd * abs(rng.standard_normal())
    log_spread = centre + prior.log_spread_offset + width * rng.standard_normal(BUILDS)
    return {
        "effect": effect, "strength": strength, "gamma": gamma, "location": location,
        "centre": centre, "spread_effect": width, "log_spread": log_spread,
        "drift": rng.normal(0.0, prior.drift_sd), "nu": rng.choice(NU_GRID),
    }  # fmt: skip


def draw_readings(truth, counts, rng, *, window=None):
    """Readings the model makes of a truth, those inside the window seen only as that."""
    return seen_in_window(draw_values(truth, counts, rng), window=window)


def draw_values(truth, counts, rng):
    """What an all-seeing eye would read, with how well the instrument does."""
    group = np.repeat(np.arange(BUILDS), counts)
    order = rng.permutation(np.linspace(-0.5, 0.5, group.size))
    instrument_sd = rng.choice([0.0, 0.15, 0.4], group.size)
    scale = np.hypot(np.exp(truth["log_spread"][group]), instrument_sd)
    value = truth["location"][group] + truth["drift"] * order
    value = value + scale * rng.standard_t(truth["nu"], group.size)
    return Readings.of(value, group, instrument_sd=instrument_sd, order=order)


def seen_in_window(readings, *, window):
    """The same, those inside the window seen only as that."""
    low, high = window or (np.inf, -np.inf)
    inside = (readings.value > low) & (readings.value < high)
    return dataclasses.replace(
        readings, value=np.where(inside, np.nan, readings.value),
        low=np.where(inside, low, np.nan), high=np.where(inside, high, np.nan),
    )  # fmt: skip


def draw_putts(start, pace, rng):
    """Start lines and paces; of some putts only whether both lay in their windows."""
    lines, paces = (draw_values(truth, COUNTS["start"], rng) for truth in (start, pace))
    inside = [
        (readings.value > low) & (readings.value < high)
        for readings, (low, high) in ((lines, WINDOW), (paces, PACE_WINDOW))
    ]
    holed = inside[0] & inside[1]
    unread = rng.random(holed.size) < ONLY_HOLED_OR_NOT
    lines, paces = (
        dataclasses.replace(
            readings,
            value=np.where(unread, np.nan, readings.value),
            low=np.where(unread, low, np.nan), high=np.where(unread, high, np.nan),
            pair=np.where(unread & ~holed, np.arange(holed.size), -1),
        )
        for readings, (low, high) in ((lines, WINDOW), (paces, PACE_WINDOW))
    )  # fmt: skip
    seen = seen_in_window(lines, window=WINDOW)
    return dataclasses.replace(
        lines, value=seen.value, low=np.where(unread, lines.low, seen.low),
        high=np.where(unread, lines.high, seen.high),
    ), paces  # fmt: skip


def reported(draws):
    """Draws of everything reported of a quantity, by name."""
    return {
        "location of the first build": draws.location[:, 0],
        "location of the last build": draws.location[:, -1],
        "difference of two locations": draws.location[:, 2] - draws.location[:, 0],
        "log spread of the first build": np.log(draws.spread[:, 0]),
        "log spread of the last build": np.log(draws.spread[:, -1]),
        "effect": draws.effect,
        "strength": draws.strength,
        "centre": draws.spread_centre,
        "spread effect": draws.spread_effect,
        "drift": draws.drift,
        "gamma": draws.gamma,
        "nu": draws.nu,
    }


def of_truth(truth):
    """The same figures of a truth."""
    location, log_spread = truth["location"], truth["log_spread"]
    return {
        "location of the first build": location[0],
        "location of the last build": location[-1],
        "difference of two locations": location[2] - location[0],
        "log spread of the first build": log_spread[0],
        "log spread of the last build": log_spread[-1],
        "effect": truth["effect"],
        "strength": truth["strength"],
        "centre": truth["centre"],
        "spread effect": truth["spread_effect"],
        "drift": truth["drift"],
        "gamma": truth["gamma"],
        "nu": truth["nu"],
    }


def ranks_of(golfer):
    """Rank of each parameter's truth among thinned draws, ties broken by lot."""
    rng = np.random.default_rng([2018, golfer])
    aim = draw_truth(AIM, rng)
    start = draw_truth(START, rng, parent=aim)
    pace = draw_truth(PACE, rng)
    lines, paces = draw_putts(start, pace, rng)
    quantities = [
        Quantity(name="aim", readings=draw_readings(aim, COUNTS["aim"], rng), prior=AIM),
        Quantity(
            name="start", readings=lines, prior=START,
            parent="aim", gamma_mean=FOLLOW_MEAN, gamma_sd=FOLLOW_SD,
        ),
        Quantity(name="pace", readings=paces, prior=PACE),
    ]  # fmt: skip
    posterior = sample_posterior(quantities, seed=golfer, chains=1, warm_up=500, draws=SWEEPS)
    ranks = {}
    for name, truth in (("aim", aim), ("start", start), ("pace", pace)):
        true = of_truth(truth)
        for parameter, draws in reported(posterior.draws[name]).items():
            if parameter != "gamma" or name == "start":
                kept = draws[:: draws.size // KEPT][:KEPT]
                below, level = np.sum(kept < true[parameter]), np.sum(kept == true[parameter])
                ranks[f"{parameter} of {name}"] = below + rng.integers(level + 1)
    return ranks


@pytest.fixture(scope="module")
def ranks():
    ranks_of(0)  # compiled before two threads ask for it
    with ThreadPoolExecutor(2) as pool:  # the kernels hold no lock
        golfers = list(pool.map(ranks_of, range(GOLFERS)))
    return {name: np.array([golfer[name] for golfer in golfers]) for name in golfers[0]}


def test_every_parameter_of_every_quantity_is_ranked(ranks):
    assert len(ranks) == 34


def test_ranks_are_even(ranks):
    chances = {}
    for name, rank in ranks.items():
        counts = np.bincount(rank * BINS // (KEPT + 1), minlength=BINS)
        chances[name] = chisquare(counts).pvalue

    assert {name: p for name, p in chances.items() if p < LEVEL / len(ranks)} == {}


def test_ranks_lie_evenly_about_their_middle(ranks):
    """Sharper than the histogram where a posterior is shifted."""
    chances = {}
    for name, rank in ranks.items():
        error = np.sqrt(((KEPT + 1) ** 2 - 1) / 12.0 / rank.size)
        chances[name] = 2.0 * norm.sf(abs(rank.mean() - KEPT / 2.0) / error)

    assert {name: p for name, p in chances.items() if p < LEVEL / len(ranks)} == {}
