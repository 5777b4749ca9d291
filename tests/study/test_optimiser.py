"""The generic optimiser plans its own putts, as many as anybody, and picks by its own estimate."""

from __future__ import annotations

import numpy as np
import pytest
from scipy.stats import norm

from puttwright.study.optimiser import (
    OPTIMISERS,
    Guess,
    optimise,
    strokes_gained,
    worth_of_batch,
)
from puttwright.virtual.golfers import invent

BEST = 2


@pytest.fixture(scope="module")
def golfer():
    return invent(1, seed=11)[0]


class Told:
    """A score that says how good a build is, with noise, and remembers who was putted with."""

    def __init__(self, golfer, *, noise):
        self.ids = [build.build_id for build in golfer.fitting.builds]
        self.noise = noise
        self.rng = np.random.default_rng(5)
        self.putts = []

    def __call__(self, fitting, putts):
        assert len({putt.build_id for putt in putts}) == 1
        self.putts += putts
        good = 2.0 if putts[0].build_id == self.ids[BEST] else 0.0
        return [good + self.noise * self.rng.standard_normal() for _ in putts]


@pytest.mark.slow
def test_it_takes_no_more_putts_than_the_fitting_holds_and_finds_what_is_far_better(golfer):
    told = Told(golfer, noise=0.5)
    pick = optimise(golfer, seed=3, score=told)

    assert len(golfer.fitting.putts) - 4 < len(told.putts) <= len(golfer.fitting.putts)
    assert pick.build == BEST
    assert pick.promised == pytest.approx(2.0, abs=0.5)


@pytest.mark.slow
def test_it_goes_back_to_what_looks_good_and_leaves_what_does_not(golfer):
    told = Told(golfer, noise=0.5)
    optimise(golfer, seed=3, score=told)
    share = np.mean([putt.build_id == told.ids[BEST] for putt in told.putts])

    assert share > 2.0 / len(told.ids)


@pytest.mark.slow
@pytest.mark.parametrize("name", OPTIMISERS)
def test_the_same_seed_gives_the_same_pick(golfer, name):
    first, second = (optimise(golfer, seed=8, score=OPTIMISERS[name]) for _ in range(2))

    assert first == second
    assert 0 <= first.build < len(golfer.fitting.builds)
    assert first.promised >= 0.0


def test_expected_improvement_is_the_mean_of_what_lies_beyond_the_best():
    guess = Guess(mean=np.array([0.0, -0.5, -2.0]), sd=np.array([0.3, 1.0, 0.1]))
    beyond = np.linspace(0.0, 12.0, 200_001)
    by_sum = [
        np.trapezoid(beyond * norm.pdf(beyond, mean, sd), beyond)
        for mean, sd in zip(guess.mean, guess.sd, strict=True)
    ]

    assert guess.expected_improvement == pytest.approx(by_sum, abs=1e-6)


def test_a_putt_holed_gains_strokes_and_the_nearer_of_two_misses_more(golfer):
    putts = golfer.fitting.putts
    scores = strokes_gained(golfer.fitting, putts)
    from_far = [
        (score, np.hypot(putt.stop_past_m, putt.stop_right_m))
        for score, putt in zip(scores, putts, strict=True)
        if not putt.holed and putt.distance_m == 6.0
    ]
    near, far = min(from_far, key=lambda one: one[1]), max(from_far, key=lambda one: one[1])

    holed = [score for score, putt in zip(scores, putts, strict=True) if putt.holed]
    assert min(holed) > 0.0 > far[0]
    assert near[0] > far[0]


def test_a_batch_is_worth_the_less_the_wilder_it_was(golfer):
    own = golfer.fitting.own_build
    batch = [putt for putt in golfer.fitting.putts if putt.build_id == own][:4]
    missed = [putt for putt in golfer.fitting.putts if not putt.holed]
    wild = sorted(missed, key=lambda putt: -abs(putt.stop_past_m / putt.distance_m))[:2]
    rows = [*batch[:2], *wild]

    tame_worth = worth_of_batch(golfer.fitting, batch)
    assert len(tame_worth) == 1
    same_build = [type(row)(**_of(row, own)) for row in rows]
    assert worth_of_batch(golfer.fitting, same_build)[0] < tame_worth[0]


def _of(putt, build_id):
    return {name: getattr(putt, name) for name in putt.__dataclass_fields__} | {
        "build_id": build_id
    }
