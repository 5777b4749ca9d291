"""A frame with a scale across and a scale up, on which points and their doubt are drawn."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass

from puttwright.pictures.annotation import scale_line, ticks
from puttwright.pictures.drafting import Sheet
from puttwright.pictures.grounds import Ink
from puttwright.pictures.svg import Point

Limits = tuple[float, float]


@dataclass(frozen=True, slots=True, kw_only=True)
class Frame:
    """Where values come to lie: ``across`` and ``up`` fill the box between two corners."""

    across: Limits
    up: Limits
    left: float
    right: float
    top: float
    base: float

    def x(self, value: float) -> float:
        """Units from the sheet's left."""
        share = (value - self.across[0]) / (self.across[1] - self.across[0])
        return self.left + share * (self.right - self.left)

    def y(self, value: float) -> float:
        """Units from the sheet's top."""
        share = (value - self.up[0]) / (self.up[1] - self.up[0])
        return self.base - share * (self.base - self.top)

    def at(self, *, across: float, up: float) -> Point:
        """A point on the sheet."""
        return self.x(across), self.y(up)


def draw_frame(
    sheet: Sheet, frame: Frame, *, names: tuple[str, str],
    label: tuple[Callable[[float], str], Callable[[float], str]],
) -> None:  # fmt: skip
    """Draw both scales, faint lines at the upright one's figures; ``names`` are across and up."""
    for value in ticks(frame.up, about=5):
        level = frame.y(value)
        sheet.line((frame.left, level), (frame.right, level), ink="faint", weight="hair")
        sheet.text(
            (frame.left - 8, level + 4), label[1](value), size="small", ink="muted", anchor="end"
        )
    about = max(3, round((frame.right - frame.left) / 90))
    scale_line(
        sheet, ticks(frame.across, about=about), place=frame.x, level=frame.base, label=label[0]
    )
    foot = frame.base + 36
    sheet.text((frame.right, foot), names[0], size="small", ink="muted", anchor="end")
    sheet.text((14, frame.top - 14), names[1], size="small", ink="muted")


def doubt(sheet: Sheet, ends: tuple[Point, Point], *, ink: Ink = "ink", tick: float = 4.0) -> None:
    """An interval: a thin line with a tick at either end, upright or level."""
    (ax, ay), (bx, by) = ends
    sheet.line(ends[0], ends[1], ink=ink, weight="line")
    dx, dy = (tick, 0.0) if ax == bx else (0.0, tick)
    for x, y in ((ax, ay), (bx, by)):
        sheet.line((x - dx, y - dy), (x + dx, y + dy), ink=ink, weight="line")
