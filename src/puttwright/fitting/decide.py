"""The decision: belief, worth and choice put together, with reasons that point at readings."""

from __future__ import annotations

from collections.abc import Callable
from concurrent.futures import ThreadPoolExecutor
from dataclasses import asdict, dataclass
from typing import Final

import numpy as np
from numpy.typing import NDArray

from puttwright import __version__
from puttwright.evidence import Build, Fitting
from puttwright.evidence.fingerprint import inputs_sha256
from puttwright.fitting.believe import Belief, believe
from puttwright.fitting.cautions import cautions
from puttwright.fitting.choose import Choice, choose
from puttwright.fitting.decision import (
    Decision,
    ModelRun,
    NextTrial,
    Reason,
)
from puttwright.fitting.extrapolate import Extrapolation, best_beyond, worth_a_trial
from puttwright.fitting.phrases import strokes_phrase
from puttwright.fitting.reasons import reasons
from puttwright.fitting.trial import confirming, next_trial_of
from puttwright.fitting.value import Values, course_of, estimate
from puttwright.fitting.verdicts import made_of, verdicts_of
from puttwright.fitting.would_change import Elsewhere, look_elsewhere, would_change
from puttwright.worth.pattern import Pattern
from puttwright.worth.surface import putts_per_round_of_many

Floats = NDArray[np.float64]

WORTH_DRAWS: Final = 1000


@dataclass(frozen=True, slots=True, kw_only=True)
class Weighed:
    """A fitting with its belief, worth and choice: what every part of a decision is made of."""

    fitting: Fitting
    belief: Belief
    pattern: Pattern
    values: Values
    choice: Choice

    @property
    def builds(self) -> tuple[Build, ...]:
        """The builds in the order of the arrays, the golfer's own first."""
        return self.belief.builds

    @property
    def chosen(self) -> Build | None:
        """The build to change to, if any."""
        index = self.choice.choice
        return self.builds[index] if isinstance(index, int) else None


@dataclass(frozen=True, slots=True, kw_only=True)
class Footing:
    """All of a decision that takes chains and chains of putts to work out; the rest is words.

    ``best`` is the build never in hand that promises most, worth a trial or not; ``make`` the
    percentages holed of the builds and of the one proposed.
    """

    weighed: Weighed
    best: Extrapolation | None
    make: Floats
    elsewhere: Elsewhere

    @property
    def beyond(self) -> Extrapolation | None:
        """The build never in hand that is proposed, if one is."""
        return worth_a_trial(self.weighed, self.best)


def decide(fitting: Fitting, *, seed: int = 1, worth_draws: int = WORTH_DRAWS) -> Decision:
    """Decide which putter the golfer should leave with.

    Parameters
    ----------
    fitting
        The evidence, checked.
    seed
        Makes the posterior's draws; same fitting and seed, same decision.
    worth_draws
        How many of the posterior's draws worth is computed for.

    Returns
    -------
    Decision
        A build, ``keep`` or ``undecided``, with intervals, reasons and cautions.
    """
    return decide_with_footing(fitting, seed=seed, worth_draws=worth_draws)[0]


def decide_with_footing(
    fitting: Fitting, *, seed: int = 1, worth_draws: int = WORTH_DRAWS
) -> tuple[Decision, Footing]:
    """The decision as :func:`decide` makes it, and what it stands on."""
    weighed = weigh(fitting, seed=seed, worth_draws=worth_draws)
    best = best_beyond(weighed, seed=seed)
    beyond = worth_a_trial(weighed, best)
    with ThreadPoolExecutor(1) as aside:  # its worth is computed while the rest is worded
        looking = aside.submit(look_elsewhere, weighed, beyond)
        make = made_of(weighed, beyond)
        decision = _worded(weighed, beyond, make=make, elsewhere=looking.result, seed=seed)
    return decision, Footing(weighed=weighed, best=best, make=make, elsewhere=looking.result())


def decide_from(footing: Footing, *, seed: int) -> Decision:
    """The decision that stands on a footing."""
    return _worded(
        footing.weighed,
        footing.beyond,
        make=footing.make,
        elsewhere=lambda: footing.elsewhere,
        seed=seed,
    )


def _worded(
    weighed: Weighed,
    beyond: Extrapolation | None,
    *,
    make: Floats,
    elsewhere: Callable[[], Elsewhere],
    seed: int,
) -> Decision:
    """Everything a decision says; ``elsewhere`` is asked for last."""
    chosen = beyond.candidate.build if beyond else weighed.chosen
    verdicts, why = verdicts_of(weighed, beyond, make=make), reasons(weighed)
    trial = _confirming(weighed, beyond) if beyond else next_trial_of(weighed)
    return Decision(
        choice=chosen.build_id if chosen else str(weighed.choice.choice),
        extrapolated=beyond is not None,
        more_putts=None if beyond else weighed.choice.more_putts,
        spec=_spec(chosen or weighed.builds[0]),
        builds=verdicts,
        next_trial=trial,
        reasons=(*_beyond_reason(weighed, beyond), *why),
        would_change=would_change(weighed, beyond, elsewhere=elsewhere()),
        cautions=cautions(weighed.fitting, belief=weighed.belief, pattern=weighed.pattern),
        model=_model_run(weighed.belief, seed=seed),
        inputs_sha256=inputs_sha256(weighed.fitting),
    )


def weigh(fitting: Fitting, *, seed: int, worth_draws: int = WORTH_DRAWS) -> Weighed:
    """Belief, worth and choice of a fitting, without the words."""
    belief = believe(fitting, seed=seed)
    pattern = belief.pattern(draws=worth_draws)
    values = Values(putts=putts_per_round_of_many(pattern, course=course_of(fitting)))
    return with_choice(fitting, belief, pattern=pattern, values=values)


def with_choice(fitting: Fitting, belief: Belief, *, pattern: Pattern, values: Values) -> Weighed:
    """The choice among builds whose worth is known, with all it rests on."""
    choice = choose(values, pattern=pattern, tried=belief.tried)
    return Weighed(fitting=fitting, belief=belief, pattern=pattern, values=values, choice=choice)


def _model_run(belief: Belief, *, seed: int) -> ModelRun:
    posterior = belief.posterior
    return ModelRun(
        version=__version__,
        seed=seed,
        draws=posterior.draws["start"].location.shape[0],
        r_hat_max=posterior.diagnostics.r_hat_max,
        ess_min=posterior.diagnostics.ess_min,
    )


def _spec(build: Build) -> dict[str, object]:
    columns = asdict(build)
    columns.pop("extra")
    return {name: value for name, value in columns.items() if value is not None}


def _beyond_reason(weighed: Weighed, beyond: Extrapolation | None) -> tuple[Reason, ...]:
    if beyond is None:
        return ()
    saved = estimate(weighed.values.putts[:, 0] - beyond.putts)
    phrase = strokes_phrase(saved.mean, saved.interval_90)
    text = (
        f"{beyond.candidate.of} {beyond.candidate.changes} was never in hand; what the other "
        f"putters teach of that change says: {phrase}. Confirm it with a short trial before "
        "ordering."
    )
    return (Reason(text=text),)


def _confirming(weighed: Weighed, beyond: Extrapolation) -> NextTrial:
    candidate = beyond.candidate
    promise = f"whether {candidate.of} {candidate.changes} does what the readings promise of it"
    return confirming(weighed, candidate.build.build_id, settles=promise)
