"""The figures of a single computation: a line each for people, JSON for programs."""

from __future__ import annotations

import json
import math
from collections.abc import Mapping
from typing import Final

import click

_UNITS: Final = {
    "_kg_m2": "kg m²",
    "_in_oz": "in·oz",
    "_g": "g",
    "_mps2": "m/s²",
    "_mps": "m/s",
    "_rpm": "rev/min",
    "_deg": "°",
    "_pct": "%",
    "_mm": "mm",
    "_ft": "ft",
    "_m": "m",
    "_s": "s",
}
_DIGITS: Final = 6


def show_figures(values: Mapping[str, object], *, as_json: bool) -> None:
    """Print what a computation gave."""
    if as_json:
        click.echo(json.dumps({name: _plain(value) for name, value in values.items()}, indent=2))
    else:
        click.echo("\n".join(figure_lines(values)))


def figure_lines(values: Mapping[str, object]) -> list[str]:
    """One line a figure: its name, its value, its unit.

    Examples
    --------
    >>> figure_lines({"ball_speed_mps": 1.6234567, "make_pct": 50.0})
    ['ball speed  1.623 m/s', 'make        50 %']
    """
    split = [(*_name_and_unit(name), value) for name, value in values.items()]
    width = max(len(name) for name, _, _ in split)
    below = "\n" + " " * (width + 2)
    return [
        f"{name:<{width}}  {_text(value, below)} {unit if value is not None else ''}".rstrip()
        for name, unit, value in split
    ]


def _name_and_unit(name: str) -> tuple[str, str]:
    ending = next((ending for ending in _UNITS if name.endswith(ending)), "")
    return name.removesuffix(ending).replace("_", " "), _UNITS.get(ending, "")


def _text(value: object, below: str = "; ") -> str:
    """A value as people read it; sentences stand one below the other."""
    if isinstance(value, bool):
        return "yes" if value else "no"
    if isinstance(value, int | float):
        return f"{value:.4g}"
    if isinstance(value, list | tuple):
        between = below if all(isinstance(each, str) for each in value) else " to "
        return between.join(map(_text, value)) or "none"
    return "none" if value is None else str(value)


def _plain(value: object) -> object:
    if isinstance(value, list):
        return [_plain(each) for each in value]
    if not isinstance(value, float):
        return value
    return float(f"{value:.{_DIGITS}g}") if math.isfinite(value) else None
