"""Hang does not ask how the putter stands, nor in which hand."""

import math

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from puttwright.club.hang import hang_in_space_rad, hang_rad
from puttwright.club.rotation import handle_forward


@given(
    toe=st.floats(-0.03, 0.06), behind=st.floats(0.004, 0.05), along=st.floats(-0.9, 0.0),
    lie=st.floats(1.0, 1.5), lean=st.floats(-0.4, 0.4),
)  # fmt: skip
def test_a_leaning_putter_hangs_as_an_upright_one(toe, behind, along, lie, lean):
    shaft = np.array([0.0, -math.cos(lie), math.sin(lie)])
    square = np.array([0.0, math.sin(lie), math.cos(lie)])
    cg = toe * square - behind * np.array([1.0, 0.0, 0.0]) + along * shaft
    pitch = handle_forward(lean)
    found = hang_in_space_rad(cg_from_shaft_m=pitch @ cg, shaft=pitch @ shaft)
    assert found == pytest.approx(hang_rad(cg_from_axis_m=toe, cg_behind_face_m=behind), abs=1e-9)
