"""The decision a moment after a reading: the draws of the last one, weighed by what came since.

A chain of draws and chains of putts take most of a decision's time, and a single putt moves
little. The draws that stand, with what each is worth, are taken again in the proportion in which
the new readings make them likely (:mod:`puttwright.belief.reweigh`), and the words are put
together anew. What such a decision says is for the eye, until the one that :mod:`decide` makes
from all readings is there; only that one is kept.

Left for that one: how strikes spread over the face, and how far apart in the order of the hour
the readings lie.
"""

from __future__ import annotations

from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass, replace
from typing import Final

import numpy as np
from numpy.typing import NDArray

from puttwright.belief.model import Draws, Readings
from puttwright.belief.reweigh import left, log_likelihood, taken_again, weights_of
from puttwright.evidence import Fitting
from puttwright.fitting.believe import Belief
from puttwright.fitting.decide import Footing, Weighed, decide_from, with_choice
from puttwright.fitting.decision import Decision
from puttwright.fitting.extrapolate import Extrapolation, worth_a_trial
from puttwright.fitting.readings import Gathered, Row, gather
from puttwright.fitting.value import Values
from puttwright.fitting.verdicts import rows_made
from puttwright.worth.pattern import Pattern

Floats = NDArray[np.float64]
Numbers = NDArray[np.intp]

FEWEST: Final = 3
"""Readings of a quantity there must have been for one more to be judged by them; a judgement."""


def early_decision(footing: Footing, fitting: Fitting, *, seed: int = 1) -> Decision | None:
    """The decision after readings came, were corrected or voided since a footing was made.

    Parameters
    ----------
    footing
        What the last decision stands on.
    fitting
        The same fitting as it is now.
    seed
        The one that decision was made with.

    Returns
    -------
    Decision or None
        None where more has changed than readings, where a quantity was read for the first
        few times, or where what came is too much to be told by those draws.
    """
    carried = carry(footing, fitting)
    return None if carried is None else decide_from(carried, seed=seed)


def carry(footing: Footing, fitting: Fitting) -> Footing | None:
    """What a decision stands on once the new readings are weighed in; None as above."""
    before = footing.weighed
    if not _only_readings_differ(before.fitting, fitting):
        return None
    gathered = gather(fitting)
    change = _change(before.belief, gathered)
    if change is None:
        return None
    drawn = _drawn(before)
    ratio = log_likelihood(drawn, change.came) - log_likelihood(drawn, change.went)
    weight = weights_of(ratio)
    if weight is None:
        return None
    again = taken_again(weight)
    belief = _belief(before.belief, gathered, drawn={n: _of(d, again) for n, d in drawn.items()},
                     share=left(weight))  # fmt: skip
    values = Values(putts=before.values.putts[again])
    pattern = _pattern(before.pattern, again)
    weighed = with_choice(fitting, belief, pattern=pattern, values=values)
    return _footing(footing, weighed, again=again, weight=weight)


def _only_readings_differ(before: Fitting, now: Fitting) -> bool:
    return replace(now, putts=before.putts, aims=before.aims) == before


@dataclass(frozen=True, slots=True, kw_only=True)
class _Change:
    """Readings that came and that went, by quantity; one that was corrected is in both."""

    came: Mapping[str, Readings]
    went: Mapping[str, Readings]


def _change(belief: Belief, now: Gathered) -> _Change | None:
    """What differs between the readings a belief rests on and those there are now."""
    rows = belief.gathered.rows
    read = [name for name, its in now.rows.items() if its]
    if not _believed(read, belief) or any(len(rows[name]) < FEWEST for name in read):
        return None
    moved = {(row.table, row.seq) for name in read for row in set(rows[name]) ^ set(now.rows[name])}
    builds = [build.build_id for build in belief.builds]

    def those(of: Gathered) -> dict[str, Readings]:
        some = Gathered(rows={name: of.rows[name] for name in read})
        return _readings(some, moved, builds=builds, order=rows)

    return _Change(came=those(now), went=those(belief.gathered))


def _believed(read: Sequence[str], belief: Belief) -> bool:
    """Whether there are draws of all that is read; the start line follows the aim or does not."""
    draws = belief.posterior.draws
    return set(read) <= draws.keys() and ("aim" in draws) == ("aim" in read)


def _readings(
    gathered: Gathered,
    moved: set[tuple[str, int]],
    *,
    builds: list[str],
    order: Mapping[str, tuple[Row, ...]],
) -> dict[str, Readings]:
    """The readings of rows that moved, in the order of the hour as it was before they did."""
    found = {}
    for name, rows in gathered.rows.items():
        some = tuple(row for row in rows if (row.table, row.seq) in moved)
        if some:
            read = Gathered(rows={name: some}).readings(name, builds=builds)
            seqs = sorted(row.seq for row in order[name])
            place = np.searchsorted(seqs, [row.seq for row in some if row.build_id in builds])
            found[name] = replace(read, order=place / max(len(seqs) - 1, 1) - 0.5)
    return found


def _drawn(before: Weighed) -> dict[str, Draws]:
    """The draws whose worth is known."""
    posterior = before.belief.posterior.draws
    keep = before.belief.kept(before.values.putts.shape[0])
    return {name: _of(draws, keep) for name, draws in posterior.items()}


def _of(draws: Draws, which: Numbers) -> Draws:
    return Draws(**{name: getattr(draws, name)[which] for name in Draws.__dataclass_fields__})


def _belief(
    before: Belief, gathered: Gathered, *, drawn: Mapping[str, Draws], share: float
) -> Belief:
    """The belief of draws taken again, of which a ``share`` is left in effect."""
    diagnostics = before.posterior.diagnostics
    posterior = replace(
        before.posterior,
        draws=dict(drawn),
        diagnostics=replace(diagnostics, ess_min=share * diagnostics.ess_min),
    )
    return replace(before, gathered=gathered, posterior=posterior)


def _footing(
    before: Footing, weighed: Weighed, *, again: Numbers, weight: Floats
) -> Footing | None:
    """None where another build never in hand, or none any more, is worth a trial by now."""
    best = before.best
    if best is not None:
        best = Extrapolation(
            candidate=best.candidate,
            pattern=_pattern(best.pattern, again),
            putts=best.putts[again],
        )
    if (worth_a_trial(weighed, best) is None) != (before.beyond is None):
        return None
    some = weight[rows_made(weight.size)]
    make = before.make[taken_again(some / some.sum())]
    return Footing(weighed=weighed, best=best, make=make, elsewhere=before.elsewhere)


def _pattern(pattern: Pattern, which: Numbers) -> Pattern:
    names: Iterable[str] = Pattern.__dataclass_fields__
    return Pattern(**{name: getattr(pattern, name)[which] for name in names})
