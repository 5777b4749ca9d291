"""What the bench measured, as options: one for each figure of an order, and the gauges' errors."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from functools import reduce
from typing import Any, Final

from puttwright.cli import options
from puttwright.club.targets import TARGETS
from puttwright.evidence import Build, columns_of

_ERRORS: Final = {
    "length_error_mm": ("_mm", "Error of lengths (k = 2); the bench's usual unless given", "mm"),
    "angle_error_deg": ("_deg", "Error of angles (k = 2); the bench's usual unless given", "deg"),
    "mass_error_g": ("_g", "Error of the scales (k = 2); the bench's usual unless given", "g"),
}


def figures(command: Callable[..., Any]) -> Callable[..., Any]:
    """An option for each figure an order may ask for, and one for the error of each kind."""
    ranges = {column.name: column for column in columns_of(Build)}
    wrapped = [
        options.number(
            _option(target.field),
            target.name,
            between=(ranges[target.field].low or 0.0, ranges[target.field].high or 0.0),
            unit=ranges[target.field].unit,
            needed=False,
        )
        for target in TARGETS
    ]
    wrapped += [
        options.number(_option(name), meaning, between=(0, 50), unit=unit, needed=False)
        for name, (_, meaning, unit) in _ERRORS.items()
    ]
    return reduce(lambda inner, option: option(inner), reversed(wrapped), command)


def _option(name: str) -> str:
    return "--" + name.replace("_", "-")


def split(values: Mapping[str, float | None]) -> tuple[dict[str, float], dict[str, float]]:
    """What was measured, and the error of each figure where one was given.

    Examples
    --------
    >>> measured, error = split({"loft_deg": 3.0, "lie_deg": None, "angle_error_deg": 0.2})
    >>> measured, error["loft_deg"]
    ({'loft_deg': 3.0}, 0.2)
    """
    fields = [target.field for target in TARGETS]
    measured = {name: value for name in fields if (value := values.get(name)) is not None}
    error = {
        name: value
        for kind, (ending, _, _) in _ERRORS.items()
        if (value := values.get(kind)) is not None
        for name in fields
        if name.endswith(ending)
    }
    return measured, error
