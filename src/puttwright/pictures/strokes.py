"""Strokes saved per build against the golfer's own putter, with the doubt drawn."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from dataclasses import dataclass
from typing import Final

from puttwright.fitting.decision import Estimate
from puttwright.fitting.phrases import chances, figure, interval
from puttwright.pictures.annotation import Soft, arrowhead, plumb_line, scale_line, spindle, ticks
from puttwright.pictures.builds import BALLOON, BuildMark, balloon
from puttwright.pictures.drafting import Sheet
from puttwright.pictures.grounds import Ground
from puttwright.pictures.hand import worded
from puttwright.pictures.lettering import width_of, wrapped
from puttwright.pictures.tables import Table

_TOP: Final = 58.0
_ROW: Final = 50.0
_FOOT: Final = 62.0
_NARROW: Final = 520.0


@dataclass(frozen=True, slots=True, kw_only=True)
class SavedRow:
    """One build's strokes saved per round; ``saved`` is ``None`` for the own putter itself."""

    mark: BuildMark
    saved: Estimate | None
    probability_better: float | None = None


def _limits(rows: Sequence[SavedRow]) -> tuple[float, float]:
    ends = [end for row in rows if row.saved for end in row.saved.interval_90]
    low, high = min([-0.2, *ends]), max([0.2, *ends])
    margin = 0.06 * (high - low)
    return low - margin, high + margin


def _soft(estimate: Estimate, place: Callable[[float], float]) -> Soft:
    # Without a 50 % interval the middle is taken as in a normal: 0.6745 sd either side.
    half = 0.6745 * estimate.sd
    inner = estimate.interval_50 or (estimate.mean - half, estimate.mean + half)
    return Soft(
        low_90=place(estimate.interval_90[0]),
        low_50=place(inner[0]),
        middle=place(estimate.mean),
        high_50=place(inner[1]),
        high_90=place(estimate.interval_90[1]),
    )


def strokes_saved(
    rows: Sequence[SavedRow], *, ground: Ground, prefix: str = "strokes", width: float = 720.0
) -> str:
    """Draw a row for every build: a soft interval on a common scale.

    Parameters
    ----------
    rows
        Builds from top to bottom, the own putter among them or not.
    ground
        The paper it is drawn on.
    prefix
        Starts every id in the drawing.
    width
        Drawing units; from 320 up. Below 520 the names stand above the intervals.

    Returns
    -------
    str
        An SVG drawing.

    Examples
    --------
    >>> from puttwright.pictures.grounds import PAPER
    >>> strokes_saved([], ground=PAPER).startswith("<svg")
    True
    """
    narrow = width < _NARROW
    row_height = _ROW + 18 if narrow else _ROW
    height = _TOP + row_height * max(len(rows), 1) + _FOOT
    sheet = Sheet(width=width, height=height, ground=ground, prefix=prefix)
    left = 14.0 if narrow else _names_end(sheet)
    right = width - (14.0 if narrow else 124.0)
    low, high = _limits(rows)

    def place(value: float) -> float:
        return left + (value - low) / (high - low) * (right - left)

    base = height - _FOOT + 8
    _zero(sheet, place(0.0), base=base, ends=(left, right))
    for number, row in enumerate(rows):
        level = _TOP + (number + 0.5) * row_height + (13 if narrow else 0)
        _row(sheet, row, level=level, place=place, narrow=narrow)
    _scale(sheet, place, base=base, limits=(low, high))
    return sheet.svg(title="Strokes saved a round", description=_told(rows))


def _names_end(sheet: Sheet) -> float:
    """Where the names end and the scale begins on a wide sheet."""
    return min(236.0, 0.33 * sheet.width)


def _zero(sheet: Sheet, x: float, *, base: float, ends: tuple[float, float]) -> None:
    plumb_line(sheet, (x, _TOP - 16), length=base - _TOP + 18, ink="own", weight="line")
    half = width_of(worded("own putter"), size="small") / 2
    centre = min(max(x, ends[0] + half), ends[1] - half)
    sheet.text((centre, _TOP - 40), "own putter", size="small", ink="own", anchor="middle")
    for words, way in (("better", 1.0), ("worse", -1.0)):
        room = (ends[1] - x) if way > 0 else (x - ends[0])
        length = width_of(worded(words), size="small") + 36
        if room < length:
            continue
        tip, y = x + way * length, _TOP - 24
        sheet.line((x + way * 12, y), (tip, y), ink="muted", weight="hair")
        arrowhead(sheet, (tip, y), towards=(way, 0.0))
        anchor = "start" if way > 0 else "end"
        sheet.text(
            (x + way * 14, y + 15),
            words,
            size="small",
            ink="muted",
            anchor=anchor,  # type: ignore[arg-type]
        )


def _row(
    sheet: Sheet, row: SavedRow, *, level: float, place: Callable[[float], float], narrow: bool
) -> None:
    name_y = level - 30 if narrow else level
    balloon(sheet, (14 + BALLOON, name_y), mark=row.mark)
    _name(sheet, row.mark, level=name_y, narrow=narrow)
    if row.saved is None:
        sheet.circle((place(0.0), level), radius=4.5, ink="own", weight="line", fill="paper")
        return
    spindle(
        sheet,
        _soft(row.saved, place),
        across=level,
        ink=row.mark.ink,
        weight=row.mark.weight,
        guess=row.mark.guess,
    )
    _figures(sheet, row, level=name_y if narrow else level)


def _name(sheet: Sheet, mark: BuildMark, *, level: float, narrow: bool) -> None:
    """The name in one or two lines and what the build is to the golfer under it."""
    x = 14 + 2 * BALLOON + 8
    room = (sheet.width - x - 100) if narrow else (_names_end(sheet) - x - 12)
    lines = wrapped(mark.name, size="body", room=room, lines=1 if narrow else 2)
    note = mark.note
    top = level + 4.5 - 7.5 * (len(lines) - 1 + bool(note))
    for count, words in enumerate(lines):
        sheet.text((x, top + 15 * count), words, bold=mark.role == "choice", halo=narrow)
    if note:
        at = (x, top + 15 * len(lines) - 0.5)
        sheet.text(at, note, size="small", ink="muted", halo=narrow)


def _figures(sheet: Sheet, row: SavedRow, *, level: float) -> None:
    assert row.saved is not None
    bold = row.mark.role == "choice"
    x = sheet.width - 14
    value = figure(row.saved.mean, digits=1, sign=True)
    sheet.text((x, level - 1), value, ink=row.mark.ink, anchor="end", bold=bold)
    span = interval(row.saved.interval_90, digits=1)
    sheet.text((x, level + 12.5), span, size="small", ink="muted", anchor="end")


def _scale(
    sheet: Sheet, place: Callable[[float], float], *, base: float, limits: tuple[float, float]
) -> None:
    about = max(3, round((place(limits[1]) - place(limits[0])) / 75))
    values = ticks(limits, about=about)
    digits = 1 if not any(abs(v * 10 - round(v * 10)) > 1e-6 for v in values) else 2
    scale_line(
        sheet,
        values,
        place=place,
        level=base + 8,
        label=lambda value: figure(value, digits=digits, sign=True),
    )
    middle = (place(limits[0]) + place(limits[1])) / 2
    sheet.text(
        (middle, base + 44), "strokes saved a round", size="small", ink="muted", anchor="middle"
    )


def _told(rows: Sequence[SavedRow]) -> str:
    told = [
        f"{row.mark.said}: {figure(row.saved.mean, sign=True)}, "
        f"90 % interval {interval(row.saved.interval_90)}"
        for row in rows
        if row.saved
    ]
    return "Against the golfer's own putter, strokes a round. " + "; ".join(told or ["no builds"])


def strokes_table(rows: Sequence[SavedRow], /) -> Table:
    """The same figures as a table."""
    return Table(
        caption="Strokes saved a round against the own putter",
        head=("Build", "Strokes saved", "90 % interval", "Chance it is better"),
        rows=tuple(
            (
                row.mark.said,
                figure(row.saved.mean, sign=True) if row.saved else "0 by definition",
                interval(row.saved.interval_90) if row.saved else "–",
                chances(row.probability_better) if row.probability_better is not None else "–",
            )
            for row in rows
        ),
    )
