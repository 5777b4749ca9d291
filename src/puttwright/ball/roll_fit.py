"""From a putt as filmed from the side to its launch, skid and roll, each with its interval.

The physics of :mod:`puttwright.ball.side_view` is fitted to place, height and turning together.
Turf need not obey it: friction may change while the ball slides, grass may slow it. So the same
putt is fitted three times, with turf that hardly does so, by a tenth, by a third; each fit counts
as much as the film bears it out (Laplace's approximation of its evidence: MacKay 1992). What then
is left over beyond the pictures' own noise widens all intervals.
"""

from __future__ import annotations

import math
from collections.abc import Callable
from dataclasses import dataclass
from typing import Final

import numpy as np
from numpy.typing import NDArray

from puttwright.ball.roll_model import (
    AT,
    USUAL_DECELERATION_MPS2,
    Filmed,
    bounds_of,
    film_of,
    first_guess,
    prior_of,
    scale_of,
    scales,
    strike_of,
    with_bumps,
    with_unevenness,
)
from puttwright.ball.side_view import SideStrike, side_view
from puttwright.units import BALL_RADIUS_M

Floats = NDArray[np.float64]

LOOSE: Final = (0.015, 0.10, 0.30)
_WIDER: Final = (1.3, 3.2, 3.2)
"""How much wider intervals are made, for each of the three: neighbouring pictures err alike, and
turf that changes changes in more ways than the model knows (set on one set of rendered clips, its
coverage told from another)."""
_WIDER_AT_FACE: Final = (1.7, 2.5, 2.5)
"""And again so much wider for speed, launch and spin off the face: what the turf does is seen all
along the slide, and these only through its first pictures (set likewise)."""
_AT_FACE: Final = ("ball_speed_mps", "launch_rad", "spin_radps")
_CHANGES_ON: Final = 0.5
"""Where friction changes from step to step, so may the resistance of what was not filmed: by so
much of it, on the whole (a guess)."""
_UNEVEN_M: Final = 1e-3
"""How far off the physics a putt may be where friction changes by its all: a guess, and the
evidence decides."""
_LAUNCHES: Final = (0.005, 0.02, 0.035, 0.05, 0.065, 0.08)
_LOOK: Final = 12
_ROUNDS: Final = 60
_STUCK: Final = 1e8
_SETTLED: Final = 1e-6
_STEP: Final = 1e-5
_REACH: Final = 0.2
"""How far to either side, in usual moves, slopes are taken that tell the width: a hop ends within
a picture, and the slope at a point of that is the slope of nothing else."""
_DRAWS: Final = 400
_TAIL: Final = 4.0
"""Residuals beyond so many spreads count less and less: a lost picture must not decide."""


@dataclass(frozen=True, slots=True, kw_only=True)
class RollFit:
    """Draws from what the film leaves possible, each an array (draws,), and how well it fits.

    ``misfit`` is what is left over in the pictures' own noise, 1 where the physics
    holds; ``loose`` how much the friction changed from step to step; ``best`` the most
    probable putt.
    """

    ball_speed_mps: Floats
    launch_rad: Floats
    spin_radps: Floats
    skid_m: Floats
    skid_s: Floats
    friction: Floats
    deceleration_mps2: Floats
    roll_start_mps: Floats
    total_m: Floats
    hop_m: Floats
    misfit: float
    loose: float
    strike_s: float
    scale: float
    bend_pm: float
    radius_share: float
    along_0_m: float
    best: SideStrike

    def undone(self, *, along_m: Floats, speed_mps: Floats) -> tuple[Floats, Floats]:
        """Places from the face and speeds as filmed, the film's scale and its bend taken out."""
        off = along_m - self.along_0_m
        straight = off / (1.0 + self.bend_pm * off)
        return straight / self.scale, speed_mps / (
            self.scale * (1.0 + 2.0 * self.bend_pm * straight)
        )

    def curves(self, *, until_s: float) -> tuple[Floats, Floats, Floats]:
        """Place, ball speed and surface speed of the most probable putt, from the strike on."""
        putt = side_view(self.best, time_s=np.linspace(0.0, until_s, 161))
        return putt.along_m, putt.speed_mps, putt.surface_mps


@dataclass(frozen=True, slots=True)
class _Solved:
    p: Floats
    covariance: Floats
    evidence: float
    misfit: float


def _solve(film: Filmed, *, loose: float, begins: list[Floats], extra: Floats) -> _Solved:
    middle, spread = prior_of(film, loose=loose, extra=extra)
    known = np.isfinite(spread)
    film = with_unevenness(film, unevenness_m=_UNEVEN_M * loose)

    def left(p: Floats) -> Floats:
        data = ((film_of(p, film) - film.seen_m) / film.sd_m).reshape(len(p), -1)
        # Pseudo-Huber by hand, so that the priors beside it stay quadratic.
        data *= np.sqrt(2.0 / (1.0 + np.sqrt(1.0 + (data / _TAIL) ** 2)))
        return np.concatenate([data, ((p - middle) / spread)[:, known]], axis=1)

    def slopes(p: Floats) -> Floats:
        # All at once: a putt a parameter, each moved a little.
        moved = left(np.vstack([p, p + np.diag(_STEP * scale)]))
        return np.asarray((moved[1:] - moved[0]).T / (_STEP * scale))

    scale = scales()
    ground = _Ground(left=left, slopes=slopes, scale=scale, bounds=bounds_of(middle, spread))
    best, cost = ground.lowest(begins)
    jacobian = _slopes_about(best, left=left, reach=_REACH * scale)
    hessian = jacobian.T @ jacobian
    units = np.outer(scale, scale)
    covariance = np.linalg.pinv(hessian * units, rcond=1e-13, hermitian=True) * units
    _, log_det = np.linalg.slogdet(hessian * units + 1e-9 * np.eye(len(scale)))
    log_prior = -float(np.sum(np.log(spread[known])))
    log_noise = -float(np.sum(np.log(film.along_sd_m)) + np.sum(np.log(film.turned_sd_m)))
    evidence = -cost + log_prior + log_noise - 0.5 * float(log_det)
    rows = left(best[None])[0, : 3 * len(film.time_s)]
    return _Solved(best, covariance, evidence, _misfit(rows))


def _slopes_about(p: Floats, *, left: Callable[[Floats], Floats], reach: Floats) -> Floats:
    """Slopes of the residuals over a stretch to either side of ``p``, (residuals, parameters)."""
    either = left(np.vstack([p + np.diag(reach), p - np.diag(reach)]))
    return np.asarray(((either[: p.size] - either[p.size :]) / (2.0 * reach)[:, None]).T)


@dataclass(frozen=True, slots=True, kw_only=True)
class _Ground:
    """Residuals and their slopes over the parameters, to go down on (Marquardt 1963)."""

    left: Callable[[Floats], Floats]
    slopes: Callable[[Floats], Floats]
    scale: Floats
    bounds: tuple[Floats, Floats]

    def lowest(self, begins: list[Floats]) -> tuple[Floats, float]:
        """The lowest place below these beginnings, and what it costs.

        A hop lasts a few pictures, and a launch that lands in another picture lies in a valley of
        its own: from the floor of the first, all are looked at.
        """
        floor = min((self.down(begin, rounds=_ROUNDS) for begin in begins), key=_cost)
        if len(begins) == 1:  # the floor of the fit before
            return floor
        looks = []
        for launch in _LAUNCHES:
            there = floor[0].copy()
            there[AT["rise_share"]] = launch
            looks.append(self.down(there, rounds=_LOOK))
        low = min(looks, key=_cost)
        return min(floor, self.down(low[0], rounds=_ROUNDS), key=_cost)

    def down(self, begin: Floats, *, rounds: int) -> tuple[Floats, float]:
        """Half the least squares near a beginning, and where; after so many rounds at most."""
        p, off = begin, self.left(begin[None])[0]
        cost, damp = 0.5 * float(off @ off), 1e-3
        for _ in range(rounds):
            slope = self.slopes(p) * self.scale
            square, pull = slope.T @ slope, slope.T @ off
            # What stands at its bound and would go beyond it stays.
            held = ((p <= self.bounds[0]) & (pull > 0.0)) | ((p >= self.bounds[1]) & (pull < 0.0))
            square[held], square[:, held], pull[held] = 0.0, 0.0, 0.0
            stiff = np.diag(square) + 1e-9
            before = cost
            while damp < _STUCK:
                step = np.linalg.solve(square + np.diag(damp * stiff), -pull) * self.scale
                there = np.clip(p + step, *self.bounds)
                off_there = self.left(there[None])[0]
                if 0.5 * float(off_there @ off_there) < cost:
                    p, off, cost = there, off_there, 0.5 * float(off_there @ off_there)
                    damp = max(0.2 * damp, 1e-7)
                    break
                damp *= 8.0
            if before - cost < _SETTLED * cost:
                break
        return p, cost


def _misfit(rows: Floats) -> float:
    """What runs of pictures are off together, beyond what each is off by itself: 1 for noise."""
    worst = 1.0
    for part in rows.reshape(3, -1):
        runs = part[: len(part) // 8 * 8].reshape(-1, 8).mean(axis=1) * math.sqrt(8.0)
        worst = max(worst, float(np.median(np.abs(runs))) / 0.6745)
    return worst


def fit_roll(
    film: Filmed, *, seed: int = 1, deceleration_mps2: float | None = None,
    tell: Callable[[int], object] = lambda _more: None,
) -> RollFit:  # fmt: skip
    """Fit the putt; see the module.

    Parameters
    ----------
    film
        The pictures, from some before the strike on.
    seed
        Of the draws.
    deceleration_mps2
        Of the green where its speed was measured, 8 % either way; else it is taken from the film.
    tell
        Called with 1 after each of the three fits.

    Returns
    -------
    RollFit
        The putt, with draws to take intervals from.
    """
    extra = (
        np.array([math.log(USUAL_DECELERATION_MPS2), 0.35])
        if deceleration_mps2 is None
        else np.array([math.log(deceleration_mps2), 0.08])
    )
    film = with_bumps(film)
    begins = _first_begins(film)
    solved = []
    for loose in LOOSE:
        found = _solve(film, loose=loose, begins=begins, extra=extra)
        solved.append(found)
        begins = [found.p]
        tell(1)
    weights = np.exp(np.array([each.evidence for each in solved]) - max(e.evidence for e in solved))
    weights /= weights.sum()
    return _drawn(film, solved, weights=weights, seed=seed)


def _cost(place: tuple[Floats, float]) -> float:
    return place[1]


def _first_begins(film: Filmed) -> list[Floats]:
    """Two frictions to begin from: the valley is long, and one of them lies on its floor."""
    begins = []
    for friction, spin in ((0.4, 0.0), (0.3, 0.2)):
        begin = first_guess(film)
        begin[AT["log_friction"]], begin[AT["surface_share"]] = math.log(friction), spin
        begins.append(begin)
    return begins


def _drawn(film: Filmed, solved: list[_Solved], *, weights: Floats, seed: int) -> RollFit:
    rng = np.random.default_rng(seed)
    counts = np.floor(weights * _DRAWS).astype(int)
    counts[int(np.argmax(weights))] += _DRAWS - int(counts.sum())
    rows = []
    beyond = []
    widths = zip(_WIDER, _WIDER_AT_FACE, LOOSE, strict=True)
    for each, count, (wider, at_face, loose) in zip(solved, counts, widths, strict=True):
        if not count:
            continue
        values, vectors = np.linalg.eigh(each.covariance)
        root = vectors * np.sqrt(np.maximum(values, 0.0))
        shift = rng.standard_normal((count, len(each.p))) @ root.T
        shift *= wider * each.misfit
        off_face = _figures(each.p + at_face * shift)
        rows.append(_figures(each.p + shift) | {name: off_face[name] for name in _AT_FACE})
        beyond.append(_CHANGES_ON * loose * rng.standard_normal(count))
    best = solved[int(np.argmax(weights))]
    figures = {name: np.concatenate([row[name] for row in rows]) for name in rows[0]}
    rolls = figures["total_m"] - figures["skid_m"]
    figures["total_m"] = figures["skid_m"] + rolls * np.exp(np.concatenate(beyond))
    return RollFit(
        **figures,
        misfit=float(sum(w * s.misfit for w, s in zip(weights, solved, strict=True))),
        loose=float(weights @ np.array(LOOSE)),
        strike_s=float(best.p[AT["strike_s"]]),
        scale=float(scale_of(best.p, film)),
        bend_pm=float(best.p[AT["bend_pm"]]),
        radius_share=math.exp(best.p[AT["log_radius"]]),
        along_0_m=float(best.p[AT["along_0"]]),
        best=strike_of(best.p),
    )


def _figures(p: Floats) -> dict[str, Floats]:
    """What is told of each of many putts, (putts, parameters)."""
    strike = strike_of(p)
    putt = side_view(strike, time_s=np.zeros((len(p), 1)))
    return {
        "ball_speed_mps": np.hypot(strike.along_mps, strike.rise_mps),
        "launch_rad": np.arctan2(strike.rise_mps, strike.along_mps),
        "spin_radps": np.asarray(strike.surface_mps) / BALL_RADIUS_M,
        "skid_m": putt.skid_m, "skid_s": putt.skid_s,
        "friction": np.mean(np.asarray(strike.frictions), axis=0),
        "deceleration_mps2": np.asarray(strike.deceleration_mps2),
        "roll_start_mps": putt.roll_start_mps, "total_m": putt.total_m, "hop_m": putt.hop_m,
    }  # fmt: skip
