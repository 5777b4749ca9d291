"""Mean squares of a crossed study, and intervals of sums of them."""

from __future__ import annotations

import dataclasses
import math
from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np
from scipy import stats


@dataclass(frozen=True, slots=True, kw_only=True)
class Span:
    """A figure and its interval."""

    value: float
    low: float
    high: float

    def sqrt(self) -> Span:
        """Of a variance, the standard deviation; below zero counts as zero."""
        return Span(
            **{name: math.sqrt(max(each, 0.0)) for name, each in dataclasses.asdict(self).items()}
        )


@dataclass(frozen=True, slots=True, kw_only=True)
class Term:
    """A mean square with its degrees of freedom, taken so many times in a sum."""

    square: float
    df: float
    weight: float = 1.0

    def times(self, weight: float) -> Term:
        """The same with this weight."""
        return dataclasses.replace(self, weight=weight)

    @property
    def part(self) -> float:
        """What it adds to the sum."""
        return self.weight * self.square


@dataclass(frozen=True, slots=True, kw_only=True)
class MeanSquares:
    """The table of a study; a source that there is only one of is ``None``.

    ``per_cell``: harmonic mean of the readings in a cell. ``mean``: of the cells' means.
    """

    mean: float
    parts: int
    appraisers: int
    per_cell: float
    part: Term | None
    appraiser: Term | None
    interaction: Term | None
    error: Term

    def pooled(self) -> MeanSquares:
        """The same with what the interaction took given to the error."""
        if self.interaction is None:
            return self
        df = self.interaction.df + self.error.df
        total = self.interaction.square * self.interaction.df + self.error.square * self.error.df
        error = Term(square=total / df, df=df)
        return dataclasses.replace(self, interaction=None, error=error)


def mean_squares(values: np.ndarray, *, part: np.ndarray, appraiser: np.ndarray) -> MeanSquares:
    """Mean squares of parts crossed with appraisers, shapes (n,), numbered from 0.

    Raises
    ------
    ValueError
        A cell is empty, or nothing was read twice.
    """
    values = np.asarray(values, dtype=float)
    shape = (int(part.max()) + 1, int(appraiser.max()) + 1)
    cell = np.ravel_multi_index((part, appraiser), shape)
    count = np.bincount(cell, minlength=shape[0] * shape[1])
    df = len(values) - len(count)
    if not count.all() or df < 1:
        raise ValueError("a cell is empty" if not count.all() else "nothing was read twice")
    middle = float(values.mean())  # taken off first: readings may agree in their leading digits
    means = np.bincount(cell, weights=values - middle) / count
    within = float(((values - middle - means[cell]) ** 2).sum())
    per_cell = len(count) / float((1.0 / count).sum())
    table = means.reshape(shape)
    return MeanSquares(
        mean=middle + float(means.mean()), parts=shape[0], appraisers=shape[1], per_cell=per_cell,
        error=Term(square=within / df, df=df), **_between(table, per_cell=per_cell),
    )  # fmt: skip


def _between(table: np.ndarray, *, per_cell: float) -> dict[str, Term | None]:
    parts, appraisers = table.shape
    overall = table.mean()
    by_part = table.mean(axis=1, keepdims=True) - overall
    by_appraiser = table.mean(axis=0, keepdims=True) - overall
    rest = table - overall - by_part - by_appraiser
    return {
        "part": _term(by_part, df=parts - 1, times=per_cell * appraisers),
        "appraiser": _term(by_appraiser, df=appraisers - 1, times=per_cell * parts),
        "interaction": _term(rest, df=(parts - 1) * (appraisers - 1), times=per_cell),
    }


def _term(deviations: np.ndarray, *, df: int, times: float) -> Term | None:
    return Term(square=times * float((deviations**2).sum()) / df, df=df) if df else None


def span_of_sum(terms: Sequence[Term], *, share: float) -> Span:
    """A sum of mean squares, some with negative weight, and its modified large-sample interval.

    Exact for a single term (chi-square). Ting, Burdick, Graybill, Jeyaratnam & Lu 1990
    (from memory; coverage is tested by simulation).

    Examples
    --------
    >>> span = span_of_sum([Term(square=1.0, df=10)], share=0.9)
    >>> round(span.low, 4), round(span.high, 4)
    (0.5462, 2.5379)
    """
    tail = 0.5 - 0.5 * share
    value = sum(term.part for term in terms)
    below = sum(_square(term, tail, down=term.weight > 0) for term in terms)
    above = sum(_square(term, tail, down=term.weight < 0) for term in terms)
    plus = [term for term in terms if term.weight > 0]
    for minus in (term for term in terms if term.weight < 0):
        for term in plus:
            cross = abs(term.part * minus.part)
            below += _cross(term, minus, tail, down=True) * cross
            above += _cross(term, minus, tail, down=False) * cross
    return Span(
        value=value, low=value - math.sqrt(max(below, 0.0)), high=value + math.sqrt(max(above, 0.0))
    )  # fmt: skip


def _reach(term: Term, tail: float, *, down: bool) -> float:
    """How far below or above the true value may lie from a mean square, as a share of it."""
    if down:
        return 1.0 - term.df / float(stats.chi2.isf(tail, term.df))
    return term.df / float(stats.chi2.ppf(tail, term.df)) - 1.0


def _square(term: Term, tail: float, *, down: bool) -> float:
    return (_reach(term, tail, down=down) * term.part) ** 2


def _cross(plus: Term, minus: Term, tail: float, *, down: bool) -> float:
    """The mixed term that makes a difference of two mean squares exact where it vanishes."""
    if down:
        ratio = float(stats.f.isf(tail, plus.df, minus.df))
        own, other = _reach(plus, tail, down=True), _reach(minus, tail, down=False)
        return ((ratio - 1.0) ** 2 - own**2 * ratio**2 - other**2) / ratio
    ratio = float(stats.f.ppf(tail, plus.df, minus.df))
    own, other = _reach(plus, tail, down=False), _reach(minus, tail, down=True)
    return ((1.0 - ratio) ** 2 - own**2 * ratio**2 - other**2) / ratio
