"""What would change the answer, in plain words with the readings it hangs on."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, replace
from typing import TYPE_CHECKING, Any, Final

import numpy as np
from numpy.typing import NDArray

from puttwright.evidence.signs import side_word
from puttwright.fitting.decision import Reason
from puttwright.fitting.extrapolate import Extrapolation
from puttwright.fitting.phrases import chances, measure
from puttwright.fitting.reasons import rows_of
from puttwright.fitting.turning import Standing, Turn, standing_of, turns
from puttwright.fitting.value import course_of
from puttwright.worth.pattern import Pattern
from puttwright.worth.rounds import Course, putts_per_round_on
from puttwright.worth.surface import means_from_few

if TYPE_CHECKING:
    from puttwright.fitting.decide import Weighed

Floats = NDArray[np.float64]

MOST_TOLD: Final = 2
FASTER_FT: Final = 2.0
_SLOWEST_FT: Final = 5.0
LONGER: Final = 4.0 / 3.0
_DRAWS: Final = 16
_NOUGHT_DEG, _NOUGHT_PCT = 0.05, 0.5
"""What would be told as nought."""
_CLOSEST: Final = 4
"""So many of the best builds are asked about; the others are too far behind to be the answer."""
_SAME: Final = (
    f"Greens {FASTER_FT:g} ft faster or slower, or first putts a third longer or shorter, "
    "would not change it."
)


@dataclass(frozen=True, slots=True, kw_only=True)
class Elsewhere:
    """What other greens and first putts add to the putts a round of the best few builds.

    ``moves`` is by the words for what is different; each of shape (close,), as ``close``
    numbers the builds.
    """

    close: NDArray[np.intp]
    moves: Mapping[str, Floats]


def would_change(
    weighed: Weighed, beyond: Extrapolation | None, *, elsewhere: Elsewhere
) -> tuple[Reason, ...]:
    """What would have to turn out differently for another answer.

    Parameters
    ----------
    weighed
        The fitting with what the builds tried are worth.
    beyond
        The build never in hand that is proposed, if one is.
    elsewhere
        What :func:`look_elsewhere` says.

    Returns
    -------
    tuple of Reason
        The one or two likeliest open figures, then the greens and first putts.
    """
    if len(weighed.builds) < 2:
        return ()
    standing = standing_of(weighed, beyond)
    return (*_open_figures(weighed, standing), _conditions(standing, elsewhere))


def _open_figures(weighed: Weighed, standing: Standing) -> tuple[Reason, ...]:
    told: list[Reason] = []
    seen: set[int] = set()
    for turn in turns(standing):
        if turn.build not in seen and len(told) < MOST_TOLD:
            seen.add(turn.build)
            build = standing.builds[turn.build]
            rows = rows_of(weighed, (build,), quantities=(turn.figure.quantity,))
            told.append(Reason(text=_turn_words(standing, turn), rests_on=rows))
    if not told:
        text = "No single figure that is still open would change the answer by itself."
        told.append(Reason(text=text))
    return tuple(told)


def _turn_words(standing: Standing, turn: Turn) -> str:
    name = standing.builds[turn.build].name
    return (
        f"If more putts showed {name} {_shown(turn)}, the answer would be "
        f"{answer_words(standing, turn.answer)}: {chances(turn.probability)}."
    )


def _shown(turn: Turn) -> str:
    """How much further than it looks now it would have to lie, and to which side."""
    start, way = turn.figure.quantity == "start", int(turn.upward)
    now = f"{_size(abs(turn.now), start=start)}"
    if turn.figure.spread:
        what = "a start-line spread" if start else "a pace spread"
        return f"with {what} {_further(turn)} {('narrower', 'wider')[way]} (now {now})"
    if start:
        side = side_word(turn.now)
        return (
            f"starting putts {_further(turn)} further {side_word(2 * way - 1)} (now {now} {side})"
        )
    side = "longer" if turn.now > 0.0 else "shorter"
    further = f"{_further(turn)} {('shorter', 'longer')[way]}"
    return f"rolling putts {further} (now {now} {side} than meant)"


def _further(turn: Turn) -> str:
    start = turn.figure.quantity == "start"
    by = abs(turn.threshold - turn.now)
    if by < (_NOUGHT_DEG if start else _NOUGHT_PCT):
        return "even a little"
    return f"at least {_size(by, start=start)}"


def _size(value: float, *, start: bool) -> str:
    return measure(value, "°", digits=1) if start else measure(value, "%")


def answer_words(standing: Standing, answer: int) -> str:
    """An answer as part of a sentence: to keep the own putter, or to change to a build."""
    name = standing.builds[answer].name
    return f"to change to {name}" if answer else f"to keep {name}"


def look_elsewhere(weighed: Weighed, beyond: Extrapolation | None) -> Elsewhere:
    """Weigh the best few builds on other greens and with other first putts."""
    standing, course = standing_of(weighed, beyond), course_of(weighed.fitting)
    close = np.argsort(-standing.worth.mean(axis=0), kind="stable")[:_CLOSEST]
    if len(weighed.builds) < 2:
        return Elsewhere(close=close, moves={})
    pattern = _some(standing.pattern, np.s_[:, close])
    rows = np.linspace(0, pattern.shape[0] - 1, _DRAWS).astype(int)
    others = _others(course)
    # The same draws on all courses, so that only the course makes the difference.
    usual, *elsewhere = putts_per_round_on(
        _some(pattern, np.s_[rows]), courses=(course, *others.values())
    )
    moves = means_from_few([other - usual for other in elsewhere], pattern=pattern, rows=rows)
    return Elsewhere(close=close, moves=dict(zip(others, moves, strict=True)))


def _conditions(standing: Standing, elsewhere: Elsewhere) -> Reason:
    """Whether other greens or other first putts would give another answer."""
    mean, close = standing.worth.mean(axis=0), elsewhere.close
    turned: dict[int, list[str]] = {}
    for words, moved in elsewhere.moves.items():
        answer = int(close[(mean[close] - moved).argmax()])
        if answer != int(mean.argmax()):
            turned.setdefault(answer, []).append(words)
    if not turned:
        return Reason(text=_SAME)
    said = (
        f"{' or '.join(words)} the answer would be {answer_words(standing, answer)}."
        for answer, words in turned.items()
    )
    return Reason(text=" ".join(f"{text[0].upper()}{text[1:]}" for text in said))


def _others(course: Course) -> dict[str, Course]:
    """Courses to ask again with, by the words for what is different."""
    others = {
        f"on greens {FASTER_FT:g} ft faster": _greens(course, FASTER_FT),
        f"on greens {FASTER_FT:g} ft slower": _greens(course, -FASTER_FT),
        "with first putts a third longer": _lengths(course, LONGER),
        "with first putts a third shorter": _lengths(course, 1.0 / LONGER),
    }
    if len({green.speed_ft for green in course.greens}) > 1:
        others |= {
            f"on {green.name} alone": replace(course, greens=(replace(green, share=1.0),))
            for green in course.greens
        }
    return others


def _greens(course: Course, faster_ft: float) -> Course:
    greens = tuple(
        replace(green, speed_ft=max(green.speed_ft + faster_ft, _SLOWEST_FT))
        for green in course.greens
    )
    return replace(course, greens=greens)


def _lengths(course: Course, factor: float) -> Course:
    putts = tuple(replace(putt, distance_m=factor * putt.distance_m) for putt in course.first_putts)
    return replace(course, first_putts=putts)


def _some(pattern: Pattern, which: Any) -> Pattern:
    return Pattern(
        start_sd_rad=pattern.start_sd_rad[which],
        start_bias_rad=pattern.start_bias_rad[which],
        pace_sd=pattern.pace_sd[which],
        pace_bias=pattern.pace_bias[which],
    )
