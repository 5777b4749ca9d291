"""A column of cells to values: a quick way for good columns, a careful one that says what is wrong.

Every function gives the values, with ``None`` for an empty or wrong cell, and
the index and message of each wrong one.
"""

from __future__ import annotations

import math
import re
from collections.abc import Callable, Sequence
from typing import Any, Final

from puttwright.evidence.columns import Column

Values = list[Any]
Wrong = list[tuple[int, str]]

_YES_NO: Final = {
    **dict.fromkeys(("true", "TRUE", "True", "yes", "y", "1", "1.0"), True),
    **dict.fromkeys(("false", "FALSE", "False", "no", "n", "0", "0.0"), False),
    "": None,
}
_DECIMAL_COMMA: Final = re.compile(r"[-+]?\d*,\d+")
_NUMBER: Final = re.compile(r"[-+]?(\d+\.?\d*|\.\d+)([eE][-+]?\d+)?", re.ASCII)
_NUMBER_THEN_WORD: Final = re.compile(r"[-+]?[\d.]+\s*[a-zA-Z%°'\"/]+\S*")
_NOT_FINITE: Final = re.compile(r"[-+]?(nan|inf|infinity)", re.IGNORECASE)
_LEAVE_EMPTY: Final = "leave the cell empty if it was not measured"


def not_a_number(text: str, *, unit: str = "") -> str:
    """What is wrong with a text that should be a number.

    Examples
    --------
    >>> not_a_number("1,5")
    "'1,5' uses a decimal comma; write 1.5"
    >>> not_a_number("12 mm", unit="mm")
    "'12 mm' is not a number; write it without the unit (mm)"
    """
    shown = repr(text if len(text) <= 40 else text[:37] + "...")
    if _DECIMAL_COMMA.fullmatch(text):
        return f"{shown} uses a decimal comma; write {text.replace(',', '.')}"
    if _NOT_FINITE.fullmatch(text):
        return f"{shown} is not a finite number; {_LEAVE_EMPTY}"
    if unit and _NUMBER_THEN_WORD.fullmatch(text):
        return f"{shown} is not a number; write it without the unit ({unit})"
    return f"{shown} is not a number; {_LEAVE_EMPTY}"


def _number(cell: str, unit: str) -> tuple[float | None, str]:
    text = cell.strip().replace("\N{MINUS SIGN}", "-")
    if not text:
        return None, ""
    if not _NUMBER.fullmatch(text):
        return None, not_a_number(text, unit=unit)
    value = float(text)
    return (value, "") if math.isfinite(value) else (None, f"{text[:40]!r} is too large a number")


def _quick_numbers(cells: Sequence[str]) -> Values | None:
    try:
        values = [float(cell) if cell else None for cell in cells]
    except ValueError:
        return None
    plain = "_" not in "".join(cells) and math.isfinite(sum(filter(None, values)))
    return values if plain else None


def _careful(cells: Sequence[str], judge: Callable[[str], tuple[Any, str]]) -> tuple[Values, Wrong]:
    judged = [judge(cell) for cell in cells]
    wrong = [(index, message) for index, (_, message) in enumerate(judged) if message]
    return [value for value, _ in judged], wrong


def numbers(cells: Sequence[str], column: Column) -> tuple[Values, Wrong]:
    """Cells of a number column."""
    quick = _quick_numbers(cells)
    if quick is not None:
        return quick, []
    return _careful(cells, lambda cell: _number(cell, column.unit))


def _count(cell: str) -> tuple[int | None, str]:
    value, message = _number(cell, "")
    if value is None:
        return None, message
    if value != int(value):
        return None, f"{cell.strip()[:40]!r} is not a whole number"
    return int(value), ""


def counts(cells: Sequence[str], _column: Column) -> tuple[Values, Wrong]:
    """Cells of a column of whole numbers; ``3.0`` is one, as spreadsheets write it."""
    if all(cell.isascii() and cell.isdigit() and len(cell) < 16 for cell in cells):
        return list(map(int, cells)), []
    return _careful(cells, _count)


def _one_yes_no(cell: str) -> tuple[bool | None, str]:
    word = cell.strip()
    if word.lower() in _YES_NO:
        return _YES_NO[word.lower()], ""
    return None, f"{word[:40]!r} is neither true nor false"


def yes_nos(cells: Sequence[str], _column: Column) -> tuple[Values, Wrong]:
    """Cells of a true/false column."""
    try:
        return [_YES_NO[cell] for cell in cells], []
    except KeyError:
        return _careful(cells, _one_yes_no)


def texts(cells: Sequence[str], column: Column) -> tuple[Values, Wrong]:
    """Cells of a text column; identifiers and choices lose the spaces around them."""
    if column.choices or column.name.endswith("_id"):
        return [cell.strip() or None for cell in cells], []
    return [cell if cell and not cell.isspace() else None for cell in cells], []


OF_KIND: Final[dict[str, Callable[[Sequence[str], Column], tuple[Values, Wrong]]]] = {
    "number": numbers,
    "count": counts,
    "yes_no": yes_nos,
    "text": texts,
}
