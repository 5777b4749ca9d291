"""From a unit that a table may be written in to the unit of our column."""

from __future__ import annotations

from collections.abc import Mapping
from functools import cache
from typing import Final

from puttwright.errors import UnknownUnit
from puttwright.readers.tables.words import words
from puttwright.units import parse_quantity

_OURS: Final = {"m", "mm", "m/s", "deg", "s"}
"""Column units that ``units.parse_quantity`` knows."""
_OTHERS: Final[Mapping[str, Mapping[str, float]]] = {
    "rpm": {"rpm": 1.0, "rev/s": 60.0, "deg/s": 1.0 / 6.0},
    "deg/s": {"deg/s": 1.0, "rpm": 6.0, "rev/s": 360.0},
    "%": {"%": 1.0, "share": 100.0},
}


@cache
def factor(unit: str, column_unit: str) -> float | None:
    """What to multiply by, or ``None`` when the unit is of another kind.

    Examples
    --------
    >>> factor("mph", "m/s"), factor("cm", "mm"), factor("mph", "mm")
    (0.44704, 10.0, None)
    """
    if column_unit in _OTHERS:
        return _OTHERS[column_unit].get(unit)
    if column_unit not in _OURS:
        return 1.0 if unit == column_unit else None
    try:
        one = parse_quantity(f"1 {unit}", default_unit=column_unit)
    except UnknownUnit:
        return None
    return float(f"{one / parse_quantity('1', default_unit=column_unit):.12g}")


def units_for(column_unit: str) -> tuple[str, ...]:
    """The units a column of this unit may be written in.

    Examples
    --------
    >>> units_for("m/s")
    ('m/s', 'km/h', 'mph', 'ft/s')
    """
    return tuple(unit for unit in words()["units"] if factor(unit, column_unit) is not None)
