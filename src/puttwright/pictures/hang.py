"""Hang: how the head comes to rest when the putter lies balanced across a finger."""

from __future__ import annotations

import math
from collections.abc import Callable
from typing import Final

from puttwright.evidence.records import LEFT, Build
from puttwright.pictures.annotation import angle_dimension, arrowhead, plumb_line
from puttwright.pictures.drafting import Sheet
from puttwright.pictures.grounds import Ground
from puttwright.pictures.hand import measure
from puttwright.pictures.putter_forms import head_form, neck_form
from puttwright.pictures.svg import Point

_REACH_MM: Final = 112.0


def hang(build: Build, *, handed: str, ground: Ground, prefix: str = "hang",
         width: float = 260.0) -> str:  # fmt: skip
    """Draw the head at rest, seen along the shaft from the grip.

    0° is a face that looks at the sky, 90° a toe that points at the ground. A build
    without a recorded hang is drawn at 0° with dashes and says so.

    Examples
    --------
    >>> from puttwright.pictures.grounds import PAPER
    >>> build = Build(build_id="b", length_mm=864, lie_deg=71, loft_deg=3, toe_hang_deg=45)
    >>> "45°" in hang(build, handed="right", ground=PAPER)
    True
    """
    sheet = Sheet(width=width, height=width, ground=ground, prefix=prefix, mirrored=handed == LEFT)
    draw_hang(sheet, build, centre=(width / 2, 0.46 * width), room=width / 2 - 12)
    return sheet.svg(title=f"Hang of {build.name}", description=said_hang(build))


def said_hang(build: Build, /) -> str:
    """The hang in words."""
    if build.toe_hang_deg is None:
        return "Hang not measured."
    return (
        f"Balanced across a finger the toe hangs {measure(build.toe_hang_deg, '°')}; "
        "0° is a face looking at the sky, 90° a toe pointing at the ground."
    )


def draw_hang(sheet: Sheet, build: Build, *, centre: Point, room: float) -> None:
    """Put the hang drawing on a sheet, within ``room`` around the shaft axis."""
    scale = room / _REACH_MM
    known = build.toe_hang_deg is not None
    turn = math.radians(build.toe_hang_deg or 0.0)

    def at(toe_mm: float, face_mm: float) -> Point:
        # The toe lies to the right with the face up; hanging turns it clockwise.
        x = toe_mm * math.cos(turn) + face_mm * math.sin(turn)
        y = toe_mm * math.sin(turn) - face_mm * math.cos(turn)
        return (centre[0] + scale * x, centre[1] + scale * y)

    axis, ahead = neck_form(build).axis_from_middle_mm, build.offset_mm or 0.0
    outline = [at(axis - x, y - ahead) for x, y in head_form(build).plan]
    plumb_line(
        sheet, (centre[0], centre[1] - 0.9 * room), length=1.82 * room, ink="muted", weight="hair"
    )
    sheet.path(outline, style="solid" if known else "hidden", closed=True)
    half = head_form(build).length_mm / 2
    sheet.path([at(axis - half, -ahead), at(axis + half, -ahead)], weight="bold")
    sheet.circle(centre, radius=max(4.7 * scale, 3.0), weight="line", fill="paper")
    _face_arrow(sheet, at, ahead=ahead)
    if not known:
        words = "hang not measured"
        sheet.text((centre[0], centre[1] + room + 14), words, size="small", anchor="middle")
    elif abs(build.toe_hang_deg or 0.0) > 2.0:
        hangs_deg = build.toe_hang_deg or 0.0
        angle_dimension(
            sheet, centre, radius=0.72 * room, from_deg=90.0, to_deg=90.0 - hangs_deg,
            label=measure(hangs_deg, "°"),
        )  # fmt: skip
    else:
        sheet.text((centre[0] + 10, centre[1] - 0.8 * room), "face balanced, 0°", size="small")


def _face_arrow(sheet: Sheet, at: Callable[[float, float], Point], *, ahead: float) -> None:
    """Where the face looks."""
    foot, tip = at(0.0, max(-ahead, 0.0) + 6), at(0.0, 84.0)
    sheet.line(foot, tip, ink="ink", weight="line")
    arrowhead(sheet, tip, towards=(tip[0] - foot[0], tip[1] - foot[1]), ink="ink")
