from __future__ import annotations

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st
from scipy import stats

from puttwright.fitting.check_again import (
    CHANGE_SD,
    SPREAD_CHANGE_SD,
    TooFewToTell,
    changed,
    drift,
)
from puttwright.fitting.order import Promise

THEN = {"bias": Promise(mean=0.3, sd=0.2), "spread": Promise(mean=0.9, sd=0.12)}


def told(readings, *, instrument_sd=0.1, **then):
    return changed(readings, instrument_sd=instrument_sd, what="starts", **(THEN | then))


def test_the_same_golfer_is_not_said_to_have_moved():
    result = told(0.3 + 0.9 * np.array([-1.2, 0.4, -0.3, 1.1, 0.0, -0.6, 0.8, -0.2]))
    assert result.probability_moved < 0.2
    assert result.probability_wider < 0.35
    assert result.surprise > 0.8


@pytest.mark.parametrize("side", [-1, 1])
def test_a_clear_shift_is_seen_on_either_side(side):
    result = told(0.3 + side * (1.8 + 0.3 * np.array([-1.2, 0.4, -0.3, 1.1, 0.0, -0.6])))
    assert result.probability_moved > 0.9
    assert result.surprise < 0.01
    assert np.sign(result.bias_change[0]) == side


def test_twice_the_spread_is_seen():
    rng = np.random.default_rng(3)
    assert told(0.3 + 2.0 * rng.standard_normal(20)).probability_wider > 0.9
    assert told(0.3 + 0.9 * rng.standard_normal(20)).probability_wider < 0.3


def test_surprise_is_the_textbook_tail_when_the_fitting_knew_all():
    readings = [0.5, 1.0, 0.2, 0.7]
    sure = {"bias": Promise(mean=0.0, sd=1e-9), "spread": Promise(mean=1.0, sd=1e-9)}
    result = told(readings, instrument_sd=0.0, **sure)
    expected = 2 * stats.norm.sf(np.mean(readings) * 2.0)
    assert result.surprise == pytest.approx(expected, rel=1e-6)


def test_a_known_spread_gives_the_normal_posterior_of_the_change():
    readings = [1.1, 0.7, 0.9, 1.3, 1.0]
    tight = {"bias": Promise(mean=0.0, sd=0.3), "spread": Promise(mean=0.01, sd=1e-6)}
    mean, low, high = told(readings, instrument_sd=0.5, **tight).bias_change
    of_mean = 0.3**2 + 0.5**2 / 5
    shrink = CHANGE_SD**2 / (CHANGE_SD**2 + of_mean)
    posterior = stats.norm(shrink * np.mean(readings), np.sqrt(shrink * of_mean))
    assert (mean, low, high) == pytest.approx(
        (posterior.mean(), *posterior.interval(0.9)), abs=0.01
    )


@pytest.mark.slow
def test_it_agrees_with_weighing_many_golfers_drawn_from_the_prior():
    readings = np.array([1.9, -0.6, 2.8, 1.2, 0.1])
    rng = np.random.default_rng(2)
    size = 400_000
    of_log = np.log1p((0.12 / 0.9) ** 2)
    spread = np.exp(np.log(0.9) - of_log / 2 + np.sqrt(of_log) * rng.standard_normal(size))
    factor = np.exp(SPREAD_CHANGE_SD * rng.standard_normal(size))
    move = CHANGE_SD * rng.standard_normal(size)
    bias = 0.3 + 0.2 * rng.standard_normal(size)
    scale = np.hypot(spread * factor, 0.1)
    likely = stats.norm.logpdf(readings[:, None], bias + move, scale).sum(axis=0)
    weight = np.exp(likely - likely.max())
    result = told(readings)
    assert result.bias_change[0] == pytest.approx(np.average(move, weights=weight), abs=0.01)
    assert result.spread_factor[0] == pytest.approx(np.average(factor, weights=weight), abs=0.01)
    moved = np.average(np.abs(move) > 0.5, weights=weight)
    assert result.probability_moved == pytest.approx(moved, abs=0.01)
    wider = np.average(factor > 1.25, weights=weight)
    assert result.probability_wider == pytest.approx(wider, abs=0.02)


@pytest.mark.slow
def test_intervals_cover_when_golfers_change_as_the_prior_says():
    rng = np.random.default_rng(11)
    inside = np.zeros(2)
    for _ in range(400):
        bias_then, spread_then = rng.normal(0.3, 0.2), 0.9 * np.exp(0.13 * rng.standard_normal())
        move = CHANGE_SD * rng.standard_normal()
        factor = np.exp(SPREAD_CHANGE_SD * rng.standard_normal())
        readings = bias_then + move + factor * spread_then * rng.standard_normal(12)
        result = told(readings, instrument_sd=1e-6)
        inside += [
            result.bias_change[1] <= move <= result.bias_change[2],
            result.spread_factor[1] <= factor <= result.spread_factor[2],
        ]
    assert np.all(np.abs(inside / 400 - 0.9) < 0.045), inside / 400


@given(
    readings=st.lists(st.floats(-5, 5), min_size=3, max_size=20),
    shift=st.floats(-3, 3),
)
def test_left_and_right_are_alike_and_only_the_difference_counts(readings, shift):
    values = np.array(readings)
    plain = told(values)
    mirrored = told(-values, bias=Promise(mean=-0.3, sd=0.2))
    moved = told(values + shift, bias=Promise(mean=0.3 + shift, sd=0.2))
    assert mirrored.probability_moved == pytest.approx(plain.probability_moved, abs=1e-9)
    assert mirrored.bias_change[0] == pytest.approx(-plain.bias_change[0], abs=1e-9)
    assert moved.bias_change == pytest.approx(plain.bias_change, abs=1e-6)


def test_two_readings_tell_nothing():
    with pytest.raises(TooFewToTell, match="at least 3"):
        told([0.1, 0.2])


def test_drift_is_told_with_the_gauge_of_both_days():
    asked = {"field": "lie_deg", "then_deg": 70.0, "tolerance_deg": 0.5}
    same = drift(now_deg=70.0, error_then_deg=0.3, error_now_deg=0.3, **asked)
    gone = drift(now_deg=71.5, error_then_deg=0.3, error_now_deg=0.3, **asked)
    unsure = drift(now_deg=70.5, error_then_deg=0.3, error_now_deg=0.3, **asked)
    assert same.probability_out < 0.05
    assert gone.probability_out > 0.99
    assert unsure.probability_out == pytest.approx(0.5, abs=0.01)
