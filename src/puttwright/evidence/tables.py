"""What is wrong within and between the tables of a fitting, beyond single values."""

from __future__ import annotations

import math
from collections.abc import Callable, Iterable, Iterator, Mapping, Sequence
from typing import Any, Final

from puttwright.errors import Fault
from puttwright.evidence.ranges import range_faults, told
from puttwright.evidence.records import AimReading, Build, Part, Putt, SetupReading
from puttwright.evidence.sheet import Sheet

TABLES: Final[Mapping[str, type]] = {
    "builds": Build,
    "setups": SetupReading,
    "aims": AimReading,
    "putts": Putt,
    "rack": Part,
}
"""The tables of a fitting package, by their name in a fitting."""

RESERVED_IDS: Final = ("keep", "undecided")
HOLED_WITHIN_M: Final = 0.3
"""A ball in the hole may be noted as stopped at most so far from its centre."""
_KEYS: Final = {"builds": "build_id", "rack": "part_id"}

Wrong = Iterable[tuple[int, str]]
RowRule = tuple[str, tuple[str, ...], Callable[..., str | None]]


def _repeated(values: Sequence[Any], rows: Sequence[int]) -> Wrong:
    first: dict[object, int] = {}
    for index, value in enumerate(values):
        if value is None:
            continue
        if value in first:
            yield index, f"{value} is already used in row {first[value]}; each row needs its own"
        else:
            first[value] = rows[index]


def _strangers(values: Sequence[Any], known: frozenset[str]) -> Wrong:
    for index, value in enumerate(values):
        if value is not None and value not in known:
            yield index, f"{value!r} is not a build of builds.csv"


def _key_faults(name: str, sheet: Sheet) -> list[Fault]:
    key = _KEYS.get(name, "seq")
    wrong = _repeated(sheet.column(key), sheet.rows)
    return told(wrong, table=sheet.table, column=key, rows=sheet.rows)


def _build_faults(sheet: Sheet, *, known: frozenset[str]) -> list[Fault]:
    wrong = _strangers(sheet.column("build_id"), known)
    return told(wrong, table=sheet.table, column="build_id", rows=sheet.rows)


def _stop_of_a_holed_putt(
    holed: bool | None, past_m: float | None, right_m: float | None, void: bool | None
) -> str | None:
    away_m = math.hypot(past_m or 0.0, right_m or 0.0)
    if not holed or void or away_m <= HOLED_WITHIN_M:
        return None
    return (
        f"true, yet the ball stopped {away_m:.2g} m from the hole; "
        "say false, or leave the stop empty"
    )


def _stop_behind_the_golfer(
    distance_m: float | None, past_m: float | None, void: bool | None
) -> str | None:
    if distance_m is None or past_m is None or void or past_m >= -distance_m - 1.0:
        return None
    return f"{past_m:g} m of a putt of {distance_m:g} m is behind the golfer; short is negative"


def _ordered(low: float | None, high: float | None) -> str | None:
    if low is None or high is None or low <= high:
        return None
    return f"{low:g} is more than the other end of its range, {high:g}"


def _lighter(head_g: float | None, total_g: float | None) -> str | None:
    if head_g is None or total_g is None or head_g < total_g:
        return None
    return f"the whole putter ({total_g:g} g) is no heavier than its head ({head_g:g} g)"


def _on_the_putter(length_mm: float | None, balance_mm: float | None) -> str | None:
    if length_mm is None or balance_mm is None or balance_mm < length_mm:
        return None
    return f"{balance_mm:g} mm from the butt is beyond the end of a putter of {length_mm:g} mm"


def _reserved(build_id: str | None) -> str | None:
    if build_id not in RESERVED_IDS:
        return None
    return f"{build_id!r} is a word of the decision; give the build another name"


_ROW_RULES: Final[Mapping[str, tuple[RowRule, ...]]] = {
    "builds": (
        ("build_id", ("build_id",), _reserved),
        ("total_mass_g", ("head_mass_g", "total_mass_g"), _lighter),
        ("balance_from_butt_mm", ("length_mm", "balance_from_butt_mm"), _on_the_putter),
    ),
    "putts": (
        ("holed", ("holed", "stop_past_m", "stop_right_m", "void"), _stop_of_a_holed_putt),
        ("stop_past_m", ("distance_m", "stop_past_m", "void"), _stop_behind_the_golfer),
    ),
    "rack": (
        ("loft_min_deg", ("loft_min_deg", "loft_max_deg"), _ordered),
        ("lie_min_deg", ("lie_min_deg", "lie_max_deg"), _ordered),
    ),
}


def row_troubles(name: str, sheet: Sheet) -> Iterator[tuple[str, list[tuple[int, str]]]]:
    """Each rule's column, with the index and message of every row whose values cannot be together.

    Parameters
    ----------
    name
        Of the table in :data:`TABLES`.
    sheet
        Its values; a column it does not have counts as not measured.
    """
    for column, needs, rule in _ROW_RULES.get(name, ()):
        judged = map(rule, *(sheet.column(need) for need in needs))
        yield column, [(index, text) for index, text in enumerate(judged) if text]


def _row_faults(name: str, sheet: Sheet) -> list[Fault]:
    return [
        fault
        for column, wrong in row_troubles(name, sheet)
        for fault in told(wrong, table=sheet.table, column=column, rows=sheet.rows)
    ]


def table_faults(sheets: Mapping[str, Sheet]) -> list[Fault]:
    """What is wrong within and between the tables, given by their name in :class:`Fitting`."""
    builds = sheets["builds"].columns.get("build_id") if "builds" in sheets else None
    known = None if builds is None else frozenset(builds)
    faults = []
    for name, sheet in sheets.items():
        faults += range_faults(sheet) + _key_faults(name, sheet) + _row_faults(name, sheet)
        if known is not None and "build_id" in sheet.columns and name != "builds":
            faults += _build_faults(sheet, known=known)
    return faults
