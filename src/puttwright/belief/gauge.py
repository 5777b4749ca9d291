"""How well an instrument measures: the spread of repeats and of hands, with intervals, and bias.

Analysis of variance of repeated readings: parts crossed with appraisers, or either alone. Cells
with unequal numbers of readings are weighed by their harmonic mean (unweighted means). Whether
appraisers and parts interact is tested; when nothing speaks for it, what it took is pooled.
"""

from __future__ import annotations

import math
from dataclasses import dataclass
from typing import Final

import numpy as np
from scipy import stats

from puttwright.belief.mean_squares import MeanSquares, Span, Term, mean_squares, span_of_sum

POOLED_ABOVE: Final = 0.25
"""An interaction with a greater probability of chance alone is pooled; common practice."""
SHARE: Final = 0.9
_FEWEST_FOR_SLOPE: Final = 3
_DIGITS: Final = 5
"""Readings with more decimals than so many behind their widest gap show no step."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Bias:
    """Reading minus reference, and how it changes with the reference; ``Span`` is of neither sd.

    ``slope`` is ``None`` with fewer than three references.
    """

    mean: Span
    slope: Span | None


@dataclass(frozen=True, slots=True, kw_only=True)
class Study:
    """What repeated readings say of an instrument; spreads as standard deviations.

    ``reproducibility`` and ``both`` are ``None`` with one appraiser, ``parts`` with one part,
    ``interaction_probability`` unless both are several, ``bias`` without references.
    """

    readings: int
    parts: Span | None
    repeatability: Span
    reproducibility: Span | None
    both: Span
    interaction_probability: float | None
    pooled: bool
    step: float | None
    bias: Bias | None
    squares: MeanSquares

    @property
    def repeatability_sd(self) -> float:
        """Spread of one reading, never finer than the step shown allows (step over root twelve).

        That the coarser of both counts is ISO 22514-7, from memory.
        """
        return max(self.repeatability.value, (self.step or 0.0) / math.sqrt(12.0))

    def told_apart(
        self, readings: int, *, share: float = SHARE, other_hands: bool = False
    ) -> float:
        """The smallest difference of two means of so many readings that is hardly chance.

        Parameters
        ----------
        readings
            In each mean.
        share
            Two-sided confidence.
        other_hands
            The two means are taken by different appraisers, whose own bias does not average out.

        Returns
        -------
        float
            In the unit of the readings.
        """
        within = self.repeatability_sd**2 / readings
        hands = self.reproducibility.value**2 if other_hands and self.reproducibility else 0.0
        normal = float(stats.norm.ppf(0.5 + 0.5 * share))
        return normal * math.sqrt(2.0 * (within + hands))


def study(
    values: np.ndarray,
    *,
    part: np.ndarray,
    appraiser: np.ndarray,
    reference: np.ndarray | None = None,
    step: float | None = None,
    share: float = SHARE,
) -> Study:
    """Analyse a gauge study.

    Parameters
    ----------
    values
        Readings, shape (n,), finite.
    part, appraiser
        Numbers from 0 for each reading, shape (n,). Every appraiser has read every
        part, at least one of them twice.
    reference
        What is true of each reading's part, shape (n,).
    step
        Smallest step the instrument shows; taken from the readings when not given.
    share
        Of the intervals.

    Returns
    -------
    Study
        Intervals: chi-square for repeatability, modified large sample (Ting et al.
        1990; Burdick & Graybill 1992, both from memory, coverage tested) for sums.

    Raises
    ------
    ValueError
        A cell is empty, or nothing was read twice.

    Examples
    --------
    >>> read = study(
    ...     np.array([0.1, 0.3, 1.0, 1.2]), part=np.array([0, 0, 1, 1]), appraiser=np.zeros(4, int)
    ... )
    >>> round(read.repeatability.value, 4)
    0.1414
    """
    squares = mean_squares(values, part=part, appraiser=appraiser)
    probability = _interaction_probability(squares)
    pooled = probability is not None and probability > POOLED_ABOVE
    if pooled:
        squares = squares.pooled()
    return Study(
        readings=len(values),
        repeatability=_sd([squares.error], share),
        reproducibility=_reproducibility(squares, share),
        both=_both(squares, share),
        parts=_parts(squares, share),
        interaction_probability=probability,
        pooled=pooled,
        step=step_shown(values) if step is None else step,
        bias=None if reference is None else _bias(
            values - reference, part=part, appraiser=appraiser, reference=reference, share=share
        ),
        squares=squares,
    )  # fmt: skip


def step_shown(values: np.ndarray) -> float | None:
    """The step of which all readings are multiples from each other; ``None`` when there is none.

    Examples
    --------
    >>> step_shown(np.array([1.0, 1.5, 3.0])), step_shown(np.array([2.0, 2.0]))
    (0.5, None)
    """
    gaps = np.diff(np.unique(values))
    if not len(gaps):
        return None
    finest = 10.0 ** (math.floor(math.log10(float(gaps.max()))) - _DIGITS)
    whole = np.round(gaps / finest).astype(np.int64)
    common = int(np.gcd.reduce(whole))
    return float(f"{common * finest:.6g}") if common > 1 else None


def _interaction_probability(squares: MeanSquares) -> float | None:
    if squares.interaction is None or not squares.error.square:
        return None
    ratio = squares.interaction.square / squares.error.square
    return float(stats.f.sf(ratio, squares.interaction.df, squares.error.df))


def _sd(terms: list[Term], share: float) -> Span:
    return span_of_sum(terms, share=share).sqrt()


def _reproducibility(squares: MeanSquares, share: float) -> Span | None:
    """What a change of hands adds: appraisers and, unless pooled, how they take to parts."""
    if squares.appraiser is None:
        return None
    p, n = squares.parts, squares.per_cell
    appraiser, error = squares.appraiser.times(1 / (p * n)), squares.error
    if squares.interaction is None:
        return _sd([appraiser, error.times(-1 / (p * n))], share)
    both = squares.interaction.times((p - 1) / (p * n))
    return _sd([appraiser, both, error.times(-1 / n)], share)


def _both(squares: MeanSquares, share: float) -> Span:
    """One reading by anybody: repeatability and reproducibility together."""
    p, n = squares.parts, squares.per_cell
    if squares.appraiser is None:
        return _sd([squares.error], share)
    appraiser = squares.appraiser.times(1 / (p * n))
    if squares.interaction is None:
        return _sd([appraiser, squares.error.times(1 - 1 / (p * n))], share)
    both = squares.interaction.times((p - 1) / (p * n))
    return _sd([appraiser, both, squares.error.times(1 - 1 / n)], share)


def _parts(squares: MeanSquares, share: float) -> Span | None:
    if squares.part is None:
        return None
    weight = 1 / (squares.appraisers * squares.per_cell)
    within = squares.interaction or squares.error
    return _sd([squares.part.times(weight), within.times(-weight)], share)


def _bias(
    off: np.ndarray, *, part: np.ndarray, appraiser: np.ndarray, reference: np.ndarray, share: float
) -> Bias:
    squares = mean_squares(off, part=part, appraiser=appraiser)
    means = np.array([off[part == each].mean() for each in np.unique(part)])
    true = np.array([reference[part == each].mean() for each in np.unique(part)])
    return Bias(
        mean=_mean_span(squares, share=share), slope=_slope(means, true, share=share)
    )  # fmt: skip


def _mean_span(squares: MeanSquares, *, share: float) -> Span:
    """A t interval on Satterthwaite's degrees of freedom; parts and hands vary too."""
    cells = squares.parts * squares.appraisers * squares.per_cell
    terms = [each for each in (squares.part, squares.appraiser) if each is not None]
    variance, df = squares.error.square / cells, float(squares.error.df)
    between = sum(each.square for each in terms)
    if len(terms) == 2 and squares.interaction is not None:
        between = max(between - squares.interaction.square, *(each.square for each in terms))
    if terms and between > squares.error.square:
        variance = between / cells
        df = max(between**2 / sum(each.square**2 / each.df for each in terms), 1.0)
    half = float(stats.t.ppf(0.5 + 0.5 * share, df)) * math.sqrt(variance)
    return Span(value=squares.mean, low=squares.mean - half, high=squares.mean + half)


def _slope(means: np.ndarray, true: np.ndarray, *, share: float) -> Span | None:
    if len(np.unique(true)) < _FEWEST_FOR_SLOPE:
        return None
    line = stats.linregress(true, means)
    half = float(stats.t.ppf(0.5 + 0.5 * share, len(true) - 2)) * float(line.stderr)
    slope = float(line.slope)
    return Span(value=slope, low=slope - half, high=slope + half)
