"""Cells of text to numbers: decimal commas, units and sides in the cell, and what is wrong."""

from __future__ import annotations

import math
import re
from collections.abc import Mapping
from dataclasses import dataclass, field
from functools import cache
from typing import TYPE_CHECKING, Final

import numpy as np

from puttwright.readers.tables.factors import factor
from puttwright.readers.tables.words import side_of, unit_of, words

if TYPE_CHECKING:
    import polars as pl

Wrong = list[tuple[int, str]]
DIGITS: Final = 9
"""Significant digits that are kept, so that 3.5 mph is 1.56464 m/s and not 1.5646399999999999."""
_DECADES: Final = 10.0 ** np.arange(-6, 8)
_SCALES: Final = 10.0 ** (DIGITS + 6 - np.arange(len(_DECADES) + 1))
_NUMBER: Final = re.compile(r"[-+]?(?:\d+\.?\d*|\.\d+)(?:[eE][-+]?\d{1,3}(?![\d.]))?")
_FEET_INCHES: Final = re.compile(r"(\d+)\s*['′’]\s*(\d+(?:\.\d+)?)\s*(?:[\"″”]|'')?")
_DATE: Final = re.compile(
    r"\d{1,4}[-/.]\d{1,2}[-/.]\d{1,4}.*|\d{1,2}:\d{2}.*|\d{1,2}[- ][A-Za-z]{3}.*"
)


@dataclass(frozen=True, slots=True, kw_only=True)
class How:
    """How the cells of a column are to be read.

    ``unit``: of a number that says none. ``column_unit``: ours. ``comma``: the decimal mark.
    ``sign``: what a plain number is multiplied by. ``sides``: +1 or -1 of each side a
    cell may name, which then stands instead of ``sign``.
    """

    unit: str = ""
    column_unit: str = ""
    comma: bool = False
    sign: int = 1
    sides: Mapping[str, int] = field(default_factory=dict)


@cache
def _empty() -> frozenset[str]:
    return frozenset(words()["empty"]["cells"])


def is_empty(cell: str) -> bool:
    """Whether a cell says that nothing was measured."""
    return cell.strip().lower() in _empty()


def numbers(cells: pl.Series, how: How) -> tuple[pl.Series, Wrong]:
    """Read a column.

    Parameters
    ----------
    cells
        Of text, null or empty where nothing was measured; or finite numbers already.
    how
        Units, decimal mark and signs.

    Returns
    -------
    pl.Series, list
        Numbers in the column's unit, null where nothing or nothing readable stands, and the
        place and message of each wrong cell.
    """
    import polars as pl  # noqa: PLC0415 - a large library, for those who read tables

    times = how.sign * ((factor(how.unit, how.column_unit) or 1.0) if how.unit else 1.0)
    if cells.dtype == pl.Float64:
        return _times(cells, times), []
    marked = cells.str.replace(",", ".", literal=True) if how.comma else cells
    values = marked.cast(pl.Float64, strict=False)
    if values.null_count() > cells.null_count() or not values.is_finite().all():
        text = cells.fill_null("").str.strip_chars()
        marked = text.str.replace(",", ".", literal=True) if how.comma else text
        values = marked.cast(pl.Float64, strict=False)
        values = values.set(~values.is_finite().fill_null(value=True), None)
        left = (values.is_null() & (text != "")).arg_true()
        return _carefully(_times(values, times), text, left, how) if len(left) else (
            _times(values, times), []
        )  # fmt: skip
    return _times(values, times), []


def _times(values: pl.Series, times: float) -> pl.Series:
    return values if times == 1.0 else rounded(values * times)


def rounded(values: pl.Series) -> pl.Series:
    """To so many significant digits; what is usual is compared with powers of ten, not logarithms.

    Examples
    --------
    >>> import polars as pl
    >>> rounded(pl.Series([1.5646399999999999, -0.04, 0.0])).to_list()
    [1.56464, -0.04, 0.0]
    """
    import polars as pl  # noqa: PLC0415 - as above

    sizes = values.abs().to_numpy()
    largest = sizes.max(initial=0.0)
    usual = largest < _DECADES[-1]  # not where one is null, and the largest not a number
    if not usual or ((sizes < _DECADES[0]) & (sizes > 0.0)).any():
        return values.round_sig_figs(DIGITS)
    decades = np.zeros(len(sizes), dtype=np.int8)
    for start in _DECADES[largest >= _DECADES]:
        decades += (sizes >= start).view(np.int8)
    scales = _SCALES[decades]
    whole = sizes * scales
    whole += 0.5
    np.trunc(whole, out=whole)
    whole /= scales
    return pl.Series(values.name, np.copysign(whole, values.to_numpy(), out=whole))


def _carefully(
    values: pl.Series, text: pl.Series, places: pl.Series, how: How
) -> tuple[pl.Series, Wrong]:
    judged = {each: number_of(each, how) for each in text.gather(places).unique()}
    found = [judged[each] for each in text.gather(places)]
    wrong = [(place, why) for place, (_, why) in zip(places, found, strict=True) if why]
    return values.scatter(places, [value for value, _ in found]), wrong


def number_of(cell: str, how: How) -> tuple[float | None, str]:
    """One cell, or what is wrong with it.

    Examples
    --------
    >>> number_of("0.5 in", How(unit="mm", column_unit="mm"))
    (12.7, '')
    >>> number_of("1.2 L", How(unit="deg", column_unit="deg", sides={"right": 1, "left": -1}))
    (-1.2, '')
    >>> number_of("2026-05-31", How())
    (None, "'2026-05-31' is a date or a time, not a number")
    """
    if is_empty(cell):
        return None, ""
    shown = repr(cell if len(cell) <= 40 else cell[:37] + "...")
    if cell.startswith("="):
        return None, f"{shown} is a formula without its value; save the values"
    if _DATE.fullmatch(cell):
        return None, f"{shown} is a date or a time, not a number"
    text = cell.replace("\N{MINUS SIGN}", "-").replace("\u00a0", " ")
    feet = _FEET_INCHES.fullmatch(text)
    if feet:
        return _in_unit(float(feet[1]) + float(feet[2]) / 12.0, "ft", how, shown)
    text = _with_a_dot(text, comma=how.comma)
    match = _NUMBER.search(text)
    if not match:
        return None, f"{shown} is not a number"
    rest = f"{text[: match.start()]} {text[match.end() :]}"
    return _with_rest(float(match[0]), rest, how, shown)


def _with_a_dot(text: str, *, comma: bool) -> str:
    """The decimal mark as a dot, the marks between thousands gone."""
    both = "," in text and "." in text
    if both and text.rfind(",") > text.rfind("."):
        return text.replace(".", "").replace(",", ".")
    if both:
        return text.replace(",", "")
    return text.replace(",", ".") if comma else text


def _with_rest(value: float, rest: str, how: How, shown: str) -> tuple[float | None, str]:
    if not math.isfinite(value):
        return None, f"{shown} is too large a number"
    said = rest.strip(" ()[]")
    unit, side = unit_of(said) or how.unit, ""
    if said and unit_of(said) is None:
        tokens = [each for each in re.split(r"[\s()\[\]]+|(?<=°)", said) if each]
        sides = [found for each in tokens if (found := side_of(each))]
        units = [found for each in tokens if not side_of(each) and (found := unit_of(each))]
        if len(sides) + len(units) < len(tokens) or len(sides) > 1 or len(units) > 1:
            return None, f"{shown} is not a number"
        unit, side = (units or [how.unit])[0], (sides or [""])[0]
    if not side:
        plain, why = _in_unit(value, unit, how, shown)
        return (None if plain is None else how.sign * plain), why
    if side not in how.sides:
        return None, f"{shown} names a side that this column does not have"
    size, why = _in_unit(abs(value), unit, how, shown)
    return (None if size is None else how.sides[side] * size), why


def _in_unit(value: float, unit: str, how: How, shown: str) -> tuple[float | None, str]:
    times = factor(unit, how.column_unit) if unit else 1.0
    if times is None:
        return None, f"{shown} is in {unit}, which is no unit of this column"
    return float(f"{value * times:.{DIGITS}g}"), ""
