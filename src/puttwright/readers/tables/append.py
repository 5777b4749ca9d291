"""Rows added below those that a table of a package has; what stood there stays as it stood."""

from __future__ import annotations

import contextlib
import io
from collections.abc import Sequence
from contextlib import AbstractContextManager
from typing import TYPE_CHECKING, BinaryIO

from puttwright.readers.files import LARGEST_BYTES, Unreadable
from puttwright.readers.tables.opened import Opened
from puttwright.readers.tables.plain_text import open_text
from puttwright.readers.whole import Content, FileBegun

if TYPE_CHECKING:
    import polars as pl


class Appended:
    """A table of a package as it will be written.

    ``columns``: those the new rows fill, beside the ones that are there. ``begun``: the file it is
    written into as it comes, from the first new row on; without one it is held in memory.
    """

    def __init__(
        self, existing: bytes | None, *, columns: Sequence[str], begun: FileBegun | None = None
    ) -> None:
        self._existing = existing
        self._held = io.BytesIO()
        self._begun = begun
        self._any = False
        self._opened = open_text(existing) if existing and existing.strip() else None
        self._there = _header_of(self._opened)
        known = {name.lower() for name in self._there}
        self.header = (*self._there, *(name for name in columns if name.lower() not in known))
        self._names = {name.lower(): name for name in self.header}

    def _writing(self) -> AbstractContextManager[BinaryIO]:
        if self._begun is None:
            return contextlib.nullcontext(self._held)
        return self._begun.writing()

    def _write_what_is_there(self) -> None:
        import polars as pl  # noqa: PLC0415 - a large library, for those who read tables

        self._any = True
        if self._existing and self._opened and len(self.header) == len(self._there):
            with self._writing() as out:
                out.write(self._existing.removeprefix(b"\xef\xbb\xbf").rstrip(b"\r\n") + b"\n")
            return
        empty = dict.fromkeys(self.header, pl.String)
        with self._writing() as out:
            pl.DataFrame(schema=empty).write_csv(out)
        if self._opened:
            for chunk in self._opened.chunks(_header_row(self._opened), len(self._there)):
                self.add(chunk.frame.rename({str(n): name for n, name in enumerate(self._there)}))

    def add(self, frame: pl.DataFrame) -> None:
        """Write rows below; a column that the frame does not have stays empty.

        Raises
        ------
        Unreadable
            The table would be past what a package may hold.
        CannotWrite
            There is no room for it on the disk.
        """
        import polars as pl  # noqa: PLC0415 - as above

        if not self._any:
            self._write_what_is_there()
        named = frame.rename({name: self._names[name.lower()] for name in frame.columns})
        cells = [
            pl.col(name) if name in named.columns else pl.lit(None, dtype=pl.String).alias(name)
            for name in self.header
        ]
        texts = [pl.col(pl.String).replace("", None)]
        with self._writing() as out:
            named.select(cells).with_columns(texts).write_csv(out, include_header=False)
            size = out.tell()
        if size > LARGEST_BYTES:
            raise Unreadable(
                f"would make a table of more than {LARGEST_BYTES // 1024**2} MB; "
                "begin another fitting for the rest"
            )

    def whole(self) -> Content:
        """All of it."""
        if not self._any:
            self._write_what_is_there()
        return self._begun or self._held.getvalue()


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
