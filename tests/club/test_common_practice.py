"""What the trade knows. Common practice, no source: kept apart from the reference tests."""

import math
from dataclasses import replace

import pytest

from puttwright.club.bend import Set, bent, turns_for
from puttwright.club.hang import hang_rad
from puttwright.club.of_build import figures_of, recorded
from puttwright.evidence import Build
from puttwright.units import INCH_M

SHOP = Build(
    build_id="a", length_mm=863.6, lie_deg=70, loft_deg=3, head_mass_g=350, shaft_mass_g=115,
    grip_mass_g=70, cg_depth_mm=15, cg_from_axis_mm=20, offset_mm=5,
)  # fmt: skip


@pytest.mark.parametrize("length_in", [30, 33, 34, 35, 36])
@pytest.mark.parametrize("loft_deg", [1, 3, 7])
def test_shop_and_custom_putters_all_have_figures(length_in, loft_deg):
    """Shop putters stand at 34, now and then 35 in, custom ones at 30 to 36; lofts are 1 to 7."""
    build = replace(SHOP, length_mm=1e3 * INCH_M * length_in, loft_deg=loft_deg)
    found = figures_of(build)
    assert 0.45 < found.total_kg.value < 0.62
    assert 0.6 < found.balance_m.value / (INCH_M * length_in) < 0.85


def test_heads_hang_face_up_toe_down_or_a_little_heel_down():
    centre, heel, past = (
        math.degrees(hang_rad(cg_from_axis_m=toe, cg_behind_face_m=0.025))
        for toe in (0.0, 0.025, -0.002)
    )
    assert centre == 0.0
    assert heel == pytest.approx(45.0)
    assert -10.0 < past < 0.0


@pytest.mark.parametrize("toe_mm", [-2.0, 0.0, 35.0])
def test_all_three_hangs_come_out_of_a_build(toe_mm):
    build = replace(SHOP, cg_from_axis_mm=toe_mm)
    hang = recorded(build).putter().values()["hang_rad"]
    assert (hang > 0.01, hang < -0.01) == (toe_mm > 0, toe_mm < 0)


def test_a_neck_straight_into_the_heel_hangs_lower_at_the_toe_than_a_stepped_one():
    """Straight in stands flatter and far from the middle; a step brings the shaft nearer to it."""
    straight = replace(SHOP, lie_deg=69, offset_mm=0, cg_from_axis_mm=45)
    stepped = replace(SHOP, lie_deg=71, offset_mm=18, cg_from_axis_mm=25)
    hangs = [recorded(b).putter().values()["hang_rad"] for b in (straight, stepped)]
    assert hangs[0] > hangs[1]


def test_a_flatter_lie_moves_the_head_away_from_the_feet_and_hangs_less_at_the_toe():
    was = Set(loft_rad=math.radians(3), lie_rad=math.radians(71))
    flatter = bent(was, turns=turns_for(was, add_lie_rad=math.radians(-2)))
    assert flatter.after.cg_from_axis_m < was.cg_from_axis_m
    assert flatter.hang_rad < was.hang_rad


def test_two_grams_on_the_head_are_about_a_point_and_a_heavier_grip_takes_points_off():
    """Thumb rules for longer clubs, good to half: 2 g of head up, 5 g of grip down."""
    putter = recorded(SHOP).putter()
    before = putter.values()["swing_weight_in_oz"]
    heavier = replace(putter, head=replace(putter.head, mass_kg=putter.head.mass_kg + 0.002))
    gripped = replace(putter, grip=replace(putter.grip, mass_kg=putter.grip.mass_kg + 0.005))
    up = (heavier.values()["swing_weight_in_oz"] - before) / 1.75
    down = (gripped.values()["swing_weight_in_oz"] - before) / 1.75
    assert 0.5 <= up <= 1.5
    assert -1.5 <= down <= -0.5
