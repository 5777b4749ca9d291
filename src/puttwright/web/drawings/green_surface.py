"""The green around the hole as a surface to tap on: the putt comes from below, right is right."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from typing import Final

from puttwright.pictures.drafting import Sheet
from puttwright.pictures.grounds import PAGE
from puttwright.pictures.hand import in_spoken, measure, spoken_unit
from puttwright.pictures.svg import Point
from puttwright.units import HOLE_RADIUS_M
from puttwright.web.drawings.tap_surface import (
    REACHES_M,
    Frame,
    TapSurface,
    dots,
    smallest_that_holds,
)

_HOLE_AT: Final = 0.46
_STEP_M: Final = 0.02
_RINGS: Final[Mapping[str, tuple[float, ...]]] = {
    "m": (0.25, 0.5, 1.0, 2.0, 4.0),
    "ft": (0.5, 1.0, 2.0, 4.0, 8.0, 16.0),
}
"""Round distances from the hole, in the unit that is spoken."""


def green_surface(
    stops: Sequence[Point],
    *,
    distance_m: float,
    latest: bool,
    width: float,
    prefix: str,
    wide: bool = False,
) -> TapSurface:
    """Draw the hole to scale with where the putts of the build in hand stopped.

    Parameters
    ----------
    stops
        Right of the line and past the hole [m], in the order hit.
    distance_m
        Ball to hole.
    latest
        Whether the last of them was the last reading of all.
    width, prefix
        As for every drawing.
    wide
        Whether as much green is wanted as a putt gone far astray needs.
    """
    height = 340.0 if width < 500 else 430.0
    farthest = max((max(abs(right), abs(past)) for right, past in stops), default=0.0)
    # one putt gone astray must not shrink the rest to a point; for it the green is drawn wide
    most, least = (1.1 * farthest, 0.9 * distance_m) if wide else (0.45 * distance_m, 0.0)
    wanted = max(min(1.1 * farthest, most), 0.22 * distance_m, least)
    reach = smallest_that_holds(REACHES_M, wanted)
    sheet = Sheet(width=width, height=height, ground=PAGE, prefix=prefix)
    zero = (width / 2, height * _HOLE_AT)
    frame = Frame(width=width, height=height, zero=zero, scale=0.45 * height / reach)
    _line(sheet, frame, distance_m=distance_m)
    _rings(sheet, frame)
    sheet.circle(zero, radius=HOLE_RADIUS_M * frame.scale, weight="bold", fill="paper")
    _words(sheet, frame)
    dots(sheet, [frame.at(right, up=past) for right, past in stops], latest=latest)
    told = "; ".join(f"{_signed(past)} past, {_signed(right)} right" for right, past in stops)
    title = f"Green around the hole, putts from {measure(distance_m, 'm', digits=1)}"
    return frame.surface(sheet, title=title, told=f"Misses so far: {told or 'none'}.", step=_STEP_M)


def _signed(value_m: float) -> str:
    return measure(value_m, "m", digits=2, sign=True)


def _line(sheet: Sheet, frame: Frame, *, distance_m: float) -> None:
    x = frame.zero[0]
    sheet.line((x, frame.height), (x, 0.0), ink="faint", weight="hair", style="centre")
    y = frame.zero[1]
    sheet.line((0.0, y), (frame.width, y), ink="faint", weight="hair", style="centre")
    tip = frame.height - 26
    sheet.path([(x - 5, tip + 9), (x, tip), (x + 5, tip + 9)], ink="muted", weight="line")
    words = f"from {measure(distance_m, 'm', digits=1)}"
    sheet.text((x + 10, frame.height - 12), words, size="small", ink="muted", halo=True)


def _rings(sheet: Sheet, frame: Frame) -> None:
    room = min(frame.zero[1], frame.width / 2) - 4
    times = in_spoken("m")
    rings_m = [ring / times for ring in _RINGS[spoken_unit("m")]]
    for ring in [each for each in rings_m if 26.0 < each * frame.scale < room][-3:]:
        radius = ring * frame.scale
        sheet.circle(frame.zero, radius=radius, ink="faint", weight="hair", style="dotted")
        at = (frame.zero[0] + 0.7071 * radius + 3, frame.zero[1] - 0.7071 * radius - 2)
        words = measure(ring, "m", digits=2 if ring < 0.5 else 1)
        sheet.text(at, words, size="small", ink="muted", halo=True)


def _words(sheet: Sheet, frame: Frame) -> None:
    across = frame.zero[1] - 6
    sheet.text((6, across), "left", size="small", ink="muted", halo=True)
    sheet.text(
        (frame.width - 6, across), "right", size="small", ink="muted", anchor="end", halo=True
    )
    x = frame.zero[0] + 8
    sheet.text((x, 14), "past", size="small", ink="muted", halo=True)
    sheet.text((x, frame.height - 30), "short", size="small", ink="muted", halo=True)
