"""What a column of the fitting package may hold: type, unit, range and meaning, said once.

The records in this folder declare their fields with :func:`column`; reading,
writing, checking, the pages' forms and the reference docs all go by these.
"""

from __future__ import annotations

import dataclasses
import types
import typing
from dataclasses import dataclass, field
from functools import cache
from typing import Any


@dataclass(frozen=True, slots=True)
class Column:
    """One column: ``kind`` is ``text``, ``number``, ``count`` or ``yes_no``."""

    name: str
    kind: str
    meaning: str
    unit: str = ""
    low: float | None = None
    high: float | None = None
    choices: tuple[str, ...] = ()
    required: bool = False


def column(
    meaning: str,
    *,
    unit: str = "",
    low: float | None = None,
    high: float | None = None,
    choices: tuple[str, ...] = (),
    required: bool = False,
    default: Any = None,
) -> Any:
    """Declare a record's field as a column of a table (see :class:`Column`)."""
    facts = {
        "meaning": meaning,
        "unit": unit,
        "low": low,
        "high": high,
        "choices": choices,
        "required": required,
    }
    if required:
        return field(metadata={"column": facts})
    return field(default=default, metadata={"column": facts})


_KINDS = {str: "text", float: "number", int: "count", bool: "yes_no"}


def _kind(annotation: object) -> str:
    options = typing.get_args(annotation) or (annotation,)
    plain = next(option for option in options if option is not types.NoneType)
    return _KINDS[plain]


@cache
def _declared(record: type) -> tuple[Column, ...]:
    hints = typing.get_type_hints(record)
    return tuple(
        Column(name=item.name, kind=_kind(hints[item.name]), **item.metadata["column"])
        for item in dataclasses.fields(record)
        if "column" in item.metadata
    )


def columns_of(record: type) -> tuple[Column, ...]:
    """The columns a record type declares, in order.

    Examples
    --------
    >>> from puttwright.evidence import FirstPutt
    >>> [(column.name, column.unit) for column in columns_of(FirstPutt)]
    [('distance_m', 'm'), ('per_round', '')]
    """
    return _declared(record)
