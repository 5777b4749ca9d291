"""Invented golfers, decided and held against their truth: intervals cover, claims come true."""

from __future__ import annotations

import pytest

from puttwright.study.calibration import OURS, judge_many
from puttwright.study.optimiser import OPTIMISERS
from puttwright.study.score import coverage, score, wrong_among_confident

pytestmark = [pytest.mark.simulated, pytest.mark.slow]


@pytest.fixture(scope="module")
def judged():
    return judge_many(50, seed=2026)


def test_nine_intervals_in_ten_hold_the_truth(judged):
    assert 0.80 <= coverage(judged)[0.9].mean <= 0.97


def test_half_of_the_half_intervals_hold_the_truth(judged):
    assert 0.42 <= coverage(judged)[0.5].mean <= 0.68


def test_confident_claims_are_seldom_wrong(judged):
    of = wrong_among_confident(judged)

    assert of.claims >= 10
    assert of.share <= 0.15


def test_we_promise_less_too_much_than_raw_averages_do(judged):
    scores = score(judged)

    assert scores[OURS].promised_over_delivered < 1.6
    assert scores["raw averages"].promised_over_delivered > scores[OURS].promised_over_delivered


def test_we_leave_less_on_the_table_than_keeping_or_counting_holed_putts(judged):
    scores = score(judged)

    assert scores["keep"].beyond_ours.clear
    assert scores["most holed"].beyond_ours.clear


def test_the_generic_optimiser_had_its_try_and_does_better_than_keeping(judged):
    scores = score(judged)

    assert set(OPTIMISERS) <= set(scores)
    assert all(scores[name].regret.mean < scores["keep"].regret.mean for name in OPTIMISERS)


def test_every_golfer_is_decided_and_every_chain_settled(judged):
    assert len(judged) == 50
    assert max(one.r_hat_max for one in judged) < 1.05
