"""Plans spend what they may, and all of them meet the same luck."""

from __future__ import annotations

import pytest

from puttwright.fitting.next_trial import BATCH
from puttwright.study.plans import ADAPTIVE, FIXED, UNTIL_TOLD, fixed, run_plans
from puttwright.study.stopping import looks
from puttwright.virtual.golfers import invent

pytestmark = pytest.mark.slow


@pytest.fixture(scope="module")
def golfer():
    return invent(1, seed=11)[0]


@pytest.fixture(scope="module")
def outcomes(golfer):
    return run_plans(golfer, 3)


def test_no_plan_takes_more_putts_than_its_share(golfer, outcomes):
    whole = len(golfer.fitting.putts)

    assert all(one.putts <= one.share * whole + 1e-9 for one in outcomes)
    assert all(one.putts > one.share * whole - BATCH for one in outcomes if one.plan != UNTIL_TOLD)


def test_every_plan_is_there_at_every_size(outcomes):
    sizes = [(one.plan, round(one.share, 2)) for one in outcomes]

    assert sizes == [
        (FIXED, 0.33), (FIXED, 0.67), (FIXED, 1.0),
        (ADAPTIVE, 0.4), (ADAPTIVE, 0.6), (ADAPTIVE, 0.8), (ADAPTIVE, 1.0), (UNTIL_TOLD, 1.0),
    ]  # fmt: skip


def test_regret_is_nought_or_what_a_better_build_would_have_saved(golfer, outcomes):
    saved = golfer.saved.values()
    possible = [max(saved) - one for one in saved]

    assert all(min(abs(one.regret - p) for p in possible) < 1e-9 for one in outcomes)


def test_fewer_a_head_are_as_many_with_each_build(golfer):
    builds = len(golfer.fitting.builds)

    assert [one.putts for one in fixed(golfer, seed=2)] == [4 * builds, 8 * builds, 12 * builds]


def test_the_same_seed_gives_the_same_looks(golfer):
    most = BATCH * (len(golfer.fitting.builds) + 2)
    first, second = (list(looks(golfer, seed=2, most=most)) for _ in range(2))

    assert first == second
    assert [look.putts for look in first] == [most - 2 * BATCH, most - BATCH, most]
