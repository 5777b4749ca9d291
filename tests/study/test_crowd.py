from __future__ import annotations

import os

import pytest

from puttwright.study.crowd import with_each


def _what_it_got(golfer, seed):
    return golfer.fitting.golfer.alias, seed, os.environ["OPENBLAS_NUM_THREADS"], os.getpid()


@pytest.mark.slow
def test_each_golfer_has_a_seed_of_their_own_whoever_else_is_there(monkeypatch):
    monkeypatch.setenv("OPENBLAS_NUM_THREADS", "2")
    told = []
    three = with_each(_what_it_got, 3, seed=4, progress=told.append)
    two = with_each(_what_it_got, 2, seed=4)

    assert [one[:2] for one in three[:2]] == [one[:2] for one in two]
    assert len({one[1] for one in three}) == 3
    assert told == [1, 2, 3]
    assert {one[2] for one in three} == {"1"}
    assert os.environ["OPENBLAS_NUM_THREADS"] == "2"
    assert os.getpid() not in {one[3] for one in three}
