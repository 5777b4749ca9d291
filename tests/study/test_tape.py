"""A tape's luck is the same whatever plan led to a putt."""

from __future__ import annotations

from puttwright.study.tape import Tape
from puttwright.virtual.golfers import invent


def test_the_third_putt_with_a_build_is_the_same_stroke_whatever_came_before():
    session = next(one.session for one in invent(9, seed=4) if one.world == "levers matter")
    one, other = (Tape(session=session, seed=7) for _ in range(2))
    one.take(0, putts=3, distance_m=6.0)
    other.take(1, putts=4, aims=2)
    other.take(0, putts=3, distance_m=6.0)

    assert [p.ball_speed_mps for p in one.putts] == [p.ball_speed_mps for p in other.putts[4:]]
    assert [p.start_deg for p in one.putts] == [p.start_deg for p in other.putts[4:]]
    assert [p.stop_past_m for p in one.putts] == [p.stop_past_m for p in other.putts[4:]]


def test_another_seed_is_other_luck():
    session = invent(1, seed=4)[0].session
    first, second = (
        Tape(session=session, seed=seed).take(0, putts=4, distance_m=6.0) for seed in (1, 2)
    )

    assert first != second
