"""``fitting.json`` to the head of a fitting: who, where, with which own putter."""

from __future__ import annotations

import json
import math
from collections.abc import Mapping
from typing import Any, Final

from puttwright.errors import Fault
from puttwright.evidence.check import HEAD
from puttwright.evidence.columns import Column, columns_of
from puttwright.evidence.records import (
    FirstPutt,
    Fitting,
    FittingGreen,
    Golfer,
    Green,
    Instrument,
)
from puttwright.readers.cells import not_a_number
from puttwright.readers.files import Unreadable

DEEPEST: Final = 40
"""Objects within objects; more is no fitting."""
TEXTS: Final = {
    "fitting_id": "a text that names the fitting",
    "date": "the day of the fitting",
    "own_build": "the build_id of the putter the golfer came with",
}
RECORDS: Final[Mapping[str, type]] = {"golfer": Golfer, "fitting_green": FittingGreen}
LISTS: Final[Mapping[str, type]] = {
    "greens": Green,
    "first_putts": FirstPutt,
    "instruments": Instrument,
}
_PLAIN: Final[Mapping[str, tuple[type, str]]] = {
    "text": (str, "must be text, in quotation marks"),
    "yes_no": (bool, "must be true or false"),
}


class _Refused(ValueError):
    """Something JSON allows and a fitting does not."""


def _once(pairs: list[tuple[str, Any]]) -> dict[str, Any]:
    found = dict(pairs)
    if len(found) < len(pairs):
        names = [name for name, _ in pairs]
        twice = next(name for name in found if names.count(name) > 1)
        raise _Refused(f"{twice[:40]!r} stands twice in one object")
    return found


def _finite(text: str) -> float:
    value = float(text)
    if not math.isfinite(value):
        raise _Refused(f"{text[:40]} is not a finite number")
    return value


def _depth(value: Any) -> int:
    if not isinstance(value, dict | list):
        return 0
    inner = value.values() if isinstance(value, dict) else value
    return 1 + max(map(_depth, inner), default=0)


def load_json(text: str) -> dict[str, Any]:
    """A JSON object, strictly: no name twice, no NaN, no depth without end.

    Raises
    ------
    Unreadable
        With the place where it stops being JSON.

    Examples
    --------
    >>> load_json('{"a": 1}')
    {'a': 1}
    """
    try:
        value = json.loads(
            text, object_pairs_hook=_once, parse_float=_finite, parse_constant=_finite
        )
        if _depth(value) > DEEPEST:
            raise _Refused("it is nested too deeply")
        json.dumps(value, ensure_ascii=False).encode("utf-8")
    except json.JSONDecodeError as trouble:
        place = f"line {trouble.lineno}, character {trouble.colno}"
        raise Unreadable(f"is not JSON ({place}: {trouble.msg.lower()})") from trouble
    except UnicodeEncodeError as trouble:
        raise Unreadable("holds a character that cannot be kept") from trouble
    except RecursionError as trouble:
        raise Unreadable("is nested too deeply") from trouble
    except ValueError as trouble:
        raise Unreadable(f"cannot be used: {trouble}") from trouble
    if not isinstance(value, dict):
        raise Unreadable("must be one JSON object, { ... }")
    return value


def _field(value: Any, column: Column) -> tuple[Any, str]:
    """A JSON value as the column's kind, or what is wrong with it."""
    if value is None or (isinstance(value, str) and not value.strip()):
        return None, "is missing" if column.required else ""
    if column.kind in _PLAIN:
        kind, message = _PLAIN[column.kind]
        return (value, "") if isinstance(value, kind) else (None, message)
    return _number(value, column)


def _number(value: Any, column: Column) -> tuple[float | None, str]:
    if isinstance(value, str):
        return None, _number_as_text(value, column)
    if isinstance(value, bool) or not isinstance(value, int | float):
        return None, "must be a number"
    try:
        return float(value), ""
    except OverflowError:
        return None, "is too large a number"


def _number_as_text(value: str, column: Column) -> str:
    text = value.strip()
    try:
        float(text)
    except ValueError:
        return not_a_number(text, unit=column.unit).replace("the cell empty", "it out")
    return f"{text[:40]!r} is text; write the number without quotation marks"


def _blank(record: type) -> Any:
    """A record of which nothing could be read."""
    return record(**{column.name: None for column in columns_of(record)})


class Head:
    """Reads ``fitting.json`` and gathers what is wrong with it."""

    def __init__(self, data: Mapping[str, Any]) -> None:
        self.data = data
        self.faults: list[Fault] = []

    def _wrong(self, place: str, message: str) -> None:
        self.faults.append(Fault(HEAD, 0, place, message))

    def _record(self, value: Any, *, record: type, place: str) -> Any:
        """The record of a JSON object; a field that cannot be read is None in it."""
        if not isinstance(value, dict):
            self._wrong(place, "is missing" if value is None else "must be an object, { ... }")
            return _blank(record)
        columns = columns_of(record)
        fields: dict[str, Any] = {}
        for column in columns:
            fields[column.name], message = _field(value.get(column.name), column)
            if message:
                self._wrong(f"{place}, {column.name}", message)
        extra = {name: each for name, each in value.items() if name not in fields}
        return record(**fields, extra=extra)

    def _many(self, name: str, record: type) -> tuple[Any, ...]:
        value = self.data.get(name)
        if value is None or value == []:
            if name == "greens":
                self._wrong(name, "is missing; name at least one green this golfer plays")
            return ()
        if not isinstance(value, list):
            self._wrong(name, "must be a list, [ ... ]")
            return ()
        return tuple(
            self._record(each, record=record, place=f"{name}, entry {number}")
            for number, each in enumerate(value, start=1)
        )

    def _text(self, name: str) -> Any:
        value = self.data.get(name)
        if isinstance(value, str) and value.strip():
            return value.strip()
        blank = value is None or isinstance(value, str)
        self._wrong(name, f"{'is missing' if blank else 'must be text'}; it is {TEXTS[name]}")
        return None

    def draft(self) -> Fitting:
        """The fitting without its tables, ``None`` in a field that could not be read."""
        known = {*TEXTS, *RECORDS, *LISTS}
        fields: dict[str, Any] = {name: self._text(name) for name in TEXTS}
        for name, record in RECORDS.items():
            fields[name] = self._record(self.data.get(name), record=record, place=name)
        fields |= {name: self._many(name, record) for name, record in LISTS.items()}
        extra = {name: each for name, each in self.data.items() if name not in known}
        return Fitting(builds=(), extra=extra, **fields)
