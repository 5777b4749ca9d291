"""A fitting to the files of a package, the same bytes for the same fitting."""

from __future__ import annotations

import csv
import dataclasses
import io
import json
import zipfile
from collections.abc import Mapping, Sequence
from typing import Any, Final

from puttwright.evidence.check import HEAD
from puttwright.evidence.columns import Column, columns_of
from puttwright.evidence.records import Fitting
from puttwright.evidence.tables import TABLES
from puttwright.readers.head import RECORDS, TEXTS
from puttwright.readers.manifest import MANIFEST, manifest_of

_HEAD_ORDER: Final = (
    "fitting_id",
    "date",
    "golfer",
    "greens",
    "fitting_green",
    "first_putts",
    "own_build",
    "instruments",
)
_ZIP_EPOCH: Final = (1980, 1, 1, 0, 0, 0)
"""The earliest time a zip can hold: the same for every file, so that bytes do not change."""


def plain_number(value: float) -> str:
    """A number as short as it can be and still be the same one.

    Examples
    --------
    >>> plain_number(864.0), plain_number(0.1)
    ('864', '0.1')
    """
    return repr(float(value)).removesuffix(".0")


def _cell(value: Any, kind: str) -> str:
    if value is None:
        return ""
    if kind == "number":
        return plain_number(value)
    if kind == "count":
        return str(int(value))
    return ("true" if value else "false") if kind == "yes_no" else str(value)


def _said(records: Sequence[Any], column: Column) -> bool:
    """Whether a column says anything that an absent column would not."""
    if column.required:
        return True
    item = next(each for each in dataclasses.fields(records[0]) if each.name == column.name)
    return any(getattr(record, column.name) != item.default for record in records)


def _extra_names(records: Sequence[Any], known: set[str]) -> list[str]:
    names = dict.fromkeys(name for record in records for name in record.extra)
    return [name for name in names if name not in known]


def _table(records: Sequence[Any], record: type) -> tuple[list[str], bytes]:
    """Header and CSV bytes of a table; an unmeasured column is left out."""
    columns = [column for column in columns_of(record) if _said(records, column)]
    extra = _extra_names(records, {column.name for column in columns_of(record)})
    cells = [
        [_cell(getattr(each, column.name), column.kind) for each in records] for column in columns
    ]
    cells += [[each.extra.get(name, "") for each in records] for name in extra]
    header = [column.name for column in columns] + extra
    stream = io.StringIO(newline="")
    writer = csv.writer(stream, lineterminator="\n")
    writer.writerow(header)
    writer.writerows(zip(*cells, strict=True))
    return header, stream.getvalue().encode("utf-8")


def table_bytes(records: Sequence[Any], record: type) -> bytes:
    """The CSV of records as a package holds it; without records, the header of every column."""
    if records:
        return _table(records, record)[1]
    names = [column.name for column in columns_of(record)]
    return (",".join(names) + "\n").encode("utf-8")


def _object(record: Any) -> dict[str, Any]:
    known: dict[str, Any] = {}
    for column in columns_of(type(record)):
        value = getattr(record, column.name)
        if value is not None:
            known[column.name] = float(value) if column.kind == "number" else value
    names = {column.name for column in columns_of(type(record))}
    return known | {name: each for name, each in record.extra.items() if name not in names}


def _head(fitting: Fitting) -> dict[str, Any]:
    head: dict[str, Any] = {}
    for name in _HEAD_ORDER:
        value = getattr(fitting, name)
        if name in RECORDS:
            head[name] = _object(value)
        elif name in TEXTS:
            head[name] = value
        elif value:
            head[name] = [_object(record) for record in value]
    return head | {name: each for name, each in fitting.extra.items() if name not in _HEAD_ORDER}


def json_bytes(value: Mapping[str, Any]) -> bytes:
    """JSON as people read it: indented, UTF-8, whole numbers without ``.0``, a last line end."""
    text = json.dumps(_whole(value), indent=2, ensure_ascii=False, allow_nan=False)
    return (text + "\n").encode("utf-8")


def _whole(value: Any) -> Any:
    if isinstance(value, Mapping):
        return {name: _whole(each) for name, each in value.items()}
    if isinstance(value, list | tuple):
        return [_whole(each) for each in value]
    small = isinstance(value, float) and value.is_integer() and abs(value) < 1e15
    return int(value) if small else value


def package_files(fitting: Fitting) -> dict[str, bytes]:
    """The files of the package of a fitting, by name; a table without rows has none."""
    headers: dict[str, list[str]] = {}
    tables: dict[str, bytes] = {}
    for name, record in TABLES.items():
        records = getattr(fitting, name)
        if records or name == "builds":
            headers[name], tables[f"{name}.csv"] = _table(records, record)
    manifest = manifest_of(fitting.fitting_id, headers)
    return {MANIFEST: json_bytes(manifest), HEAD: json_bytes(_head(fitting)), **tables}


def zip_bytes(files: Mapping[str, bytes]) -> bytes:
    """A zip of these files, stored as they are, with nothing in it that depends on the day.

    Not compressed: packages are small, and compressors differ from machine to machine.
    """
    stream = io.BytesIO()
    with zipfile.ZipFile(stream, "w", zipfile.ZIP_STORED) as archive:
        for name, data in files.items():
            entry = zipfile.ZipInfo(name, _ZIP_EPOCH)
            entry.create_system = 3
            entry.external_attr = 0o100644 << 16
            archive.writestr(entry, data)
    return stream.getvalue()
