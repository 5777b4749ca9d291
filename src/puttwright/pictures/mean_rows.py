"""A row a figure: means with their doubt on one scale, beside what they are held against."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from dataclasses import dataclass
from typing import Final

from puttwright.fitting.phrases import figure
from puttwright.pictures.annotation import scale_line, ticks
from puttwright.pictures.drafting import Sheet
from puttwright.pictures.frame import doubt
from puttwright.pictures.grounds import Ground, Ink, Weight
from puttwright.pictures.lettering import wrapped

_TOP: Final = 34.0
_ROW: Final = 38.0
_FOOT: Final = 58.0
_NARROW: Final = 520.0


@dataclass(frozen=True, slots=True, kw_only=True)
class MeanRow:
    """A mean with what it may lie between; ``wanted`` is where it ought to be, if anywhere."""

    name: str
    mean: float
    low: float
    high: float
    wanted: float | None = None
    ours: bool = False


@dataclass(frozen=True, slots=True, kw_only=True)
class Told:
    """The words of a drawing: its title, what the scale is of, and the figures' form."""

    title: str
    scale: str
    digits: int = 2
    factor: float = 1.0
    unit: str = ""

    def figure(self, value: float) -> str:
        """A value as it is written beside the drawing."""
        return figure(self.factor * value, digits=self.digits) + self.unit


def mean_rows(
    rows: Sequence[MeanRow], *, told: Told, ground: Ground, prefix: str, width: float = 720.0,
) -> str:  # fmt: skip
    """Draw the rows from top to bottom.

    Parameters
    ----------
    rows
        The one that is ours is drawn in the accent and bold.
    told
        Words and form of the figures.
    ground, prefix, width
        As for every drawing; below 520 the names stand above.

    Examples
    --------
    >>> from puttwright.pictures.grounds import PAPER
    >>> told = Told(title="Regret", scale="putts a round")
    >>> mean_rows([], told=told, ground=PAPER, prefix="regret").startswith("<svg")
    True
    """
    narrow = width < _NARROW
    row_height = _ROW + 16 if narrow else _ROW
    height = _TOP + row_height * max(len(rows), 1) + _FOOT
    sheet = Sheet(width=width, height=height, ground=ground, prefix=prefix)
    left, right = (24.0 if narrow else 226.0), width - (70.0 if narrow else 150.0)
    low, high = _limits(rows)

    def place(value: float) -> float:
        return left + (value - low) / (high - low) * (right - left)

    base = height - _FOOT + 10
    values = ticks((low, high), about=max(3, round((right - left) / 80)))
    for value in values:
        sheet.line((place(value), _TOP - 8), (place(value), base), ink="faint", weight="hair")
    for number, row in enumerate(rows):
        level = _TOP + (number + 0.5) * row_height
        _row(sheet, row, level=level, place=place, told=told, narrow=narrow)
    scale_line(sheet, values, place=place, level=base, label=told.figure)
    sheet.text((right, base + 38), told.scale, size="small", ink="muted", anchor="end")
    return sheet.svg(title=told.title, description=_said(rows, told), backed=True)


def _limits(rows: Sequence[MeanRow]) -> tuple[float, float]:
    ends = [end for row in rows for end in (row.low, row.high, row.wanted) if end is not None]
    low, high = min(ends, default=0.0), max(ends, default=1.0)
    margin = 0.06 * max(high - low, 1e-3)
    return low - margin, high + margin


def _row(
    sheet: Sheet, row: MeanRow, *, level: float, place: Callable[[float], float], told: Told,
    narrow: bool,
) -> None:  # fmt: skip
    ink: Ink = "accent" if row.ours else "ink"
    weight: Weight = "bold" if row.ours else "line"
    name_at = (14.0, level - 8 if narrow else level + 4)
    bar = level + 10 if narrow else level
    words = [row.name] if narrow else wrapped(row.name, size="body", room=196.0, lines=2)
    for count, line in enumerate(words):
        lift = 15 * count - 7.5 * (len(words) - 1)
        sheet.text((name_at[0], name_at[1] + lift), line, ink=ink, bold=row.ours, halo=narrow)
    if row.wanted is not None:
        at = place(row.wanted)
        sheet.line((at, bar - 12), (at, bar + 12), ink="own", weight="line", style="hidden")
    doubt(sheet, ((place(row.low), bar), (place(row.high), bar)), ink=ink)
    sheet.circle(
        (place(row.mean), bar), radius=4.5, ink=ink, weight=weight, fill="paper", kind="mean"
    )
    x = sheet.width - 14
    sheet.text((x, level + 4), told.figure(row.mean), ink=ink, anchor="end", bold=row.ours)
    if not narrow:
        span = f"{told.figure(row.low)} to {told.figure(row.high)}"
        sheet.text((x - 46, level + 4), span, size="small", ink="muted", anchor="end")


def _said(rows: Sequence[MeanRow], told: Told) -> str:
    return f"{told.scale}. " + "; ".join(
        f"{row.name}: {told.figure(row.mean)}, likely {told.figure(row.low)} "
        f"to {told.figure(row.high)}"
        + (f", meant {told.figure(row.wanted)}" if row.wanted is not None else "")
        for row in rows
    )
