"""Small figures set for a table: value over interval, runs of row numbers, dates."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass
from datetime import date
from itertools import pairwise
from typing import Final

from puttwright.fitting.decision import Estimate
from puttwright.fitting.phrases import figure, interval

_MONTHS: Final = (
    "January", "February", "March", "April", "May", "June",
    "July", "August", "September", "October", "November", "December",
)  # fmt: skip
NONE: Final = "–"


@dataclass(frozen=True, slots=True, kw_only=True)
class Cell:
    """A figure and, under it, its 90 % interval."""

    value: str
    interval: str = ""


def cell(estimate: Estimate | None, /, *, digits: int = 1, sign: bool = False) -> Cell:
    """An estimate for a table; a dash where there is none.

    Examples
    --------
    >>> cell(Estimate(mean=0.46, sd=0.3, interval_90=(-0.07, 0.99)), sign=True)
    Cell(value='+0.5', interval='−0.1 to 1.0')
    """
    if estimate is None:
        return Cell(value=NONE)
    return Cell(
        value=figure(estimate.mean, digits=digits, sign=sign),
        interval=interval(estimate.interval_90, digits=digits),
    )


def runs(numbers: Iterable[int], /, *, most: int = 8) -> str:
    """Row numbers as runs; after ``most`` runs the rest is counted.

    Examples
    --------
    >>> runs([1, 2, 3, 7, 9, 10])
    '1–3, 7, 9–10'
    """
    ordered = sorted(set(numbers))
    if not ordered:
        return "none"
    breaks = [place + 1 for place, (a, b) in enumerate(pairwise(ordered)) if b > a + 1]
    pieces = [ordered[a:b] for a, b in pairwise([0, *breaks, len(ordered)])]
    words = [str(piece[0]) if len(piece) == 1 else f"{piece[0]}–{piece[-1]}" for piece in pieces]
    if len(words) <= most:
        return ", ".join(words)
    left = sum(len(piece) for piece in pieces[most:])
    return f"{', '.join(words[:most])} and {left} more"


def shortened(text: str, /, *, most: int) -> str:
    """``text`` in at most so many letters, the cut shown.

    Examples
    --------
    >>> shortened("half mallet", most=8)
    'half ma…'
    """
    return text if len(text) <= most else text[: most - 1].rstrip() + "…"


def day_words(day: date, /) -> str:
    """A date in words, the same in every locale.

    Examples
    --------
    >>> day_words(date(2026, 5, 14))
    '14 May 2026'
    """
    return f"{day.day} {_MONTHS[day.month - 1]} {day.year}"
