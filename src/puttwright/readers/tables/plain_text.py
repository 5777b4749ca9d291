"""Text to a table: any usual encoding, any separator, with quotation marks or without."""

from __future__ import annotations

import csv
import io
import itertools
from collections import Counter
from collections.abc import Iterator
from typing import Final

from puttwright.readers.files import Unreadable
from puttwright.readers.tables.opened import (
    HEAD_ROWS,
    MOST_COLUMNS,
    Opened,
    Row,
    chunks_of,
)
from puttwright.readers.tables.plain_lines import in_lines, quick_lines

_SEPARATORS: Final = "\t;|,"
"""The likelier first: a comma also stands in numbers and in sentences."""
_AGREEING: Final = 0.7
_LONGEST_LINE: Final = 1024 * 1024
_BOMS: Final = ((b"\xef\xbb\xbf", "utf-8-sig"), (b"\xff\xfe", "utf-16"), (b"\xfe\xff", "utf-16"))
_UNUSUAL: Final = bytes(set(range(32)) - set(b"\t\n\r\f\v\x1a"))


def utf8_of(data: bytes) -> tuple[bytes, str]:
    r"""The same text as UTF-8 without a byte order mark, and what had to be guessed.

    Raises
    ------
    Unreadable
        It is not text.

    Examples
    --------
    >>> utf8_of("Länge".encode("cp1252"))[0].decode()
    'Länge'
    """
    for mark, encoding in _BOMS:
        if data.startswith(mark):
            return _recoded(data, encoding), ""
    if b"\0" in data[:4000]:
        return _recoded(data, "utf-16-le" if data[1:2] == b"\0" else "utf-16-be"), ""
    ends = data[:_LONGEST_LINE] + data[-_LONGEST_LINE:]
    if len(ends.translate(None, _UNUSUAL)) < len(ends):
        raise Unreadable("is not a table of text; it holds bytes that are no letters")
    try:
        if not data.isascii():
            data.decode("utf-8")
    except UnicodeDecodeError:
        return _recoded(data, "cp1252"), "read as Windows-1252, as it is not UTF-8"
    return data, ""


def _recoded(data: bytes, encoding: str) -> bytes:
    try:
        text = data.decode(encoding)
    except UnicodeDecodeError as trouble:
        raise Unreadable("is not text that can be read; save it again as UTF-8") from trouble
    if "\0" in text:
        raise Unreadable("is not a table of text; it holds bytes that are no letters")
    return text.encode("utf-8", errors="replace")


def open_text(data: bytes) -> Opened:
    """Open a table of text.

    Raises
    ------
    Unreadable
        It is not text, or a line is longer than any reading.
    """
    plain, note = utf8_of(data)
    if b"\r" in plain:
        plain = plain.replace(b"\r\n", b"\n").replace(b"\r", b"\n")
    if _has_long_line(plain[: 4 * _LONGEST_LINE]):
        raise Unreadable("has a line longer than any table of readings")
    first = plain[: 2 * _LONGEST_LINE].decode("utf-8", errors="ignore")
    lines = first.split("\n", HEAD_ROWS)[:HEAD_ROWS]
    separator = separator_of(lines)
    if b'"' in plain:
        text = plain.decode("utf-8")
        head = list(itertools.islice(_quoted(text, separator), HEAD_ROWS))
        return Opened(
            kind="text", head=_narrow(head), note=note,
            chunks=lambda below, width: chunks_of(
                _quoted(text, separator), below=below, width=width
            ),
        )  # fmt: skip
    head = [(number, line.split(separator)) for number, line in enumerate(lines, start=1)]
    return Opened(
        kind="text", head=_narrow(head), note=note,
        chunks=lambda below, width: in_lines(plain, separator, below=below, width=width),
        quick=lambda below, width, numbers: quick_lines(
            plain, separator, below=below, width=width, numbers=numbers
        ),
    )  # fmt: skip


def _has_long_line(data: bytes) -> bool:
    start = 0
    while len(data) - start > _LONGEST_LINE:
        end = data.rfind(b"\n", start, start + _LONGEST_LINE + 1)
        if end < 0:
            return True
        start = end + 1
    return False


def _narrow(head: list[Row]) -> list[Row]:
    if any(len(cells) > MOST_COLUMNS for _, cells in head):
        raise Unreadable(f"has more than {MOST_COLUMNS} columns; is it a table of readings?")
    return head


def separator_of(lines: list[str]) -> str:
    """What parts the cells: the likeliest mark that stands equally often in most lines.

    Examples
    --------
    >>> separator_of(["speed;length", "1,5;3,0", "1,6;3,0"])
    ';'
    """
    said = [line for line in lines if line.strip()]
    agreeing = {mark: _agreement(said, mark) for mark in _SEPARATORS}
    best = max(agreeing.values(), default=0.0)
    return next((m for m in _SEPARATORS if best and agreeing[m] >= _AGREEING * best), ",")


def _agreement(lines: list[str], mark: str) -> float:
    """The share of lines that have the commonest number of this mark, none not counted."""
    counts = Counter(_outside_quotes(line).count(mark) for line in lines)
    counts.pop(0, None)
    return max(counts.values()) / len(lines) if counts else 0.0


def _outside_quotes(line: str) -> str:
    return "".join(line.split('"')[::2]) if '"' in line else line


def _quoted(text: str, separator: str) -> Iterator[Row]:
    reader = csv.reader(io.StringIO(text, newline=""), delimiter=separator, strict=True)
    try:
        number = 1
        for cells in reader:
            yield number, cells
            number = reader.line_num + 1
    except csv.Error as trouble:
        where = f"line {reader.line_num}"
        raise Unreadable(
            f"has a quotation mark left open or in the middle of a cell ({where})"
        ) from trouble
