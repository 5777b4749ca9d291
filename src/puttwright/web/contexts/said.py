"""A reading in words, short enough for one line on a phone."""

from __future__ import annotations

from collections.abc import Mapping
from typing import Final

from puttwright.evidence import AimReading, Putt, SetupReading
from puttwright.pictures.builds import BuildMark
from puttwright.pictures.of_fitting import aim_angle_deg
from puttwright.store.readings import Kept
from puttwright.web.measures import measure
from puttwright.web.texts import catalogue

NEAR_M: Final = 0.005
"""Below half a centimetre a stop is hole high or on line."""


def name_of(kept: Kept) -> str:
    """What it is and its number: "Putt 12"."""
    key = {"putts": "said.putt", "aims": "said.aim", "setups": "said.setup"}[kept.kind]
    return catalogue()(key, seq=kept.seq)


def said(kept: Kept, marks: Mapping[str, BuildMark]) -> str:
    """The whole reading: "Putt 12, B: from 3.0 m, 0.40 m past, 0.10 m right"."""
    text = catalogue()
    letter = marks[kept.reading.build_id].letter
    return f"{text('said.with', what=name_of(kept), letter=letter)}: {said_of(kept)}"


def said_of(kept: Kept) -> str:
    """What was read, without what and which."""
    reading = kept.reading
    if isinstance(reading, Putt):
        return ", ".join(_putt(reading))
    if isinstance(reading, AimReading):
        return ", ".join(_aim(reading))
    return ", ".join(_setup(reading)) or (reading.posture_note or "")


def _aside(value: float, words: str) -> str:
    return catalogue()("said.right" if value > 0 else "said.left", value=words)


def _putt(putt: Putt) -> list[str]:
    text = catalogue()
    parts = [text("said.from", distance=measure(putt.distance_m, "m", digits=1))]
    if putt.holed:
        parts.append(text("said.holed"))
    elif putt.stop_past_m is not None:
        parts.append(_along(putt.stop_past_m))
        if putt.stop_right_m is not None and abs(putt.stop_right_m) >= NEAR_M:
            parts.append(_aside(putt.stop_right_m, measure(abs(putt.stop_right_m), "m", digits=2)))
        elif putt.stop_right_m is not None:
            parts.append(text("said.on_line"))
    elif putt.holed is False:
        parts.append(text("said.missed"))
    if putt.ball_speed_mps is not None:
        parts.append(text("said.speed", value=measure(putt.ball_speed_mps, "m/s", digits=2)))
    if putt.start_deg is not None:
        parts.append(text("said.started", value=_turned(putt.start_deg)))
    if putt.launch_deg is not None:
        parts.append(text("said.launched", value=measure(putt.launch_deg, "°", digits=1)))
    if putt.skid_m is not None:
        parts.append(text("said.skidded", value=measure(putt.skid_m, "m", digits=2)))
    return [*parts, *_struck(putt)]


def _struck(putt: Putt) -> list[str]:
    """Where on the face it was struck."""
    text = catalogue()
    parts = []
    if putt.strike_toe_mm is not None:
        side = text("hour.toe" if putt.strike_toe_mm > 0 else "hour.heel")
        parts.append(f"{measure(abs(putt.strike_toe_mm), 'mm')} {side}")
    if putt.strike_high_mm is not None:
        side = text("said.high" if putt.strike_high_mm > 0 else "said.low")
        parts.append(f"{measure(abs(putt.strike_high_mm), 'mm')} {side}")
    return [text("said.struck", where=", ".join(parts))] if parts else []


def _along(past_m: float) -> str:
    text = catalogue()
    if abs(past_m) < NEAR_M:
        return text("said.hole_high")
    key = "said.past" if past_m > 0 else "said.short"
    return text(key, value=measure(abs(past_m), "m", digits=2))


def _turned(angle_deg: float) -> str:
    text = catalogue()
    if abs(angle_deg) < 0.05:
        return text("said.true_aim")
    return _aside(angle_deg, measure(abs(angle_deg), "°", digits=1))


def _aim(aim: AimReading) -> list[str]:
    millimetres = measure(abs(aim.reading_mm), "mm")
    on_board = _aside(aim.reading_mm, millimetres) if abs(aim.reading_mm) >= 0.5 else millimetres
    return [_turned(aim_angle_deg(aim)), on_board]


def _setup(setup: SetupReading) -> list[str]:
    text = catalogue()
    figures = (
        ("said.eye_inside", setup.eye_inside_mm, "mm", 0),
        ("said.hands_height", setup.hands_height_mm, "mm", 0),
        ("said.shaft_lean", setup.shaft_lean_deg, "°", 1),
        ("said.sole_tilt", setup.sole_tilt_deg, "°", 1),
    )
    return [
        f"{text(key)} {measure(value, unit, digits=digits)}"
        for key, value, unit, digits in figures
        if value is not None
    ]
