import hashlib
import math
from importlib import resources

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from puttwright.ball.hole import (
    capture_speed_mps,
    capture_speed_penner2002,
    capture_table,
    effective_half_width_m,
    fastest_capture_mps,
)
from puttwright.ball.rim import RimBall, fates, track
from puttwright.units import HOLE_RADIUS_M

offsets = st.floats(-0.06, 0.06)
slopes = st.floats(0.0, 0.10)
turns = st.floats(-7.0, 7.0)


def test_the_table_was_made_with_this_kernel():
    kernel = resources.files("puttwright.ball") / "rim_kernel.py"
    made_with = capture_table().provenance["kernel_sha256"]
    assert hashlib.sha256(kernel.read_bytes()).hexdigest() == made_with, (
        "run scripts/make_capture_table.py"
    )


def test_the_table_says_what_it_was_made_from():
    table = capture_table()
    assert table.provenance["inputs"]["rim"] == RimBall().as_inputs()
    numbers = table.speed_mps.astype(np.float32).tobytes()
    assert hashlib.sha256(numbers).hexdigest() == table.provenance["speeds_sha256"]


@pytest.mark.parametrize(("slope", "turn"), [(0.0, 0.0), (0.05, 0.0), (0.05, math.pi / 2)])
def test_the_table_is_the_simulation(slope, turn):
    """Just below the tabled speed a ball drops, just above it does not, at nodes of the table."""
    nodes = capture_table().offset_m[20:61:5]
    at = {"offset_m": nodes, "slope": slope, "slope_towards_rad": turn}
    fastest = capture_speed_mps(**at)
    assert (fates(speed_mps=fastest - 1e-3, **at) == 1).all()
    assert (fates(speed_mps=fastest + 1e-3, **at) != 1).all()


@given(offsets, offsets)
def test_nearer_the_centre_may_be_faster(one, other):
    near, far = sorted((one, other), key=abs)
    assert capture_speed_mps(offset_m=near) >= capture_speed_mps(offset_m=far) - 1e-12


@given(offsets, slopes, turns)
def test_the_mirror_image_drops_at_the_same_speed(offset, slope, turn):
    there = capture_speed_mps(offset_m=offset, slope=slope, slope_towards_rad=turn)
    back = capture_speed_mps(offset_m=-offset, slope=slope, slope_towards_rad=-turn)
    assert float(there) == pytest.approx(float(back), abs=1e-12)


@given(offsets, slopes, turns)
def test_one_by_one_or_all_at_once_is_the_same(offset, slope, turn):
    alone = capture_speed_mps(offset_m=offset, slope=slope, slope_towards_rad=turn)
    many = capture_speed_mps(offset_m=[offset], slope=[slope], slope_towards_rad=[turn])
    assert float(alone) == pytest.approx(float(many[0]), abs=1e-12)


@given(st.floats(0.0, 0.10), st.floats(0.0, math.pi))
def test_a_slope_that_fades_away_leaves_the_level(offset, turn):
    barely = capture_speed_mps(offset_m=offset, slope=1e-9, slope_towards_rad=turn)
    assert float(barely) == pytest.approx(float(capture_speed_mps(offset_m=offset)), abs=1e-6)


def test_uphill_takes_faster_balls_and_downhill_slower_ones():
    level = fastest_capture_mps()
    up, down = (
        float(capture_speed_mps(offset_m=0.0, slope=0.05, slope_towards_rad=turn))
        for turn in (math.pi, 0.0)
    )
    assert down < level < up


def test_outside_the_hole_nothing_drops():
    assert (capture_speed_mps(offset_m=[-0.2, 0.0541, 1.0]) == 0.0).all()
    assert (capture_speed_penner2002(offset_m=[-0.2, 0.0541]) == 0.0).all()


@given(st.floats(0.0, 2.0), st.floats(0.0, 2.0), st.sampled_from([0.0, 0.03, 0.08]))
def test_the_hole_shrinks_with_speed(one, other, slope):
    slow, fast = sorted((one, other))
    widths = effective_half_width_m(speed_mps=[slow, fast], slope=slope, slope_towards_rad=1.0)
    assert widths[0] >= widths[1] >= 0.0


def test_the_width_and_the_speed_are_each_others_inverse():
    speeds = np.linspace(0.05, 1.6, 40)
    widths = effective_half_width_m(speed_mps=speeds)
    assert capture_speed_mps(offset_m=widths) == pytest.approx(speeds, abs=4e-3)
    assert effective_half_width_m(speed_mps=0.0) == pytest.approx(HOLE_RADIUS_M, rel=1e-6)
    assert effective_half_width_m(speed_mps=1.7) == 0.0


@pytest.mark.slow
@pytest.mark.parametrize("factor", [0.5, 2.0])
def test_the_step_of_the_simulation_does_not_matter(factor):
    offsets_m = np.array([0.0, 0.012, 0.024, 0.036])
    speeds = np.arange(0.6, 1.8, 0.05)
    ball = RimBall(step_s=RimBall().step_s * factor)
    at = {"speed_mps": speeds[:, None], "offset_m": offsets_m}
    # Pointwise near the limit nothing is certain, so at most one speed in a row may differ.
    differ = fates(**at) != fates(**at, ball=ball)
    assert differ.sum(axis=0).max() <= 1


def test_a_track_starts_on_the_rim_and_a_holed_ball_ends_on_the_floor():
    run = track(speed_mps=0.8, offset_m=0.01)
    assert run.fate == "holed"
    assert math.hypot(*run.centre_m[0, :2]) == pytest.approx(HOLE_RADIUS_M)
    assert run.centre_m[-1, 2] < -0.05
    assert run.lowest_m < -0.05
    assert np.hypot(*run.centre_m[:, :2].T).max() < HOLE_RADIUS_M + 1e-6


def test_a_rim_lip_out_stays_above_the_green_and_comes_out():
    run = track(speed_mps=1.2, offset_m=0.035)
    assert run.fate == "rim lip-out"
    assert 0.0 < run.lowest_m < 0.0213
    assert math.hypot(*run.centre_m[-1, :2]) > HOLE_RADIUS_M - 0.005


def test_restitution_of_the_rim_matters_near_the_centre_only():
    """The sensitivity the docs speak of."""
    speeds = np.arange(1.0, 2.2, 0.02)

    def limit(offset_m, **ball):
        dropped = fates(speed_mps=speeds, offset_m=offset_m, ball=RimBall(**ball)) == 1
        return speeds[dropped].max()

    assert limit(0.0, rim_restitution=0.3) > limit(0.0) + 0.2
    assert limit(0.025, rim_restitution=0.3) == pytest.approx(limit(0.025), abs=0.06)
    assert limit(0.015, wall_restitution=0.6) == pytest.approx(limit(0.015), abs=0.01)
    assert limit(0.0, friction=0.5) == pytest.approx(limit(0.0), abs=0.03)
