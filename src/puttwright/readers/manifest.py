"""``datapackage.json``: which file is which table (Frictionless Data Package, Table Schema).

Reading asks it only where the files are. Writing tells it everything the
columns know, so that any tool of the open standard can check a package.
"""

from __future__ import annotations

import re
from collections.abc import Mapping, Sequence
from typing import Any, Final

from puttwright.errors import Fault
from puttwright.evidence.check import HEAD
from puttwright.evidence.columns import Column, columns_of
from puttwright.evidence.tables import TABLES
from puttwright.readers.files import Files, Unreadable, leaves_its_folder
from puttwright.readers.head import load_json
from puttwright.readers.text import text_of

MANIFEST: Final = "datapackage.json"
_SCHEMA_TYPES: Final = {
    "text": "string",
    "number": "number",
    "count": "integer",
    "yes_no": "boolean",
}


def places(files: Files) -> tuple[dict[str, str], list[Fault]]:
    """The file of each table, as ``datapackage.json`` says or by its usual name."""
    found = {name: files.find(f"{name}.csv") for name in TABLES}
    usual = {name: path for name, path in found.items() if path}
    manifest = files.find(MANIFEST)
    if not manifest:
        return usual, []
    try:
        listed, faults = _listed(load_json(text_of(files.read(manifest))), files)
    except Unreadable as trouble:
        return usual, [Fault(MANIFEST, 0, "", str(trouble))]
    return {**usual, **listed}, faults


def _listed(data: Mapping[str, Any], files: Files) -> tuple[dict[str, str], list[Fault]]:
    resources = data.get("resources")
    if not isinstance(resources, list):
        return {}, [Fault(MANIFEST, 0, "resources", "must be a list, [ ... ]")]
    paths: dict[str, str] = {}
    faults = []
    for number, resource in enumerate(resources, start=1):
        table = _table_of(resource)
        if table not in TABLES:
            continue
        place = f"resources, entry {number}"
        if table in paths:
            faults.append(Fault(MANIFEST, 0, place, f"{table} is listed twice"))
            continue
        try:
            paths[table] = _path_of(resource, files)
        except Unreadable as trouble:
            faults.append(Fault(MANIFEST, 0, place, str(trouble)))
    return paths, faults


def _table_of(resource: Any) -> str:
    name = resource.get("name") if isinstance(resource, dict) else None
    return name.lower() if isinstance(name, str) else ""


def _path_of(resource: Mapping[str, Any], files: Files) -> str:
    path = resource.get("path")
    if isinstance(path, list) and len(path) == 1:
        path = path[0]
    if not isinstance(path, str) or not path:
        raise Unreadable("must have a path, the name of one file")
    plain = path.removeprefix("./")
    if leaves_its_folder(plain):
        raise Unreadable(f"{path[:60]!r} leads out of the package")
    found = files.find(plain)
    if not found:
        raise Unreadable(f"{path[:60]!r} is listed but not there")
    return found


def _field(column: Column) -> dict[str, Any]:
    unit = f" [{column.unit}]" if column.unit else ""
    constraints: dict[str, Any] = {"required": True} if column.required else {}
    if column.low is not None:
        constraints["minimum"] = column.low
    if column.high is not None:
        constraints["maximum"] = column.high
    if column.choices:
        constraints["enum"] = list(column.choices)
    field: dict[str, Any] = {
        "name": column.name,
        "type": _SCHEMA_TYPES[column.kind],
        "description": f"{column.meaning}{unit}",
    }
    return {**field, "constraints": constraints} if constraints else field


def _schema(table: str, header: Sequence[str]) -> dict[str, Any]:
    known = {column.name: column for column in columns_of(TABLES[table])}
    fields = [
        _field(known[name]) if name in known else {"name": name, "type": "string"}
        for name in header
    ]
    key = {"builds": "build_id", "rack": "part_id"}.get(table, "seq")
    schema: dict[str, Any] = {"fields": fields, "primaryKey": key, "missingValues": [""]}
    if "build_id" in header and table != "builds":
        target = {"resource": "builds", "fields": "build_id"}
        schema["foreignKeys"] = [{"fields": "build_id", "reference": target}]
    return schema


def resource_of(table: str, header: Sequence[str]) -> dict[str, Any]:
    """The entry of a table with this header."""
    return {
        "name": table,
        "path": f"{table}.csv",
        "profile": "tabular-data-resource",
        "format": "csv",
        "mediatype": "text/csv",
        "encoding": "utf-8",
        "schema": _schema(table, header),
    }


def manifest_of(fitting_id: str, headers: Mapping[str, Sequence[str]]) -> dict[str, Any]:
    """The ``datapackage.json`` of a package with these tables and their headers."""
    name = re.sub(r"[^a-z0-9._-]+", "-", fitting_id.lower()).strip("-") or "fitting"
    head = {"name": "fitting", "path": HEAD, "format": "json", "mediatype": "application/json"}
    tables = [resource_of(table, header) for table, header in headers.items()]
    return {"name": name, "profile": "data-package", "resources": [head, *tables]}
