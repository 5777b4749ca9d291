"""In the mirror a right-hander is a left-hander, and what points sideways points the other way."""

from __future__ import annotations

import pytest

from puttwright.evidence.check import check
from puttwright.evidence.signs import face_word, mirrored, side_word, toe_side


def test_twice_in_the_mirror_is_the_same_golfer(fitting):
    assert mirrored(mirrored(fitting)) == fitting


def test_sideways_flips_and_the_rest_stays(fitting):
    other = mirrored(fitting)

    assert (other.golfer.handed, other.golfer.eye_dominant) == ("left", "right")
    assert other.fitting_green.slope_towards_deg == -30
    assert other.aims[0].reading_mm == -20
    assert (other.putts[0].start_deg, other.putts[0].strike_toe_mm) == (-0.5, 4)
    assert [instrument.bias for instrument in other.instruments] == [-2, 0.02]
    assert check(other) == []


@pytest.mark.parametrize(("handed", "toe", "word"), [("right", 1, "open"), ("left", -1, "closed")])
def test_a_face_looking_right(handed, toe, word):
    assert toe_side(handed) == toe
    assert face_word(0.8, handed=handed) == word
    assert face_word(-0.8, handed=handed) == {"open": "closed", "closed": "open"}[word]


def test_right_is_positive():
    assert (side_word(0.1), side_word(-0.1)) == ("right", "left")
