"""Some files of a package replaced or added, all at once, every other one left as it is."""

from __future__ import annotations

import io
import zipfile
from collections.abc import Mapping, Sequence
from pathlib import Path

from puttwright.errors import CannotRead
from puttwright.evidence import Instrument, columns_of
from puttwright.evidence.check import HEAD
from puttwright.readers.files import Unreadable, open_files
from puttwright.readers.head import load_json
from puttwright.readers.manifest import MANIFEST, places, resource_of
from puttwright.readers.text import text_of
from puttwright.readers.whole import Content, FileBegun, change_folder_whole, write_file_whole
from puttwright.readers.writing import json_bytes, zip_bytes


def change_package(path: Path, files: Mapping[str, Content]) -> None:
    """Write these files into the package, by their names in it.

    Raises
    ------
    CannotRead
        There is no package.
    CannotWrite
        Nothing was changed then.
    """
    place = _place(path)
    if place.is_dir():
        change_folder_whole(place, files)
        return
    with zipfile.ZipFile(io.BytesIO(path.read_bytes())) as archive:
        held = {name: archive.read(name) for name in archive.namelist() if name[-1] != "/"}
    prefix = next((n[: -len(HEAD)] for n in held if n.lower().endswith(HEAD)), "")
    changed = {
        f"{prefix}{name}": data if isinstance(data, bytes) else data.bytes()
        for name, data in files.items()
    }
    write_file_whole(path, zip_bytes({**held, **changed}))


def begin_file(path: Path) -> FileBegun:
    """A file for the package at this path, to be written bit by bit before it is put into it."""
    return FileBegun(_place(path))


def _place(path: Path) -> Path:
    """The folder that the package is, or the zip."""
    if path.is_dir():
        return path / _prefix_in(path)
    return path.parent if path.suffix.lower() == ".json" else path


def _prefix_in(path: Path) -> str:
    """The folder that the package lies in, right under the one named."""
    if (path / HEAD).is_file():
        return ""
    found = sorted(each.parent.name for each in path.glob(f"*/{HEAD}"))
    return found[0] if len(found) == 1 else ""


def file_of(path: Path, name: str) -> bytes | None:
    """A file of the package, ``None`` when it is not in it.

    Raises
    ------
    CannotRead
        It cannot be read.
    """
    try:
        files = open_files(path)
        found = files.find(name)
        return files.read(found) if found else None
    except Unreadable as trouble:
        raise CannotRead(path=path, reason=str(trouble)) from trouble


def head_with_instruments(path: Path, entries: Sequence[Instrument]) -> dict[str, bytes]:
    """``fitting.json`` with these instruments, others of their names and quantities replaced."""
    head = load_json(text_of(file_of(path, HEAD) or b"{}"))
    names = [column.name for column in columns_of(Instrument)]
    said = [
        {name: value for name in names if (value := getattr(entry, name)) is not None}
        for entry in entries
    ]
    new = {(entry.name, entry.quantity) for entry in entries}
    others = [
        each
        for each in head.get("instruments") or []
        if (each["name"], each["quantity"]) not in new
    ]
    return {HEAD: json_bytes({**head, "instruments": [*others, *said]})}


def table_place(path: Path, table: str) -> str:
    """The file that a table lies in, or will lie in.

    Raises
    ------
    CannotRead
        There is no package.
    """
    try:
        found, _ = places(open_files(path))
    except Unreadable as trouble:
        raise CannotRead(path=path, reason=str(trouble)) from trouble
    return found.get(table, f"{table}.csv")


def manifest_with(path: Path, table: str, *, place: str, header: Sequence[str]) -> dict[str, bytes]:
    """``datapackage.json`` with this table as it now is; nothing where a package has none."""
    data = file_of(path, MANIFEST)
    if data is None:
        return {}
    said = load_json(text_of(data))
    entry = {**resource_of(table, header), "path": place}
    others = [
        each for each in said.get("resources") or [] if str(each.get("name", "")).lower() != table
    ]
    return {MANIFEST: json_bytes({**said, "resources": [*others, entry]})}
