"""What reading tables came to, in words."""

from __future__ import annotations

from collections.abc import Mapping
from typing import Any, Final

from puttwright.deeds.read_tables import TablesRead
from puttwright.readers.tables.kept_aside import ASIDE
from puttwright.readers.tables.readings import FileRead

_TOLD: Final = 10
_ROWS: Final = {"putts": "putt", "aims": "aim", "setups": "set-up"}


def read_lines(result: TablesRead) -> list[str]:
    """A line a file, then the rows that were kept aside."""
    lines = [*(f"{note}." for note in result.notes)]
    for each in result.files:
        lines += [file_said(each), *(f"  row {a.row}: {a.why}" for a in each.aside[:_TOLD])]
        if len(each.aside) > _TOLD:
            lines.append(f"  and {len(each.aside) - _TOLD} more, in {ASIDE}")
    return lines


def file_said(each: FileRead) -> str:
    """What a file came to, in one sentence."""
    row = _ROWS[each.table]
    said = [f"{each.added} {row}{'' if each.added == 1 else 's'} added"]
    if each.before:
        said.append(f"{each.before} read before")
    if each.aside:
        said.append(f"{len(each.aside)} kept aside in {ASIDE}")
    return f"{each.file}: {', '.join(said)}."


def read_json(result: TablesRead) -> Mapping[str, Any]:
    """The same for programs."""
    return {
        "files": [
            {
                "file": each.file,
                "table": each.table,
                "added": each.added,
                "read_before": each.before,
                "aside": [{"row": aside.row, "why": aside.why} for aside in each.aside],
            }
            for each in result.files
        ],
        "notes": list(result.notes),
    }
