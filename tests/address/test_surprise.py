"""What was measured and does not go with the rest is told; what does is left alone."""

from __future__ import annotations

from puttwright.address.posterior import Address, Heights, learn
from puttwright.address.surprise import surprises


def test_what_goes_together_is_no_surprise(heights, measured):
    found = surprises(learn(heights, [measured(), measured(eyes_m=0.07, seq=2)]))

    assert [one.seq for one in found] == [1, 2]
    assert not any(one.doubtful for one in found)


def test_an_address_that_contradicts_the_others_is_named(heights, measured):
    """A hands height of 1.035 m among several of 0.735 m: a tape misread by a foot."""
    addresses = [measured(seq=seq) for seq in (1, 2, 3)] + [measured(hands_m=1.035, seq=4)]
    found = surprises(learn(heights, addresses))
    worst = min(found, key=lambda one: one.probability)

    assert (worst.seq, worst.name, worst.doubtful) == (4, "hands_height_m", True)
    assert abs(worst.expected - 0.735) < 0.05


def test_one_address_alone_is_held_against_bodies_of_that_height(heights, measured):
    assert surprises(learn(heights, [measured(eyes_m=0.45)]))[0].doubtful
    assert not surprises(learn(heights, [measured()]))[0].doubtful


def test_heights_that_do_not_go_together_are_named():
    odd = surprises(learn(Heights(stature_m=1.78, shoulder_m=1.48, wrist_m=1.08)))[0]
    fine = surprises(learn(Heights(stature_m=1.78, shoulder_m=1.48, wrist_m=0.88)))[0]

    assert (odd.seq, odd.name, odd.doubtful) == (None, "wrist_m", True)
    assert not fine.doubtful


def test_an_address_without_a_figure_says_nothing(heights, own):
    assert surprises(learn(heights, [Address(held=own)])) == ()
