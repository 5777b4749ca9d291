"""The fitting package: a folder, or that folder zipped, to a fitting and back."""

from __future__ import annotations

import dataclasses
from collections.abc import Collection, Mapping
from pathlib import Path
from typing import Any, Final

from puttwright.errors import Fault, PackageFaults
from puttwright.evidence.check import HEAD, head_faults
from puttwright.evidence.records import Fitting
from puttwright.evidence.tables import TABLES, table_faults
from puttwright.readers.files import Files, Unreadable, open_files
from puttwright.readers.head import Head, load_json
from puttwright.readers.manifest import MANIFEST, places
from puttwright.readers.table import Table, read_table
from puttwright.readers.text import text_of
from puttwright.readers.whole import write_file_whole, write_folder_whole
from puttwright.readers.writing import package_files, zip_bytes

LARGEST_HEAD: Final = 4 * 1024 * 1024


def read_package(path: Path) -> Fitting:
    """Read and check a fitting package.

    Parameters
    ----------
    path
        A folder, or a .zip of one, with or without ``datapackage.json``.

    Returns
    -------
    Fitting
        Unknown columns and fields are kept in ``extra``.

    Raises
    ------
    PackageFaults
        With every fault of every file, each one sentence with table, row and column.

    Examples
    --------
    >>> try:
    ...     read_package(Path("no-such-package"))
    ... except PackageFaults as trouble:
    ...     print(trouble)
    no-such-package: is not there
    """
    try:
        files = open_files(path)
    except Unreadable as trouble:
        fault = Fault(path.name or str(path), 0, "", str(trouble))
        raise PackageFaults(faults=[fault]) from trouble
    return _read(files)


def write_package(
    fitting: Fitting, path: Path, *, beside: Mapping[str, bytes] | None = None
) -> None:
    """Write a fitting package whole: a folder, or a zip when the name ends in ``.zip``.

    Parameters
    ----------
    fitting
        What to write; the same fitting gives the same bytes.
    path
        Where; a package that is there is replaced, a folder with other things is not.
    beside
        Further files to lie in the package, by name.

    Raises
    ------
    CannotWrite
        Nothing was changed then.
    """
    files = {**package_files(fitting), **(beside or {})}
    if path.suffix.lower() == ".zip":
        write_file_whole(path, zip_bytes(files))
    else:
        write_folder_whole(path, files)


def _read(files: Files) -> Fitting:
    draft, faults = _read_head(files)
    where, manifest_faults = places(files)
    tables, table_trouble = _read_tables(files, where)
    sheets = {name: table.sheet for name, table in tables.items()}
    if draft:
        faults += head_faults(draft, build_ids=_build_ids(tables, draft))
    faults += manifest_faults + table_trouble + table_faults(sheets)
    if faults or not draft:
        raise PackageFaults(faults=_in_order(faults))
    records: dict[str, Any] = {name: table.records() for name, table in tables.items()}
    return dataclasses.replace(draft, **records)


def _build_ids(tables: Mapping[str, Table], draft: Fitting) -> Collection[str | None]:
    """The builds there are; when they could not be read, the own one is taken to be there."""
    found = tables["builds"].sheet.columns.get("build_id") if "builds" in tables else None
    return (draft.own_build,) if found is None else found


def _read_head(files: Files) -> tuple[Fitting | None, list[Fault]]:
    name = files.find(HEAD)
    if not name:
        deeper = any(each.lower().endswith(f"/{HEAD}") for each in files.names)
        text = "name one of the fittings in this folder" if deeper else "is missing"
        return None, [Fault(HEAD, 0, "", text)]
    try:
        head = Head(load_json(text_of(_small_head(files.read(name)))))
    except Unreadable as trouble:
        return None, [Fault(HEAD, 0, "", str(trouble))]
    return head.draft(), head.faults


def _small_head(data: bytes) -> bytes:
    if len(data) > LARGEST_HEAD:
        raise Unreadable("is larger than 4 MB; readings belong into the tables")
    return data


def _read_tables(files: Files, where: Mapping[str, str]) -> tuple[dict[str, Table], list[Fault]]:
    tables: dict[str, Table] = {}
    faults = []
    for name, record in TABLES.items():
        if name not in where:
            continue
        try:
            text = text_of(files.read(where[name]))
            tables[name] = read_table(text, table=where[name], record=record)
            faults += tables[name].faults
        except Unreadable as trouble:
            faults.append(Fault(where[name], 0, "", str(trouble)))
    if "builds" not in where:
        faults.append(Fault("builds.csv", 0, "", "is missing; the golfer's own putter is a build"))
    elif "builds" in tables and not tables["builds"].sheet.rows and not faults:
        faults.append(Fault(where["builds"], 0, "", "has no build; the golfer's own is one"))
    return tables, faults


def _in_order(faults: list[Fault]) -> list[Fault]:
    """Head first, then table by table and down the rows; no fault twice."""
    first = {HEAD: 0, MANIFEST: 1}
    tables = list(dict.fromkeys(fault.table for fault in faults))
    rank = {table: first.get(table, 2 + tables.index(table)) for table in tables}
    unique = list(dict.fromkeys(faults))
    return sorted(unique, key=lambda fault: (rank[fault.table], fault.row or 10**9))
