"""A golfer's pattern around the hole: where nine putts in ten would stop, were there no hole."""

from __future__ import annotations

import math
from collections.abc import Sequence
from typing import Final

from puttwright.pictures.annotation import measured_scale
from puttwright.pictures.drafting import Sheet, ellipse_points
from puttwright.pictures.grounds import Ground
from puttwright.pictures.hand import measure, spoken_unit
from puttwright.pictures.svg import Point
from puttwright.units import HOLE_RADIUS_M

_NINE_IN_TEN: Final = math.sqrt(-2.0 * math.log(0.1))
"""Radius of the ellipse that holds 90 % of a normal pattern, in standard deviations."""


def stopping_pattern(
    middle_m: Point, spread_m: Point, *, caught: Sequence[Point], ground: Ground,
    prefix: str = "pattern", width: float = 620.0,
) -> str:  # fmt: skip
    """Draw the pattern seen from above, the putt coming from below.

    Parameters
    ----------
    middle_m, spread_m
        Right of the line and past the hole: the middle and the standard deviations.
    caught
        Past the hole and half width within which a ball still falls
        (:func:`puttwright.pictures.of_putt.capture_region`).
    ground, prefix, width
        As for every drawing.

    Examples
    --------
    >>> from puttwright.pictures.grounds import PAPER
    >>> "nine in ten" in stopping_pattern((0, 0.4), (0.1, 0.3), caught=[], ground=PAPER)
    True
    """
    height = 0.86 * width if width < 500 else 0.62 * width
    sheet = Sheet(width=width, height=height, ground=ground, prefix=prefix)
    radii = (_NINE_IN_TEN * spread_m[0], _NINE_IN_TEN * spread_m[1])
    wide = abs(middle_m[0]) + max(radii[0], 0.15)
    low = min(middle_m[1] - radii[1], -0.25)
    high = max(middle_m[1] + radii[1], 0.4)
    scale = min((width / 2 - 30) / wide, (height - 76) / (high - low))
    zero = (width / 2, 24 + high * scale)

    def at(right: float, past: float) -> Point:
        return zero[0] + right * scale, zero[1] - past * scale

    sheet.line((zero[0], height - 42), (zero[0], 6), ink="faint", style="centre")
    funnel = [at(-half, past) for past, half in caught]
    funnel += [at(half, past) for past, half in reversed(caught)]
    if funnel:
        sheet.hatch(funnel, ink="own", gap=4)
        sheet.path(funnel, ink="own", weight="hair", closed=True)
    shape = (max(radii[0] * scale, 1.0), max(radii[1] * scale, 1.0))
    centre = at(*middle_m)
    sheet.path(ellipse_points(centre, radii=shape), ink="accent", weight="bold", closed=True)
    sheet.line((centre[0] - 5, centre[1]), (centre[0] + 5, centre[1]), ink="accent")
    sheet.line((centre[0], centre[1] - 5), (centre[0], centre[1] + 5), ink="accent")
    sheet.circle(zero, radius=max(HOLE_RADIUS_M * scale, 2.0), weight="bold", fill="paper")
    half = (width / 2 - 20) / scale
    measured_scale(
        sheet, (-half, half), unit="m", place=lambda m: at(m, 0)[0], level=height - 36, about=5
    )
    across = f"{spoken_unit('m')} right of the line"
    sheet.text((width - 8, height - 4), across, size="small", ink="muted", anchor="end")
    sheet.text((8, height - 4), "chalk: nine in ten would stop within", size="small", ink="muted")
    words = f"Nine in ten would stop within {measure(radii[0], 'm', digits=2)} of the middle "
    words += f"sideways and {measure(radii[1], 'm', digits=2)} along, were there no hole."
    return sheet.svg(title="The pattern at the hole", description=f"{words} (nine in ten)")
