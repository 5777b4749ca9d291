"""The aim board as a surface to tap on: one build, the readings taken with it so far."""

from __future__ import annotations

import math
from collections.abc import Sequence
from typing import Final

from puttwright.evidence.signs import face_word
from puttwright.pictures.annotation import measured_scale, plumb_line, scale_line, ticks
from puttwright.pictures.drafting import Sheet
from puttwright.pictures.grounds import PAGE
from puttwright.pictures.hand import measure, spoken_unit
from puttwright.pictures.lettering import width_of
from puttwright.units import HOLE_RADIUS_M
from puttwright.web.drawings.tap_surface import (
    REACHES_MM,
    Frame,
    TapSurface,
    dots,
    smallest_that_holds,
)

_MARGIN: Final = 10.0
_TOP: Final = 40.0
_FOOT: Final = 44.0
_STEP_MM: Final = 1.0
_APART: Final = 10.0


def aim_surface(
    readings_mm: Sequence[float],
    *,
    board_distance_mm: float,
    handed: str,
    latest: bool,
    width: float,
    prefix: str,
) -> TapSurface:
    """Draw the board as the golfer sees it; right is right.

    Parameters
    ----------
    readings_mm
        Readings of the build in hand, in the order taken, right positive.
    board_distance_mm
        Face to board, for the scale in degrees.
    handed
        Names the open and the closed side.
    latest
        Whether the last of them was the last reading of all.
    width, prefix
        As for every drawing.
    """
    height = 200.0 if width < 500 else 240.0
    widest = max((abs(value) for value in readings_mm), default=0.0)
    one_and_a_half_deg = board_distance_mm * math.tan(math.radians(1.5))
    reach = smallest_that_holds(REACHES_MM, max(1.1 * widest, one_and_a_half_deg))
    sheet = Sheet(width=width, height=height, ground=PAGE, prefix=prefix)
    scale = (width / 2 - _MARGIN) / reach
    frame = Frame(width=width, height=height, zero=(width / 2, height / 2), scale=scale)
    _board(sheet, frame, reach=reach)
    _scales(sheet, frame, reach=reach, board_distance_mm=board_distance_mm)
    _sides(sheet, frame, handed=handed)
    _readings(sheet, frame, readings_mm=readings_mm, latest=latest)
    told = ", ".join(measure(value, "mm", sign=True) for value in readings_mm) or "none yet"
    return frame.surface(sheet, title="Aim board", told=f"Readings so far: {told}.", step=_STEP_MM)


def _board(sheet: Sheet, frame: Frame, *, reach: float) -> None:
    top, bottom = _TOP, frame.height - _FOOT
    left, right = frame.at(-reach)[0], frame.at(reach)[0]
    sheet.path([(left, top), (right, top), (right, bottom), (left, bottom)], closed=True)
    hole = HOLE_RADIUS_M * 1000.0
    if hole < reach:
        for side in (-hole, hole):
            x = frame.at(side)[0]
            sheet.line((x, top), (x, bottom), ink="faint", weight="hair", style="centre")
    plumb_line(sheet, (frame.zero[0], top), length=bottom - top - 2, weight="hair")


def _scales(sheet: Sheet, frame: Frame, *, reach: float, board_distance_mm: float) -> None:
    about = max(4, round(frame.width / 70))
    bottom = frame.height - _FOOT
    measured_scale(
        sheet, (-reach, reach), unit="mm", place=lambda v: frame.at(v)[0], level=bottom, about=about
    )
    end = (frame.width - _MARGIN, frame.height - 6)
    sheet.text(end, spoken_unit("mm"), size="small", ink="muted", anchor="end")
    most = math.degrees(math.atan(reach / board_distance_mm))
    degrees = ticks((-most, most), about=about)
    digits = 0 if len(degrees) < 2 or degrees[1] - degrees[0] >= 1 else 1
    scale_line(
        sheet,
        degrees,
        place=lambda v: frame.at(board_distance_mm * math.tan(math.radians(v)))[0],
        level=_TOP,
        label=lambda v: measure(v, "°", digits=digits),
        below=False,
    )


def _sides(sheet: Sheet, frame: Frame, *, handed: str) -> None:
    foot = frame.height - 6
    end = frame.width - _MARGIN - width_of(spoken_unit("mm"), size="small") - _APART
    left, right = (
        f"{words}, {face_word(angle, handed=handed)}"
        for angle, words in ((-1.0, "left"), (1.0, "right"))
    )
    sheet.text((_MARGIN, foot), left, size="small", ink="muted")
    sheet.text((end, foot), right, size="small", ink="muted", anchor="end")


def _readings(sheet: Sheet, frame: Frame, *, readings_mm: Sequence[float], latest: bool) -> None:
    """First reading at the bottom, the latest at the top, so that a drift shows."""
    room = frame.height - _FOOT - _TOP - 44
    rise = min(14.0, room / max(len(readings_mm) - 1, 1))
    foot = frame.height - _FOOT - 26
    points = [
        (frame.at(value)[0], foot - rise * number) for number, value in enumerate(readings_mm)
    ]
    dots(sheet, points, latest=latest)
