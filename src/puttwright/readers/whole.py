"""Files and folders replaced whole: written aside, flushed to the disk, then renamed.

Whoever looks sees the old one or the new one, never a half, whenever the power goes.
"""

from __future__ import annotations

import contextlib
import os
import secrets
import shutil
from collections.abc import Iterator, Mapping
from pathlib import Path
from typing import BinaryIO, Final, Self

from puttwright.errors import CannotWrite

_MANY_BYTES: Final = 16 * 1024 * 1024
"""Of a file begun, so many are left to the system's leisure."""


class FileBegun:
    """A file written bit by bit beside where it will lie, gone at the end if nobody wanted it.

    What was written is on the disk already, all but the last of it, when it takes its place.
    """

    def __init__(self, path: Path) -> None:
        self._path = path
        self._aside = _aside(path.resolve())
        self._stream: BinaryIO | None = None
        self._flushed = 0

    def __enter__(self) -> Self:
        return self

    def __exit__(self, *_: object) -> None:
        if self._stream is not None:
            with contextlib.suppress(OSError):  # a full disk was told of before
                self._stream.close()
            self._aside.unlink(missing_ok=True)

    @contextlib.contextmanager
    def writing(self) -> Iterator[BinaryIO]:
        """Its end, to write to.

        Raises
        ------
        CannotWrite
            The disk is full, the folder may not be written.
        """
        with _phrased(self._path):
            stream = self._stream = self._stream or self._aside.open("x+b")
            yield stream
            if stream.tell() - self._flushed > _MANY_BYTES:
                self._flush(stream)

    def bytes(self) -> bytes:
        """All that was written."""
        with self.writing() as stream:
            stream.seek(0)
            return stream.read()

    def lie_at(self, path: Path) -> None:
        """Take its place, a new one.

        Raises
        ------
        CannotWrite
            As above.
        """
        with self.writing() as stream:
            self._flush(stream)
        stream.close()
        with _phrased(self._path):
            self._aside.replace(path)

    def _flush(self, stream: BinaryIO) -> None:
        stream.flush()
        os.fsync(stream.fileno())
        self._flushed = stream.tell()


Content = bytes | FileBegun


def write_file_whole(path: Path, data: Content) -> None:
    """Replace a file by these bytes.

    Raises
    ------
    CannotWrite
        The disk is full, the folder may not be written, the place is a folder.
    """
    with _phrased(path):
        target = path.resolve()
        target.parent.mkdir(parents=True, exist_ok=True)
        aside = _aside(target)
        try:
            _write(aside, data)
            aside.replace(target)
        finally:
            aside.unlink(missing_ok=True)
        _flush_folder(target.parent)


def write_folder_whole(path: Path, files: Mapping[str, bytes]) -> None:
    """Replace a folder by one with these files.

    A folder that is there is replaced only when it holds nothing else, so that
    no file we did not write is ever lost.

    Raises
    ------
    CannotWrite
        As for a file, or the folder holds other things.
    """
    with _phrased(path):
        target = path.resolve()
        _refuse_others(target, files)
        target.parent.mkdir(parents=True, exist_ok=True)
        aside = _aside(target)
        try:
            aside.mkdir()
            for name, data in files.items():
                _write(aside / name, data)
            _flush_folder(aside)
            _swap(aside, target)
        finally:
            shutil.rmtree(aside, ignore_errors=True)
        _flush_folder(target.parent)


def change_folder_whole(path: Path, files: Mapping[str, Content]) -> None:
    """Replace or add some files of a folder, all at once; every other file stays.

    Raises
    ------
    CannotWrite
        As for a file; nothing was changed then.
    """
    if len(files) == 1:
        ((name, data),) = files.items()
        write_file_whole(path / name, data)
        return
    with _phrased(path):
        target = path.resolve()
        aside = _aside(target)
        try:
            shutil.copytree(target, aside, symlinks=True, copy_function=_linked)
            for name, data in files.items():
                (aside / name).unlink(missing_ok=True)
                (aside / name).parent.mkdir(parents=True, exist_ok=True)
                _write(aside / name, data)
            _flush_folder(aside)
            _swap(aside, target)
        finally:
            shutil.rmtree(aside, ignore_errors=True)
        _flush_folder(target.parent)


def _linked(source: str, target: str) -> str:
    """A file that does not change is linked where the disk can do that, else copied."""
    try:
        os.link(source, target, follow_symlinks=False)
    except (OSError, NotImplementedError):
        return str(shutil.copy2(source, target, follow_symlinks=False))
    return target


@contextlib.contextmanager
def _phrased(path: Path) -> Iterator[None]:
    try:
        yield
    except OSError as trouble:
        said = trouble.strerror or str(trouble).partition(" (os error")[0]  # as polars tells it
        reason = (said or "the system refused").lower()
        raise CannotWrite(path=path, reason=reason) from trouble


def _aside(target: Path) -> Path:
    return target.with_name(f".{target.name}.{secrets.token_hex(4)}.part")


def _write(path: Path, data: Content) -> None:
    if isinstance(data, FileBegun):
        data.lie_at(path)
        return
    with path.open("xb") as stream:
        stream.write(data)
        stream.flush()
        os.fsync(stream.fileno())


def _flush_folder(path: Path) -> None:
    """Make a rename last; not every system lets a folder be opened for that."""
    if not hasattr(os, "O_DIRECTORY"):
        return
    handle = os.open(path, os.O_RDONLY | os.O_DIRECTORY)
    try:
        os.fsync(handle)
    finally:
        os.close(handle)


def _refuse_others(target: Path, files: Mapping[str, bytes]) -> None:
    if target.exists() and not target.is_dir():
        raise CannotWrite(path=target, reason="a file of that name is in the way")
    others = (
        sorted({each.name for each in target.iterdir()} - set(files)) if target.exists() else []
    )
    if others:
        raise CannotWrite(path=target, reason=f"the folder holds other things ({others[0]})")


def _swap(aside: Path, target: Path) -> None:
    if not target.exists():
        aside.replace(target)
        return
    old = _aside(target)
    target.replace(old)
    try:
        aside.replace(target)
    except OSError:
        old.replace(target)
        raise
    shutil.rmtree(old, ignore_errors=True)
