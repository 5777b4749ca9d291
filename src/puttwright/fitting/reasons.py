"""Why: the few sentences behind a decision, each with the readings it rests on."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING, Final

import numpy as np
from numpy.typing import NDArray

from puttwright.evidence import Build
from puttwright.fitting.aim_eyes import eyes_reasons
from puttwright.fitting.aim_levers import lever_reasons
from puttwright.fitting.decision import KEEP, Reason, RestsOn
from puttwright.fitting.delivery import delivery_reasons
from puttwright.fitting.next_trial import MOST_MORE
from puttwright.fitting.phrases import strokes_phrase, sureness_phrase
from puttwright.fitting.value import estimate

if TYPE_CHECKING:
    from puttwright.fitting.decide import Weighed

_CLEAR: Final = 0.8
"""A difference is named when it points one way with at least this probability."""


def reasons(weighed: Weighed) -> tuple[Reason, ...]:
    """Reasons of a decision, the most important first."""
    b = _subject(weighed)
    if b == 0:
        return (_nothing_tried(weighed),)
    return (
        _worth(weighed, b),
        *_differences(weighed, b),
        *delivery_reasons(weighed, b),
        *lever_reasons(weighed.belief, handed=weighed.fitting.golfer.handed),
        *eyes_reasons(weighed.fitting, weighed.belief),
        *_keep_or_wait(weighed),
    )


def _subject(weighed: Weighed) -> int:
    """The build the reasons are about: the chosen one, else the best that is not the own putter."""
    if isinstance(weighed.choice.choice, int):
        return weighed.choice.choice
    others = weighed.values.saved[:, 1:]
    return int(others.mean(axis=0).argmax()) + 1 if others.shape[1] else 0


def _nothing_tried(weighed: Weighed) -> Reason:
    own = weighed.builds[0]
    return Reason(
        text=f"Only {own.name} was tried, so there is nothing to hold it against.",
        rests_on=rows_of(weighed, (own,), quantities=("start", "pace")),
    )


def _worth(weighed: Weighed, b: int) -> Reason:
    build, own = weighed.builds[b], weighed.builds[0]
    saved = estimate(weighed.values.saved[:, b])
    better = float(weighed.choice.probability_better[b])
    return Reason(
        text=(
            f"{build.name} against {own.name}: {strokes_phrase(saved.mean, saved.interval_90)}; "
            f"{sureness_phrase(better)}."
        ),
        rests_on=rows_of(weighed, (own, build), quantities=("start", "pace")),
    )


@dataclass(frozen=True, slots=True, kw_only=True)
class _Trait:
    """Something a build does better the smaller it is, and the words for it."""

    quantity: str
    spread: bool
    verb: str
    better: str
    worse: str
    unit: str
    factor: float = 1.0


_TRAITS: Final = (
    _Trait(quantity="start", spread=False, verb="starts", better="nearer the intended line",
           worse="further off the intended line", unit="°"),
    _Trait(quantity="start", spread=True, verb="starts", better="more alike", worse="less alike",
           unit="°"),
    _Trait(quantity="pace", spread=False, verb="rolls", better="nearer the right length",
           worse="further from the right length", unit=" %", factor=100.0),
    _Trait(quantity="pace", spread=True, verb="rolls", better="more even lengths",
           worse="less even lengths", unit=" %", factor=100.0),
)  # fmt: skip


def _differences(weighed: Weighed, b: int) -> tuple[Reason, ...]:
    """How start line and pace differ from the own putter, where the draws agree that they do."""
    found = (_difference(weighed, b, trait) for trait in _TRAITS)
    return tuple(reason for reason in found if reason is not None)


def _difference(weighed: Weighed, b: int, trait: _Trait) -> Reason | None:
    size = _size(weighed, trait)
    probability = float((size[:, b] < size[:, 0]).mean())
    if max(probability, 1.0 - probability) < _CLEAR:
        return None
    build, own = weighed.builds[b], weighed.builds[0]
    word = trait.better if probability > 0.5 else trait.worse
    then, now = (f"{size[:, k].mean():.1f}{trait.unit}" for k in (b, 0))
    return Reason(
        text=f"{build.name} {trait.verb} {word}: {then} to {own.name}'s {now}.",
        rests_on=rows_of(weighed, (own, build), quantities=(trait.quantity,)),
    )


def _size(weighed: Weighed, trait: _Trait) -> NDArray[np.float64]:
    """How large a trait is with each build, draw by draw, in the unit it is told in."""
    if trait.spread:
        return trait.factor * weighed.belief.spread_sd(trait.quantity)
    return trait.factor * np.abs(weighed.belief.posterior.draws[trait.quantity].location)


def _keep_or_wait(weighed: Weighed) -> tuple[Reason, ...]:
    if isinstance(weighed.choice.choice, int):
        return ()
    choice, told = weighed.choice, []
    gain, ahead = choice.worth_knowing, choice.outlook
    if choice.untried is not None:
        name = weighed.builds[choice.untried].name
        told.append(f"Nobody has putted with {name}; what speaks for it is what the others teach.")
    if not ahead.enough:
        told.append(
            f"Knowing all would be worth about {gain:.2f} putts a round; {ahead.putts} more putts "
            f"promise about {min(ahead.gain, gain):.2f} of these."
        )
    elif choice.choice == KEEP:
        told.append(
            f"More putts promise too little to go on: the next {MOST_MORE} together about "
            f"{ahead.most:.2f} putts a round."
        )
    return tuple(Reason(text=text) for text in told)


def rows_of(
    weighed: Weighed, builds: tuple[Build, ...], *, quantities: tuple[str, ...]
) -> tuple[RestsOn, ...]:
    """The rows of the tables that speak of these quantities of these builds."""
    wanted = {build.build_id for build in builds}
    found: dict[str, set[int]] = {}
    for quantity in quantities:
        for row in weighed.belief.gathered.rows[quantity]:
            if row.build_id in wanted:
                found.setdefault(row.table, set()).add(row.seq)
    return tuple(RestsOn(table=table, seq=tuple(sorted(seqs))) for table, seqs in found.items())
