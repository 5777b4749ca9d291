"""A strike from above: where the face looks, where the head travels, where the ball starts."""

from __future__ import annotations

import math
from typing import Final

from puttwright.evidence.signs import side_word
from puttwright.pictures.annotation import arrowhead
from puttwright.pictures.drafting import Sheet, Style
from puttwright.pictures.grounds import Ground
from puttwright.pictures.hand import measure
from puttwright.pictures.svg import Point

_WIDEST_DEG: Final = 42.0
_HEAD: Final = (96.0, 30.0)
_UNITS_A_MM: Final = 0.95


def strike_plan(
    *, face_deg: float, path_deg: float, start_deg: float, strike_toe_mm: float = 0.0,
    handed: str = "right", ground: Ground, prefix: str = "strike", width: float = 620.0,
) -> str:  # fmt: skip
    """Draw the moment of the strike; the target is to the right, right of it is below.

    Parameters
    ----------
    face_deg, path_deg, start_deg
        Right positive. Small angles are drawn wider than they are, and the drawing says so.
    strike_toe_mm
        From the sweet spot, toe positive.
    handed
        Says on which side the toe is: below for a right-hander.
    ground, prefix, width
        As for every drawing.

    Examples
    --------
    >>> from puttwright.pictures.grounds import PAPER
    >>> "starts" in strike_plan(face_deg=2, path_deg=-3, start_deg=1, ground=PAPER)
    True
    """
    height = 250.0
    sheet = Sheet(width=width, height=height, ground=ground, prefix=prefix)
    ball = (0.24 * width, height / 2 - 8)
    most = max(abs(face_deg), abs(path_deg), abs(start_deg), 0.1)
    stretch = min(6.0, max(_WIDEST_DEG / most, 1.0))
    sheet.line((12, ball[1]), (width - 10, ball[1]), style="centre", ink="faint")
    rays: tuple[tuple[float, str, Style, float], ...] = (
        (face_deg, "face", "hidden", 0.46), (path_deg, "path", "dotted", 0.46),
    )  # fmt: skip
    for angle, name, style, share in rays:
        end = _end(ball, stretch * angle, length=share * width)
        sheet.line(ball, end, style=style, ink="muted")
        sheet.text((end[0] + 4, end[1] + (12 if angle > 0 else -4)), f"{name} {_said(angle)}",
                   size="small", halo=True)  # fmt: skip
    end = _end(ball, stretch * start_deg, length=0.56 * width)
    sheet.line(ball, end, ink="accent", weight="bold")
    arrowhead(sheet, end, towards=(end[0] - ball[0], end[1] - ball[1]), ink="accent")
    _head(sheet, ball, turn_deg=stretch * face_deg, toe_mm=strike_toe_mm, handed=handed)
    sheet.circle(ball, radius=10, fill="paper")
    sheet.text((12, height - 10), f"starts {_said(start_deg)}", bold=True)
    if stretch > 1.05:
        words = f"angles drawn {stretch:.0f} times as wide"
        sheet.text((width - 10, height - 10), words, size="small", ink="muted", anchor="end")
    told = f"Face {_said(face_deg)}, path {_said(path_deg)}; the ball starts {_said(start_deg)}."
    return sheet.svg(title="The strike from above", description=told)


def _said(angle_deg: float) -> str:
    if abs(angle_deg) < 0.05:
        return "straight"
    return f"{measure(abs(angle_deg), '°', digits=1)} {side_word(angle_deg)}"


def _end(start: Point, angle_deg: float, *, length: float) -> Point:
    turn = math.radians(angle_deg)
    return start[0] + length * math.cos(turn), start[1] + length * math.sin(turn)


def _head(sheet: Sheet, ball: Point, *, turn_deg: float, toe_mm: float, handed: str) -> None:
    turn = math.radians(turn_deg)
    ahead, aside = (math.cos(turn), math.sin(turn)), (-math.sin(turn), math.cos(turn))
    toe = 1.0 if handed == "right" else -1.0
    shift = -toe * _UNITS_A_MM * max(min(toe_mm, 45.0), -45.0)

    def at(forward: float, across: float) -> Point:
        return (
            ball[0] + (forward - 11) * ahead[0] + (across + shift) * aside[0],
            ball[1] + (forward - 11) * ahead[1] + (across + shift) * aside[1],
        )

    half, deep = _HEAD[0] / 2, _HEAD[1]
    outline = [at(0, -half), at(0, half), at(-deep, 0.8 * half), at(-deep, -0.8 * half)]
    sheet.hatch(outline)
    sheet.path(outline, closed=True)
    sheet.line(at(0, -half), at(0, half), weight="bold")
    sheet.line(at(-deep, 0), at(-2, 0), ink="accent", weight="line")
    sheet.text(at(-deep / 2, toe * (half + 12)), "toe", size="small", ink="muted", anchor="middle")
