"""Which row of a table is its header, what stands above it, and whether a row of units follows."""

from __future__ import annotations

import re
from collections import Counter
from collections.abc import Sequence
from dataclasses import dataclass
from functools import lru_cache
from typing import Final

from puttwright.readers.files import Unreadable
from puttwright.readers.tables.opened import Opened, Row
from puttwright.readers.tables.words import Header, nearest, unit_of, words

_NUMBER: Final = re.compile(r"\s*[-+−]?[\d.,]*\d[\d.,]*(?:[eE][-+]?\d+)?\s*\D{0,6}")
_UNPRINTABLE: Final = re.compile(r"[\x00-\x1f\x7f\s]+")
LONGEST_NAME: Final = 120


@dataclass(frozen=True, slots=True, kw_only=True)
class Layout:
    """The header's names, each once; their units from a row of units; the last row of both."""

    names: tuple[str, ...]
    units: tuple[str | None, ...]
    below: int


def layout_of(opened: Opened) -> Layout:
    """Find the header.

    Raises
    ------
    Unreadable
        Nothing looks like one.
    """
    said = [(number, cells) for number, cells in opened.head if any(c.strip() for c in cells)]
    if len(said) < 2:
        raise Unreadable("holds no table: a header line and at least one row of readings")
    width = Counter(_width(cells) for _, cells in said).most_common(1)[0][0]
    place = max(range(len(said)), key=lambda index: (_score(said, index, width), -index))
    if _score(said, place, width) <= 0:
        raise Unreadable("has no header line that says what its columns are")
    number, cells = said[place]
    names = _names(cells[: _width(cells)])
    units, below = _units(said, place + 1, len(names))
    return Layout(names=names, units=units or (None,) * len(names), below=max(number, below))


def _width(cells: Sequence[str]) -> int:
    return max((place for place, cell in enumerate(cells, start=1) if cell.strip()), default=0)


def _score(said: Sequence[Row], index: int, width: int) -> float:
    """How much a row looks like a header: words not numbers, as wide as the rows, known words."""
    cells = [cell for cell in said[index][1] if cell.strip()]
    numbers = sum(bool(_NUMBER.fullmatch(cell[:LONGEST_NAME])) for cell in cells)
    if not cells or numbers > len(cells) / 3 or _units_row(said[index][1]):
        return 0.0
    likeness = min(len(cells), width) / max(len(cells), width)
    once = len(set(cells)) / len(cells)
    known = sum(_known(cell) for cell in cells) / len(cells)
    return (0.2 + known) * likeness * once * (1.0 + 0.001 * (index == 0))


@lru_cache(maxsize=4096)
def _known(cell: str) -> float:
    said = Header(cell[:LONGEST_NAME]).words
    tables = [table for table in words() if table in _TABLES]
    return max(nearest(said, table=t, column=column) for t in tables for column in words()[t])


_TABLES: Final = ("putts", "aims", "setups", "gauge")


def _names(cells: Sequence[str]) -> tuple[str, ...]:
    """Each once, upper or lower case, as a column of a package is known."""
    names: list[str] = []
    told: set[str] = set()
    for place, cell in enumerate(cells, start=1):
        plain = _UNPRINTABLE.sub(" ", cell).strip()[:LONGEST_NAME] or f"column {place}"
        names.append(once(plain, told))
    return tuple(names)


def once(name: str, told: set[str]) -> str:
    """The name, with a number behind it where it was told before; it is told from now on.

    Examples
    --------
    >>> told = {"speed"}
    >>> once("Speed", told), once("speed", told), once("face", told)
    ('Speed (2)', 'speed (3)', 'face')
    """
    found, again = name, 2
    while found.lower() in told:
        found, again = f"{name} ({again})", again + 1
    told.add(found.lower())
    return found


def _units_row(cells: Sequence[str]) -> bool:
    said = [cell for cell in cells if cell.strip(" -[]()")]
    return bool(said) and sum(unit_of(cell) is not None for cell in said) >= 0.6 * len(said)


def _units(said: Sequence[Row], index: int, width: int) -> tuple[tuple[str | None, ...], int]:
    if index >= len(said) or not _units_row(said[index][1]):
        return (), 0
    number, cells = said[index]
    units = [unit_of(cell) for cell in cells[:width]]
    return tuple(units + [None] * (width - len(units))), number
