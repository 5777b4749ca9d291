"""Putts a round from a fitted surface: as good as one by one, or one by one."""

from __future__ import annotations

from dataclasses import replace

import numpy as np
import pytest

from puttwright.evidence import Green
from puttwright.worth import surface
from puttwright.worth.first_putts import TOUR_FIRST_PUTTS
from puttwright.worth.noise import read_noise_for
from puttwright.worth.pattern import Pattern
from puttwright.worth.rounds import Course, putts_per_round, putts_per_round_on
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


def test_what_another_green_adds_is_known_from_a_few_draws():
    pattern = cloud(200)
    faster = replace(
        COURSE, greens=tuple(replace(g, speed_ft=g.speed_ft + 2.0) for g in COURSE.greens)
    )
    usual, other = putts_per_round_on(pattern, courses=(COURSE, faster))
    moved = other - usual
    rows = np.linspace(0, 199, 16).astype(int)

    (found,) = surface.means_from_few([moved[rows]], pattern=pattern, rows=rows)

    missed = np.abs(found - moved.mean(axis=0)).max()
    assert 0.0 < missed < 0.005
    assert missed < 0.5 * np.abs(moved[rows].mean(axis=0) - moved.mean(axis=0)).max()
