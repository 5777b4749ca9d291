"""The fingerprint of a fitting: what a decision rested on, in 64 characters.

Two packages have the same fingerprint when every figure the program reads is
the same, row for row. How a file was written does not count: order of columns,
``1.50`` or ``1.5``, line ends, a folder or a zip. The order of rows counts, for
it is the order of the fitting. Columns and fields that the program does not
know are kept but not counted, because no decision can rest on them. A column
in which no row says anything is left out, so that a later version with more
columns gives an old package its old fingerprint.
"""

from __future__ import annotations

import dataclasses
import hashlib
import json
from collections.abc import Sequence
from typing import Any

from puttwright.evidence.columns import Column, columns_of
from puttwright.evidence.records import Fitting

_TABLES = ("greens", "first_putts", "instruments", "builds", "setups", "aims", "putts", "rack")


def _plain(value: Any, *, kind: str) -> object:
    """The value as JSON writes it the same way everywhere."""
    if value is None:
        return None
    if kind == "number":
        return float(value) + 0.0  # adding zero turns -0.0 into 0.0
    if kind == "count":
        return int(value)
    return bool(value) if kind == "yes_no" else str(value)


def _default(record: type, column: Column) -> object:
    item = next(each for each in dataclasses.fields(record) if each.name == column.name)
    return None if item.default is dataclasses.MISSING else item.default


def _canonical_columns(records: Sequence[Any]) -> dict[str, object]:
    if not records:
        return {}
    record = type(records[0])
    table: dict[str, object] = {"rows": len(records)}
    for column in columns_of(record):
        values = [_plain(getattr(each, column.name), kind=column.kind) for each in records]
        silent = _default(record, column)
        if any(value != silent for value in values):
            table[column.name] = values
    return table


def inputs_sha256(fitting: Fitting) -> str:
    """The SHA-256 of everything in a fitting that a decision can rest on.

    Parameters
    ----------
    fitting
        Any fitting; ``extra`` of the fitting and of its rows does not count.

    Returns
    -------
    str
        64 hexadecimal digits.

    Examples
    --------
    >>> from puttwright.evidence import Build, Fitting, FittingGreen, Golfer, Green
    >>> fitting = Fitting(
    ...     fitting_id="F1",
    ...     date="2026-05-01",
    ...     golfer=Golfer(alias="A", handed="left"),
    ...     greens=(Green(name="home", speed_ft=9, share=1),),
    ...     fitting_green=FittingGreen(speed_ft=10),
    ...     own_build="own",
    ...     builds=(Build(build_id="own", length_mm=864, lie_deg=70, loft_deg=3),),
    ... )
    >>> inputs_sha256(fitting)[:8]
    'c176ba07'
    """
    whole = {
        "format": 1,
        "fitting_id": fitting.fitting_id,
        "date": fitting.date,
        "own_build": fitting.own_build,
        "golfer": _canonical_columns([fitting.golfer]),
        "fitting_green": _canonical_columns([fitting.fitting_green]),
        **{name: _canonical_columns(getattr(fitting, name)) for name in _TABLES},
    }
    text = json.dumps(whole, sort_keys=True, separators=(",", ":"), allow_nan=False)
    return hashlib.sha256(text.encode("ascii")).hexdigest()
