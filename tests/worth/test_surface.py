"""Putts a round from a fitted surface: as good as one by one, or one by one."""

from __future__ import annotations

import numpy as np
import pytest

from puttwright.evidence import Green
from puttwright.worth import surface
from puttwright.worth.first_putts import TOUR_FIRST_PUTTS
from puttwright.worth.noise import read_noise_for
from puttwright.worth.pattern import Pattern
from puttwright.worth.rounds import Course, putts_per_round
from puttwright.worth.surface import putts_per_round_of_many

COURSE = Course(
    greens=(Green(name="home", speed_ft=10.0, share=1.0),),
    first_putts=TOUR_FIRST_PUTTS,
    noise=read_noise_for(handicap=9.0),
)


def cloud(draws: int, *, builds: int = 7, seed: int = 1, bias_deg: float = 0.5) -> Pattern:
    """Posterior draws as a fitting has them: builds a little apart, tails of Student's t."""
    rng = np.random.default_rng(seed)
    shape = (draws, builds)
    return Pattern(
        start_sd_rad=np.radians(np.exp(0.15 * rng.standard_t(8, shape))),
        start_bias_rad=np.radians(
            bias_deg * rng.standard_normal(builds) + 0.25 * rng.standard_t(8, shape)
        ),
        pace_sd=0.09 * np.exp(0.15 * rng.standard_t(8, shape)),
        pace_bias=0.04 * rng.standard_normal(builds) + 0.025 * rng.standard_t(8, shape),
    )


@pytest.mark.parametrize("seed", [1, 2, 3])
def test_the_surface_says_what_one_by_one_says(seed):
    pattern = cloud(300, seed=seed)

    missed = putts_per_round_of_many(pattern, course=COURSE) - putts_per_round(
        pattern, course=COURSE
    )

    assert 0.0 < np.sqrt((missed**2).mean()) < 0.01
    assert np.abs(missed.mean(axis=0)).max() < 0.003
    assert np.abs(missed).max() < 0.1


def test_few_patterns_are_computed_one_by_one():
    pattern = cloud(30)

    assert np.array_equal(
        putts_per_round_of_many(pattern, course=COURSE), putts_per_round(pattern, course=COURSE)
    )


def test_where_a_polynomial_misses_all_are_computed(monkeypatch):
    pattern = cloud(200)
    monkeypatch.setattr(surface, "MOST_MISSED", 0.0)

    assert np.array_equal(
        putts_per_round_of_many(pattern, course=COURSE), putts_per_round(pattern, course=COURSE)
    )


def test_builds_that_never_vary_do_no_harm():
    pattern = cloud(400)
    level = Pattern(
        start_sd_rad=pattern.start_sd_rad,
        start_bias_rad=np.zeros(pattern.shape),
        pace_sd=pattern.pace_sd,
        pace_bias=pattern.pace_bias,
    )

    missed = putts_per_round_of_many(level, course=COURSE) - putts_per_round(level, course=COURSE)

    assert np.abs(missed).max() < 0.1
