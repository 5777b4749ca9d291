"""Draws weighed by readings that came after them, against scipy's densities and new chains."""

from __future__ import annotations

import numpy as np
import pytest
from scipy.stats import t as student_t

from puttwright.belief.model import Draws, Prior, Quantity, Readings
from puttwright.belief.reweigh import left, log_likelihood, taken_again, weights_of
from puttwright.belief.sample import sample_posterior


def draws(location, spread, *, nu=6.0, drift=0.0):
    location = np.atleast_2d(np.asarray(location, dtype=float))
    n = location.shape[0]
    nothing = np.zeros(n)
    return Draws(
        location=location, spread=np.broadcast_to(spread, location.shape), effect=nothing,
        strength=nothing, spread_centre=nothing, spread_effect=nothing,
        drift=np.full(n, drift), gamma=nothing, nu=np.full(n, nu),
    )  # fmt: skip


def test_a_reading_is_as_likely_as_scipy_says_with_its_instrument_and_the_drift():
    of = draws([[0.2, -0.1], [0.5, 0.3]], 0.8, drift=0.4)
    read = Readings.of([0.7, -0.2], [1, 0], instrument_sd=0.6, order=np.array([0.5, -0.5]))

    found = log_likelihood({"start": of}, {"start": read})

    expected = [
        student_t.logpdf(0.7, 6.0, b + 0.2, 1.0) + student_t.logpdf(-0.2, 6.0, a - 0.2, 1.0)
        for a, b in of.location
    ]
    assert found == pytest.approx(expected, rel=1e-12)


def test_a_reading_of_which_only_limits_are_known_is_as_likely_as_lying_between_them():
    read = Readings.of([np.nan], [0], low=np.array([-1.0]), high=np.array([0.5]))

    found = log_likelihood({"start": draws([[0.2]], 0.8)}, {"start": read})

    between = np.diff(student_t.cdf([-1.0, 0.5], 6.0, 0.2, 0.8))
    assert found == pytest.approx(np.log(between), rel=1e-9)


@pytest.mark.parametrize("line", [np.nan, 0.1, 3.0])
def test_of_a_missed_putt_line_and_length_do_not_both_lie_inside(line):
    of = {"start": draws([[0.2]], 0.8), "pace": draws([[0.1]], 0.2)}
    pair, low, high = np.array([7]), np.array([-1.0]), np.array([1.0])
    read = {
        "start": Readings.of([line], [0], low=low, high=high, pair=pair),
        "pace": Readings.of([np.nan], [0], low=low / 10, high=high / 10, pair=pair),
    }

    found = log_likelihood(of, read)

    length_in = float(np.diff(student_t.cdf([-0.1, 0.1], 6.0, 0.1, 0.2))[0])
    line_in = float(np.diff(student_t.cdf([-1.0, 1.0], 6.0, 0.2, 0.8))[0])
    seen = student_t.logpdf(line, 6.0, 0.2, 0.8)
    expected = {
        True: np.log(1.0 - line_in * length_in),
        False: seen + np.log(1.0 - (length_in if line < 1.0 else 0.0)),
    }
    assert found == pytest.approx([expected[bool(np.isnan(line))]], rel=1e-9)


def test_draws_are_taken_again_as_often_as_their_weight_says():
    weight = np.array([0.5, 0.0, 0.3, 0.2])

    assert left(weight) == pytest.approx(1.0 / (4 * 0.38))
    assert taken_again(weight).tolist() == [0, 0, 2, 3]
    assert taken_again(np.full(5, 0.2)).tolist() == [0, 1, 2, 3, 4]


def test_where_a_few_draws_would_carry_all_there_are_no_weights():
    assert weights_of(np.array([0.0, -9.0, -9.0, -9.0, -9.0])) is None
    evenly = weights_of(np.array([700.0, 701.0, 700.5]))
    assert evenly is not None
    assert evenly.sum() == pytest.approx(1.0)


def posterior(values, group):
    prior = Prior(
        mean=np.zeros(2), lever_covariance=np.zeros((2, 2)), strength_sd=0.0, common_sd=1.0,
        effect_sd=0.5, log_spread_mean=0.0, log_spread_sd=0.5, log_spread_offset=np.zeros(2),
        spread_effect_sd=0.2,
    )  # fmt: skip
    quantity = Quantity(name="start", readings=Readings.of(values, group), prior=prior)
    return sample_posterior([quantity], seed=1, draws=3000).draws


def test_weighed_draws_agree_with_a_chain_that_had_the_readings():
    rng = np.random.default_rng(5)
    group = [0, 1] * 12
    values = (rng.standard_normal(24) + [0.4, -0.3] * 12).tolist()
    before = posterior(values, group)
    new = [1.6, 1.4]

    weight = weights_of(log_likelihood(before, {"start": Readings.of(new, [1, 1])}))

    assert weight is not None
    after = posterior([*values, *new], [*group, 1, 1])["start"]
    was, want = (each["start"].location.mean(axis=0) for each in (before, {"start": after}))
    got = before["start"].location[taken_again(weight)].mean(axis=0)
    assert abs(want - was).max() > 0.1
    assert got == pytest.approx(want, abs=0.02)
    spread = before["start"].spread[taken_again(weight)].mean(axis=0)
    assert spread == pytest.approx(after.spread.mean(axis=0), abs=0.02)
