"""The sampler: truth found, odd readings survived, the same seed the same draws."""

from __future__ import annotations

import numpy as np
import pytest
from scipy.stats import t as student_t

from puttwright.belief.model import Prior, Quantity, Readings
from puttwright.belief.sample import sample_posterior


def prior(groups, **changed):
    facts = {
        "mean": np.zeros(groups),
        "lever_covariance": np.zeros((groups, groups)),
        "strength_sd": 0.0,
        "common_sd": 1.0,
        "effect_sd": 0.5,
        "log_spread_mean": 0.0,
        "log_spread_sd": 0.5,
        "log_spread_offset": np.zeros(groups),
        "spread_effect_sd": 0.2,
    }
    return Prior(**{**facts, **changed})


def quantity(values, group, *, groups=3, name="start", **changed):
    readings = Readings.of(np.asarray(values, dtype=float), np.asarray(group), **changed)
    return Quantity(name=name, readings=readings, prior=prior(groups))


def posterior_of(*quantities, seed=1, **settings):
    return sample_posterior(quantities, seed=seed, **settings)


def test_many_readings_find_the_truth():
    rng = np.random.default_rng(3)
    group = np.repeat([0, 1, 2], 400)
    truth, spread = np.array([0.5, -0.4, 0.1]), np.array([0.8, 1.0, 1.2])

    posterior = posterior_of(
        quantity(truth[group] + spread[group] * rng.standard_normal(1200), group)
    )
    draws = posterior.draws["start"]

    assert draws.location.mean(axis=0) == pytest.approx(truth, abs=0.12)
    assert (draws.spread).mean(axis=0) == pytest.approx(spread, abs=0.15)
    assert not posterior.diagnostics.poor


def test_the_same_seed_gives_the_same_draws_and_another_does_not():
    one = quantity([0.1, 0.3, -0.2], [0, 1, 2])

    first = posterior_of(one).draws["start"].location
    again = posterior_of(one).draws["start"].location
    other = posterior_of(one, seed=2).draws["start"].location

    assert (first == again).all()
    assert not (first == other).all()


def test_without_readings_the_posterior_is_the_prior():
    draws = posterior_of(quantity([], np.array([], dtype=int)), draws=2000).draws["start"]

    assert draws.location[:, 0].mean() == pytest.approx(0.0, abs=0.1)
    assert draws.location[:, 0].std() == pytest.approx(np.sqrt(1.0 + 0.25), rel=0.1)
    assert np.log(draws.spread_centre.std()) == pytest.approx(np.log(0.5), abs=0.15)


def test_a_wild_reading_does_not_decide():
    rng = np.random.default_rng(4)
    group = np.repeat([0, 1, 2], 12)
    values = rng.standard_normal(36)
    wild = values.copy()
    wild[0] = 30.0

    calm = posterior_of(quantity(values, group)).draws["start"].location[:, 0].mean()
    moved = posterior_of(quantity(wild, group)).draws["start"].location[:, 0].mean()

    assert abs(moved - calm) < 0.4


@pytest.mark.parametrize("values", [[0.2] * 9, [0.0] * 9])
def test_identical_readings_keep_a_wide_honest_interval(values):
    draws = posterior_of(quantity(values, np.repeat([0, 1, 2], 3))).draws["start"]

    assert np.isfinite(draws.location).all()
    assert (draws.location.std(axis=0) > 0.01).all()


def _inside(draws):
    """Share of readings of each group within one of zero, draw by draw."""
    nu = draws.nu[:, None]
    above = student_t.cdf(1.0 - draws.location, nu, scale=draws.spread)
    return above - student_t.cdf(-1.0 - draws.location, nu, scale=draws.spread)


def test_pairs_known_only_as_both_inside_or_not_tell_how_often():
    """Without the missed ones, every unread putt would seem to lie inside."""
    rng = np.random.default_rng(8)
    group = np.repeat([0, 1], 400)
    line, pace = (np.array([0.7, 1.6])[group] * rng.standard_normal(800) for _ in range(2))
    holed = (abs(line) < 1.0) & (abs(pace) < 1.0)
    window = {"low": np.full(800, -1.0), "high": np.full(800, 1.0)}
    pair = np.where(holed, -1, np.arange(800))

    posterior = posterior_of(
        *(
            quantity(np.full(800, np.nan), group, groups=2, name=name, pair=pair, **window)
            for name in ("start", "pace")
        )
    )

    share = np.prod([_inside(draws) for draws in posterior.draws.values()], axis=0).mean(axis=0)
    true = [holed[group == b].mean() for b in range(2)]
    assert share == pytest.approx(true, abs=0.05)


def test_intervals_hold_censored_readings_inside_what_was_seen():
    low, high = np.full(30, 0.5), np.full(30, 1.5)
    seen = quantity([np.nan] * 30, np.repeat([0, 1, 2], 10), low=low, high=high)

    draws = posterior_of(seen).draws["start"]

    assert draws.location.mean() == pytest.approx(1.0, abs=0.25)


def test_instrument_error_is_taken_out_of_the_spread():
    rng = np.random.default_rng(6)
    group = np.repeat([0, 1, 2], 200)
    values = rng.standard_normal(600) * np.hypot(0.6, 0.8)

    plain = posterior_of(quantity(values, group)).draws["start"].spread.mean()
    known = posterior_of(quantity(values, group, instrument_sd=0.8)).draws["start"].spread.mean()

    assert plain == pytest.approx(1.0, abs=0.12)
    assert known == pytest.approx(0.6, abs=0.12)


def test_a_quantity_follows_its_parent():
    rng = np.random.default_rng(7)
    bias = np.linspace(-2.0, 2.0, 8)
    group = np.repeat(np.arange(8), 40)
    aim = Quantity(
        name="aim",
        readings=Readings.of(bias[group] + 0.5 * rng.standard_normal(320), group),
        prior=prior(8, effect_sd=1.0),
    )
    start = Quantity(
        name="start",
        readings=Readings.of(0.7 * bias[group] + 0.5 * rng.standard_normal(320), group),
        prior=prior(8),
        parent="aim",
        gamma_mean=0.5,
        gamma_sd=0.35,
    )

    gamma = posterior_of(aim, start).draws["start"].gamma

    assert gamma.mean() == pytest.approx(0.7, abs=0.12)
