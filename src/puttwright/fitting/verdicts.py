"""What is said of each build: worth, chances, putts holed and the quantities that were read."""

from __future__ import annotations

from collections.abc import Mapping
from typing import TYPE_CHECKING, Final

import numpy as np
from numpy.typing import NDArray

from puttwright.evidence import Fitting
from puttwright.fitting.decision import BuildVerdict, Estimate
from puttwright.fitting.extrapolate import Extrapolation
from puttwright.fitting.value import SHOWN_DISTANCES_M, course_of, estimate, make_percentages
from puttwright.worth.pattern import Pattern

if TYPE_CHECKING:
    from puttwright.fitting.decide import Weighed

Floats = NDArray[np.float64]

_MAKE_DRAWS: Final = 400
_UNKNOWN_DISTANCE_M: Final = 3.0
_BIAS_AND_SPREAD: Final = {
    "aim": ("aim_bias_deg", "aim_sd_deg", 1.0),
    "start": ("start_bias_deg", "start_sd_deg", 1.0),
    "pace": ("pace_bias_pct", "pace_sd_pct", 100.0),
    "launch": ("launch_deg", "", 1.0),
    "strike": ("strike_bias_mm", "strike_sd_mm", 1.0),
    "roll_share": ("roll_share_pct", "", 1.0),
}


def made_of(weighed: Weighed, beyond: Extrapolation | None) -> Floats:
    """Percent holed, shape (draws thinned, builds tried and the one beyond, distances)."""
    pattern = weighed.pattern
    if beyond:
        pattern = _side_by_side(pattern, beyond.pattern)
    return make_percentages(_thinned(pattern), course=course_of(weighed.fitting))


def rows_made(draws: int) -> NDArray[np.intp]:
    """Which of so many draws :func:`made_of` is worked out for: chances need no more."""
    return np.linspace(0, draws - 1, min(_MAKE_DRAWS, draws)).astype(int)


def verdicts_of(
    weighed: Weighed, beyond: Extrapolation | None, *, make: Floats
) -> dict[str, BuildVerdict]:
    """A verdict for every build tried and, under its own id, for the one that was never in hand.

    ``make`` is from :func:`made_of`.
    """
    saved = weighed.values.saved
    names = [build.build_id for build in weighed.builds]
    if beyond:
        saved = np.column_stack([saved, weighed.values.putts[:, 0] - beyond.putts])
        names.append(beyond.candidate.build.build_id)
    best = np.bincount(saved.argmax(axis=1), minlength=len(names)) / saved.shape[0]
    drawn = weighed.belief.posterior.draws
    spreads = {each: weighed.belief.spread_sd(each) for each in _BIAS_AND_SPREAD if each in drawn}
    verdicts = {}
    for b, name in enumerate(names):
        putts = [putt for putt in weighed.fitting.putts if putt.build_id == name]
        used = sum(not putt.void for putt in putts)
        verdicts[name] = BuildVerdict(
            strokes_saved_per_round=estimate(saved[:, b], with_50=True),
            probability_better=float((saved[:, b] > 0.0).mean()),
            probability_best=float(best[b]),
            make_pct={d: estimate(make[:, b, k]) for k, d in enumerate(SHOWN_DISTANCES_M)},
            quantities=_quantities(weighed, b, spreads) if b < len(weighed.builds) else {},
            putts_used=used,
            putts_left_out=len(putts) - used,
        )
    return verdicts


def usual_distance_m(fitting: Fitting) -> float:
    """The middle of the distances putted from."""
    distances = [putt.distance_m for putt in fitting.used_putts]
    return float(np.median(distances)) if distances else _UNKNOWN_DISTANCE_M


def _side_by_side(one: Pattern, other: Pattern) -> Pattern:
    return Pattern(
        start_sd_rad=np.hstack([one.start_sd_rad, other.start_sd_rad]),
        start_bias_rad=np.hstack([one.start_bias_rad, other.start_bias_rad]),
        pace_sd=np.hstack([one.pace_sd, other.pace_sd]),
        pace_bias=np.hstack([one.pace_bias, other.pace_bias]),
    )


def _thinned(pattern: Pattern) -> Pattern:
    keep = rows_made(pattern.shape[0])
    return Pattern(
        start_sd_rad=pattern.start_sd_rad[keep],
        start_bias_rad=pattern.start_bias_rad[keep],
        pace_sd=pattern.pace_sd[keep],
        pace_bias=pattern.pace_bias[keep],
    )


def _quantities(weighed: Weighed, b: int, spreads: Mapping[str, Floats]) -> dict[str, Estimate]:
    """Figures of one build, of the quantities it was read for; ``spreads`` those of all builds."""
    belief = weighed.belief
    build_id = belief.builds[b].build_id
    figures = {}
    for quantity, (bias, spread, factor) in _BIAS_AND_SPREAD.items():
        if belief.gathered.seqs(quantity, build_id=build_id):
            draws = belief.posterior.draws[quantity]
            figures[bias] = estimate(factor * draws.location[:, b])
            if spread:
                figures[spread] = estimate(factor * spreads[quantity][:, b])
    if belief.gathered.seqs("skid", build_id=build_id):
        share = belief.posterior.draws["skid"].location[:, b]
        figures["skid_m"] = estimate(share * usual_distance_m(weighed.fitting))
    return figures
