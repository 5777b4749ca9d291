"""A bend of the neck: lie seen facing the golfer, loft seen from the toe, before and after."""

from __future__ import annotations

import math
from dataclasses import dataclass
from typing import Final

from puttwright.evidence.records import LEFT
from puttwright.pictures.annotation import angle_dimension
from puttwright.pictures.drafting import Sheet
from puttwright.pictures.grounds import Ground
from puttwright.pictures.hand import measure
from puttwright.pictures.svg import Point

_TIMES: Final = 3.0
"""A bend is drawn three times as wide as it is, or nobody would see it."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Angles:
    """Loft and lie [deg] at one moment."""

    loft_deg: float
    lie_deg: float


def bend_views(
    before: Angles, *, after: Angles, handed: str, ground: Ground, prefix: str = "bend",
    width: float = 620.0,
) -> str:  # fmt: skip
    """Draw both views, before dashed and after plain; side by side where there is room.

    Examples
    --------
    >>> from puttwright.pictures.grounds import PAPER
    >>> was, done = Angles(loft_deg=3, lie_deg=70), Angles(loft_deg=3, lie_deg=72)
    >>> "lie 72.0°" in bend_views(was, after=done, handed="right", ground=PAPER)
    True
    """
    narrow = width < 500
    height = 470.0 if narrow else 250.0
    sheet = Sheet(width=width, height=height, ground=ground, prefix=prefix,
                  mirrored=handed == LEFT)  # fmt: skip
    first = (0.5 * width if narrow else 0.26 * width, 206.0)
    second = (0.55 * width if narrow else 0.78 * width, 206.0 + (220.0 if narrow else 0.0))
    _lie(sheet, first, before=before, after=after)
    _loft(sheet, second, before=before, after=after)
    words = f"changes drawn {_TIMES:.0f} times as wide; dashed: before"
    middle, foot = (width / 2, height - 6)
    sheet.text((middle, foot), words, size="small", ink="muted", anchor="middle")
    told = (
        f"Lie {measure(before.lie_deg, '°', digits=1)} becomes "
        f"{measure(after.lie_deg, '°', digits=1)}, loft {measure(before.loft_deg, '°', digits=1)} "
        f"becomes {measure(after.loft_deg, '°', digits=1)}."
    )
    return sheet.svg(title="Before and after the bend", description=told)


def _ground(sheet: Sheet, at: Point, *, half: float) -> None:
    left, right = (at[0] - half, at[1]), (at[0] + half, at[1])
    sheet.line(left, right)
    sheet.hatch([left, right, (right[0], right[1] + 7), (left[0], left[1] + 7)], gap=6)


def _lie(sheet: Sheet, at: Point, *, before: Angles, after: Angles) -> None:
    """The shaft leans to the left, the toe lies to the right."""
    _ground(sheet, at, half=116)
    head = [(-20, 2), (-16, 26), (84, 24), (92, 2)]
    sheet.path([(at[0] + x, at[1] - y) for x, y in head], closed=True)

    def shaft(lie_deg: float) -> Point:
        turn = math.radians(lie_deg)
        return at[0] - 158 * math.cos(turn), at[1] - 158 * math.sin(turn)

    shown = before.lie_deg + _TIMES * (after.lie_deg - before.lie_deg)
    sheet.line(at, shaft(before.lie_deg), style="hidden", ink="muted")
    sheet.line(at, shaft(shown), weight="bold", ink="accent")
    angle_dimension(sheet, at, radius=92, from_deg=180, to_deg=180 - shown,
                    label=f"lie {measure(after.lie_deg, '°', digits=1)}")  # fmt: skip


def _loft(sheet: Sheet, at: Point, *, before: Angles, after: Angles) -> None:
    """The target lies to the right; loft leans the face back."""
    _ground(sheet, at, half=92)
    rise = 118.0
    sheet.line(at, (at[0], at[1] - rise - 26), style="centre", ink="faint")

    def top(loft_deg: float) -> Point:
        return at[0] - rise * math.tan(math.radians(loft_deg)), at[1] - rise

    shown = before.loft_deg + _TIMES * (after.loft_deg - before.loft_deg)
    shown = max(min(shown, 32.0), -32.0)
    face = top(shown)
    body = [at, face, (face[0] - 62, at[1] - 0.55 * rise), (at[0] - 74, at[1])]
    sheet.hatch(body, gap=7)
    sheet.line(at, top(before.loft_deg), style="hidden", ink="muted")
    sheet.path(body, closed=True)
    sheet.line(at, face, weight="bold", ink="accent")
    words = f"loft {measure(after.loft_deg, '°', digits=1)}"
    sheet.text((at[0] + 10, at[1] - rise - 4), words, size="small", halo=True)
