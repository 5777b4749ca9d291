"""What delivery and strike say beside the choice: the loft needed, and what forgiveness is worth.

Both speak only where they were read: lean or attack for the loft, strikes on
the face for forgiveness.
"""

from __future__ import annotations

import math
from typing import TYPE_CHECKING, Final

import numpy as np
from numpy.typing import NDArray

from puttwright.ball.green import GreenPlane
from puttwright.ball.loft import GrassPlayed, Habit, LoftNeed, grass_of_speed_m, loft_need
from puttwright.ball.strike import StrikeScatter, strike_scatter
from puttwright.evidence import Build, Fitting, Putt
from puttwright.fitting.decision import Reason, RestsOn
from puttwright.fitting.strike_spread import head_of
from puttwright.fitting.value import course_of
from puttwright.worth.pattern import Pattern
from puttwright.worth.rounds import putts_per_round

if TYPE_CHECKING:
    from puttwright.fitting.decide import Weighed

Floats = NDArray[np.float64]

_FEWEST: Final = 3
_LOFT_DRAWS: Final = 40
_GAUGE_SD_DEG: Final = 0.3
"""How well a loft gauge is read; common practice, no source."""
_LEAST_SHARE: Final = 0.05
"""A stroke keeps at least this share of its spread when the strike's part is taken out."""


def delivery_reasons(weighed: Weighed, b: int) -> tuple[Reason, ...]:
    """Loft and forgiveness of build ``b``, where delivery and strikes were read."""
    found = (_loft_reason(weighed, b), _forgiveness_reason(weighed, b))
    return tuple(reason for reason in found if reason is not None)


def loft_needed(fitting: Fitting, build: Build, *, seed: int = 1) -> LoftNeed | None:
    """Loft this golfer needs on their greens with their own lean and attack; none if not read."""
    lean = _read(fitting, "shaft_lean_deg")
    attack = _read(fitting, "attack_deg")
    if len(lean) < _FEWEST:
        return None
    greens = [
        GrassPlayed(
            green=GreenPlane.of_speed(speed_ft=green.speed_ft),
            grass_m=(
                green.grass_mm / 1000.0
                if green.grass_mm
                else float(grass_of_speed_m(speed_ft=green.speed_ft))
            ),
            share=green.share,
        )
        for green in fitting.greens
    ]
    habit = Habit(
        lean_rad=math.radians(_mean(lean)),
        lean_sd_rad=math.radians(_standard_error(lean)),
        attack_rad=math.radians(_mean(attack)),
        attack_sd_rad=math.radians(_standard_error(attack)),
        instrument_sd_rad=math.radians(_GAUGE_SD_DEG),
    )
    return loft_need(
        greens=greens,
        habit=habit,
        present_loft_rad=math.radians(build.loft_deg),
        seed=seed,
        draws=_LOFT_DRAWS,
    )


def forgiveness_cost(weighed: Weighed, b: int) -> float | None:
    """Putts a round that off-centre strikes cost with build ``b``; none where not known.

    The strike's part of start line and pace, by the impact of this head, is taken
    out of the golfer's pattern; what that would save is what the strikes cost.
    """
    head = head_of(weighed.builds[b])
    if head is None or "strike" not in weighed.belief.posterior.draws:
        return None
    strikes = weighed.belief.posterior.draws["strike"]
    scatter = strike_scatter(
        head=head,
        toe_mean_m=float(strikes.location[:, b].mean()) / 1000.0,
        toe_sd_m=float(weighed.belief.spread_sd("strike")[:, b].mean()) / 1000.0,
        handed=weighed.fitting.golfer.handed,
    )
    now = _typical(weighed, b)
    putts = putts_per_round(_both(now, scatter), course=course_of(weighed.fitting))
    return float(putts[0] - putts[1])


def _typical(weighed: Weighed, b: int) -> Pattern:
    pattern = weighed.pattern
    return Pattern(
        start_sd_rad=np.atleast_1d(pattern.start_sd_rad[:, b].mean()),
        start_bias_rad=np.atleast_1d(pattern.start_bias_rad[:, b].mean()),
        pace_sd=np.atleast_1d(pattern.pace_sd[:, b].mean()),
        pace_bias=np.atleast_1d(pattern.pace_bias[:, b].mean()),
    )


def _both(now: Pattern, scatter: StrikeScatter) -> Pattern:
    """The pattern as it is, and as it would be if every putt were struck in the middle.

    The mean pace is left alone: a golfer has long since swung a little harder for it.
    """
    return Pattern(
        start_sd_rad=_less(now.start_sd_rad, scatter.line_sd_rad),
        start_bias_rad=np.append(now.start_bias_rad, now.start_bias_rad - scatter.line_mean_rad),
        pace_sd=_less(now.pace_sd, scatter.pace_sd_share),
        pace_bias=np.append(now.pace_bias, now.pace_bias),
    )


def _less(sd: Floats, part: float) -> Floats:
    rest = np.sqrt(np.maximum(sd**2 - part**2, (_LEAST_SHARE * sd) ** 2))
    return np.append(sd, rest)


def _loft_reason(weighed: Weighed, b: int) -> Reason | None:
    build = weighed.builds[b]
    need = loft_needed(weighed.fitting, build)
    if need is None:
        return None
    wanted = math.degrees(need.loft_rad)
    low, high = (math.degrees(limit) for limit in need.interval_90)
    verdict = (
        "inside what suits them."
        if need.within_window
        else f"so bend it by {math.degrees(need.bend_rad):+.1f}°, within its limits."
    )
    return Reason(
        text=(
            f"As it is delivered, these greens want about {wanted:.1f}° of loft "
            f"({low:.1f} to {high:.1f}); {build.name} has {build.loft_deg:.1f}°, {verdict} "
            + " ".join(need.flags)
        ),
        rests_on=(_rows(weighed.fitting, "shaft_lean_deg"),),
    )


def _forgiveness_reason(weighed: Weighed, b: int) -> Reason | None:
    costs = [forgiveness_cost(weighed, k) for k in (b, 0)]
    if costs[0] is None or costs[1] is None:
        return None
    return Reason(
        text=(
            f"Strikes off the centre cost this golfer about {max(costs[0], 0.0):.1f} putts a round "
            f"with {weighed.builds[b].name}, {max(costs[1], 0.0):.1f} with the own putter."
        ),
        rests_on=(_rows(weighed.fitting, "strike_toe_mm"),),
    )


def _seen(fitting: Fitting, column: str) -> list[tuple[Putt, float]]:
    pairs = [(putt, getattr(putt, column)) for putt in fitting.used_putts]
    return [(putt, value) for putt, value in pairs if value is not None]


def _read(fitting: Fitting, column: str) -> list[float]:
    return [value for _, value in _seen(fitting, column)]


def _rows(fitting: Fitting, column: str) -> RestsOn:
    return RestsOn(table="putts", seq=tuple(putt.seq for putt, _ in _seen(fitting, column)))


def _mean(values: list[float]) -> float:
    return float(np.mean(values)) if values else 0.0


def _standard_error(values: list[float]) -> float:
    """Of the mean; with too few readings to tell, a degree."""
    return float(np.std(values, ddof=1) / math.sqrt(len(values))) if len(values) > 1 else 1.0
