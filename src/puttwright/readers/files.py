"""The files of a package, whether it is a folder or that folder zipped.

Nothing is ever unpacked onto the disk, sizes are bounded before and while
reading, and what cannot be read is one sentence (:class:`Unreadable`).
"""

from __future__ import annotations

import io
import lzma
import os
import struct
import zipfile
import zlib
from collections.abc import Callable, Iterable
from dataclasses import dataclass
from pathlib import Path, PurePosixPath
from typing import Final

LARGEST_BYTES: Final = 128 * 1024 * 1024
"""No file of a package, and no package, may hold more: about a million putts."""
MOST_FILES: Final = 2000
_HEAD: Final = "fitting.json"
_ZIP_TROUBLE: Final = (
    zipfile.BadZipFile,
    zlib.error,
    lzma.LZMAError,
    struct.error,
    EOFError,
    OSError,
    NotImplementedError,
    RuntimeError,
    ValueError,
    IndexError,
    OverflowError,
    MemoryError,
)


class Unreadable(Exception):
    """Why a file cannot be read, said so that a sentence may begin with the file's name."""


@dataclass(frozen=True, slots=True)
class Files:
    """The names in a package and how to read one."""

    names: tuple[str, ...]
    read: Callable[[str], bytes]

    def find(self, name: str) -> str | None:
        """The name as it stands in the package; upper or lower case does not matter."""
        if name in self.names:
            return name
        alike = [each for each in self.names if each.lower() == name.lower()]
        return alike[0] if len(alike) == 1 else None


def leaves_its_folder(name: str) -> bool:
    """Whether a path inside a package points out of it.

    Examples
    --------
    >>> leaves_its_folder("../putts.csv"), leaves_its_folder("data/putts.csv")
    (True, False)
    """
    plain = name.replace("\\", "/")
    elsewhere = plain.startswith("/") or plain[1:2] == ":" or "://" in plain
    return elsewhere or ".." in PurePosixPath(plain).parts


def open_files(path: Path) -> Files:
    """The files of the package at a path.

    Raises
    ------
    Unreadable
        There is nothing there, it is no folder and no zip, or the zip is damaged or unsafe.
    """
    try:
        if path.is_dir():
            return _folder(path)
        if path.name.lower() in (_HEAD, "datapackage.json") and path.is_file():
            return _folder(path.parent)
        data = _bounded(path)
    except (OSError, ValueError) as trouble:
        raise Unreadable(_why(trouble)) from trouble
    if not data:
        raise Unreadable("has no bytes in it; was it saved or copied to the end?")
    return _zip(data, named_zip=path.suffix.lower() == ".zip")


def _why(trouble: OSError | ValueError) -> str:
    if isinstance(trouble, FileNotFoundError):
        return "is not there"
    reason = getattr(trouble, "strerror", None)
    return f"cannot be opened ({reason.lower()})" if reason else "cannot be opened"


def _bounded(path: Path) -> bytes:
    if not path.exists():
        raise FileNotFoundError
    if not path.is_file():
        raise Unreadable("is neither a file nor a folder")
    with path.open("rb") as stream:
        data = stream.read(LARGEST_BYTES + 1)
    return _small_enough(data)


def _small_enough(data: bytes) -> bytes:
    if len(data) > LARGEST_BYTES:
        raise Unreadable(f"is larger than {LARGEST_BYTES // 1024**2} MB")
    return data


def _folder(path: Path) -> Files:
    names = _names_under(path)
    prefix = _prefix(names)

    def read(name: str) -> bytes:
        try:
            return _bounded(path / (prefix + name))
        except (OSError, ValueError) as trouble:
            raise Unreadable(_why(trouble)) from trouble

    return Files(_below(prefix, names), read)


def _names_under(path: Path) -> list[str]:
    """The files in a folder and in the folders right under it."""
    names = []
    for entry in sorted(os.scandir(path), key=lambda entry: entry.name):
        if entry.name.startswith("."):
            continue
        names += _names_in(entry) if entry.is_dir() else [entry.name]
        if len(names) > MOST_FILES:
            raise Unreadable(f"holds more than {MOST_FILES} files; is it the folder you meant?")
    return names


def _names_in(folder: os.DirEntry[str]) -> list[str]:
    try:
        with os.scandir(folder) as entries:
            return sorted(f"{folder.name}/{each.name}" for each in entries if not each.is_dir())
    except OSError:
        return []


def _zip(data: bytes, *, named_zip: bool) -> Files:
    try:
        archive = zipfile.ZipFile(io.BytesIO(data))
        names = _safe_names(archive.infolist())
    except _ZIP_TROUBLE as trouble:
        damaged = "is a damaged zip file; copy or zip it again"
        foreign = "is neither a folder nor a zip file"
        raise Unreadable(damaged if named_zip else foreign) from trouble
    prefix = _prefix(names)

    def read(name: str) -> bytes:
        try:
            with archive.open(prefix + name) as stream:
                return _small_enough(stream.read(LARGEST_BYTES + 1))
        except (KeyError, *_ZIP_TROUBLE) as trouble:
            raise Unreadable("cannot be unpacked; the zip file is damaged") from trouble

    return Files(_below(prefix, names), read)


def _safe_names(entries: Iterable[zipfile.ZipInfo]) -> list[str]:
    files = [each for each in entries if not each.is_dir() and "__MACOSX" not in each.filename]
    names = [each.filename for each in files]
    if len(files) > MOST_FILES:
        raise Unreadable(f"holds more than {MOST_FILES} files; is it the package you meant?")
    if sum(each.file_size for each in files) > LARGEST_BYTES:
        raise Unreadable(f"unpacks to more than {LARGEST_BYTES // 1024**2} MB")
    if any(each.flag_bits & 1 for each in files):
        raise Unreadable("is locked with a password; zip it again without one")
    for name in names:
        if leaves_its_folder(name):
            raise Unreadable(f"holds a path that leads out of its folder ({name[:60]!r})")
        if names.count(name) > 1:
            raise Unreadable(f"holds {name[:60]!r} twice")
    return names


def _prefix(names: Iterable[str]) -> str:
    """The one folder that the package lies in, when it does not lie at the top."""
    heads = [name for name in names if PurePosixPath(name).name.lower() == _HEAD]
    if any("/" not in name for name in heads) or len(heads) != 1:
        return ""
    return heads[0][: -len(_HEAD)]


def _below(prefix: str, names: Iterable[str]) -> tuple[str, ...]:
    return tuple(name[len(prefix) :] for name in names if name.startswith(prefix))
