"""How to read tables with one header: which column is which, its unit and its signs; as TOML."""

from __future__ import annotations

import hashlib
import json
import tomllib
from collections.abc import Mapping, Sequence
from dataclasses import dataclass, field
from typing import Any, Final

from puttwright.evidence import AimReading, Column, Putt, SetupReading, columns_of
from puttwright.readers.files import Unreadable
from puttwright.readers.tables.factors import factor, units_for
from puttwright.readers.tables.sides import signs_of

RECORDS: Final[Mapping[str, type]] = {"putts": Putt, "aims": AimReading, "setups": SetupReading}
NEVER: Final = frozenset({"seq", "block", "void"})
"""Columns that a fitting gives, not a file."""
LARGEST_BYTES: Final = 1024 * 1024


@dataclass(frozen=True, slots=True, kw_only=True)
class Target:
    """One column of a file: what it goes into, or nothing; ``ask`` is what is not sure of it.

    ``empty``: ``"no"`` when an empty cell of a yes-or-no column means no.
    """

    header: str
    into: str = ""
    unit: str = ""
    positive: str = ""
    empty: str = ""
    ask: tuple[str, ...] = ()


@dataclass(frozen=True, slots=True, kw_only=True)
class TableMap:
    """Every column of a file, in order; ``fixed`` holds for all rows."""

    table: str
    columns: tuple[Target, ...]
    decimal_comma: bool = False
    fixed: Mapping[str, str] = field(default_factory=dict)
    ask: tuple[str, ...] = ()

    @property
    def questions(self) -> tuple[str, ...]:
        """Everything that a person should look at before a row is read."""
        return (*self.ask, *(each for column in self.columns for each in column.ask))


def known_columns(table: str) -> dict[str, Column]:
    """The columns of a table that a file may fill."""
    return {
        column.name: column for column in columns_of(RECORDS[table]) if column.name not in NEVER
    }


def header_key(names: Sequence[str], units: Sequence[str | None]) -> str:
    """The fingerprint of a header: the same names and units in the same order.

    Examples
    --------
    >>> header_key(["Speed "], ["mph"]) == header_key(["speed"], ["mph"])
    True
    """
    plain = [[name.strip().lower(), unit] for name, unit in zip(names, units, strict=True)]
    return hashlib.sha256(json.dumps(plain).encode("utf-8")).hexdigest()[:16]


def _quoted(text: str) -> str:
    """A text as TOML writes it; JSON's way is TOML's but for one control character."""
    return json.dumps(text, ensure_ascii=False).replace("\x7f", "\\u007f")


def toml_of(table_map: TableMap) -> str:
    """The map as a file a person can read and change, what is to be confirmed above each column."""
    lines = [
        "# How to read tables with these columns. Look at what stands under CONFIRM, put it right,",
        "# and give this file with --map. It is then kept, and used by itself next time.",
        "",
        *(f"# CONFIRM: {_one_line(each)}" for each in table_map.ask),
        f"table = {_quoted(table_map.table)}    # putts, aims or setups",
        f"decimal_comma = {'true' if table_map.decimal_comma else 'false'}",
        "",
        "[fixed]    # what holds for every row and stands in no column, such as build_id",
        *(f"{name} = {_quoted(value)}" for name, value in table_map.fixed.items()),
    ]
    for column in table_map.columns:
        lines += ["", "[[column]]", *(f"# CONFIRM: {_one_line(each)}" for each in column.ask)]
        lines += [f"header = {_quoted(column.header)}", *_target_lines(column)]
    return "\n".join(lines) + "\n"


def _one_line(text: str) -> str:
    return " ".join("".join(each if each.isprintable() else " " for each in text).split())


def _target_lines(column: Target) -> list[str]:
    if not column.into:
        return ['into = ""    # kept as it stands']
    lines = [f"into = {_quoted(column.into)}"]
    if column.unit:
        lines.append(f"unit = {_quoted(column.unit)}")
    if column.positive:
        lines.append(f"positive = {_quoted(column.positive)}")
    if column.empty:
        lines.append(f"empty = {_quoted(column.empty)}")
    return lines


def map_from(data: bytes) -> TableMap:
    """The map that a file holds.

    Raises
    ------
    Unreadable
        What is wrong with it.
    """
    if len(data) > LARGEST_BYTES:
        raise Unreadable("is larger than 1 MB; a map is a small file")
    try:
        said = tomllib.loads(data.decode("utf-8-sig"))
    except (UnicodeDecodeError, tomllib.TOMLDecodeError, RecursionError) as trouble:
        raise Unreadable(f"is not TOML ({str(trouble)[:80]})") from trouble
    table, columns, fixed = said.get("table"), said.get("column"), said.get("fixed", {})
    if not isinstance(table, str) or table not in RECORDS:
        raise Unreadable(f"must say table = one of {', '.join(RECORDS)}")
    if not isinstance(columns, list) or not isinstance(fixed, dict):
        raise Unreadable("must hold a [[column]] for each column of the file, and [fixed]")
    found = tuple(_target(each, table) for each in columns)
    filled = [each.into for each in found if each.into]
    twice = next((each for each in filled if filled.count(each) > 1), None)
    if twice:
        raise Unreadable(f"has two columns that go into {twice}; leave one")
    for name in fixed:
        _known(name, table)
    return TableMap(
        table=table, columns=found, decimal_comma=said.get("decimal_comma") is True,
        fixed={name: str(value) for name, value in fixed.items()},
    )  # fmt: skip


def _known(name: str, table: str) -> Column:
    known = known_columns(table)
    if name not in known:
        raise Unreadable(f"names {name[:40]!r}, which is no column of {table} to read into")
    return known[name]


def _target(said: Any, table: str) -> Target:
    texts: dict[str, str] = {"header": "", **said} if isinstance(said, dict) else {}
    if not texts.get("header") or not all(isinstance(each, str) for each in texts.values()):
        raise Unreadable("must say the header of each column, and all else in quotation marks")
    header, into, unit, positive, empty = (texts.get(name, "") for name in _FIELDS)
    if not into:
        return Target(header=header)
    column = _known(into, table)
    if unit and (not column.unit or factor(unit, column.unit) is None):
        known = ", ".join(units_for(column.unit)) or "none"
        raise Unreadable(f"says unit = {unit[:20]!r} for {into}; it may be {known}")
    sides = signs_of(into, handed="right")
    if positive and positive not in sides:
        raise Unreadable(
            f"says positive = {positive[:20]!r} for {into}; it may be {', '.join(sides) or 'none'}"
        )
    if empty not in ("", "no"):
        raise Unreadable(f'says empty = {empty[:20]!r} for {into}; it may be "no" or left out')
    return Target(header=header, into=into, unit=unit, positive=positive, empty=empty)


_FIELDS: Final = ("header", "into", "unit", "positive", "empty")
