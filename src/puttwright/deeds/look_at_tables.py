"""Look at the tables that were read into a fitting; say which folder is watched."""

from __future__ import annotations

from dataclasses import dataclass
from pathlib import Path
from typing import Final

from puttwright.deeds.bootstrap import Clock
from puttwright.errors import CannotRead
from puttwright.store import Store, files_read, settings
from puttwright.store.files_read import KeptAside, KeptFile
from puttwright.store.revisions import key_of

WATCHED: Final = "watched_folder"
"""The name of the setting."""


@dataclass(frozen=True, slots=True, kw_only=True)
class ReadTables:
    """The files read into a fitting, the newest first, and their rows that did not fit."""

    files: tuple[KeptFile, ...]
    asides: tuple[KeptAside, ...]


def look_at_tables(store: Store, fitting_id: str) -> ReadTables:
    """What was read from files.

    Raises
    ------
    NotFound
        There is no such fitting.
    """
    with store.reading() as look:
        key = key_of(look, fitting_id)
        return ReadTables(
            files=tuple(files_read.of_fitting(look, key=key)),
            asides=tuple(files_read.asides(look, key=key)),
        )


def watched_folder(
    store: Store, clock: Clock, *, folder: str | None = None, who: str = ""
) -> Path | None:
    """The folder that the shop watches; with ``folder`` it is set first, empty for none.

    Raises
    ------
    CannotRead
        There is no such folder; nothing is set then.
    """
    if folder is None:
        with store.reading() as look:
            folder = settings.load(look).get(WATCHED, "")
        return Path(folder) if folder else None
    path = Path(folder).expanduser()
    if folder and not (path.is_absolute() and path.is_dir()):
        raise CannotRead(path=folder, reason="there is no such folder; give its whole path")
    with store.writing() as write:
        said = str(path) if folder else ""
        settings.put(write, {WATCHED: said}, now=clock(), who=who)
    return path if folder else None
