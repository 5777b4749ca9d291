import pytest

from puttwright.ball.calc import calc_capture, calc_green_speed, calc_impact, calc_roll
from puttwright.errors import OutOfRange


def test_each_answers_with_the_names_it_promises():
    assert list(calc_impact(head_speed_mps=1.5)) == [
        "ball_speed_mps", "launch_deg", "start_deg", "spin_rpm", "twist_deg",
    ]  # fmt: skip
    assert list(calc_roll(ball_speed_mps=2.0)) == [
        "skid_m", "skid_s", "roll_start_speed_mps", "roll_out_m", "roll_share_pct", "break_m",
        "energy_error",
    ]  # fmt: skip
    assert list(calc_capture(offset_mm=0.0)) == ["capture_speed_mps"]
    assert list(calc_green_speed(up_ft=9.0, down_ft=10.0)) == ["level_ft", "deceleration_mps2"]


def test_units_are_those_of_the_names():
    roll = calc_roll(
        ball_speed_mps=2.0,
        launch_deg=0.0,
        spin_rpm=20.0 * 60 / (2 * 3.141592653589793),
        slope_pct=2.0,
        slope_towards_deg=90.0,
    )
    assert roll["skid_m"] == pytest.approx(0.203, abs=1e-3)
    assert roll["break_m"] > 0.0
    impact = calc_impact(head_speed_mps=1.5, loft_deg=0.0, face_deg=1.0, cg_depth_mm=0.0)
    assert impact["start_deg"] == pytest.approx(0.827, abs=1e-3)


def test_right_and_left_are_mirror_images():
    right = calc_impact(head_speed_mps=1.5, face_deg=1.0, strike_toe_mm=5.0)
    left = calc_impact(head_speed_mps=1.5, face_deg=-1.0, strike_toe_mm=5.0, handed="left")
    assert right["start_deg"] == pytest.approx(-left["start_deg"])
    assert right["twist_deg"] == pytest.approx(-left["twist_deg"])


def test_a_ball_that_never_stops_is_said_so():
    endless = calc_roll(ball_speed_mps=2.0, green_ft=12.0, slope_pct=9.0)
    assert endless["roll_out_m"] is None
    assert endless["break_m"] is None
    assert "never stops" in endless["flags"][0]


def test_uphill_is_positive():
    assert (
        calc_capture(offset_mm=0.0, slope_pct=5.0)["capture_speed_mps"]
        > calc_capture(offset_mm=0.0)["capture_speed_mps"]
        > calc_capture(offset_mm=0.0, slope_pct=-5.0)["capture_speed_mps"]
    )


def test_a_steep_hole_is_flagged():
    assert "flags" in calc_capture(offset_mm=0.0, slope_pct=15.0)


@pytest.mark.parametrize(
    "wrong",
    [
        lambda: calc_capture(offset_mm=500.0),
        lambda: calc_capture(offset_mm=0.0, slope_pct=40.0),
        lambda: calc_roll(ball_speed_mps=40.0),
        lambda: calc_impact(head_speed_mps=1.5, loft_deg=45.0),
        lambda: calc_green_speed(up_ft=0.0, down_ft=9.0),
    ],
)
def test_what_lies_outside_is_refused_with_its_range(wrong):
    with pytest.raises(OutOfRange, match="must lie between"):
        wrong()
