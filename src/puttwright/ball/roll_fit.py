"""From a putt as filmed from the side to its launch, skid and roll, each with its interval.

The physics of :mod:`puttwright.ball.side_view` is fitted to place, height and turning together.
Turf need not obey it: friction may change while the ball slides, grass may slow it. So the same
putt is fitted three times, with turf that hardly does so, by a tenth, by a third; each fit counts
as much as the film bears it out (its evidence: MacKay 1992). What then is left over beyond the
pictures' own noise widens all intervals.
"""

from __future__ import annotations

import math
from collections.abc import Callable
from dataclasses import dataclass
from typing import Final

import numpy as np
from numpy.typing import NDArray

from puttwright.ball.roll_ground import Ground, Place, Walk
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
_WIDER: Final = dict(zip(LOOSE, (1.3, 2.4, 2.4), strict=True))
"""How much wider intervals are made, for each of the three: neighbouring pictures err alike, and
turf that changes changes in more ways than the model knows (set on one set of rendered clips, its
coverage told from another)."""
_NO_PUTT: Final = 3.2
"""So much left over on any turf shows no putt that the physics knows, but a line or a ball misread
(no clip that the widths were set on left more than 3.0)."""
_LOST: Final = 10.0
"""How much wider the intervals then are: such figures tell nothing."""
_WIDER_AT_FACE: Final = {"ball_speed_mps": 1.6, "launch_rad": 2.2, "spin_radps": 2.2}
"""And where turf changes again so much wider off the face: what it does is seen all along the
slide, and these only through its first pictures (set likewise)."""
_EITHER_WAY: Final = ("launch_rad", "spin_radps")
_NOTHING: Final = 1e-4
"""Less than this is nothing, in metres, seconds or what they make: a logarithm needs something."""
_CHANGES_ON: Final = 0.5
"""Where friction changes from step to step, so may the resistance of what was not filmed: by so
much of it, on the whole (a guess)."""
_UNEVEN_M: Final = 1e-3
"""How far off the physics a putt may be where friction changes by its all: a guess, and the
evidence decides."""
_DRAWS: Final = 400
_HOPELESS: Final = 12.0
"""Turf so much less probable, as a logarithm, is not looked at further."""


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


@dataclass(frozen=True, slots=True, kw_only=True)
class _Turf:
    """Turf that changes by so much, and what the film leaves of a putt on it."""

    loose: float
    ground: Ground
    known: float

    def probable(self, place: Place) -> float:
        """Logarithm of how probable such turf is, as the lowest place alone tells it."""
        return self.known + place.density


@dataclass(frozen=True, slots=True)
class _Solved:
    loose: float
    walk: Walk
    evidence: float
    misfit: float

    @property
    def p(self) -> Floats:
        """The most probable putt."""
        return min(self.walk.places, key=_cost).p


def _turf(film: Filmed, *, loose: float, extra: Floats) -> _Turf:
    middle, spread = prior_of(film, loose=loose, extra=extra)
    said = np.isfinite(spread)
    film = with_unevenness(film, unevenness_m=_UNEVEN_M * loose)
    count = 3 * len(film.time_s)

    def left(p: Floats) -> Floats:
        off = np.empty((len(p), count + int(said.sum())))
        data = off[:, :count].reshape(len(p), 3, -1)
        np.subtract(film_of(p, film), film.seen_m, out=data)
        data /= film.sd_m
        off[:, count:] = ((p - middle) / spread)[:, said]
        return off

    return _Turf(
        loose=loose,
        ground=Ground(left=left, data=count, scale=scales(), bounds=bounds_of(middle, spread)),
        known=-float(
            np.log(spread[said]).sum()
            + np.log(film.along_sd_m).sum() + np.log(film.turned_sd_m).sum()
        ),
    )  # fmt: skip


def _solved(turf: _Turf, floor: Place) -> _Solved:
    walk = turf.ground.walk(floor)
    best = min(walk.places, key=_cost)
    rows = turf.ground.left(best.p[None])[0, : turf.ground.data]
    return _Solved(turf.loose, walk, turf.known + walk.evidence, _misfit(rows))


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
    turfs = [_turf(film, loose=loose, extra=extra) for loose in LOOSE]
    begins = _first_begins(film)
    floors = []
    for turf in turfs:
        floors.append(turf.ground.lowest(begins))
        begins = [floors[-1].p]
    probable = [turf.probable(floor) for turf, floor in zip(turfs, floors, strict=True)]
    solved = []
    for turf, floor, each in zip(turfs, floors, probable, strict=True):
        if each > max(probable) - _HOPELESS:
            solved.append(_solved(turf, floor))
        tell(1)
    weights = np.exp(np.array([each.evidence for each in solved]) - max(e.evidence for e in solved))
    weights /= weights.sum()
    return _drawn(film, solved, weights=weights, seed=seed)


def _cost(place: Place) -> float:
    return place.cost


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
    for each, count in zip(solved, counts, strict=True):
        if not count:
            continue
        wide = _WIDER[each.loose] * each.misfit
        wide *= _LOST if each.misfit > _NO_PUTT else 1.0
        at_face = _WIDER_AT_FACE if each.loose > LOOSE[0] else {}
        figures = _figures(each.walk.draws(rng, count=count))
        rows.append({
            name: _spread(name, draws, wide=wide * at_face.get(name, 1.0))
            for name, draws in figures.items()
        })  # fmt: skip
        beyond.append(_CHANGES_ON * each.loose * rng.standard_normal(count))
    best = solved[int(np.argmax(weights))]
    figures = {name: np.concatenate([row[name] for row in rows]) for name in rows[0]}
    rolls = figures["total_m"] - figures["skid_m"]
    figures["total_m"] = figures["skid_m"] + rolls * np.exp(np.concatenate(beyond))
    return RollFit(
        **figures,
        misfit=float(sum(w * s.misfit for w, s in zip(weights, solved, strict=True))),
        loose=float(weights @ np.array([each.loose for each in solved])),
        strike_s=float(best.p[AT["strike_s"]]),
        scale=float(scale_of(best.p, film)),
        bend_pm=float(best.p[AT["bend_pm"]]),
        radius_share=math.exp(best.p[AT["log_radius"]]),
        along_0_m=float(best.p[AT["along_0"]]),
        best=strike_of(best.p),
    )


def _spread(name: str, draws: Floats, *, wide: float) -> Floats:
    """Draws so many times as far from their middle; what cannot be negative by its logarithm."""
    if name in _EITHER_WAY:
        middle = np.median(draws)
        apart = middle + wide * (draws - middle)
        # No ball goes down into the turf that it lies on.
        return np.asarray(np.maximum(apart, 0.0) if name == "launch_rad" else apart)
    log = np.log(np.maximum(draws, _NOTHING))
    middle = np.median(log)
    return np.asarray(np.exp(np.clip(middle + wide * (log - middle), -9.0, 9.0)))


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
