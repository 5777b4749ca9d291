"""One file of readings, all of it: what is new in it, what was read before, what is kept aside."""

from __future__ import annotations

from collections.abc import Collection, Iterator, Sequence
from dataclasses import dataclass, field
from typing import TYPE_CHECKING

import numpy as np

from puttwright.readers.files import Unreadable
from puttwright.readers.tables.header import Layout
from puttwright.readers.tables.kept_aside import Aside, cells_said
from puttwright.readers.tables.opened import Chunk, Opened
from puttwright.readers.tables.row_keys import key_of, row_keys
from puttwright.readers.tables.seen_before import Source, read_before, stamped_rows
from puttwright.readers.tables.side_by_side import ahead, shared
from puttwright.readers.tables.take import Taken, Taker

if TYPE_CHECKING:
    import polars as pl


@dataclass(slots=True, kw_only=True)
class FileRead:
    """What a file came to. ``rows`` are all of it, taken or not; ``keys`` their fingerprints."""

    file: str
    table: str
    added: int = 0
    before: int = 0
    aside: list[Aside] = field(default_factory=list)
    keys: list[np.ndarray] = field(default_factory=list)


def keys_of(chunk: Chunk) -> np.ndarray:
    """The fingerprints of its rows."""
    return row_keys(chunk.frame) if chunk.keys is None else chunk.keys


def _with_keys(chunk: Chunk) -> tuple[Chunk, np.ndarray]:
    return chunk, keys_of(chunk)


def _only(chunk: Chunk, rows: np.ndarray) -> Chunk:
    import polars as pl  # noqa: PLC0415 - a large library, for those who read tables

    mask = pl.Series(rows)
    return Chunk(frame=chunk.frame.filter(mask), rows=chunk.rows.filter(mask))


class FileReader:
    """Reads one opened file with one map."""

    def __init__(
        self, opened: Opened, layout: Layout, *, file: str, header: str, taker: Taker
    ) -> None:
        self.opened = opened
        self.layout = layout
        self.header = header
        self.taker = taker
        self.read = FileRead(file=file, table=taker.map.table)

    def _chunks(self) -> Iterator[Chunk]:
        return self.opened.chunks(self.layout.below, len(self.layout.names))

    def _coming(self) -> Iterator[tuple[Chunk, np.ndarray]]:
        """Each chunk with its rows' fingerprints, while the next ones are read."""
        numbers = self.taker.plain_numbers()
        if self.opened.quick is None or not numbers:
            return ahead(_with_keys(each) for each in self._chunks())
        reads = self.opened.quick(self.layout.below, len(self.layout.names), numbers)
        return shared(lambda read: _with_keys(read()), reads)

    def frames(self, sources: Sequence[Source], retry: Collection[int]) -> Iterator[pl.DataFrame]:
        """The new readings, chunk by chunk.

        Parameters
        ----------
        sources
            Files read before.
        retry
            Fingerprints of rows of such files that were kept aside: they are tried again.
        """
        earlier = [each for each in sources if each.header == self.header]
        known = self._known(earlier, retry) if earlier else None
        start = 0
        for chunk, keys in self._coming():
            self.read.keys.append(keys)
            new = np.ones(len(keys), bool) if known is None else ~known[start : start + len(keys)]
            start += len(keys)
            self.read.before += int((~new).sum())
            self.read.aside += [self._aside(o.row, o.why, o.cells) for o in chunk.odd]
            if new.any():
                yield self._new(chunk, new)
        self.read.aside.sort(key=lambda aside: aside.row)
        if not start:
            raise Unreadable(self._no_row())

    def _no_row(self) -> str:
        if not self.read.aside:
            return "has a header, but no reading below it"
        first = self.read.aside[0]
        return (
            f"has no row that is as wide as its header (row {first.row} {first.why}); "
            "decimal commas between commas cannot be told apart: save it with semicolons"
        )

    def _known(self, earlier: Sequence[Source], retry: Collection[int]) -> np.ndarray:
        looked = [(row_keys(each.frame), stamped_rows(each.frame)) for each in self._chunks()]
        keys = np.concatenate([np.empty(0, dtype="<u8"), *(keys for keys, _ in looked)])
        stamped = np.concatenate([np.empty(0, dtype=bool), *(mask for _, mask in looked)])
        known = read_before(keys, earlier, header=self.header, file=self.read.file, stamped=stamped)
        return known & ~np.isin(keys, np.array(sorted(retry), dtype="<u8"))

    def _new(self, chunk: Chunk, new: np.ndarray) -> pl.DataFrame:
        if not new.all():
            chunk = _only(chunk.as_text() if chunk.as_text else chunk, new)
        taken = self.taker.take(chunk)
        if taken.why and chunk.as_text:  # what the cells say is to be told
            chunk = chunk.as_text()
            taken = self.taker.take(chunk)
        self._keep_aside(chunk, taken)
        fit = taken.frame.filter(taken.fits) if taken.why else taken.frame
        self.read.added += len(fit)
        return fit

    def _keep_aside(self, chunk: Chunk, taken: Taken) -> None:
        for place in sorted(taken.why):
            cells = [cell or "" for cell in chunk.frame.row(place)]
            self.read.aside.append(self._aside(chunk.rows[place], taken.why[place], cells))

    def _aside(self, row: int, why: str, cells: Sequence[str]) -> Aside:
        return Aside(
            file=self.read.file, row=row, why=why, cells=cells_said(self.layout.names, cells),
            header=self.header, key=key_of(cells),
        )  # fmt: skip

    def source(self) -> Source:
        """What is remembered of the file, once it was read to its end."""
        keys = np.concatenate([np.empty(0, dtype="<u8"), *self.read.keys])
        return Source(file=self.read.file, header=self.header, keys=keys)
