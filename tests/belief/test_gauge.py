"""Gauge studies: laws of the variance components, and intervals that cover what is true."""

from __future__ import annotations

import math

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st
from scipy import stats

from puttwright.belief.gauge import study
from puttwright.belief.mean_squares import Term, mean_squares, span_of_sum


def crossed(parts, appraisers, repeats):
    part = np.repeat(np.arange(parts), appraisers * repeats)
    appraiser = np.tile(np.repeat(np.arange(appraisers), repeats), parts)
    return {"part": part, "appraiser": appraiser}


def readings(seed, who, *, hands=0.5, crossing=0.0, repeat=1.0):
    rng = np.random.default_rng(seed)
    parts, appraisers = who["part"].max() + 1, who["appraiser"].max() + 1
    return (
        rng.normal(0, 3, parts)[who["part"]]
        + rng.normal(0, hands, appraisers)[who["appraiser"]]
        + rng.normal(0, crossing, (parts, appraisers))[who["part"], who["appraiser"]]
        + rng.normal(0, repeat, len(who["part"]))
    )


@given(st.floats(-1e3, 1e3), st.sampled_from([-2.0, 0.1, 7.0]), st.integers(0, 99))
def test_a_shift_changes_no_spread_and_a_scale_every_one_alike(shift, scale, seed):
    who = crossed(4, 3, 2)
    values = readings(seed, who)

    before, after = study(values, **who), study(shift + scale * values, **who)

    for name in ("repeatability", "reproducibility", "both", "parts"):
        told, scaled = getattr(before, name), getattr(after, name)
        assert scaled.value == pytest.approx(abs(scale) * told.value, rel=1e-6, abs=1e-6)
        assert scaled.high == pytest.approx(abs(scale) * told.high, rel=1e-6, abs=1e-6)


def test_one_hand_is_the_pooled_spread_with_its_chi_square_interval():
    who = crossed(6, 1, 4)
    values = readings(3, who)
    within = np.mean([values[who["part"] == each].var(ddof=1) for each in range(6)])

    found = study(values, **who)

    assert found.reproducibility is None
    assert found.repeatability.value == pytest.approx(math.sqrt(within))
    low, high = (18 * within / stats.chi2.ppf(each, 18) for each in (0.95, 0.05))
    assert (found.repeatability.low, found.repeatability.high) == pytest.approx(
        (math.sqrt(low), math.sqrt(high))
    )


def test_readings_that_are_missing_move_no_figure_far():
    who = crossed(8, 3, 5)
    values = readings(5, who)
    keep = np.random.default_rng(1).permutation(len(values))[: len(values) - 10]
    whole = study(values, **who)
    lacking = study(values[keep], part=who["part"][keep], appraiser=who["appraiser"][keep])

    assert lacking.repeatability.value == pytest.approx(whole.repeatability.value, rel=0.1)
    assert lacking.both.value == pytest.approx(whole.both.value, rel=0.2)


def test_an_interaction_that_is_there_is_not_pooled():
    who = crossed(10, 3, 3)

    found = study(readings(2, who, crossing=2.0), **who)

    assert not found.pooled
    assert found.interaction_probability < 0.01
    assert found.squares.interaction is not None


def test_what_was_read_once_tells_no_repeatability():
    with pytest.raises(ValueError, match="read twice"):
        mean_squares(np.arange(6.0), **crossed(3, 2, 1))


@pytest.mark.parametrize("true", [0.0, 1.5, -0.8])
def test_the_bias_is_against_the_reference(true):
    who = crossed(9, 1, 4)
    reference = np.linspace(-50, 50, 9)[who["part"]]
    noise = np.random.default_rng(8).normal(0, 0.1, len(reference))

    bias = study(1.01 * reference + true + noise, reference=reference, **who).bias

    assert bias.mean.low <= true <= bias.mean.high
    assert bias.slope.value == pytest.approx(0.01, abs=0.002)


def test_repeats_that_are_all_the_same_are_as_good_as_the_step_allows():
    who = crossed(3, 1, 3)

    found = study(np.repeat([1.0, 1.5, 3.0], 3), **who)

    assert found.repeatability.value == pytest.approx(0.0, abs=1e-12)
    assert found.repeatability_sd == pytest.approx(0.5 / math.sqrt(12))
    assert found.told_apart(5) == pytest.approx(
        1.645 * found.repeatability_sd * math.sqrt(0.4), 1e-3
    )


@pytest.mark.simulated
@pytest.mark.slow
@pytest.mark.parametrize(
    ("shape", "hands", "crossing"),
    [((5, 3, 3), 1.0, 0.0), ((5, 3, 3), 1.0, 0.7), ((1, 4, 5), 0.5, 0)],
)
def test_nine_intervals_in_ten_cover_what_is_true(shape, hands, crossing):
    who = crossed(*shape)
    truths = (1.0, math.hypot(hands, crossing), math.hypot(1.0, hands, crossing))
    covered = np.zeros(3)
    for seed in range(600):
        found = study(readings(seed, who, hands=hands, crossing=crossing), **who)
        spans = (found.repeatability, found.reproducibility, found.both)
        covered += [span.low <= true <= span.high for span, true in zip(spans, truths, strict=True)]

    # Three standard errors of a share of 600 below what is claimed, and never far above.
    assert (covered / 600 > 0.9 - 0.037).all()
    assert (covered / 600 < 0.96).all()


def test_a_difference_of_equal_mean_squares_has_an_interval_about_nought():
    terms = [Term(square=2.0, df=9), Term(square=2.0, df=20, weight=-1.0)]

    span = span_of_sum(terms, share=0.9)

    assert span.low < 0.0 < span.high
