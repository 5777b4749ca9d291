"""The chance to hole by distance, own putter against choice, with the doubt as a band."""

from __future__ import annotations

from collections.abc import Callable, Mapping, Sequence
from dataclasses import dataclass
from typing import Final

from puttwright.fitting.decision import Estimate
from puttwright.fitting.phrases import interval
from puttwright.pictures.annotation import measured_scale
from puttwright.pictures.builds import BuildMark, balloon
from puttwright.pictures.drafting import Sheet
from puttwright.pictures.grounds import Ground
from puttwright.pictures.hand import measure, spoken_unit
from puttwright.pictures.svg import Point
from puttwright.pictures.tables import Table

_TOP: Final = 30.0
_FOOT: Final = 46.0


@dataclass(frozen=True, slots=True, kw_only=True)
class MakeLine:
    """Chance to hole [%] of one build at some distances [m]."""

    mark: BuildMark
    make_pct: Mapping[float, Estimate]

    @property
    def points(self) -> list[tuple[float, Estimate]]:
        """By rising distance."""
        return sorted(self.make_pct.items())


def make_by_distance(
    lines: Sequence[MakeLine], *, ground: Ground, prefix: str = "make", width: float = 720.0,
    height: float = 286.0,
) -> str:  # fmt: skip
    """Draw the chance to hole against distance: a line a build, its 90 % interval hatched.

    Parameters
    ----------
    lines
        Two are readable, the own putter and the choice; more are drawn all the same.
    ground, prefix, width, height
        As for every drawing; a height from 160 up.

    Examples
    --------
    >>> from puttwright.pictures.grounds import PAPER
    >>> make_by_distance([], ground=PAPER).startswith("<svg")
    True
    """
    sheet = Sheet(width=width, height=height, ground=ground, prefix=prefix)
    left, right, base = 50.0, width - 44.0, height - _FOOT
    distances = [distance for line in lines for distance, _ in line.points] or [1.0, 5.0]
    near, far = min(distances), max(distances)
    span = max(far - near, 1e-6)

    def x(distance_m: float) -> float:
        return left + (distance_m - near) / span * (right - left)

    def y(percent: float) -> float:
        return base - min(max(percent, 0.0), 100.0) / 100.0 * (base - _TOP)

    _frame(sheet, x=x, y=y, ends=(near, far))
    for line in lines:
        _band(sheet, line, x=x, y=y)
    for line in lines:
        _line(sheet, line, x=x, y=y)
    _ends(sheet, lines, right=right, y=y)
    return sheet.svg(title="Chance to hole by distance", description=_told(lines))


def _frame(
    sheet: Sheet, *, x: Callable[[float], float], y: Callable[[float], float],
    ends: tuple[float, float],
) -> None:  # fmt: skip
    left, right = x(ends[0]), x(ends[1])
    for percent in (0, 25, 50, 75, 100):
        sheet.line((left, y(percent)), (right, y(percent)), ink="faint", weight="hair")
        words = f"{percent}%" if percent in {0, 100} else str(percent)
        sheet.text((left - 8, y(percent) + 4), words, size="small", ink="muted", anchor="end")
    about = max(3, round((right - left) / 80))
    measured_scale(sheet, ends, unit="m", place=x, level=y(0) + 4, about=about)
    across = f"{spoken_unit('m')} to the hole"
    sheet.text((right, y(0) + 40), across, size="small", ink="muted", anchor="end")
    sheet.text((14, _TOP - 14), "holed", size="small", ink="muted")


def _band(
    sheet: Sheet, line: MakeLine, *, x: Callable[[float], float], y: Callable[[float], float]
) -> None:
    points = line.points
    low: list[Point] = [(x(d), y(e.interval_90[0])) for d, e in points]
    high: list[Point] = [(x(d), y(e.interval_90[1])) for d, e in points]
    if len(points) < 2:
        return
    # Crossing directions keep two bands apart without colour.
    turn = -45.0 if line.mark.role == "own" else 45.0
    if not line.mark.guess:
        sheet.hatch([*low, *reversed(high)], ink=line.mark.ink, gap=6.0, turn_deg=turn)
    for edge in (low, high):
        sheet.path(edge, ink=line.mark.ink, weight="hair", style="dotted")


def _line(
    sheet: Sheet, line: MakeLine, *, x: Callable[[float], float], y: Callable[[float], float]
) -> None:
    course = [(x(d), y(e.mean)) for d, e in line.points]
    sheet.path(course, ink=line.mark.ink, weight=line.mark.weight, style=line.mark.style)
    for at in course:
        sheet.circle(at, radius=3.0, ink=line.mark.ink, weight="line", fill="paper")


def _ends(
    sheet: Sheet, lines: Sequence[MakeLine], *, right: float, y: Callable[[float], float]
) -> None:
    """The letters at the far end, moved apart where the lines meet."""
    ends = sorted(
        (y(line.points[-1][1].mean), line.mark.order, line) for line in lines if line.points
    )
    level = float("-inf")
    for height, _, line in ends:
        level = max(height, level + 22.0)
        balloon(sheet, (right + 22, level), mark=line.mark)


def _told(lines: Sequence[MakeLine]) -> str:
    return "; ".join(
        f"{line.mark.said}: "
        + ", ".join(
            f"{measure(e.mean, '%')} from {measure(d, 'm', digits=1)}" for d, e in line.points
        )
        for line in lines
    )


def make_table(lines: Sequence[MakeLine], /) -> Table:
    """Chance to hole with its interval at every distance, as a table."""
    distances = sorted({distance for line in lines for distance in line.make_pct})

    def cell(line: MakeLine, distance: float) -> str:
        estimate = line.make_pct.get(distance)
        if estimate is None:
            return "–"
        return f"{measure(estimate.mean, '%')} ({interval(estimate.interval_90, digits=0)})"

    return Table(
        caption="Chance to hole, percent, with 90 % interval",
        head=("Distance", *(line.mark.said for line in lines)),
        rows=tuple(
            (measure(distance, "m", digits=1), *(cell(line, distance) for line in lines))
            for distance in distances
        ),
    )
