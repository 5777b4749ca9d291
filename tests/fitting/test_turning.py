"""What would change the answer: found where it was put, mirrored, told with its readings."""

from __future__ import annotations

import dataclasses

import numpy as np
import pytest
from scipy.stats import norm

from puttwright.evidence import Build
from puttwright.evidence.signs import mirrored
from puttwright.fitting.decide import decide
from puttwright.fitting.turning import FIGURES, Standing, Turn, turns
from puttwright.fitting.would_change import _shown
from puttwright.virtual.golfers import invent
from puttwright.worth.pattern import Pattern

START, _, PACE, _ = FIGURES
BUILDS = tuple(
    Build(build_id=name, length_mm=864, lie_deg=71, loft_deg=3) for name in ("own", "B", "C")
)
LEAD, SLOPE, SD = 0.3, 0.5, 0.4


def standing(*, slope=SLOPE, answer=1):
    """B is worth 0.3 more than the own putter, and less by ``slope`` for each degree to the left.

    C is far behind, whatever happens.
    """
    rng = np.random.default_rng(8)
    start_deg = np.column_stack([np.zeros(4000), SD * rng.standard_normal(4000), np.zeros(4000)])
    noise = 0.05 * rng.standard_normal(4000)
    worth = np.column_stack(
        [np.zeros(4000), LEAD + slope * start_deg[:, 1] + noise, np.full(4000, -5.0)]
    )
    even = np.full_like(start_deg, 0.01)
    pattern = Pattern(
        start_sd_rad=even, start_bias_rad=np.radians(start_deg), pace_sd=even, pace_bias=0 * even
    )
    return Standing(builds=BUILDS, pattern=pattern, worth=worth, answer=answer)


def test_the_threshold_lies_where_the_worths_cross():
    (turn,) = turns(standing())

    assert (turn.build, turn.figure, turn.upward, turn.answer) == (1, START, False, 0)
    assert turn.threshold == pytest.approx(-LEAD / SLOPE, abs=0.05)
    assert turn.probability == pytest.approx(norm.cdf(-LEAD / SLOPE / SD), abs=0.015)


def test_the_mirror_image_turns_on_the_other_side():
    (left,), (right,) = turns(standing()), turns(standing(slope=-SLOPE))

    assert right.upward is not left.upward
    assert right.threshold == pytest.approx(-left.threshold, abs=0.05)


def test_what_moves_nothing_turns_nothing():
    assert turns(standing(slope=0.0)) == ()


def test_no_turn_is_told_when_another_build_looks_best():
    assert turns(standing(answer=0)) == ()


@pytest.fixture(scope="module")
def golfer():
    return invent(8, seed=5)[1]


@pytest.fixture(scope="module")
def decision(golfer):
    return decide(golfer.fitting, worth_draws=400)


def test_the_figures_rest_on_readings_that_are_there(golfer, decision):
    *figures, conditions = decision.would_change
    seqs = {putt.seq for putt in golfer.fitting.putts}

    assert figures
    for reason in figures:
        assert "the answer would be" in reason.text
        (rows,) = reason.rests_on
        assert rows.table == "putts"
        assert rows.seq
        assert set(rows.seq) <= seqs
    assert "2 ft" in conditions.text or "first putts" in conditions.text


def test_a_left_handers_mirror_image_says_left_for_right(golfer):

    def sideways(fitting):
        said = " ".join(reason.text for reason in decide(fitting).would_change)
        return {word for word in ("further left", "further right") if word in said}

    swap = {"further left": "further right", "further right": "further left"}
    there, mirror = sideways(golfer.fitting), sideways(mirrored(golfer.fitting))

    assert there
    assert mirror == {swap[word] for word in there}


def test_nothing_is_said_of_one_build_alone(golfer):
    own = golfer.fitting.own_build
    alone = dataclasses.replace(
        golfer.fitting,
        builds=(golfer.fitting.build(own),),
        putts=tuple(p for p in golfer.fitting.putts if p.build_id == own),
        aims=(),
    )

    assert decide(alone, worth_draws=100).would_change == ()


@pytest.mark.parametrize(("now", "said"), [(-11.0, "shorter"), (4.0, "longer")])
def test_a_pace_is_said_against_what_was_meant_not_against_the_hole(now, said):
    turn = Turn(
        figure=PACE, build=1, now=now, threshold=now + 2.0, upward=True, answer=0, probability=0.2
    )

    words = _shown(turn)

    assert words.startswith("rolling putts at least 2")
    assert f"(now {abs(now):.0f}\u2009% {said} than meant)" in words
