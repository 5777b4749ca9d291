"""A table that was opened: its first rows to look at, and all of them in chunks of text cells."""

from __future__ import annotations

from collections.abc import Callable, Iterator, Sequence
from dataclasses import dataclass
from typing import TYPE_CHECKING, Final

if TYPE_CHECKING:
    import numpy as np
    import polars as pl

HEAD_ROWS: Final = 100
"""So many rows are looked at to find the header; what stands above it is a preamble."""
CHUNK_ROWS: Final = 50_000
MOST_COLUMNS: Final = 1000
Row = tuple[int, Sequence[str]]


@dataclass(frozen=True, slots=True, kw_only=True)
class Odd:
    """A row that is not as wide as the header, or no row at all: where, why, and what it says."""

    row: int
    why: str
    cells: Sequence[str]


@dataclass(frozen=True, slots=True, kw_only=True)
class Chunk:
    """Rows of text cells: columns ``"0"``, ``"1"``, ..., their row numbers, and the odd ones out.

    An empty cell is null or empty; rows without any cell are left out. Of a chunk that was read
    quickly some columns are numbers already; ``keys`` are then its rows' fingerprints, and
    ``as_text`` reads it again as text, for those who want to look at what a cell says.
    """

    frame: pl.DataFrame
    rows: pl.Series
    odd: tuple[Odd, ...] = ()
    keys: np.ndarray | None = None
    as_text: Callable[[], Chunk] | None = None


@dataclass(frozen=True, slots=True, kw_only=True)
class Opened:
    """A table of any kind.

    ``head`` are the first rows with their numbers. ``chunks`` is called with the row
    number of the header and its width, and gives what stands below. ``quick``, where there is
    one, is told besides the places of columns that are likely plain numbers, and gives what
    reads each chunk, in any thread.
    """

    kind: str
    head: Sequence[Row]
    chunks: Callable[[int, int], Iterator[Chunk]]
    note: str = ""
    quick: Callable[[int, int, Sequence[int]], Iterator[Callable[[], Chunk]]] | None = None


def chunk_of(rows: Sequence[Row], *, width: int) -> Chunk:
    """Rows of cells as a chunk."""
    import polars as pl  # noqa: PLC0415 - a large library, for those who read tables

    said = [(number, cells) for number, cells in rows if any(cell.strip() for cell in cells)]
    fit = [(number, cells) for number, cells in said if not any(cells[width:])]
    odd = tuple(
        Odd(row=number, why=too_wide(len(cells), width), cells=cells)
        for number, cells in said
        if any(cells[width:])
    )
    columns = {
        str(place): [cells[place] if place < len(cells) else "" for _, cells in fit]
        for place in range(width)
    }
    frame = pl.DataFrame(columns, schema=dict.fromkeys(columns, pl.String))
    return Chunk(frame=frame, rows=pl.Series([n for n, _ in fit], dtype=pl.Int64), odd=odd)


def too_wide(cells: int, width: int) -> str:
    """Why a row is not taken that has more cells than the header."""
    return f"has {cells} cells, the header has {width}; is there a separator inside a text?"


def chunks_of(rows: Iterator[Row], *, below: int, width: int) -> Iterator[Chunk]:
    """The rows below the header in chunks."""
    held: list[Row] = []
    for number, cells in rows:
        if number <= below:
            continue
        held.append((number, cells))
        if len(held) == CHUNK_ROWS:
            yield chunk_of(held, width=width)
            held = []
    if held:
        yield chunk_of(held, width=width)
