"""A reading in words, short enough for one line on a phone."""

from __future__ import annotations

import math
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
FAR_M: Final = 2.0
"""A stop so near the hole is nothing to ask about, however short the putt; a judgement."""
MIDDLE_MM: Final = 0.5
"""Below half a millimetre a strike is toward no side."""


def name_of(kept: Kept) -> str:
    """What it is and its number: "Putt 12"."""
    key = {"putts": "said.putt", "aims": "said.aim", "setups": "said.setup"}[kept.kind]
    return catalogue()(key, seq=kept.seq)


def said(kept: Kept, marks: Mapping[str, BuildMark]) -> str:
    """The whole reading: "Putt 12, B: from 3.0 m, 0.40 m past, 0.10 m right"."""
    text = catalogue()
    letter = marks[kept.reading.build_id].letter
    return f"{text('said.with', what=name_of(kept), letter=letter)}: {said_of(kept)}"


def unlikely(kept: Kept) -> str:
    """What to ask about a reading that was taken all the same; empty for most.

    A ball that ends farther from the hole than it began was often meant in centimetres.
    """
    putt = kept.reading
    if not isinstance(putt, Putt) or putt.stop_past_m is None:
        return ""
    off_m = math.hypot(putt.stop_past_m, putt.stop_right_m or 0.0)
    return catalogue()("bench.far_off") if off_m > max(putt.distance_m, FAR_M) else ""


def said_of(kept: Kept) -> str:
    """What was read, without what and which."""
    reading = kept.reading
    if isinstance(reading, Putt):
        return ", ".join(_putt(reading))
    if isinstance(reading, AimReading):
        return ", ".join(_aim(reading))
    return ", ".join(_setup(reading)) or (reading.posture_note or "")


def aside(value: float, /, *, unit: str, digits: int = 0) -> str:
    """How far to which side: "12 mm right"; on line where it is none that is shown."""
    words = measure(abs(value), unit, digits=digits)
    if abs(value) < 0.5 * 10.0**-digits:
        return catalogue()("said.on_line")
    return _sided(value, words)


def _sided(value: float, words: str) -> str:
    return catalogue()("said.right" if value > 0 else "said.left", value=words)


def _putt(putt: Putt) -> list[str]:
    text = catalogue()
    parts = [text("said.from", distance=measure(putt.distance_m, "m", digits=1))]
    if putt.holed:
        parts.append(text("said.holed"))
    elif putt.stop_past_m is not None:
        parts.append(along(putt.stop_past_m))
        if putt.stop_right_m is not None:
            parts.append(aside(putt.stop_right_m, unit="m", digits=2))
    elif putt.holed is False:
        parts.append(text("said.missed"))
    if putt.ball_speed_mps is not None:
        parts.append(text("said.speed", value=measure(putt.ball_speed_mps, "m/s", digits=2)))
    if putt.start_deg is not None:
        parts.append(text("said.started", value=turned(putt.start_deg)))
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
        parts.append(toewise(putt.strike_toe_mm))
    if putt.strike_high_mm is not None:
        parts.append(heightwise(putt.strike_high_mm))
    return [text("said.struck", where=", ".join(parts))] if parts else []


def toewise(toe_mm: float, /) -> str:
    """How far toward the toe or the heel."""
    return _or_middle(toe_mm, catalogue()("hour.toe" if toe_mm > 0 else "hour.heel"))


def heightwise(high_mm: float, /) -> str:
    """How far above or below the sweet spot."""
    return _or_middle(high_mm, catalogue()("said.high" if high_mm > 0 else "said.low"))


def _or_middle(value_mm: float, side: str, /) -> str:
    words = measure(abs(value_mm), "mm")
    return f"{words} {side}" if abs(value_mm) >= MIDDLE_MM else words


def along(past_m: float, /) -> str:
    """How far past or short of the hole."""
    text = catalogue()
    if abs(past_m) < NEAR_M:
        return text("said.hole_high")
    key = "said.past" if past_m > 0 else "said.short"
    return text(key, value=measure(abs(past_m), "m", digits=2))


def turned(angle_deg: float, /) -> str:
    """Which way it looks, and by how much."""
    text = catalogue()
    if abs(angle_deg) < 0.05:
        return text("said.true_aim")
    return _sided(angle_deg, measure(abs(angle_deg), "°", digits=1))


def _aim(aim: AimReading) -> list[str]:
    millimetres = measure(abs(aim.reading_mm), "mm")
    on_board = _sided(aim.reading_mm, millimetres) if abs(aim.reading_mm) >= 0.5 else millimetres
    return [turned(aim_angle_deg(aim)), on_board]


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
