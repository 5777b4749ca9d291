"""A gap under the sole, the lie that closes it, and the face it turns."""

from __future__ import annotations

import math

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from puttwright.address.sole import gap_of_tilt_m, sole_of, tilt_of_gap_rad, with_lie
from puttwright.errors import OutOfRange

RAD = math.radians


@given(gap_m=st.floats(-0.02, 0.02), length_m=st.floats(0.05, 0.14))
def test_gap_and_tilt_are_inverses(gap_m, length_m):
    tilt = tilt_of_gap_rad(toe_gap_m=gap_m, sole_length_m=length_m)

    assert gap_of_tilt_m(tilt_rad=tilt, sole_length_m=length_m) == pytest.approx(gap_m, abs=1e-12)


def _turned(*, loft_deg, tilt_deg, handed):
    """Where a lofted face looks after its head is turned about the target axis, by matrix."""
    loft, toe = RAD(loft_deg), 1 if handed == "right" else -1
    normal = np.array([math.cos(loft), 0.0, math.sin(loft)])  # target, right, up
    c, s = math.cos(RAD(tilt_deg)), math.sin(RAD(tilt_deg))
    lift = np.array([[1, 0, 0], [0, c, -toe * s], [0, toe * s, c]])
    x, y, _ = lift @ normal
    return math.atan2(y, x)


@pytest.mark.parametrize("handed", ["right", "left"])
@pytest.mark.parametrize("tilt_deg", [-4.0, -1.0, 2.0, 6.0])
@pytest.mark.parametrize("loft_deg", [-1.0, 3.0, 7.0])
def test_the_face_turns_as_a_rotation_in_space_says(loft_deg, tilt_deg, handed):
    found = sole_of(lie_rad=RAD(71), tilt_rad=RAD(tilt_deg), loft_rad=RAD(loft_deg), handed=handed)

    assert found.face_rad == pytest.approx(
        _turned(loft_deg=loft_deg, tilt_deg=tilt_deg, handed=handed)
    )


@pytest.mark.parametrize(("handed", "sign"), [("right", -1), ("left", 1)])
def test_toe_up_looks_to_the_heel_side(handed, sign):
    assert sign * sole_of(lie_rad=1.2, tilt_rad=0.03, loft_rad=0.05, handed=handed).face_rad > 0


def test_lean_takes_the_loft_and_with_it_the_turn():
    found = sole_of(lie_rad=1.2, tilt_rad=0.03, loft_rad=0.05, lean_rad=0.05, handed="right")

    assert found.face_rad == 0.0


@given(lie_deg=st.floats(65, 78), tilt_deg=st.floats(-5, 5))
def test_bent_to_the_flush_lie_it_lies_flush(lie_deg, tilt_deg):
    now = sole_of(lie_rad=RAD(lie_deg), tilt_rad=RAD(tilt_deg), loft_rad=0.05, handed="left")
    bent = with_lie(now, lie_rad=now.flush_lie_rad, loft_rad=0.05, handed="left")

    assert bent.tilt_rad == pytest.approx(0.0, abs=1e-12)
    assert bent.face_rad == pytest.approx(0.0, abs=1e-12)


@pytest.mark.parametrize(("gap_m", "length_m"), [(0.06, 0.1), (0.001, 0.01), (0.001, 0.5)])
def test_what_no_sole_does_is_told(gap_m, length_m):
    with pytest.raises(OutOfRange):
        tilt_of_gap_rad(toe_gap_m=gap_m, sole_length_m=length_m)
