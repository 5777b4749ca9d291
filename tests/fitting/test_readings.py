"""Readings out of evidence: lines and lengths from sensors, stops and holed putts."""

from __future__ import annotations

import dataclasses
import math

import pytest

from puttwright.ball.green import GreenPlane
from puttwright.ball.pace import read
from puttwright.ball.roll import Launch, roll
from puttwright.evidence import Build, Fitting, FittingGreen, Golfer, Green, Instrument, Putt
from puttwright.fitting.readings import gather


def fitting(*putts, slope_pct=0.0, towards_deg=90.0, instruments=()):
    return Fitting(
        fitting_id="f",
        date="2026-05-01",
        golfer=Golfer(alias="Wren", handed="right"),
        greens=(Green(name="Home", speed_ft=10.0, share=1.0),),
        fitting_green=FittingGreen(
            speed_ft=10.0, slope_pct=slope_pct, slope_towards_deg=towards_deg
        ),
        own_build="A",
        builds=(Build(build_id="A", length_mm=864.0, lie_deg=70.0, loft_deg=3.0),),
        instruments=instruments,
        putts=tuple(
            dataclasses.replace(putt, seq=number) for number, putt in enumerate(putts, start=1)
        ),
    )


def putt(distance_m=3.0, **seen):
    return Putt(seq=1, build_id="A", distance_m=distance_m, **seen)


def only(rows):
    (row,) = rows
    return row


def test_a_sensed_line_is_taken_as_it_is():
    row = only(gather(fitting(putt(start_deg=-0.8))).rows["start"])

    assert row.value == -0.8


def test_a_gauge_study_is_believed_over_the_default():
    study = Instrument(name="sensor", quantity="start_deg", repeatability_sd=0.4)

    row = only(
        gather(fitting(putt(start_deg=0.0, instrument="sensor"), instruments=(study,))).rows[
            "start"
        ]
    )

    assert row.instrument_sd == 0.4


def test_where_a_missed_putt_stopped_tells_line_and_length():
    gathered = gather(fitting(putt(holed=False, stop_past_m=0.5, stop_right_m=0.1)))

    line, pace = only(gathered.rows["start"]), only(gathered.rows["pace"])
    assert line.value == pytest.approx(math.degrees(math.atan2(0.1, 3.5)))
    assert pace.value == pytest.approx(math.hypot(3.5, 0.1) / 3.43 - 1.0)


def test_a_holed_putt_nobody_measured_lies_within_what_the_hole_takes():
    gathered = gather(fitting(putt(holed=True)))

    line, pace = only(gathered.rows["start"]), only(gathered.rows["pace"])
    assert line.low == pytest.approx(-line.high)
    assert pace.low < 0.0 < pace.high


def test_a_missed_putt_nobody_measured_was_not_both_on_line_and_of_length():
    gathered = gather(fitting(putt(holed=False), putt(holed=True)))

    for quantity in ("start", "pace"):
        missed, holed = gathered.rows[quantity]
        assert (missed.missed, holed.missed) == (True, False)
        assert math.isnan(missed.value)
        assert (missed.low, missed.high) == (holed.low, holed.high)
    readings = gathered.readings("start", builds=["A"])
    assert readings.pair.tolist() == [1, -1]


def test_a_missed_putt_whose_line_was_read_tells_of_its_length():
    gathered = gather(fitting(putt(holed=False, start_deg=0.1)))

    line, pace = only(gathered.rows["start"]), only(gathered.rows["pace"])
    assert (line.value, line.missed) == (0.1, True)
    assert math.isnan(pace.value)
    assert pace.missed


def test_a_missed_putt_of_which_all_was_read_needs_no_more():
    row = only(gather(fitting(putt(holed=False, start_deg=0.1, stop_past_m=-0.3))).rows["pace"])

    assert not row.missed
    assert math.isnan(row.low)


@pytest.mark.parametrize(("path", "sd"), [(2.0, math.hypot(0.83 * 0.3, 0.17 * 0.6)), (None, 0.42)])
def test_without_a_ball_sensor_face_and_path_tell_the_line(path, sd):
    row = only(gather(fitting(putt(holed=False, face_deg=1.0, path_deg=path))).rows["start"])

    assert row.value == pytest.approx(0.83 + 0.17 * (path or 0.0), abs=0.02)
    assert row.instrument_sd == pytest.approx(sd, abs=0.02)


def test_a_sensed_line_comes_before_the_face():
    assert only(gather(fitting(putt(start_deg=0.4, face_deg=3.0))).rows["start"]).value == 0.4


def test_a_putt_of_which_nothing_was_seen_says_nothing():
    gathered = gather(fitting(putt()))

    assert not gathered.rows["start"]
    assert not gathered.rows["pace"]


@pytest.mark.parametrize("towards_deg", [90.0, -90.0, 60.0, 180.0, 0.0])
def test_a_perfect_putt_on_a_slope_has_no_error(towards_deg):
    """What the read asks for, struck exactly, stops where it should and reads as no error."""
    plane = GreenPlane.of_speed(
        speed_ft=10.0, slope=0.02, slope_towards_rad=math.radians(towards_deg)
    )
    asked = read(distance_m=3.0, past_m=0.43, green=plane)
    struck = roll(
        launch=Launch(ball_speed_mps=asked.ball_speed_mps, start_rad=asked.aim_rad), green=plane
    )
    seen = putt(
        holed=False, stop_past_m=float(struck.stop_x_m) - 3.0, stop_right_m=float(struck.stop_y_m)
    )

    row = only(gather(fitting(seen, slope_pct=2.0, towards_deg=towards_deg)).rows["start"])

    assert row.value == pytest.approx(0.0, abs=0.02)


def test_sensed_lengths_are_scaled_to_where_putts_stopped():
    """A sensor that reads five per cent fast is put right by the putts that missed."""
    plane = GreenPlane.of_speed(speed_ft=10.0)
    putts = []
    for speed in (2.2, 2.3, 2.4, 2.5, 2.6, 2.7):
        stop = float(roll(launch=Launch(ball_speed_mps=speed), green=plane).stop_x_m)
        putts.append(
            putt(ball_speed_mps=1.05 * speed, holed=False, stop_past_m=stop - 3.0, stop_right_m=0.0)
        )
    holed = float(roll(launch=Launch(ball_speed_mps=2.45), green=plane).stop_x_m)
    putts.append(putt(ball_speed_mps=1.05 * 2.45, holed=True))

    last = gather(fitting(*putts)).rows["pace"][-1]

    assert last.value == pytest.approx(holed / 3.43 - 1.0, abs=1e-6)
