"""The running order: balanced where it can be, most putts where they are worth most."""

from __future__ import annotations

from itertools import pairwise

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from puttwright.fitting.next_trial import BATCH
from puttwright.fitting.running_order import (
    SoFar,
    imbalance,
    running_order,
    so_far,
    williams,
)
from puttwright.virtual.golfers import invent


def successions(rows, builds):
    """How often each build comes straight after each other within the rows."""
    count = np.zeros((builds, builds), dtype=int)
    for row in rows:
        np.add.at(count, (row[:-1], row[1:]), 1)
    return count


@pytest.mark.parametrize("builds", range(2, 10))
def test_each_build_follows_each_other_equally_often(builds):
    rows = williams(builds)
    count = successions(rows, builds)

    others = count[~np.eye(builds, dtype=bool)]
    assert set(others) == {1 if builds % 2 == 0 else 2}
    assert not count.diagonal().any()
    for place in rows.T:
        assert set(np.bincount(place, minlength=builds)) == {len(rows) // builds}
    assert rows[0][0] == 0


def draws(means, *, sd=0.4, seed=3):
    """Putts a round of builds with these means, known alike."""
    rng = np.random.default_rng(seed)
    return 30.0 + np.array(means) + sd * rng.standard_normal((2000, len(means)))


def noise_of(builds):
    return np.full(builds, 2.0)


def played(putts, *, blocks, builds):
    """What was handed over when the first of each plan is played and then planned anew."""
    done = SoFar(order=(), last_putts=0, tried=frozenset())
    for _ in range(blocks):
        build, _ = running_order(done, putts, noise=noise_of(builds))[0]
        done = SoFar(order=(*done.order, build), last_putts=BATCH, tried=done.tried | {build})
    return done.order


@given(builds=st.integers(2, 8))
def test_the_first_round_is_a_row_of_the_design_and_starts_with_the_own_putter(builds):
    nothing = SoFar(order=(), last_putts=0, tried=frozenset())

    order = running_order(nothing, draws([0.0] * builds), noise=noise_of(builds))

    first = [build for build, _ in order][:builds]
    assert first == williams(builds)[0].tolist()
    assert order[0] == (0, BATCH)


def test_a_block_that_was_begun_is_finished_first():
    begun = SoFar(order=(0, 2, 1), last_putts=1, tried=frozenset({0, 1, 2}))

    order = running_order(begun, draws([0.0, 0.0, 0.9]), noise=noise_of(3))

    assert order[0][0] == 1
    assert order[0][1] % BATCH == BATCH - 1


def test_a_build_that_cannot_win_gets_no_more_putts():
    done = SoFar(order=(0, 1, 3, 2), last_putts=BATCH, tried=frozenset(range(4)))

    order = running_order(done, draws([0.0, -0.1, -0.1, 6.0]), noise=noise_of(4))

    assert 3 not in {build for build, _ in order}


def test_what_comes_before_a_build_is_mixed_better_than_by_chance():
    order = played(draws([0.0] * 4), blocks=24, builds=4)
    rng = np.random.default_rng(0)
    chance = [imbalance(list(rng.permutation(order)), builds=4) for _ in range(200)]

    assert imbalance(order, builds=4) < np.quantile(chance, 0.01)
    assert all(one != other for one, other in pairwise(order))


def test_what_always_came_after_the_same_build_now_comes_after_others():
    done = SoFar(order=(0, 1, 2) * 3, last_putts=BATCH, tried=frozenset(range(3)))

    plan = running_order(done, draws([0.0, 0.0, 0.0]), noise=noise_of(3))

    pairs = list(pairwise([2, *(build for build, _ in plan)]))
    usual = [pair for pair in pairs if pair in {(0, 1), (1, 2), (2, 0)}]
    assert len(usual) < len(pairs) / 2


def test_a_fair_mix_counts_for_nothing_and_one_after_itself_does():
    fair = [0, 1, 3, 2, 1, 2, 0, 3, 0, 2, 3, 1, 0]

    assert imbalance(fair, builds=4) < imbalance(sorted(fair), builds=4)
    assert imbalance([0, 0, 0], builds=2) == pytest.approx(4.0)


def test_blocks_are_read_off_the_putts_in_hand():
    fitting = invent(1, seed=4, putts=4, aims=0)[0].fitting

    done = so_far(fitting, builds=fitting.builds)

    assert sorted(done.order) == list(range(len(fitting.builds)))
    assert (done.last_putts, done.unfinished) == (4, 0)
    assert len(done.tried) == len(fitting.builds)
