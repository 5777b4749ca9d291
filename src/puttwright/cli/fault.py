"""An unforeseen fault: the reader gets one line with an id, the log file the trace."""

from __future__ import annotations

import secrets
import tempfile
import traceback
from pathlib import Path


def keep_trace() -> str:
    """Write the trace of the exception being handled to the log; the line to show for it.

    The log lies in the user's log folder, or in the temporary folder where
    that one cannot be written.
    """
    name = secrets.token_hex(4)
    entry = f"fault {name}\n{traceback.format_exc()}\n"
    for folder in (_log_folder(), Path(tempfile.gettempdir())):
        try:
            return f"Something went wrong in puttwright (fault {name}); see {_add(entry, folder)}"
        except OSError:
            continue
    return f"Something went wrong in puttwright (fault {name}); no log could be written"


def _log_folder() -> Path:
    import platformdirs

    return platformdirs.user_log_path("puttwright", appauthor=False)


def _add(entry: str, folder: Path) -> Path:
    folder.mkdir(parents=True, exist_ok=True)
    path = folder / "puttwright.log"
    with path.open("a", encoding="utf-8", errors="backslashreplace") as log:
        log.write(entry)
    return path
