"""An unforeseen fault: the reader gets one line with an id, the log file what went wrong where."""

from __future__ import annotations

import logging
import secrets
import tempfile
from pathlib import Path


def keep_trace(error: Exception) -> str:
    """Write to the log where ``error`` came from; the line to show for it.

    The log lies in the user's log folder, or in the temporary folder where
    that one cannot be written.
    """
    name = secrets.token_hex(4)
    for folder in (_log_folder(), Path(tempfile.gettempdir())):
        try:
            log = _add(error, folder, name=name)
        except OSError:
            continue
        return f"Something went wrong in puttwright (fault {name}); see {log}"
    return f"Something went wrong in puttwright (fault {name}); no log could be written"


def _log_folder() -> Path:
    import platformdirs

    return platformdirs.user_log_path("puttwright", appauthor=False)


def _add(error: Exception, folder: Path, *, name: str) -> Path:
    from puttwright.deeds.keep_log import LOG, fault_line, log_file

    folder.mkdir(parents=True, exist_ok=True)
    (folder / LOG).open("a", encoding="utf-8").close()  # a handler would keep quiet about trouble
    handler = log_file(folder)
    try:
        message = f"fault {name} {fault_line(error)}"
        handler.handle(logging.makeLogRecord({"msg": message, "levelname": "ERROR"}))
    finally:
        handler.close()
    return folder / LOG
