"""Spreadsheets (XLSX, XLS, ODS) to a table, opened in a process of their own.

What a damaged or a crafted spreadsheet can do to a parser is past counting: run out of memory,
never end, stop the program. In a process with bounds the worst is one sentence.
"""

from __future__ import annotations

import itertools
import json
import subprocess
import sys
from typing import Final

from puttwright.readers.files import Unreadable
from puttwright.readers.tables.opened import HEAD_ROWS, MOST_COLUMNS, Opened, chunks_of

MOST_BYTES: Final = 32 * 1024 * 1024
SECONDS: Final = 60
_PROCESS: Final = "puttwright.readers.tables.workbook_process"


def open_workbook(data: bytes) -> Opened:
    """Open the first sheet that holds a table; formulas at the value they were saved with.

    Raises
    ------
    Unreadable
        It cannot be read, is locked, or is past all bounds.
    """
    if len(data) > MOST_BYTES:
        raise Unreadable("is larger than 32 MB as a spreadsheet; save it as CSV")
    rows = list(enumerate(_rows(data), start=1))
    if any(len(cells) > MOST_COLUMNS for _, cells in rows[:1]):
        raise Unreadable(f"has more than {MOST_COLUMNS} columns; is it a table of readings?")
    return Opened(
        kind="spreadsheet", head=list(itertools.islice(rows, HEAD_ROWS)),
        chunks=lambda below, width: chunks_of(iter(rows), below=below, width=width),
    )  # fmt: skip


def _rows(data: bytes) -> list[list[str]]:
    try:
        answer = json.loads(answered(data))
    except (subprocess.TimeoutExpired, ValueError) as trouble:
        raise Unreadable("is no spreadsheet that can be read; save it as CSV") from trouble
    if isinstance(answer, str):
        raise Unreadable(answer)
    rows: list[list[str]] = answer
    return rows


def answered(data: bytes) -> bytes:
    """What the process says of a spreadsheet; nothing when it was stopped."""
    run = subprocess.run(  # noqa: S603 - our own module, by our own interpreter
        [sys.executable, "-m", _PROCESS], input=data, capture_output=True, timeout=SECONDS,
        check=False,
    )  # fmt: skip
    return run.stdout
