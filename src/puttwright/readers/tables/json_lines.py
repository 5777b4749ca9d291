"""JSON lines, or one JSON list of objects, to a table."""

from __future__ import annotations

import json
from collections.abc import Iterator
from typing import Any, Final

from puttwright.readers.files import Unreadable
from puttwright.readers.tables.opened import HEAD_ROWS, MOST_COLUMNS, Opened, Row, chunks_of
from puttwright.readers.tables.plain_text import utf8_of

MOST_BYTES: Final = 32 * 1024 * 1024
_DEEPEST: Final = 4


def open_json(data: bytes) -> Opened:
    """Open objects, one a line or in one list; what an object holds inside is named by both.

    Raises
    ------
    Unreadable
        It is no JSON, or no list of objects.
    """
    if len(data) > MOST_BYTES:
        raise Unreadable("is larger than 32 MB as JSON; save it as CSV")
    text = utf8_of(data)[0].decode("utf-8")
    found = _objects(text)
    names = list(dict.fromkeys(name for _, each in found for name in each))
    if len(names) > MOST_COLUMNS:
        raise Unreadable(f"has more than {MOST_COLUMNS} columns; is it a table of readings?")
    if not names:
        raise Unreadable("holds no readings")

    def rows() -> Iterator[Row]:
        yield 0, names
        for number, each in found:
            yield number, [each.get(name, "") for name in names]

    head = [row for row, _ in zip(rows(), range(HEAD_ROWS), strict=False)]
    return Opened(
        kind="JSON", head=head,
        chunks=lambda below, width: chunks_of(rows(), below=below, width=width),
    )  # fmt: skip


def _objects(text: str) -> list[tuple[int, dict[str, str]]]:
    try:
        if text.lstrip().startswith("["):
            values = list(enumerate(json.loads(text), start=1))
        else:
            values = [
                (number, json.loads(line))
                for number, line in enumerate(text.splitlines(), start=1)
                if line.strip()
            ]
    except json.JSONDecodeError as trouble:
        raise Unreadable(f"is not JSON lines ({trouble.msg.lower()}); was it cut off?") from trouble
    except (RecursionError, ValueError) as trouble:
        raise Unreadable("is nested too deeply, or holds a number too long") from trouble
    if not all(isinstance(value, dict) for _, value in values):
        raise Unreadable("must hold one JSON object a line, { ... }, each a reading")
    return [(number, dict(_flat(value, "", 0))) for number, value in values]


def _flat(value: dict[str, Any], before: str, depth: int) -> Iterator[tuple[str, str]]:
    for name, each in value.items():
        full = f"{before} {name}".strip()
        if isinstance(each, dict) and depth < _DEEPEST:
            yield from _flat(each, full, depth + 1)
        else:
            yield full, _text(each)


def _text(value: Any) -> str:
    if value is None:
        return ""
    if isinstance(value, bool):
        return "true" if value else "false"
    if isinstance(value, str):
        return value.encode("utf-8", errors="replace").decode("utf-8")
    return str(value) if isinstance(value, int | float) else "a list, not a value"
