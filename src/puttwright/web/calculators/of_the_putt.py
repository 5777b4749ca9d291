"""Calculators of ball and green: impact, roll, capture, green speed, holing."""

from __future__ import annotations

import math

import numpy as np

from puttwright.ball.calc import calc_capture, calc_green_speed, calc_impact, calc_roll
from puttwright.ball.hole import capture_speed_mps
from puttwright.pictures.capture import capture_hill
from puttwright.pictures.grounds import PAGE
from puttwright.pictures.of_putt import capture_region, roll_track
from puttwright.pictures.pattern import stopping_pattern
from puttwright.pictures.ramp import Rolled, ramp_rolls
from puttwright.pictures.roll import roll_table, skid_and_roll
from puttwright.pictures.strike import strike_plan
from puttwright.web.calculators.calculator import (
    Calculator,
    Figure,
    Found,
    Values,
    asked,
    chosen,
    given,
)
from puttwright.web.drawings.drawing import Drawing, drawing
from puttwright.web.forms.asking import Question
from puttwright.web.manner import manner
from puttwright.worth.calc import calc_holing
from puttwright.worth.pattern import PLANNED_PAST_M


def _impact_questions() -> tuple[Question, ...]:
    return (
        asked("head_speed_mps", unit="m/s", between=(0.05, 10), start="1.5", needed=True),
        asked("face_deg", unit="deg", between=(-45, 45), start="1", hint=True),
        asked("path_deg", unit="deg", between=(-45, 45), start="-1", hint=True),
        asked("loft_deg", unit="deg", between=(-15, 20), start="3"),
        asked("lean_deg", unit="deg", between=(-25, 25), start="0", hint=True),
        asked("attack_deg", unit="deg", between=(-45, 45), start="0", hint=True),
        asked("strike_toe_mm", unit="mm", between=(-80, 80), start="0", hint=True),
        asked("strike_high_mm", unit="mm", between=(-40, 40), start="0", hint=True),
        asked("head_mass_g", unit="g", between=(200, 700), start="350"),
        asked("moi_g_cm2", unit="g cm²", between=(1000, 20000), start="5000", hint=True),
        asked("cg_depth_mm", unit="mm", between=(0, 100), start="20"),
        chosen("handed", "right", "left", start=manner().handed),
    )


def _impact(values: Values) -> Found:
    return calc_impact(**{name: value for name, value in values.items() if value is not None})


def _strike(values: Values, found: Found) -> Drawing:
    return drawing(
        lambda width, prefix: strike_plan(
            face_deg=values.get("face_deg") or 0.0, path_deg=values.get("path_deg") or 0.0,
            start_deg=found["start_deg"], strike_toe_mm=values.get("strike_toe_mm") or 0.0,
            handed=values["handed"], ground=PAGE, prefix=prefix, width=width,
        ),
        prefix="strike",
    )  # fmt: skip


def _roll_questions() -> tuple[Question, ...]:
    return (
        asked("ball_speed_mps", unit="m/s", between=(0.1, 8), start="2.4", needed=True),
        asked("launch_deg", unit="deg", between=(-5, 20), start="2"),
        asked("spin_rpm", unit="rpm", between=(-500, 500), start="0", hint=True),
        asked("green_ft", unit="ft", between=(3, 16), start="10", hint=True),
        asked("slope_pct", unit="%", between=(0, 15), start="0"),
        asked("slope_towards_deg", unit="deg", between=(-180, 180), start="0", hint=True),
    )


def _roll(values: Values) -> Found:
    return calc_roll(**given(values, *(each.name for each in _roll_questions())))


def _rolled(values: Values, _found: Found) -> Drawing:
    named = ("ball_speed_mps", "launch_deg", "spin_rpm", "green_ft")
    usual = {"launch_deg": 2.0, "spin_rpm": 0.0, "green_ft": 10.0}
    track = roll_track(**usual | given(values, *named))
    return drawing(
        lambda width, prefix: skid_and_roll(track, ground=PAGE, prefix=prefix, width=width),
        prefix="roll",
        table=roll_table(track),
    )


def _capture_questions() -> tuple[Question, ...]:
    return (
        asked("offset_mm", unit="mm", between=(-200, 200), start="20", needed=True, hint=True),
        asked("slope_pct", unit="%", between=(-25, 25), start="0", hint=True),
    )


def _capture(values: Values) -> Found:
    return calc_capture(**given(values, "offset_mm", "slope_pct"))


def _hill(values: Values, _found: Found) -> Drawing:
    slope_pct = values.get("slope_pct") or 0.0

    def law(offset_m: float) -> float:
        return float(
            capture_speed_mps(
                offset_m=offset_m,
                slope=abs(slope_pct) / 100.0,
                slope_towards_rad=math.pi if slope_pct > 0.0 else 0.0,
            )
        )

    offset_mm = values["offset_mm"]
    return drawing(
        lambda width, prefix: capture_hill(
            law, offset_mm=offset_mm, ground=PAGE, prefix=prefix, width=width
        ),
        prefix="capture",
    )


def _green_questions() -> tuple[Question, ...]:
    return (
        asked("up_ft", unit="ft", between=(1, 60), start="9", needed=True, hint=True),
        asked("down_ft", unit="ft", between=(1, 60), start="12", needed=True),
    )


def _green(values: Values) -> Found:
    return calc_green_speed(up_ft=values["up_ft"], down_ft=values["down_ft"])


def _ramp(values: Values, found: Found) -> Drawing:
    rolls = (
        Rolled(name="uphill", length_ft=values["up_ft"], rise=1.0),
        Rolled(name="downhill", length_ft=values["down_ft"], rise=-1.0),
        Rolled(name="on the level", length_ft=found["level_ft"], rise=0.0, ink="accent"),
    )
    return drawing(
        lambda width, prefix: ramp_rolls(rolls, ground=PAGE, prefix=prefix, width=width),
        prefix="ramp",
    )


def _holing_questions() -> tuple[Question, ...]:
    return (
        asked("distance_m", unit="m", between=(0.1, 40), start="2.4", needed=True),
        asked("start_sd_deg", unit="deg", between=(0, 15), start="1.2", needed=True, hint=True),
        asked("start_bias_deg", unit="deg", between=(-30, 30), start="0", hint=True),
        asked("pace_sd_pct", unit="%", between=(0, 100), start="8", needed=True, hint=True),
        asked("pace_bias_pct", unit="%", between=(-90, 200), start="0", hint=True),
        asked("green_ft", unit="ft", between=(3, 16), start="10", hint=True),
    )


def _holing(values: Values) -> Found:
    named = [each.name for each in _holing_questions()]
    return calc_holing(**{"green_ft": 10.0} | given(values, *named))


def _pattern(values: Values, _found: Found) -> Drawing:
    meant = values["distance_m"] + PLANNED_PAST_M
    rolled = meant * (1.0 + (values.get("pace_bias_pct") or 0.0) / 100.0)
    bias = math.radians(values.get("start_bias_deg") or 0.0)
    middle = (rolled * math.sin(bias), rolled * math.cos(bias) - values["distance_m"])
    spread = (
        rolled * float(np.tan(math.radians(values["start_sd_deg"]))),
        meant * values["pace_sd_pct"] / 100.0,
    )
    caught = capture_region(green_ft=values.get("green_ft") or 10.0)
    return drawing(
        lambda width, prefix: stopping_pattern(
            middle, spread, caught=caught, ground=PAGE, prefix=prefix, width=width
        ),
        prefix="pattern",
    )


OF_THE_PUTT = (
    Calculator(
        key="impact", questions=_impact_questions, reckon=_impact, draw=_strike,
        figures=(
            Figure(name="ball_speed_mps", unit="m/s", digits=2),
            Figure(name="start_deg", unit="°", sign=True),
            Figure(name="launch_deg", unit="°", sign=True),
            Figure(name="spin_rpm", unit="rpm", digits=0, sign=True),
            Figure(name="twist_deg", unit="°", digits=2, sign=True),
        ),
    ),
    Calculator(
        key="roll", questions=_roll_questions, reckon=_roll, draw=_rolled,
        figures=(
            Figure(name="roll_out_m", unit="m", digits=2),
            Figure(name="skid_m", unit="m", digits=2),
            Figure(name="skid_s", unit="s", digits=2),
            Figure(name="roll_start_speed_mps", unit="m/s", digits=2),
            Figure(name="roll_share_pct", unit="%", digits=0),
            Figure(name="break_m", unit="m", digits=2, sign=True),
        ),
    ),
    Calculator(
        key="capture", questions=_capture_questions, reckon=_capture, draw=_hill,
        figures=(Figure(name="capture_speed_mps", unit="m/s", digits=2),),
    ),
    Calculator(
        key="green-speed", questions=_green_questions, reckon=_green, draw=_ramp,
        figures=(
            Figure(name="level_ft", unit="ft"),
            Figure(name="deceleration_mps2", unit="m/s²", digits=3),
        ),
    ),
    Calculator(
        key="holing", questions=_holing_questions, reckon=_holing, draw=_pattern,
        figures=(
            Figure(name="make_pct", unit="%", digits=0),
            Figure(name="expected_putts", digits=2),
        ),
    ),
)  # fmt: skip
