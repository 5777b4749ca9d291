"""A drawn surface to tap on: where a tap falls on it, in the unit of what is read there.

A tap is a share of the drawn width and height. ``zero`` is where the reading is
zero, as such shares, and ``span`` how much the whole width (to the right) and
height (upwards) stand for.
"""

from __future__ import annotations

from dataclasses import dataclass
from typing import Final

from markupsafe import Markup

from puttwright.pictures.drafting import Sheet
from puttwright.pictures.svg import Point


@dataclass(frozen=True, slots=True, kw_only=True)
class TapSurface:
    """One width of a surface: its drawing and its geometry."""

    svg: Markup
    zero_x: float
    zero_y: float
    span_x: float
    span_y: float
    step: float


@dataclass(frozen=True, slots=True, kw_only=True)
class Frame:
    """Where zero lies on a sheet [units] and how many units one of the reading is."""

    width: float
    height: float
    zero: Point
    scale: float

    def at(self, right: float, *, up: float = 0.0) -> Point:
        """The place of a reading."""
        return (self.zero[0] + right * self.scale, self.zero[1] - up * self.scale)

    def surface(self, sheet: Sheet, *, title: str, told: str, step: float) -> TapSurface:
        """The finished surface; ``step`` is how far an arrow key moves."""
        return TapSurface(
            svg=Markup(sheet.svg(title=title, description=told)),  # noqa: S704 - our own drawing
            zero_x=self.zero[0] / self.width,
            zero_y=self.zero[1] / self.height,
            span_x=self.width / self.scale,
            span_y=self.height / self.scale,
            step=step,
        )


def dots(sheet: Sheet, points: list[Point], *, latest: bool) -> None:
    """Readings as dots; the last one in chalk when it was the last of all."""
    for number, at in enumerate(points):
        if latest and number == len(points) - 1:
            sheet.circle(at, radius=8.0, ink="accent", weight="line", kind="pw-latest")
            sheet.circle(at, radius=4.2, ink="accent", weight="hair", fill="accent", kind="pw-new")
        else:
            sheet.circle(at, radius=3.6, weight="line", fill="paper", kind="pw-reading")


def smallest_that_holds(steps: tuple[float, ...], wanted: float) -> float:
    """The first of the steps that is not below ``wanted``; the last when none is.

    Examples
    --------
    >>> smallest_that_holds((50, 100, 200), 120), smallest_that_holds((50, 100), 900)
    (200, 100)
    """
    return next((step for step in steps if step >= wanted), steps[-1])


REACHES_MM: Final = (75.0, 150.0, 300.0, 600.0, 1200.0)
REACHES_M: Final = (0.6, 0.9, 1.5, 2.5, 4.0, 8.0)
