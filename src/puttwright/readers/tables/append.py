"""Rows added below those that a table of a package has; what stood there stays as it stood."""

from __future__ import annotations

import io
from collections.abc import Sequence
from typing import TYPE_CHECKING

from puttwright.readers.files import LARGEST_BYTES, Unreadable
from puttwright.readers.tables.opened import Opened
from puttwright.readers.tables.plain_text import open_text

if TYPE_CHECKING:
    import polars as pl


class Appended:
    """A table of a package as it will be written.

    ``columns``: those the new rows fill, beside the ones that are there.
    """

    def __init__(self, existing: bytes | None, *, columns: Sequence[str]) -> None:
        self._out = io.BytesIO()
        opened = open_text(existing) if existing and existing.strip() else None
        there = _header_of(opened)
        known = {name.lower() for name in there}
        self.header = (*there, *(name for name in columns if name.lower() not in known))
        self._names = {name.lower(): name for name in self.header}
        if existing and opened and len(self.header) == len(there):
            self._out.write(existing.removeprefix(b"\xef\xbb\xbf").rstrip(b"\r\n") + b"\n")
            return
        self._write_header()
        if opened:
            for chunk in opened.chunks(_header_row(opened), len(there)):
                self.add(chunk.frame.rename({str(n): name for n, name in enumerate(there)}))

    def _write_header(self) -> None:
        import polars as pl  # noqa: PLC0415 - a large library, for those who read tables

        empty = pl.DataFrame(
            {name: [] for name in self.header}, dict.fromkeys(self.header, pl.String)
        )
        empty.write_csv(self._out)

    def add(self, frame: pl.DataFrame) -> None:
        """Write rows below; a column that the frame does not have stays empty.

        Raises
        ------
        Unreadable
            The table would be past what a package may hold.
        """
        import polars as pl  # noqa: PLC0415 - as above

        named = frame.rename({name: self._names[name.lower()] for name in frame.columns})
        cells = [
            pl.col(name) if name in named.columns else pl.lit(None, dtype=pl.String).alias(name)
            for name in self.header
        ]
        texts = [pl.col(pl.String).replace("", None)]
        named.select(cells).with_columns(texts).write_csv(self._out, include_header=False)
        if self._out.tell() > LARGEST_BYTES:
            raise Unreadable(
                f"would make a table of more than {LARGEST_BYTES // 1024**2} MB; "
                "begin another fitting for the rest"
            )

    def bytes(self) -> bytes:
        """All of it."""
        return self._out.getvalue()


def _header_row(opened: Opened) -> int:
    return next(number for number, cells in opened.head if any(cell.strip() for cell in cells))


def _header_of(opened: Opened | None) -> tuple[str, ...]:
    if opened is None:
        return ()
    row = _header_row(opened)
    cells = next(cells for number, cells in opened.head if number == row)
    return tuple(cell.strip() or f"column {n}" for n, cell in enumerate(cells, start=1))


def rows_of(frame: pl.DataFrame, *, first_seq: int) -> pl.DataFrame:
    """The frame with a ``seq`` for each row, counting on."""
    import polars as pl  # noqa: PLC0415 - as above

    return frame.insert_column(
        0, pl.int_range(first_seq, first_seq + len(frame), eager=True).alias("seq")
    )
