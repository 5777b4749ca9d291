"""Invented golfers: repeatable, of both hands and every world, and true to their truth."""

from __future__ import annotations

import numpy as np
import pytest

from puttwright.evidence import LEFT
from puttwright.evidence.check import check
from puttwright.virtual.golfers import invent
from puttwright.virtual.worlds import WORLDS


@pytest.fixture(scope="module")
def golfers():
    return invent(12, seed=4)


def test_the_same_seed_gives_the_same_golfers(golfers):
    assert [g.fitting for g in invent(3, seed=4)] == [g.fitting for g in golfers[:3]]
    assert invent(1, seed=5)[0].fitting != golfers[0].fitting


def test_they_live_in_every_world_and_some_are_left_handed(golfers):
    assert {g.world for g in golfers} == {world.name for world in WORLDS}
    assert {g.fitting.golfer.handed for g in golfers} == {"right", LEFT}


def test_their_fittings_have_no_faults(golfers):
    assert not [fault for g in golfers for fault in check(g.fitting)]


def test_their_truth_holds_the_own_putter_at_zero(golfers):
    for golfer in golfers:
        assert golfer.true_saved(golfer.fitting.own_build) == 0.0


def test_their_putts_follow_their_truth():
    golfer = invent(1, seed=9, putts=300, aims=300)[0]
    own = golfer.fitting.own_build
    aims = [np.degrees(np.arctan2(a.reading_mm, a.board_distance_mm)) for a in golfer.fitting.aims
            if a.build_id == own]  # fmt: skip

    assert np.mean(aims) == pytest.approx(golfer.truth["builds"][own]["aim_bias_deg"], abs=0.12)
