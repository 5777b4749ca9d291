"""The log: one line an event, nobody's data in it, and it does not grow without end."""

from __future__ import annotations

import logging
import sqlite3
import time
import traceback
from logging.handlers import RotatingFileHandler
from pathlib import Path
from types import TracebackType
from typing import Final

from sqlalchemy.exc import DBAPIError

LOG: Final = "puttwright.log"
_BYTES, _OLDER = 1_000_000, 3
_FRAMES: Final = 12
_ExcInfo = tuple[type[BaseException], BaseException, TracebackType | None] | tuple[None, None, None]


def log_file(folder: Path) -> logging.Handler:
    """What writes events into a file of ``folder``, and into a fresh one when it is full."""
    handler = _Quiet(
        folder / LOG, maxBytes=_BYTES, backupCount=_OLDER, encoding="utf-8", delay=True,
        errors="backslashreplace",
    )  # fmt: skip
    handler.setFormatter(OneLine())
    return handler


class _Quiet(RotatingFileHandler):
    """A log that cannot be written (a full disk) does not stop the work."""

    def handleError(self, record: logging.LogRecord) -> None:  # noqa: N802 - the library's name
        """Leave the line out."""


class FaultElsewhereError(Exception):
    """A fault of ours in another process; ``line`` is its :func:`fault_line`."""

    def __init__(self, line: str) -> None:
        super().__init__(line)
        self.line = line


def fault_line(error: BaseException) -> str:
    """What went wrong and where, without what was worked on: messages may hold a golfer's name.

    Examples
    --------
    >>> try:
    ...     {}["Robin"]
    ... except KeyError as error:
    ...     print(fault_line(error).split(" at ")[0])
    KeyError
    """
    if isinstance(error, FaultElsewhereError):
        return error.line
    frames = traceback.extract_tb(error.__traceback__)[-_FRAMES:]
    places = [f"{_short(each.filename)}:{each.lineno} {each.name}" for each in reversed(frames)]
    line = " < ".join([f"{_named(error)} at {places[0]}", *places[1:]]) if places else _named(error)
    cause = error.__cause__
    return line if cause is None else f"{line} || from {_named(cause)}"


def _named(error: BaseException) -> str:
    """The kind of error; what a system says of itself may be said along."""
    name = type(error).__name__
    if isinstance(error, DBAPIError):
        return f"{name} ({_flat(error.orig)})"
    if isinstance(error, sqlite3.Error):
        return f"{name} ({_flat(error)})"
    return f"{name} ({error.strerror})" if isinstance(error, OSError) else name


def _flat(said: object) -> str:
    return " ".join(str(said).split())[:200]


def _short(file: str) -> str:
    parts = Path(file).parts
    known = [n for n, part in enumerate(parts) if part in {"puttwright", "site-packages"}]
    return "/".join(parts[known[-1] + 1 :]) if known else parts[-1]


class OneLine(logging.Formatter):
    """Time in UTC, level, message; a trace becomes part of the line."""

    converter = staticmethod(time.gmtime)
    default_time_format = "%Y-%m-%dT%H:%M:%S"
    default_msec_format = "%s.%03dZ"

    def __init__(self) -> None:
        super().__init__("%(asctime)s %(levelname)s %(message)s")

    def format(self, record: logging.LogRecord) -> str:
        """The line."""
        record.exc_text = None
        return super().format(record).replace("\n", " | ").replace("\r", " ")

    def formatException(self, ei: _ExcInfo) -> str:  # noqa: N802 - the library's name
        """Where it went wrong, without the message."""
        return fault_line(ei[1]) if ei[1] is not None else ""
