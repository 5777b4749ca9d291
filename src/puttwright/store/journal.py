"""The journal: what was written since the last backups, in files of lines beside the records.

A line is one transaction: a checksum, its number, the revision of the tables and
every row as it then was. Rows stand whole, so a line can be taken in twice, and over
any backup that holds what came before. Numbers follow each other; the number of the
newest transaction lies in the records themselves (``user_version``). A line is on the
disk before its transaction is, so a kill in between leaves a line of which nobody
heard; the next transaction takes the same number, and the later line counts.
"""

from __future__ import annotations

import errno
import hashlib
import json
import os
import re
import secrets
import shutil
from collections.abc import Iterator
from dataclasses import dataclass, field
from itertools import pairwise
from pathlib import Path
from typing import Any, Final

from puttwright.errors import CannotWrite
from puttwright.store.copies import make_lasting

_NAME: Final = re.compile(r"(\d{6,})-after-(\d+)\.lines")
_NUMBER: Final = re.compile(rb'[0-9a-f]{16} \{"n":(\d+),')
_SUM_LENGTH: Final = 16
_LEAST: Final = _SUM_LENGTH + 3
_FULL: Final = {errno.ENOSPC, errno.EFBIG, errno.EDQUOT}
_READ_ONLY: Final = {errno.EROFS, errno.EACCES, errno.EPERM}

Value = None | int | float | str | bytes


@dataclass(frozen=True, slots=True, kw_only=True)
class Rows:
    """Rows of a table as a transaction left them, and the keys of those it took away."""

    columns: tuple[str, ...]
    rows: tuple[tuple[Value, ...], ...]
    gone: tuple[int, ...] = ()


@dataclass(frozen=True, slots=True, kw_only=True)
class Line:
    """One transaction: its number, the revision of the tables, the rows by table."""

    number: int
    revision: str
    tables: dict[str, Rows] = field(default_factory=dict)


@dataclass(frozen=True, slots=True, kw_only=True)
class Segment:
    """One file of the journal: its place in the order, and the number after which it begins."""

    place: int
    after: int
    file: Path


@dataclass(frozen=True, slots=True, kw_only=True)
class Told:
    """What a journal tells: its lines in order, and how whole it is.

    ``after`` is the number after which the lines begin, or None without a journal;
    ``unreadable`` counts lines that are not what was written; ``torn`` says that the
    very last one was cut off, of which nobody ever heard.
    """

    after: int | None
    lines: tuple[Line, ...] = ()
    unreadable: int = 0
    torn: bool = False

    @property
    def last(self) -> int | None:
        """The number of the newest transaction."""
        return self.lines[-1].number if self.lines else self.after


def folder_of(records: Path) -> Path:
    """Where the journal of a file of records lies."""
    return records.with_suffix(".journal")


def segments(folder: Path) -> list[Segment]:
    """The files of a journal in their order."""
    found = []
    for file in folder.iterdir() if folder.is_dir() else ():
        match = _NAME.fullmatch(file.name)
        if match:
            found.append(Segment(place=int(match[1]), after=int(match[2]), file=file))
    return sorted(found, key=lambda segment: segment.place)


def begin(folder: Path, *, after: int) -> Segment:
    """Begin a new file; only who holds the records for writing may do so."""
    if not folder.is_dir():
        folder.mkdir()
        make_lasting(folder.parent)
    there = segments(folder)
    place = there[-1].place + 1 if there else 1
    new = Segment(place=place, after=after, file=folder / f"{place:06d}-after-{after}.lines")
    new.file.touch(exist_ok=False)
    make_lasting(folder)
    return new


def append(segment: Segment, line: Line) -> None:
    """Have the disk hold a line; only who holds the records for writing may do so.

    Raises
    ------
    CannotWrite
        The disk does not take it; nothing of it is left.
    """
    data = _encoded(line)
    try:
        handle = os.open(segment.file, os.O_RDWR | os.O_APPEND | getattr(os, "O_BINARY", 0))
        try:
            _write_whole(handle, data)
        finally:
            os.close(handle)
    except OSError as error:
        raise CannotWrite(path=segment.file, reason=_reason(error)) from error


def _write_whole(handle: int, data: bytes) -> None:
    before = os.lseek(handle, 0, os.SEEK_END)
    os.lseek(handle, max(before - 1, 0), os.SEEK_SET)
    if os.read(handle, 1) not in {b"", b"\n"}:
        data = b"\n" + data  # the line before was cut off
    try:
        written = 0
        while written < len(data):
            written += os.write(handle, data[written:])
        os.fsync(handle)
    except OSError:
        os.ftruncate(handle, before)
        raise


def _reason(error: OSError) -> str:
    if error.errno in _FULL:
        return "the disk is full"
    if error.errno in _READ_ONLY:
        return "the file or its folder may only be read"
    return (error.strerror or "no access").lower()


def read(folder: Path) -> Told:
    """Read a journal; what is no line any more is counted and passed over.

    A number that comes again takes back what followed its first; a number that does
    not follow begins anew, for what stood before belongs to other records.
    """
    there = segments(folder)
    if not there:
        return Told(after=None)
    found = _Found(after=there[0].after)
    ended = True
    for raw in _raw_lines(there):
        ended = raw.endswith(b"\n")
        found.take(_decoded(raw))
    torn = not ended and found.doubtful > 0
    return Told(
        after=found.after,
        lines=tuple(found.lines),
        unreadable=found.unreadable + found.doubtful - torn,
        torn=torn,
    )


@dataclass(slots=True)
class _Found:
    """The lines so far, and how many since the last good one were none."""

    after: int
    lines: list[Line] = field(default_factory=list)
    unreadable: int = 0
    doubtful: int = 0

    def take(self, line: Line | None) -> None:
        """Take the next line in; None for one that is not what was written."""
        if line is None:
            self.doubtful += 1
            return
        while self.lines and self.lines[-1].number >= line.number:
            self.lines.pop()
        follows = line.number == (self.lines[-1].number if self.lines else self.after) + 1
        if not follows and self.doubtful:
            self.unreadable += self.doubtful
        elif not follows:
            self.after, self.unreadable = line.number - 1, 0
            self.lines.clear()
        self.doubtful = 0  # one whose number came again was cut off: nobody heard of it
        self.lines.append(line)


def last_number(folder: Path) -> int | None:
    """The number of the newest transaction; quicker than to read it all."""
    there = segments(folder)
    for segment in reversed(there):
        for raw in reversed(segment.file.read_bytes().splitlines(keepends=True)):
            found = _NUMBER.match(raw)
            if found and _is_whole(raw):
                return int(found[1])
    return there[-1].after if there else None


def _raw_lines(there: list[Segment]) -> Iterator[bytes]:
    for segment in there:
        with segment.file.open("rb") as stream:
            yield from stream


def trim(folder: Path, *, held: int) -> None:
    """Let go of every file whose transactions all lie in a backup, up to ``held``."""
    for segment, later in pairwise(segments(folder)):
        if later.after <= held:
            segment.file.unlink(missing_ok=True)


def forget(folder: Path, *, after: int) -> None:
    """Begin anew and delete all that stood there before."""
    before = segments(folder)
    begin(folder, after=after)
    for segment in before:
        segment.file.unlink(missing_ok=True)
    make_lasting(folder)


def set_aside(folder: Path, *, name: str) -> Path | None:
    """Move a journal away whole, so that the next one begins anew."""
    if not folder.is_dir():
        return None
    aside = folder.with_name(name)
    if aside.exists():
        aside = aside.with_name(f"{aside.stem}-{secrets.token_hex(2)}{aside.suffix}")
    folder.rename(aside)
    make_lasting(folder.parent)
    return aside


def delete(folder: Path) -> None:
    """Delete a journal that was set aside."""
    shutil.rmtree(folder)


def _encoded(line: Line) -> bytes:
    said = {
        "n": line.number,
        "tables at": line.revision,
        "rows": {
            name: {"columns": each.columns, "rows": each.rows, "gone": each.gone}
            for name, each in line.tables.items()
        },
    }
    text = json.dumps(said, separators=(",", ":"), default=_bytes_said).encode()
    return _sum(text) + b" " + text + b"\n"


def _bytes_said(value: object) -> dict[str, str]:
    if isinstance(value, bytes):
        return {"hex": value.hex()}
    raise TypeError(f"{type(value).__name__} cannot stand in a journal")


def _decoded(raw: bytes) -> Line | None:
    if not _is_whole(raw):
        return None
    said = json.loads(raw[_SUM_LENGTH + 1 : -1])
    return Line(
        number=said["n"],
        revision=said["tables at"],
        tables={name: _rows(each) for name, each in said["rows"].items()},
    )


def _is_whole(raw: bytes) -> bool:
    text = raw[_SUM_LENGTH + 1 : -1]
    return len(raw) >= _LEAST and raw[-1:] == b"\n" and raw[:_SUM_LENGTH] == _sum(text)


def _rows(said: dict[str, Any]) -> Rows:
    return Rows(
        columns=tuple(said["columns"]),
        rows=tuple(tuple(_value(value) for value in row) for row in said["rows"]),
        gone=tuple(said["gone"]),
    )


def _value(said: Any) -> Value:
    return bytes.fromhex(said["hex"]) if isinstance(said, dict) else said


def _sum(text: bytes) -> bytes:
    return hashlib.sha256(text).hexdigest()[:_SUM_LENGTH].encode()
