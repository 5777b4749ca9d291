import math

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from puttwright.ball.head import Head
from puttwright.ball.impact import Delivery, Impact, dynamic_loft_rad, strike
from puttwright.errors import OutOfRange
from puttwright.units import BALL_INERTIA_FACTOR, BALL_MASS_KG, BALL_RADIUS_M

small = st.floats(-0.15, 0.15)
deliveries = st.builds(
    Delivery,
    head_speed_mps=st.floats(0.2, 4.0),
    loft_rad=small,
    lean_rad=small,
    attack_rad=small,
    path_rad=small,
    face_rad=small,
    sole_tilt_rad=small,
    strike_toe_m=st.floats(-0.04, 0.04),
    strike_high_m=st.floats(-0.02, 0.02),
    handed=st.sampled_from(["right", "left"]),
)
heads = st.builds(
    Head,
    mass_kg=st.floats(0.25, 0.6),
    moi_vertical_kg_m2=st.floats(2e-4, 1.5e-3),
    cg_depth_m=st.floats(0.0, 0.05),
)


def _energy(hit: Impact, head: Head) -> float:
    """Energy of ball and head after impact but for the head's own turning, which adds to it."""
    spins = [hit.spin_radps, hit.spin_right_radps, hit.spin_clockwise_radps]
    ball = np.sum(hit.ball_velocity_mps**2) + BALL_INERTIA_FACTOR * BALL_RADIUS_M**2 * sum(
        float(spin) ** 2 for spin in spins
    )
    return 0.5 * (BALL_MASS_KG * ball + head.mass_kg * np.sum(hit.head_velocity_mps**2))


@given(deliveries, heads)
def test_momentum_is_kept_and_energy_is_not_made(delivery, head):
    hit = strike(delivery=delivery, head=head)
    after = BALL_MASS_KG * hit.ball_velocity_mps + head.mass_kg * hit.head_velocity_mps
    assert np.linalg.norm(after) == pytest.approx(head.mass_kg * delivery.head_speed_mps)
    assert _energy(hit, head) <= 0.5 * head.mass_kg * delivery.head_speed_mps**2 * (1 + 1e-12)


@given(deliveries, heads)
def test_the_left_hander_is_the_mirror_image(delivery, head):
    mirrored = Delivery(
        head_speed_mps=delivery.head_speed_mps,
        loft_rad=delivery.loft_rad,
        lean_rad=delivery.lean_rad,
        attack_rad=delivery.attack_rad,
        path_rad=-delivery.path_rad,
        face_rad=-delivery.face_rad,
        sole_tilt_rad=delivery.sole_tilt_rad,
        strike_toe_m=delivery.strike_toe_m,
        strike_high_m=delivery.strike_high_m,
        handed="left" if delivery.handed == "right" else "right",
    )
    one, other = strike(delivery=delivery, head=head), strike(delivery=mirrored, head=head)
    for name in ("ball_speed_mps", "launch_rad", "spin_radps"):
        assert float(getattr(one, name)) == pytest.approx(float(getattr(other, name)), abs=1e-9)
    for name in ("start_rad", "spin_right_radps", "spin_clockwise_radps", "twist_radps"):
        assert float(getattr(one, name)) == pytest.approx(-float(getattr(other, name)), abs=1e-9)


@given(st.floats(0.2, 3.0), st.floats(1.1, 1.3))
def test_all_speeds_grow_alike(speed, times):
    at = {"loft_rad": 0.05, "face_rad": 0.02, "strike_toe_m": 0.01}
    one = strike(delivery=Delivery(head_speed_mps=speed, **at))
    more = strike(delivery=Delivery(head_speed_mps=speed * times, **at))
    assert float(more.ball_speed_mps / one.ball_speed_mps) == pytest.approx(times)
    assert float(more.launch_rad) == pytest.approx(float(one.launch_rad))


def test_without_friction_the_ball_leaves_along_the_face_normal_without_spin():
    hit = strike(
        delivery=Delivery(head_speed_mps=1.5, loft_rad=0.06, face_rad=0.03, path_rad=-0.05),
        head=Head(cg_depth_m=0.0),
        face_friction=0.0,
    )
    assert float(hit.start_rad) == pytest.approx(0.03)
    assert float(hit.launch_rad) == pytest.approx(0.06)
    assert float(hit.spin_radps) == pytest.approx(0.0, abs=1e-12)
    assert bool(hit.slips)


def test_a_putt_sticks_and_a_slippery_face_with_loft_slides():
    delivery = Delivery(head_speed_mps=1.5, loft_rad=np.radians([3.0, 18.0]))
    assert strike(delivery=delivery, face_friction=0.4).slips.tolist() == [False, False]
    assert strike(delivery=delivery, face_friction=0.02).slips.tolist() == [False, True]


def test_signs():
    def start(**delivery):
        return float(strike(delivery=Delivery(head_speed_mps=1.5, **delivery)).start_rad)

    assert start(face_rad=0.01) > start(path_rad=0.01) > 0.0
    assert start(strike_toe_m=0.01) > 0.0 > start(strike_toe_m=0.01, handed="left")
    assert start(loft_rad=0.06, sole_tilt_rad=0.05) < 0.0
    toe = strike(delivery=Delivery(head_speed_mps=1.5, strike_toe_m=0.02))
    assert float(toe.twist_rad) > 0.0
    lofted = strike(delivery=Delivery(head_speed_mps=1.5, loft_rad=0.06))
    assert float(lofted.spin_radps) < 0.0 < float(lofted.launch_rad)
    high = strike(delivery=Delivery(head_speed_mps=1.5, loft_rad=0.06, strike_high_m=0.005))
    assert float(high.spin_radps) > float(lofted.spin_radps)
    assert float(high.launch_rad) > float(lofted.launch_rad)


def test_shaft_lean_takes_loft_off():
    assert float(dynamic_loft_rad(loft_rad=0.06, lean_rad=0.02)) == pytest.approx(0.04)
    leaned = strike(delivery=Delivery(head_speed_mps=1.5, loft_rad=0.06, lean_rad=0.02))
    flat = strike(delivery=Delivery(head_speed_mps=1.5, loft_rad=0.04))
    assert float(leaned.launch_rad) == pytest.approx(float(flat.launch_rad))


def test_a_closing_face_drags_the_ball_with_it():
    closing = strike(delivery=Delivery(head_speed_mps=1.5, closure_radps=-2.0))
    assert float(closing.start_rad) < 0.0


def test_a_swing_that_is_no_putt_is_flagged_or_refused():
    assert strike(delivery=Delivery(head_speed_mps=1.5)).flags == ()
    assert len(strike(delivery=Delivery(head_speed_mps=6.0)).flags) == 1
    with pytest.raises(OutOfRange, match="head_speed_mps"):
        strike(delivery=Delivery(head_speed_mps=12.0))
    with pytest.raises(OutOfRange, match="putter heads"):
        Head(mass_kg=2.0)


@given(heads)
def test_the_inertia_of_a_head_could_be_that_of_a_body(head):
    a, b, c = np.diag(head.inertia())
    assert a + b >= c > 0.0
    assert b + c >= a > 0.0
    assert a + c >= b > 0.0


def test_friction_gives_way_exactly_where_sticking_would_ask_for_more():
    delivery = Delivery(head_speed_mps=1.5, loft_rad=0.2)
    normal = np.array([math.cos(0.2), 0.0, math.sin(0.2)])
    stuck = strike(delivery=delivery, face_friction=2.0)
    pressed = BALL_MASS_KG * float(stuck.ball_velocity_mps @ normal)
    dragged = BALL_INERTIA_FACTOR * BALL_MASS_KG * BALL_RADIUS_M * abs(float(stuck.spin_radps))
    asked = dragged / pressed
    assert not strike(delivery=delivery, face_friction=1.001 * asked).slips
    sliding = strike(delivery=delivery, face_friction=0.999 * asked)
    assert sliding.slips
    # Just past the edge nothing jumps; far past it the drag is friction times pressure.
    assert float(sliding.spin_radps) == pytest.approx(float(stuck.spin_radps), rel=2e-3)
    half = strike(delivery=delivery, face_friction=0.5 * asked)
    assert float(half.spin_radps) == pytest.approx(0.5 * float(stuck.spin_radps), rel=0.02)
