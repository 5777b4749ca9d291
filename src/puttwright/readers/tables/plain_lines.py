"""Text without quotation marks: a line is a row, and cells are what stands between separators."""

from __future__ import annotations

import functools
import io
import math
from collections.abc import Callable, Iterator, Sequence
from typing import TYPE_CHECKING, Final

import numpy as np

from puttwright.readers.tables.opened import Chunk, Odd, too_wide
from puttwright.readers.tables.row_keys import keys_of_lines

if TYPE_CHECKING:
    import polars as pl

_CHUNK_BYTES: Final = 4 * 1024 * 1024


def in_lines(data: bytes, separator: str, *, below: int, width: int) -> Iterator[Chunk]:
    """The rows below the header, chunk by chunk.

    Parameters
    ----------
    data
        UTF-8, its lines ended by a line feed.
    separator
        One character.
    below
        The row number of the header, or of what else stands above the first reading.
    width
        Of the header.
    """
    return (piece.chunk() for piece in _pieces(data, separator, below=below, width=width))


def quick_lines(
    data: bytes, separator: str, *, below: int, width: int, numbers: Sequence[int]
) -> Iterator[Callable[[], Chunk]]:
    """The same, each chunk to be read by whoever calls for it, in any thread.

    ``numbers``: places of columns that are read as numbers at once, where all their cells are some.
    """
    pieces = _pieces(data, separator, below=below, width=width)
    return (functools.partial(_read, piece, numbers) for piece in pieces)


def _read(piece: _Piece, numbers: Sequence[int]) -> Chunk:
    return piece.quick(numbers) or piece.chunk()


def _pieces(data: bytes, separator: str, *, below: int, width: int) -> Iterator[_Piece]:
    start = _after(data, below)
    number = below + 1
    while start < len(data):
        stop = data.find(b"\n", start + _CHUNK_BYTES)
        stop = len(data) if stop < 0 else stop + 1
        piece = _Piece(data[start:stop], separator, first=number, width=width)
        yield piece
        start, number = stop, number + piece.lines


def _after(data: bytes, lines: int) -> int:
    start = 0
    for _ in range(lines):
        start = data.find(b"\n", start) + 1
        if not start:
            return len(data)
    return start


def _count(data: bytes, mark: str) -> int:
    """How often a mark of one byte stands in it; many of them are counted sooner like this."""
    return int(np.count_nonzero(np.frombuffer(data, dtype=np.uint8) == ord(mark)))


class _Piece:
    """Some lines, whole ones."""

    def __init__(self, data: bytes, separator: str, *, first: int, width: int) -> None:
        self.data = data
        self.separator = separator
        self.first = first
        self.width = width
        self.lines = _count(data, "\n") + (not data.endswith(b"\n"))

    def quick(self, numbers: Sequence[int]) -> Chunk | None:
        """All rows at once, when every row is as wide as the header and every number is one."""
        import polars as pl  # noqa: PLC0415 - a large library, for those who read tables

        even = _count(self.data, self.separator) == self.lines * (self.width - 1)
        if not numbers or not even:
            return None
        kinds: dict[str, type[pl.DataType]] = dict.fromkeys(map(str, range(self.width)), pl.String)
        kinds |= dict.fromkeys(map(str, numbers), pl.Float64)
        try:
            frame = pl.read_csv(
                self.data, has_header=False, separator=self.separator, quote_char=None,
                schema=kinds, raise_if_empty=False,
            )  # fmt: skip
        except pl.exceptions.PolarsError:
            return None
        finite = all(math.isfinite(frame[str(place)].sum()) for place in numbers)
        if len(frame) != self.lines or not finite or frame[str(numbers[0])].null_count():
            return None
        return Chunk(
            frame=frame, rows=self._numbers(), keys=keys_of_lines(self.data, self.separator),
            as_text=self.chunk,
        )  # fmt: skip

    def _numbers(self) -> pl.Series:
        import polars as pl  # noqa: PLC0415 - as above

        return pl.int_range(self.first, self.first + self.lines, eager=True)

    def chunk(self) -> Chunk:
        """Every row with its cells as they stand."""
        import polars as pl  # noqa: PLC0415 - as above

        lines = pl.read_lines(io.BytesIO(self.data)).to_series()
        rows = self._numbers()
        keep = lines.str.strip_chars(self.separator + " \t") != ""
        return _cells(
            lines.filter(keep), rows.filter(keep), separator=self.separator, width=self.width
        )


def _cells(lines: pl.Series, rows: pl.Series, *, separator: str, width: int) -> Chunk:
    """Split with one cell more than the header has: what stands in it tells a row too wide."""
    names = [str(place) for place in range(width + 1)]
    struct = lines.str.split_exact(separator, width).struct.rename_fields(names)
    frame = struct.struct.unnest()
    wide = frame[names[-1]].is_not_null()
    if not wide.any():
        return Chunk(frame=frame.select(names[:-1]), rows=rows)
    found = zip(rows.filter(wide), lines.filter(wide), strict=True)
    split = [(number, line.split(separator)) for number, line in found]
    odd = tuple(
        Odd(row=number, why=too_wide(len(cells), width), cells=cells)
        for number, cells in split
        if any(cell.strip() for cell in cells[width:])
    )
    fit = ~rows.is_in([each.row for each in odd])
    return Chunk(frame=frame.filter(fit).select(names[:-1]), rows=rows.filter(fit), odd=odd)
