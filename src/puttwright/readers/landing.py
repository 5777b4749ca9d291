"""A folder in which a device's files land: which of them are whole, and new.

A file is looked at until it has been quiet for a while: a short one when it ends as a whole file
ends, a longer one otherwise. It is whole again each time it grew. What lay there when the watch
began is left alone.
"""

from __future__ import annotations

import os
import zipfile
from dataclasses import dataclass
from pathlib import Path
from typing import Final

QUIET_S: Final = 0.15
DOUBTFUL_S: Final = 3.0
"""So long a file must be quiet that does not end as a whole one does."""
MOST_FILES: Final = 5000
_HALF_NAMES: Final = (".tmp", ".part", ".partial", ".crdownload", ".download", ".swp")
_ENDS: Final = (b"\n", b"\r", b"}", b"]")


@dataclass(slots=True)
class _Seen:
    """A file as it was last seen, when that began, and whether it was told of like that."""

    size: int
    changed_ns: int
    since_s: float
    told: bool


class Landing:
    """Watches one folder; nothing in it is ever touched.

    Parameters
    ----------
    folder
        Need not be there yet.
    """

    def __init__(self, folder: Path) -> None:
        self.folder = folder
        self._seen: dict[str, _Seen] = {}
        for name, size, changed_ns in self._files():
            self._seen[name] = _Seen(size, changed_ns, 0.0, told=True)

    def whole(self, now_s: float) -> list[Path]:
        """The files that are whole and new, or grew, since they were told of.

        Parameters
        ----------
        now_s
            Of a clock that never goes back.
        """
        found = []
        for name, size, changed_ns in self._files():
            seen = self._seen.get(name)
            if seen is None or (seen.size, seen.changed_ns) != (size, changed_ns):
                self._seen[name] = _Seen(size, changed_ns, now_s, told=False)
            elif not seen.told and self._is_whole(name, quiet_s=now_s - seen.since_s):
                seen.told = True
                found.append(self.folder / name)
        return found

    def earlier(self) -> list[Path]:
        """What lies there and need not be waited for, the newest first."""
        files = sorted(self._files(), key=lambda each: -each[2])
        return [self.folder / name for name, _, _ in files]

    def _files(self) -> list[tuple[str, int, int]]:
        try:
            with os.scandir(self.folder) as entries:
                return [found for entry in entries if (found := _looked_at(entry))][:MOST_FILES]
        except OSError:
            return []  # a stick pulled out, a share away: what comes back is looked at then

    def _is_whole(self, name: str, *, quiet_s: float) -> bool:
        if quiet_s < QUIET_S:
            return False
        try:
            ends_whole = _ends_whole(self.folder / name)
        except OSError:
            return False  # the device holds it still
        return ends_whole or quiet_s >= DOUBTFUL_S


def _looked_at(entry: os.DirEntry[str]) -> tuple[str, int, int] | None:
    if entry.name.startswith((".", "~")) or entry.name.lower().endswith(_HALF_NAMES):
        return None
    try:
        if not entry.is_file():
            return None
        found = entry.stat()
    except OSError:
        return None
    return (entry.name, found.st_size, found.st_mtime_ns) if found.st_size else None


def _ends_whole(path: Path) -> bool:
    with path.open("rb") as file:
        if file.read(4) == b"PK\x03\x04":
            return zipfile.is_zipfile(file)
        file.seek(-1, os.SEEK_END)
        return file.read(1) in _ENDS
