"""Rows that did not fit, kept in the package with their file, their place and why."""

from __future__ import annotations

import csv
import io
import json
from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from typing import Final

from puttwright.readers.files import Unreadable
from puttwright.readers.text import text_of

ASIDE: Final = "readings-aside.csv"
_HEADER: Final = ("file", "row", "why", "cells", "header", "key")


@dataclass(frozen=True, slots=True, kw_only=True)
class Aside:
    """A row that was not taken: its cells by header, the fingerprints of header and row."""

    file: str
    row: int
    why: str
    cells: str
    header: str
    key: int


def cells_said(names: Sequence[str], cells: Sequence[str]) -> str:
    """The cells of a row with their headers, as JSON; cells past the header under ``""``."""
    said = {name: cell for name, cell in zip(names, cells, strict=False) if cell}
    beyond = list(cells[len(names) :])
    return json.dumps(said | ({"": beyond} if any(beyond) else {}), ensure_ascii=False)


def asides_from(data: bytes | None) -> list[Aside]:
    """What was kept aside before.

    Raises
    ------
    Unreadable
        The file was changed by hand so that it is none any more.
    """
    if data is None:
        return []
    try:
        rows = list(csv.DictReader(io.StringIO(text_of(data), newline=""), strict=True))
        return [
            Aside(
                file=row["file"], row=int(row["row"]), why=row["why"], cells=row["cells"],
                header=row["header"], key=int(row["key"], 16),
            )
            for row in rows
        ]  # fmt: skip
    except (csv.Error, KeyError, TypeError, ValueError) as trouble:
        raise Unreadable("is not as it was written; move it away, and read again") from trouble


def aside_bytes(asides: Iterable[Aside]) -> bytes:
    """The file of what is kept aside."""
    stream = io.StringIO(newline="")
    writer = csv.writer(stream, lineterminator="\n")
    writer.writerow(_HEADER)
    writer.writerows(
        (each.file, each.row, each.why, each.cells, each.header, f"{each.key:016x}")
        for each in asides
    )
    return stream.getvalue().encode("utf-8", errors="replace")
