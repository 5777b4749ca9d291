"""A file of any kind to a table; what it is, is told from its bytes, not from its name."""

from __future__ import annotations

import re
from pathlib import Path
from typing import Final

from puttwright.errors import CannotRead
from puttwright.readers.files import LARGEST_BYTES, Unreadable
from puttwright.readers.tables.json_lines import open_json
from puttwright.readers.tables.opened import Opened
from puttwright.readers.tables.plain_text import open_text
from puttwright.readers.tables.workbook import open_workbook

_OTHER_KINDS: Final = (
    (b"%PDF", "a PDF"),
    (b"\x89PNG", "a picture"),
    (b"\xff\xd8\xff", "a picture"),
    (b"GIF8", "a picture"),
    (b"SQLite format 3", "a database"),
    (b"\x1f\x8b", "a compressed file; unpack it"),
    (b"7z\xbc\xaf", "a compressed file; unpack it"),
    (b"Rar!", "a compressed file; unpack it"),
    (b"<!DOCTYPE", "a web page"),
    (b"<html", "a web page"),
    (b"<?xml", "XML"),
)
_TOO_LARGE: Final = f"is larger than {LARGEST_BYTES // 1024**2} MB; split it"
_JSON: Final = re.compile(rb"\s*(\[\s*)?\{")


def bytes_of(path: Path) -> bytes:
    """All of a file that is not past bounds.

    Raises
    ------
    CannotRead
        It is not there, is a folder, a device or a pipe, or holds more than a table of readings
        can.
    """
    try:
        if path.is_dir():
            raise CannotRead(path=path, reason="is a folder; name the file")
        size = path.stat().st_size
        if not path.is_file():  # a device or a pipe may never end
            raise CannotRead(path=path, reason="is no file; save the readings as one")
        if size > LARGEST_BYTES:
            raise CannotRead(path=path, reason=_TOO_LARGE)
        with path.open("rb") as file:
            data = file.read(LARGEST_BYTES + 1)
        if len(data) > LARGEST_BYTES:  # it grew meanwhile
            raise CannotRead(path=path, reason=_TOO_LARGE)
    except FileNotFoundError as trouble:
        raise CannotRead(path=path, reason="there is no such file") from trouble
    except (OSError, ValueError) as trouble:
        raise CannotRead(path=path, reason="it cannot be opened") from trouble
    if not data[:1000].strip() and not data.strip():
        raise CannotRead(path=path, reason="is empty")
    return data


def open_table(data: bytes) -> Opened:
    """Open the table these bytes hold.

    Raises
    ------
    Unreadable
        Why they hold none.
    """
    start = data[:64].lstrip()
    if start.startswith((b"PK\x03\x04", b"\xd0\xcf\x11\xe0")):
        return open_workbook(data)
    for mark, kind in _OTHER_KINDS:
        if start.startswith(mark):
            raise Unreadable(f"is {kind}, not a table; save the readings as CSV")
    if _JSON.match(start.removeprefix(b"\xef\xbb\xbf")):
        return open_json(data)
    return open_text(data)
