"""What is left on the table against how many putts it took, a line a plan."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from typing import Final

from puttwright.fitting.phrases import figure
from puttwright.pictures.drafting import Sheet, Style
from puttwright.pictures.frame import Frame, doubt, draw_frame
from puttwright.pictures.grounds import Ground, Ink
from puttwright.pictures.svg import Point

_TOP: Final = 52.0
_KEY: Final = 16.0
_NARROW: Final = 520.0


@dataclass(frozen=True, slots=True, kw_only=True)
class CurvePoint:
    """Putts taken, the mean left on the table in putts a round, and what it may lie between."""

    putts: float
    mean: float
    low: float
    high: float


@dataclass(frozen=True, slots=True, kw_only=True)
class Curve:
    """A plan at rising numbers of putts; ``ours`` is drawn in the accent, the rest dashed."""

    name: str
    points: Sequence[CurvePoint]
    ours: bool = False


def regret_by_putts(
    curves: Sequence[Curve], *, ground: Ground, prefix: str = "plans", width: float = 720.0,
    height: float = 320.0,
) -> str:  # fmt: skip
    """Draw every plan's line with the doubt at each point.

    Parameters
    ----------
    curves
        One or more; points by rising number of putts.
    ground, prefix, width, height
        As for every drawing.

    Examples
    --------
    >>> from puttwright.pictures.grounds import PAPER
    >>> regret_by_putts([], ground=PAPER).startswith("<svg")
    True
    """
    sheet = Sheet(width=width, height=height, ground=ground, prefix=prefix)
    points = [point for curve in curves for point in curve.points]
    most = max((point.high for point in points), default=1.0)
    putts = [point.putts for point in points] or [0.0, 1.0]
    spare = 0.06 * max(max(putts) - min(putts), 1.0)
    frame = Frame(
        across=(min(putts) - spare, max(putts) + spare),
        up=(0.0, 1.08 * most),
        left=60,
        right=width - 20,
        top=_TOP + (_KEY * (len(curves) - 1) if width < _NARROW else 0.0),
        base=height - 52,
    )
    draw_frame(
        sheet,
        frame,
        names=("putts taken", "left on the table, putts a round"),
        label=(lambda value: figure(value, digits=0), lambda value: figure(value, digits=2)),
    )
    for number, curve in enumerate(curves):
        _curve(sheet, curve, frame=frame)
        _key(sheet, curve, at=_key_at(number, of=len(curves), width=width))
    return sheet.svg(
        title="Left on the table by putts taken", description=_told(curves), backed=True
    )


def _curve(sheet: Sheet, curve: Curve, *, frame: Frame) -> None:
    ink, style = _look(curve)
    way = [frame.at(across=point.putts, up=point.mean) for point in curve.points]
    if len(way) > 1:
        sheet.path(way, ink=ink, weight="bold" if curve.ours else "line", style=style)
    fill: Ink = "paper" if len(way) > 1 else ink
    for point, at in zip(curve.points, way, strict=True):
        ends = (at[0], frame.y(max(point.low, 0.0))), (at[0], frame.y(point.high))
        doubt(sheet, ends, ink=ink)
        sheet.circle(at, radius=4.5, ink=ink, weight="line", fill=fill, kind="mean")


def _key_at(number: int, *, of: int, width: float) -> Point:
    """Side by side, or one under the other where it is narrow."""
    if width < _NARROW:
        return 12.0, 14.0 + _KEY * number
    return 12.0 + number * (width - 24.0) / of, 14.0


def _key(sheet: Sheet, curve: Curve, *, at: Point) -> None:
    """A piece of the line, or the mark of a plan that ends where it ends."""
    ink, style = _look(curve)
    x, y = at
    if len(curve.points) > 1:
        sheet.line((x, y), (x + 28, y), ink=ink, weight="line", style=style)
    else:
        sheet.circle((x + 20, y), radius=4.5, ink=ink, weight="line", fill=ink)
    sheet.text((x + 36, y + 4), curve.name, size="small", ink="muted")


def _look(curve: Curve) -> tuple[Ink, Style]:
    """Ours in the accent; a plan with one point only in the quiet colour, filled."""
    if curve.ours:
        return "accent", "solid"
    return ("ink", "hidden") if len(curve.points) > 1 else ("own", "solid")


def _told(curves: Sequence[Curve]) -> str:
    return "; ".join(
        f"{curve.name}: "
        + ", ".join(
            f"{figure(point.mean, digits=2)} after {figure(point.putts, digits=0)} putts"
            for point in curve.points
        )
        for curve in curves
    )
