"""The project's mark: a plumb line through a ball and square to a putter's face, from above."""

from __future__ import annotations

from typing import Final

from puttwright.pictures.drafting import Sheet
from puttwright.pictures.grounds import Ground
from puttwright.pictures.svg import Point, element

_SIZE: Final = 64.0


def mark(*, ground: Ground, prefix: str = "mark", backed: bool = False) -> str:
    """Draw the mark on a square of 64 units; ``backed`` gives it the ground's paper.

    Examples
    --------
    >>> from puttwright.pictures.grounds import PAPER
    >>> 'viewBox="0 0 64 64"' in mark(ground=PAPER)
    True
    """
    sheet = Sheet(width=_SIZE, height=_SIZE, ground=ground, prefix=prefix)
    middle = _SIZE / 2
    sheet.add(_ball(sheet))
    _stroke(sheet, ((middle, 1.0), (middle, 54.0)), width=2.2)
    _stroke(sheet, ((4.0, 42.5), (60.0, 42.5)), width=7.0)
    sheet.solid(
        [(27.0, 50.0), (37.0, 50.0), (37.0, 55.0), (32.0, 63.0), (27.0, 55.0)], ink="accent"
    )
    return sheet.svg(
        title="puttwright",
        description="A plumb line through a ball and square to a putter's face",
        backed=backed,
    )


def _stroke(sheet: Sheet, ends: tuple[Point, Point], *, width: float) -> None:
    """A line as a filled bar: the mark keeps its weight at every size and on every ground."""
    start, end = ends
    half = width / 2
    across = (half, 0.0) if start[0] == end[0] else (0.0, half)
    dx, dy = across
    sheet.solid(
        [(start[0] - dx, start[1] - dy), (end[0] - dx, end[1] - dy),
         (end[0] + dx, end[1] + dy), (start[0] + dx, start[1] + dy)]
    )  # fmt: skip


def _ball(sheet: Sheet) -> str:
    return element(
        "circle", cx=_SIZE / 2, cy=24.0, r=13.5, fill=sheet.ground.colour("paper"),
        stroke=sheet.ground.colour("ink"), stroke_width=3.0,
    )  # fmt: skip
