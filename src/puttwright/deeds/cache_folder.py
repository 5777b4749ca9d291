"""Where compiled arithmetic is kept, also where neither the program nor a home can be written."""

from __future__ import annotations

import atexit
import os
import shutil
import tempfile
from pathlib import Path
from typing import Final

CACHE: Final = "NUMBA_CACHE_DIR"
_PROGRAM: Final = Path(__file__).resolve().parents[1]


def settle_cache() -> str | None:
    """Name a folder for compiled code unless the compiler finds one, before it is loaded.

    Without one the compiler refuses to work. Next to the program and in the
    user's cache folder it looks by itself; then the data folder is taken; then a
    folder that lasts until the program ends.

    Returns
    -------
    str or None
        What to say when nothing can be kept; None when all is well.
    """
    if os.environ.get(CACHE) or writable(_PROGRAM / "ball" / "__pycache__") or writable(_users()):
        return None
    from puttwright.deeds.bootstrap import data_folder  # noqa: PLC0415 - brings the database

    kept = data_folder() / "cache"
    if writable(kept):
        os.environ[CACHE] = str(kept)
        return None
    passing = tempfile.mkdtemp(prefix="puttwright-")
    atexit.register(shutil.rmtree, passing, ignore_errors=True)
    os.environ[CACHE] = passing
    return (
        "The compiled arithmetic cannot be kept, so every start takes some seconds more: no folder "
        f"can be written. Set {CACHE} to one that can."
    )


def writable(folder: Path) -> bool:
    """Whether files can be made in a folder, which is made if it is not there."""
    try:
        folder.mkdir(parents=True, exist_ok=True)
        with tempfile.TemporaryFile(dir=folder):
            return True
    except OSError:
        return False


def _users() -> Path:
    import platformdirs  # noqa: PLC0415 - needed once

    return platformdirs.user_cache_path("numba", appauthor=False)
