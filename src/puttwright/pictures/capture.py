"""How fast a ball may come: the greatest speed the hole takes, above the hole itself."""

from __future__ import annotations

from collections.abc import Callable
from typing import Final

import numpy as np

from puttwright.fitting.phrases import figure
from puttwright.pictures.annotation import dimension, measured_scale, ticks
from puttwright.pictures.drafting import Sheet
from puttwright.pictures.grounds import Ground
from puttwright.pictures.hand import in_spoken, measure, spoken_unit
from puttwright.pictures.svg import Point
from puttwright.units import BALL_RADIUS_M, HOLE_RADIUS_M

_REACH_MM: Final = 64.0
_TOP: Final = 24.0
_HILL: Final = 170.0

Law = Callable[[float], float]
"""The greatest speed [m/s] on a line so far off the middle [m]."""


def capture_hill(
    law: Law, *, offset_mm: float, ground: Ground, prefix: str = "capture", width: float = 620.0
) -> str:
    """Draw the speeds the hole takes over the hole to scale, with the line asked for.

    Parameters
    ----------
    law
        The greatest speed by the offset.
    offset_mm
        The line asked for, right positive.
    ground, prefix, width
        As for every drawing.

    Examples
    --------
    >>> from puttwright.pictures.grounds import PAPER
    >>> "m/s" in capture_hill(lambda offset: 1.0, offset_mm=10, ground=PAPER)
    True
    """
    scale = min((width - 76) / (2 * _REACH_MM), 3.0)
    hole = 1e3 * HOLE_RADIUS_M * scale
    base = _TOP + _HILL
    height = base + 40 + 2 * hole + 20
    sheet = Sheet(width=width, height=height, ground=ground, prefix=prefix)
    middle = 50 + (width - 76) / 2
    offsets = np.linspace(-1e3 * HOLE_RADIUS_M, 1e3 * HOLE_RADIUS_M, 121)
    top = max(1.8, 1.1 * max(law(each / 1e3) for each in offsets[::10]))

    def at(offset: float, speed: float) -> Point:
        return middle + scale * offset, base - speed / top * _HILL

    times = in_spoken("m/s")
    for speed in ticks((0.0, top * times), about=4):
        level = at(0, speed / times)[1]
        sheet.line((50, level), (width - 26, level), ink="faint", weight="hair")
        sheet.text((44, level + 4), figure(speed, digits=1), size="small", ink="muted",
                   anchor="end")  # fmt: skip
    sheet.text((8, 12), f"{spoken_unit('m/s')} at the rim", size="small", ink="muted")
    hill = [at(float(each), law(float(each) / 1e3)) for each in offsets]
    sheet.hatch([*hill, at(offsets[-1], 0), at(offsets[0], 0)], gap=6)
    sheet.path(hill, weight="bold")
    measured_scale(sheet, (-60.0, 60.0), unit="mm", place=lambda mm: at(mm, 0)[0], level=base + 4)
    _hole(sheet, (middle, base + 42 + hole), radius=hole, scale=scale, offset_mm=offset_mm)
    _asked(sheet, at, law=law, offset_mm=offset_mm, foot=height - 18)
    speed = law(offset_mm / 1e3)
    told = f"{measure(abs(offset_mm), 'mm')} off the middle it takes up to "
    told += f"{measure(speed, 'm/s', digits=2)}."
    return sheet.svg(title="Speeds the hole takes", description=told)


def _hole(sheet: Sheet, centre: Point, *, radius: float, scale: float, offset_mm: float) -> None:
    sheet.circle(centre, radius=radius, weight="bold")
    ball = 1e3 * BALL_RADIUS_M * scale
    shown = max(min(offset_mm, _REACH_MM), -_REACH_MM)
    sheet.circle((centre[0] + shown * scale, centre[1] + radius * 0.55), radius=ball, ink="muted",
                 fill="paper")  # fmt: skip
    if abs(shown) > 2:
        ends = (centre, (centre[0] + shown * scale, centre[1]))
        dimension(sheet, ends, label=measure(abs(offset_mm), "mm"))


def _asked(
    sheet: Sheet, at: Callable[[float, float], Point], *, law: Law, offset_mm: float, foot: float
) -> None:
    shown = max(min(offset_mm, _REACH_MM), -_REACH_MM)
    speed = law(offset_mm / 1e3)
    dot = at(shown, speed)
    sheet.line((dot[0], foot), dot, ink="accent", style="centre")
    sheet.circle(dot, radius=5, ink="accent", fill="accent")
    words = measure(speed, "m/s", digits=2)
    out = -1 if shown < 0 else 1  # outside the hill there is room
    sheet.text((dot[0] + 11 * out, dot[1] - 4), words, bold=True, halo=True,
               anchor="start" if out > 0 else "end")  # fmt: skip
