"""The process that opens a spreadsheet: bytes in, rows as JSON out, or a sentence."""

from __future__ import annotations

import contextlib
import datetime
import io
import json
import sys
import zipfile
from typing import Any, Final

UNPACKED_BYTES: Final = 64 * 1024 * 1024
"""A million cells or more; to open them takes seconds and some 400 MB."""
_MEMORY_BYTES: Final = 1536 * 1024 * 1024
_CPU_SECONDS: Final = 55


def bound() -> None:
    """Bounds on memory and time where the system has them; a system without runs unbounded."""
    with contextlib.suppress(ImportError, ValueError, OSError):
        import resource  # noqa: PLC0415 - not on every system

        resource.setrlimit(resource.RLIMIT_AS, (_MEMORY_BYTES, _MEMORY_BYTES))
        resource.setrlimit(resource.RLIMIT_CPU, (_CPU_SECONDS, _CPU_SECONDS))


def _too_large(data: bytes) -> bool:
    if not data.startswith(b"PK"):
        return False
    with zipfile.ZipFile(io.BytesIO(data)) as archive:
        return sum(entry.file_size for entry in archive.infolist()) > UNPACKED_BYTES


def _read(data: bytes) -> list[list[str]] | str:
    from python_calamine import CalamineWorkbook, PasswordError  # noqa: PLC0415 - after the bounds

    if _too_large(data):
        return f"unpacks to more than {UNPACKED_BYTES // 1024**2} MB; save it as CSV"
    try:
        book = CalamineWorkbook.from_filelike(io.BytesIO(data))
    except PasswordError:
        return "is locked with a password; save it again without one"
    for number in range(len(book.sheet_names)):
        rows = book.get_sheet_by_index(number).to_python(skip_empty_area=False)
        said = [[_text(cell) for cell in row] for row in rows]
        if sum(sum(map(bool, row)) > 1 for row in said) > 1:
            return said
    return "has no sheet with a table in it"


def _text(value: Any) -> str:
    if isinstance(value, bool):
        return "true" if value else "false"
    if isinstance(value, float):
        return repr(value).removesuffix(".0")
    if isinstance(value, datetime.datetime):
        return value.isoformat(sep=" ")
    return str(value)


def answer_to(data: bytes) -> bytes:
    """Rows as JSON, or a sentence; a parser that panics is no spreadsheet that can be read."""
    answer: list[list[str]] | str
    try:
        answer = _read(data)
    except BaseException:  # noqa: BLE001 - a panic in compiled code is no Exception
        answer = "is no spreadsheet that can be read; save it as CSV"
    return json.dumps(answer).encode("ascii")


def main() -> None:
    """Answer on the output."""
    bound()
    sys.stdout.buffer.write(answer_to(sys.stdin.buffer.read()))


if __name__ == "__main__":
    main()
