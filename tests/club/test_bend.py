"""Bending: what the gauge shows, both hands, what is never bent, and back again."""

import math

import pytest
from hypothesis import given
from hypothesis import strategies as st

from puttwright.club.alloys import ALLOYS, NECKS, BendTooFar, NotBendable, judge_bend, refuse_bend
from puttwright.club.bench_steps import order_of_work
from puttwright.club.bend import BARS, Set, after_bend, bent, set_of, turns_for
from puttwright.club.parts import Grip, Head, Shaft
from puttwright.club.putter import Putter
from puttwright.errors import OutOfRange
from puttwright.evidence import LEFT, RIGHT

WAS = Set(loft_rad=math.radians(3.0), lie_rad=math.radians(70.0), offset_m=0.01)
small = st.floats(-4.0, 4.0).map(math.radians)


@given(loft=small, lie=small, bar=st.sampled_from(BARS))
def test_the_gauge_then_shows_what_was_wanted(loft, lie, bar):
    done = bent(WAS, turns=turns_for(WAS, add_loft_rad=loft, add_lie_rad=lie, bar=bar))
    assert done.after.loft_rad == pytest.approx(WAS.loft_rad + loft, abs=1e-12)
    assert done.after.lie_rad == pytest.approx(WAS.lie_rad + lie, abs=1e-7)


@given(loft=small, lie=small, bar=st.sampled_from(BARS))
def test_a_left_handers_aim_is_the_mirror_of_a_right_handers(loft, lie, bar):
    turns = turns_for(WAS, add_loft_rad=loft, add_lie_rad=lie, bar=bar)
    right, left = (bent(WAS, turns=turns, handed=hand) for hand in (RIGHT, LEFT))
    assert left.aim_soled_rad == -right.aim_soled_rad
    assert left.aim_held_rad == -right.aim_held_rad
    assert (left.after, left.hang_rad, left.toe_up_rad) == (
        right.after, right.hang_rad, right.toe_up_rad,
    )  # fmt: skip


@given(loft=small, lie=small)
def test_bent_there_and_back_is_what_it_was(loft, lie):
    there = bent(WAS, turns=turns_for(WAS, add_loft_rad=loft)).after
    back = bent(there, turns=turns_for(there, add_loft_rad=-loft)).after
    flat = bent(back, turns=turns_for(back, add_lie_rad=lie)).after
    home = bent(flat, turns=turns_for(flat, add_lie_rad=-lie)).after
    for name in WAS.__slots__:
        assert getattr(home, name) == pytest.approx(getattr(WAS, name), abs=1e-9), name


def test_more_loft_takes_offset_and_more_upright_lifts_the_toe():
    weaker = bent(WAS, turns=turns_for(WAS, add_loft_rad=math.radians(2.0)))
    assert weaker.after.offset_m < WAS.offset_m
    assert weaker.aim_held_rad == pytest.approx(0.0, abs=1e-12)
    up = bent(WAS, turns=turns_for(WAS, add_lie_rad=math.radians(2.0)))
    assert up.toe_up_rad == pytest.approx(math.radians(2.0))
    # The lie's own formula: a lofted face with its toe up looks to the heel side.
    heel = math.atan(math.tan(WAS.loft_rad) * math.sin(math.radians(2.0)))
    assert up.aim_held_rad == pytest.approx(-heel, rel=1e-9)
    assert up.after.offset_m == pytest.approx(WAS.offset_m)


def test_a_bar_square_to_the_shaft_turns_the_face_against_the_grip():
    turns = turns_for(WAS, add_loft_rad=math.radians(2.0), bar="shaft")
    done = bent(WAS, turns=turns)
    # About the upright axis it turns by the bend times the cosine of the lie.
    expected = turns.loft_rad * math.cos(WAS.lie_rad)
    assert done.aim_soled_rad == pytest.approx(-expected, rel=2e-3)
    assert bent(WAS, turns=turns_for(WAS, add_loft_rad=0.03)).aim_soled_rad == 0.0


def test_the_whole_putter_follows_the_bend():
    putter = Putter(
        head=Head(mass_kg=0.35, cg_from_axis_m=0.02, cg_behind_face_m=0.018),
        shaft=Shaft(mass_kg=0.12, length_m=0.9), grip=Grip(mass_kg=0.065),
        length_m=0.8636, lie_rad=math.radians(70.0), loft_rad=math.radians(3.0),
    )  # fmt: skip
    was = set_of(putter)
    done = bent(was, turns=turns_for(was, add_lie_rad=math.radians(-2.0)))
    after = after_bend(putter, done=done)
    before, now = putter.values(), after.values()
    assert now["hang_rad"] == pytest.approx(done.hang_rad)
    assert now["hang_rad"] < before["hang_rad"]
    # The shaft is the same piece, so as much of it is left.
    assert after.cut_m == pytest.approx(putter.cut_m)
    assert now["total_kg"] == pytest.approx(before["total_kg"])


@pytest.mark.parametrize("alloy", [name for name, metal in ALLOYS.items() if metal.never])
def test_what_is_never_bent_is_refused_however_little(alloy):
    with pytest.raises(NotBendable, match="what is possible is a head or neck made to"):
        refuse_bend(bend_rad=math.radians(0.1), alloy=alloy, neck="one_piece")


@pytest.mark.parametrize("neck", [name for name, why in NECKS.items() if why])
def test_glued_necks_are_never_bent_whatever_the_metal(neck):
    with pytest.raises(NotBendable):
        refuse_bend(bend_rad=math.radians(0.1), alloy="carbon_steel", neck=neck)
    with pytest.raises(NotBendable):
        refuse_bend(bend_rad=math.radians(0.1), neck=neck)


@pytest.mark.parametrize(
    ("degrees", "verdict"),
    [(0.0, "within"), (2.0, "within"), (2.01, "ask"), (4.0, "ask"), (4.01, "refuse")],
)
def test_both_sides_of_each_limit(degrees, verdict):
    bend = math.radians(degrees)
    assert judge_bend(bend_rad=bend, alloy="carbon_steel", neck="one_piece").verdict == verdict
    before = judge_bend(bend_rad=0.0, before_rad=bend, alloy="carbon_steel", neck="one_piece")
    assert before.verdict == verdict


def test_nothing_is_recommended_while_metal_or_neck_is_unknown():
    for known in ({"alloy": "carbon_steel"}, {"neck": "one_piece"}, {}):
        found = judge_bend(bend_rad=math.radians(0.5), **known)
        assert found.verdict == "ask"
        assert "find out first" in found.why


def test_a_bend_beyond_the_alloy_says_what_would_be_possible():
    with pytest.raises(BendTooFar, match=r"3.5° is beyond .* up to 1° is usual and 2° the most"):
        refuse_bend(bend_rad=math.radians(3.5), alloy="stainless_17_4", neck="one_piece")
    with pytest.raises(BendTooFar, match="the 3.0° it was bent before among them"):
        refuse_bend(bend_rad=0.03, before_rad=math.radians(3.0), alloy="brass", neck="welded")
    with pytest.raises(OutOfRange, match="lie after the bend"):
        turns_for(WAS, add_lie_rad=math.radians(25.0))


def test_the_lie_is_bent_first_and_both_are_read_again():
    turns = turns_for(WAS, add_loft_rad=math.radians(1.0), add_lie_rad=math.radians(-1.5))
    done = bent(WAS, turns=turns)
    verdict = judge_bend(bend_rad=done.bend_rad, alloy="carbon_steel", neck="one_piece")
    steps = " ".join(order_of_work(done, verdict=verdict))
    places = [steps.index(words) for words in (
        "eye protection", "three times each", "1.5° flat, to 68.5°", "1.0° weaker, to 4.0°",
        "three times again", "whitening",
    )]  # fmt: skip
    assert places == sorted(places)
