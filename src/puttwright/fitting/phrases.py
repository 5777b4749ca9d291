"""Figures in plain words, the way a fitter says them across the counter.

Every phrase says the doubt too: the words give the size, the figure and its
interval stand beside. Nothing here knows a golfer's name, so nothing can blame one.
"""

from __future__ import annotations

import math
from typing import Final

from puttwright.evidence.signs import side_word
from puttwright.fitting.decision import Estimate, Interval

THIN: Final = "\u2009"
"""Thin space, between a value and its unit."""
_JOINING: Final = "\u202f"

MINUS: Final = "\u2212"

_COUNTS: Final = {
    1: "one",
    2: "two",
    3: "three",
    4: "four",
    5: "five",
    6: "six",
    8: "eight",
    10: "ten",
    20: "twenty",
}
_RATES: Final = tuple(
    (putts / rounds, putts, rounds)
    for putts, rounds in (
        (1, 20), (1, 10), (1, 8), (1, 6), (1, 5), (1, 4), (1, 3), (1, 2), (2, 3), (3, 4),
        (1, 1), (3, 2), (2, 1), (5, 2), (3, 1), (4, 1), (5, 1), (6, 1), (8, 1), (10, 1),
    )
)  # fmt: skip
_NOTHING: Final = 0.035
"""Below this many strokes a round we say "nothing": under one putt in thirty rounds."""

_SURENESS: Final = (
    (0.99, "as good as certain"),
    (0.95, "very likely"),
    (0.80, "likely"),
    (0.60, "more likely than not"),
    (0.40, "a coin toss"),
    (0.20, "less likely than not"),
    (0.05, "unlikely"),
    (0.0, "very unlikely"),
)


def figure(value: float, /, *, digits: int = 1, sign: bool = False) -> str:
    """A number with ``digits`` decimals and a true minus; never "−0.0".

    Parameters
    ----------
    value
        Any finite number; what is not finite reads "–".
    digits
        Decimals shown.
    sign
        Also show the plus.

    Examples
    --------
    >>> figure(-0.34), figure(-0.04), figure(0.42, sign=True)
    ('−0.3', '0.0', '+0.4')
    """
    if not math.isfinite(value):
        return "–"
    text = f"{abs(value):.{digits}f}"
    if not any(digit in text for digit in "123456789"):
        return text
    return f"{MINUS if value < 0 else '+' if sign else ''}{text}"


def joined(text: str, /) -> str:
    """The same with no line ending between a value and its unit, for a page or a sheet.

    Examples
    --------
    >>> joined("3\u2009%")
    '3\u202f%'
    """
    return text.replace(THIN, _JOINING)


def measure(value: float, unit: str, /, *, digits: int = 0, sign: bool = False) -> str:
    """A figure and its unit, set like a dimension; a degree sign stands close.

    Examples
    --------
    >>> measure(71.0, "°", digits=1), measure(863.6, "mm") == f"864{THIN}mm"
    ('71.0°', True)
    """
    space = "" if unit == "°" else THIN
    return f"{figure(value, digits=digits, sign=sign)}{space}{unit}"


def interval(limits: Interval, /, *, digits: int = 1, sign: bool = False) -> str:
    """An interval in words: "−0.1 to 0.9".

    Examples
    --------
    >>> interval((-0.13, 0.92))
    '−0.1 to 0.9'
    """
    low, high = (figure(limit, digits=digits, sign=sign) for limit in limits)
    return f"{low} to {high}"


def give_or_take(limits: Interval, /) -> float:
    """Half the width of an interval: the "give or take" of a sentence.

    Examples
    --------
    >>> give_or_take((0.5, 1.1))
    0.30000000000000004
    """
    return abs(limits[1] - limits[0]) / 2.0


def _nearest_rate(amount: float) -> tuple[int, int]:
    # Rates are compared as ratios: 0.05 and 0.1 are as far apart as 1 and 2.
    _, putts, rounds = min(_RATES, key=lambda rate: abs(math.log(rate[0] / amount)))
    return putts, rounds


def rate_phrase(strokes_per_round: float, /) -> str:
    """How often a saving or loss of this size is one putt: "one putt in two rounds".

    Parameters
    ----------
    strokes_per_round
        Size of the difference; its sign is left out. Clipped to 1/20 … 10.

    Examples
    --------
    >>> rate_phrase(0.48), rate_phrase(1.1), rate_phrase(0.03)
    ('one putt in two rounds', 'one putt a round', 'next to nothing')
    """
    amount = abs(strokes_per_round)
    if amount < _NOTHING or not math.isfinite(amount):
        return "next to nothing"
    putts, rounds = _nearest_rate(amount)
    noun = "putt" if putts == 1 else "putts"
    per = "a round" if rounds == 1 else f"in {_COUNTS[rounds]} rounds"
    return f"{_COUNTS[putts]} {noun} {per}"


def strokes_phrase(mean: float, interval_90: Interval) -> str:
    """Strokes saved in plain words, the doubt included.

    Parameters
    ----------
    mean
        Strokes saved per round against the golfer's own putter, positive is better.
    interval_90
        Central 90 % interval of the same.

    Returns
    -------
    str
        Lower-case words without a full stop.

    Examples
    --------
    >>> strokes_phrase(0.5, (-0.1, 1.1))
    'about one putt in two rounds, could be none'
    >>> strokes_phrase(-0.33, (-0.7, -0.1))
    'costs about one putt in three rounds, at the least one putt in ten rounds'
    """
    if abs(mean) < _NOTHING:
        return _no_difference(interval_90)
    words = rate_phrase(mean)
    if mean < 0:
        return f"costs about {words}{_doubt((-interval_90[1], -interval_90[0]), worse='gain')}"
    return f"about {words}{_doubt(interval_90, worse='cost')}"


def _no_difference(limits: Interval) -> str:
    most = max(abs(limits[0]), abs(limits[1]))
    if most < _NOTHING:
        return "no difference"
    return f"no difference we could see, at most {rate_phrase(most)} either way"


def _doubt(limits: Interval, *, worse: str) -> str:
    """The near end of an interval of a saving (or, turned round, of a loss)."""
    near = limits[0]
    if near >= _NOTHING:
        return f", at the least {rate_phrase(near)}"
    if near > -0.15:
        return ", could be none"
    return f", could be none, could even {worse} {rate_phrase(near)}"


def sureness_phrase(probability: float, /) -> str:
    """A probability in words and as a count out of a hundred.

    Parameters
    ----------
    probability
        From 0 to 1; clipped to that range.

    Examples
    --------
    >>> sureness_phrase(0.86)
    'likely, 86 in 100'
    >>> sureness_phrase(0.998)
    'as good as certain, more than 99 in 100'
    """
    chance = min(max(probability, 0.0), 1.0)
    words = next(text for least, text in _SURENESS if chance >= least)
    return f"{words}, {chances(chance)}"


def chances(probability: float, /) -> str:
    """A probability as a count out of a hundred, never "0" and never "100".

    Examples
    --------
    >>> chances(0.5), chances(0.0001)
    ('50 in 100', 'less than 1 in 100')
    """
    chance = min(max(probability, 0.0), 1.0)
    if chance > 0.99:
        return "more than 99 in 100"
    if chance < 0.01:
        return "less than 1 in 100"
    return f"{round(100 * chance)} in 100"


def sideways_phrase(estimate: Estimate, /) -> str:
    """A direction with its doubt: "0.8° right, give or take 0.3°".

    Parameters
    ----------
    estimate
        Degrees from the target line, right positive, for either hand.

    Examples
    --------
    >>> sideways_phrase(Estimate(mean=0.8, sd=0.2, interval_90=(0.5, 1.1)))
    '0.8° right, give or take 0.3°'
    """
    spread = max(give_or_take(estimate.interval_90), 0.1)
    doubt = f"give or take {measure(spread, '°', digits=1)}"
    if abs(estimate.mean) < 0.05:
        return f"straight, {doubt}"
    return f"{measure(abs(estimate.mean), '°', digits=1)} {side_word(estimate.mean)}, {doubt}"


def pace_phrase(estimate: Estimate, /) -> str:
    """A pace error with its doubt: "6 % shorter than meant, give or take 4 %".

    Meant is a roll that ends past the hole: one that stops short of that may well be past it.

    Parameters
    ----------
    estimate
        Percent of the intended roll, positive is long.

    Examples
    --------
    >>> pace_phrase(Estimate(mean=-6.2, sd=2.4, interval_90=(-10.2, -2.2)))
    '6\u2009% shorter than meant, give or take 4\u2009%'
    """
    doubt = f"give or take {measure(max(give_or_take(estimate.interval_90), 1.0), '%')}"
    if abs(estimate.mean) < 0.5:
        return f"on pace, {doubt}"
    side = "longer" if estimate.mean > 0 else "shorter"
    return f"{measure(abs(estimate.mean), '%')} {side} than meant, {doubt}"


def more_putts_phrase(putts: int | None, /) -> str:
    """That a question is open, and how many more putts are worth taking for it.

    Examples
    --------
    >>> more_putts_phrase(12)
    'Too close to call; 12 more putts are worth taking.'
    """
    if not putts:
        return "Too close to call."
    noun = "putt is" if putts == 1 else "putts are"
    return f"Too close to call; {putts} more {noun} worth taking."
