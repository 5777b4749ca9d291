"""Is each value one its column may hold: in range, one of the choices, printable text."""

from __future__ import annotations

import math
import re
from collections.abc import Callable, Iterable, Sequence
from typing import Any, Final

from puttwright.errors import Fault
from puttwright.evidence.columns import Column
from puttwright.evidence.sheet import Sheet

LONGEST_TEXT: Final = 1000
LONGEST_ID: Final = 64
MOST_ALIKE: Final = 20
"""So many faults of one kind in one column are told row by row; then they are counted."""
_UNSTORABLE: Final = re.compile(r"[\x00-\x08\x0b\x0c\x0e-\x1f\x7f\ud800-\udfff\ufffe\uffff]")
"""Control characters but tab and line ends, and code points no file can hold."""


def _bounds(column: Column) -> str:
    unit = f" {column.unit}" if column.unit else ""
    if column.low is not None and column.high is not None:
        return f"between {column.low:g} and {column.high:g}{unit}"
    if column.low is not None:
        return f"{column.low:g}{unit} or more"
    return f"{column.high:g}{unit} or less"


def outside(value: float, column: Column) -> str | None:
    """What is wrong with a number, or None.

    Examples
    --------
    >>> outside(40.0, Column("ball_speed_mps", "number", "", unit="m/s", low=0.05, high=12))
    '40 m/s is out of range; it must lie between 0.05 and 12 m/s'
    """
    if not math.isfinite(value):
        return f"{value} is not a finite number; leave the cell empty if it was not measured"
    low = -math.inf if column.low is None else column.low
    high = math.inf if column.high is None else column.high
    if low <= value <= high:
        return None
    unit = f" {column.unit}" if column.unit else ""
    return f"{value:g}{unit} is out of range; it must lie {_bounds(column)}"


def _all_inside(values: Sequence[Any], column: Column) -> bool:
    present = [value for value in values if value is not None]
    if not present:
        return True
    low = -math.inf if column.low is None else column.low
    high = math.inf if column.high is None else column.high
    return all(map(math.isfinite, present)) and low <= min(present) and max(present) <= high


def unfit(text: str, column: Column) -> str | None:
    """What is wrong with a text, or None.

    Examples
    --------
    >>> unfit("up", Column("handed", "text", "", choices=("right", "left")))
    "'up' is not one of: right, left"
    """
    if column.choices:
        known = text in column.choices
        return None if known else f"{text[:40]!r} is not one of: {', '.join(column.choices)}"
    if _UNSTORABLE.search(text):
        return "holds a character that cannot be printed; type the text again"
    if column.name.endswith("_id"):
        return _unfit_id(text)
    if len(text) > LONGEST_TEXT:
        return f"is {len(text)} characters long; {LONGEST_TEXT} are the most"
    return None


def _unfit_id(text: str) -> str | None:
    if len(text) > LONGEST_ID:
        return f"is {len(text)} characters long; an identifier has {LONGEST_ID} at the most"
    if not text.isprintable() or text != text.strip():
        return f"{text!r} has a space at an end or a line break in it; take it out"
    return None


def _wrong_in(values: Sequence[Any], column: Column) -> Iterable[tuple[int, str]]:
    """Index and message of each wrong value."""
    judge: Callable[[Any, Column], str | None]
    if column.kind in ("number", "count"):
        if _all_inside(values, column):
            return
        judge = outside
    elif column.kind == "text":
        if not any(unfit(text, column) for text in set(values) - {None}):
            return
        judge = unfit
    else:
        return
    for index, value in enumerate(values):
        message = None if value is None else judge(value, column)
        if message:
            yield index, message


def told(
    wrong: Iterable[tuple[int, str]], *, table: str, column: str, rows: Sequence[int]
) -> list[Fault]:
    """Faults of one kind in one column, the many alike after the first ones counted."""
    listed = list(wrong)
    faults = [Fault(table, rows[index], column, text) for index, text in listed[:MOST_ALIKE]]
    if len(listed) > MOST_ALIKE:
        last = rows[listed[-1][0]]
        more = f"{len(listed) - MOST_ALIKE} more rows like these, down to row {last}"
        faults.append(Fault(table, 0, column, more))
    return faults


def range_faults(sheet: Sheet) -> list[Fault]:
    """Every value of a sheet that its column may not hold."""
    return [
        fault
        for column, values in sheet.declared()
        for fault in told(
            _wrong_in(values, column), table=sheet.table, column=column.name, rows=sheet.rows
        )
    ]
