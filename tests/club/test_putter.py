"""A putter from its parts: sums, parallel axes, and what a shaft cannot give."""

import math
from dataclasses import replace

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from puttwright.club.parts import Grip, Head, Neck, NoSuchBalance, Shaft, Weight
from puttwright.club.putter import Putter, ShaftTooShort
from puttwright.errors import OutOfRange

HEAD = Head(mass_kg=0.35, cg_from_axis_m=0.02, cg_behind_face_m=0.018, offset_m=0.006)
PUTTER = Putter(
    head=HEAD,
    shaft=Shaft(mass_kg=0.12, length_m=0.9, balance_m=0.44),
    grip=Grip(mass_kg=0.065, balance_m=0.12),
    length_m=0.8636,
    lie_rad=math.radians(70.0),
    loft_rad=math.radians(3.0),
)


def test_the_parts_add_up_and_so_do_their_moments():
    weights = (Weight(mass_kg=0.004, from_butt_m=0.1), Weight(mass_kg=0.01, behind_face_m=0.03))
    neck = Neck(mass_kg=0.03)
    putter = replace(PUTTER, weights=weights, neck=neck)
    bodies = putter.bodies()
    found = putter.values()
    moments = [b.mass_kg * (putter.length_m - b.cg_m @ putter.up) for b in bodies]
    assert found["total_kg"] == pytest.approx(sum(b.mass_kg for b in bodies))
    assert found["balance_m"] == pytest.approx(sum(moments) / found["total_kg"])


def test_inertia_about_the_butt_is_that_of_a_fine_cloud_of_masses():
    """Cut every rod into thin slices: no parallel-axis theorem, no formula."""
    up, length = PUTTER.up, PUTTER.length_m
    shaft = replace(PUTTER.shaft.cut(butt_m=PUTTER.cut_m), radius_m=0.0)
    grip = replace(PUTTER.grip, radius_m=0.0)
    putter = replace(PUTTER, shaft=replace(PUTTER.shaft, radius_m=0.0), grip=grip)
    head = putter.bodies()[0]
    swing_axis = np.array([0.0, math.sin(putter.lie_rad), math.cos(putter.lie_rad)])
    total = head.inertia_about(point_m=length * up, direction=swing_axis)
    for part, top in ((shaft, grip.cap_m), (grip, 0.0)):
        s = (np.arange(20000) + 0.5) / 20000
        taper = 6.0 * (part.balance_m / part.length_m - 0.5)
        slices = part.mass_kg * (1.0 + taper * (2.0 * s - 1.0)) / 20000
        total += float(slices @ (top + s * part.length_m) ** 2)
    assert putter.values()["inertia_butt_kg_m2"] == pytest.approx(total, rel=1e-7)


@given(
    butt=st.just(0.0) | st.floats(0.02, 0.3),
    tip=st.just(0.0) | st.floats(0.02, 0.2),
    balance=st.floats(0.35, 0.6),
)
def test_what_is_cut_off_and_what_is_left_make_the_whole_shaft(butt, tip, balance):
    whole = Shaft(mass_kg=0.12, length_m=0.9, balance_m=balance)
    left = whole.cut(butt_m=butt, tip_m=tip)
    pieces = [(left.mass_kg, butt + left.balance_m)]
    if butt:
        top = whole.cut(tip_m=0.9 - butt)
        pieces.append((top.mass_kg, top.balance_m))
    if tip:
        foot = whole.cut(butt_m=0.9 - tip)
        pieces.append((foot.mass_kg, 0.9 - tip + foot.balance_m))
    assert sum(mass for mass, _ in pieces) == pytest.approx(0.12)
    assert sum(mass * at for mass, at in pieces) == pytest.approx(0.12 * balance, abs=1e-9)


def test_every_figure_carries_the_doubt_of_what_goes_into_it():
    sure = PUTTER.figures()
    sds = {"head.mass_kg": 0.001, "shaft.mass_kg": 0.002, "head.cg_from_axis_m": 0.001}
    doubtful = PUTTER.figures(sds=sds)
    assert sure.total_kg.sd == sure.hang_rad.sd == 0.0
    kept = PUTTER.shaft.cut(butt_m=PUTTER.cut_m).mass_kg / PUTTER.shaft.mass_kg
    assert doubtful.total_kg.sd == pytest.approx(math.hypot(0.001, 0.002 * kept))
    assert doubtful.hang_rad.sd == pytest.approx(0.024 / (0.02**2 + 0.024**2) * 0.001, rel=1e-3)


def test_a_weight_read_by_its_place_in_the_list_carries_its_doubt():
    putter = replace(PUTTER, weights=(Weight(mass_kg=0.004, from_butt_m=0.1),))
    assert putter.figures(sds={"weights.0.mass_kg": 0.0005}).total_kg.sd == pytest.approx(0.0005)


def test_lean_toward_the_target_takes_loft_off_and_its_doubt_is_carried():
    found = PUTTER.figures(lean_rad=0.02, lean_sd_rad=0.01, sds={"loft_rad": 0.005}).loft_rad
    assert found.value == pytest.approx(PUTTER.loft_rad - 0.02)
    assert found.sd == pytest.approx(math.hypot(0.01, 0.005))


def test_a_centre_of_gravity_on_the_axis_has_no_hang_to_tell():
    putter = replace(PUTTER, head=replace(HEAD, cg_from_axis_m=0.0, offset_m=-0.0175))
    sds = {"head.cg_from_axis_m": 0.001, "head.offset_m": 0.001}
    assert "too near" in putter.figures(sds=sds).notes[0]
    assert PUTTER.figures(sds=sds).notes == ()


def test_a_length_the_shaft_cannot_give_says_what_it_can():
    with pytest.raises(ShaftTooShort, match=r"makes 953 mm \(37.52 in\) at most"):
        replace(PUTTER, length_m=1.0)
    assert replace(PUTTER, length_m=0.953).cut_m == pytest.approx(0.0, abs=1e-9)


@pytest.mark.parametrize(
    ("wrong", "sentence"),
    [
        (lambda: Weight(mass_kg=-0.002, name="screw"), "mass of the screw is -2 g"),
        (lambda: Head(mass_kg=-0.3, cg_from_axis_m=0, cg_behind_face_m=0), "head mass is -300 g"),
        (lambda: Grip(mass_kg=-0.001), "mass of the grip is -1 g"),
        (lambda: replace(PUTTER, lie_rad=2.0), "lie is 114.592 °"),
    ],
)
def test_what_no_putter_has_is_told(wrong, sentence):
    with pytest.raises(OutOfRange) as told:
        wrong()
    assert sentence in str(told.value)


def test_a_balance_point_beyond_the_shaft_is_told_with_what_would_be_possible():
    with pytest.raises(NoSuchBalance, match="950 mm from its top; its 900 mm allow 300 to 600"):
        Shaft(mass_kg=0.12, length_m=0.9, balance_m=0.95)
