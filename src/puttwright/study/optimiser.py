"""A generic Bayesian optimiser with as many putts: what a statistician might try instead.

It knows builds only as names. A Gaussian process over them, every pair equally
alike, is fitted to scores of small batches of putts; the next batch goes where
the expected improvement on the best mean is greatest (Jones, Schonlau & Welch
1998; the mean in place of the best score seen, as scores are noisy). At the end
it picks the build of the best mean and promises what that mean is ahead of the
own putter. The process is scikit-learn's, which running puttwright does not need.
"""

from __future__ import annotations

import dataclasses
import importlib.util
import warnings
from collections.abc import Callable, Sequence
from dataclasses import dataclass
from functools import cache
from typing import Final

import numpy as np
from numpy.typing import NDArray
from scipy.special import ndtr

from puttwright.evidence import Fitting, Putt
from puttwright.fitting.believe import own_first
from puttwright.fitting.value import course_of
from puttwright.study.rules import Pick, raw_pattern
from puttwright.study.tape import Tape
from puttwright.virtual.golfers import VirtualGolfer
from puttwright.worth.holing import outcome
from puttwright.worth.noise import TOUR_PACE_SD_PCT, TOUR_READ_NOISE, TOUR_START_SD_DEG
from puttwright.worth.pattern import Pattern
from puttwright.worth.rounds import deceleration_of, putts_per_round

Floats = NDArray[np.float64]
Score = Callable[[Fitting, Sequence[Putt]], list[float]]

LIBRARY: Final = "scikit-learn"
BATCH: Final = 4
_HOLES: Final = 18.0
_TABLE_M: Final = np.linspace(0.06, 15.0, 150)


@dataclass(frozen=True, slots=True, kw_only=True)
class Guess:
    """What the optimiser believes of each build's score, higher being better."""

    mean: Floats
    sd: Floats

    @property
    def expected_improvement(self) -> Floats:
        """How far each build may be expected to beat the best mean."""
        lead = self.mean - self.mean.max()
        sd = np.maximum(self.sd, 1e-12)
        density = np.exp(-0.5 * (lead / sd) ** 2) / np.sqrt(2.0 * np.pi)
        return np.asarray(lead * ndtr(lead / sd) + sd * density)


def installed() -> bool:
    """Whether the library the optimiser needs is there."""
    return importlib.util.find_spec("sklearn") is not None


def strokes_gained(fitting: Fitting, putts: Sequence[Putt]) -> list[float]:
    """Score of each putt: strokes gained on a tour player, as if every hole were such a putt."""
    expected = _tour_putts(fitting.fitting_green.speed_ft)
    return [
        _HOLES * (_from(expected, putt.distance_m) - 1.0 - _left(expected, putt)) for putt in putts
    ]


def worth_of_batch(fitting: Fitting, putts: Sequence[Putt]) -> list[float]:
    """One score for all: minus the putts a round that the batch's raw averages come to."""
    own = fitting.build(putts[0].build_id)
    batch = dataclasses.replace(fitting, builds=(own,), own_build=own.build_id, putts=tuple(putts))
    return [-float(putts_per_round(raw_pattern(batch), course=course_of(fitting))[0])]


def optimise(golfer: VirtualGolfer, *, seed: int, score: Score) -> Pick:
    """Plan as many putts as the golfer's fitting holds, and pick a build.

    Parameters
    ----------
    golfer
        Who putts; the readings in ``golfer.fitting`` are not used.
    seed
        Makes the putts and the order of the first ones.
    score
        Turns a batch of putts with one build into scores, higher being better.
    """
    fitting = golfer.fitting
    budget = len(fitting.putts)
    rng = np.random.default_rng(seed)
    tape = Tape(session=golfer.session, seed=seed)
    builds: list[int] = []
    scores: list[float] = []

    def take(build: int) -> None:
        got = score(fitting, tape.take(build, putts=BATCH))
        scores.extend(got)
        builds.extend([build] * len(got))

    for build in rng.permutation(len(fitting.builds)):
        take(int(build))
    while len(tape.putts) + BATCH <= budget:
        guess = _believe(builds, scores, count=len(fitting.builds))
        take(int(guess.expected_improvement.argmax()))
    return _pick(fitting, _believe(builds, scores, count=len(fitting.builds)))


OPTIMISERS: Final[dict[str, Score]] = {
    "Bayesian optimiser on strokes": strokes_gained,
    "Bayesian optimiser on worth": worth_of_batch,
}


def _pick(fitting: Fitting, guess: Guess) -> Pick:
    """The build of the best mean, numbered with the own putter first."""
    ids = [build.build_id for build in fitting.builds]
    best = ids[int(guess.mean.argmax())]
    ahead = float(guess.mean.max() - guess.mean[ids.index(fitting.own_build)])
    return Pick(build=[build.build_id for build in own_first(fitting)].index(best), promised=ahead)


def _believe(builds: Sequence[int], scores: Sequence[float], *, count: int) -> Guess:
    """Fit a Gaussian process with noise to the scores so far, in units of their spread."""
    from sklearn.exceptions import ConvergenceWarning  # noqa: PLC0415 - may not be installed
    from sklearn.gaussian_process import GaussianProcessRegressor  # noqa: PLC0415
    from sklearn.gaussian_process.kernels import (  # noqa: PLC0415
        ConstantKernel,
        Matern,
        WhiteKernel,
    )

    values = np.array(scores)
    middle, scale = float(values.mean()), float(values.std()) or 1.0
    # All builds lie equally far from each other, so the length says nothing beside the height.
    alike = ConstantKernel(0.3, (1e-3, 10.0)) * Matern(length_scale_bounds="fixed", nu=2.5)
    process = GaussianProcessRegressor(alike + WhiteKernel(0.7, (1e-3, 10.0)), random_state=0)
    names = np.eye(count)
    with warnings.catch_warnings():
        # A height or noise at its bound is an answer here: no difference seen, or no noise.
        warnings.simplefilter("ignore", ConvergenceWarning)
        process.fit(names[list(builds)], (values - middle) / scale)
    mean, sd = process.predict(names, return_std=True)
    noise = process.kernel_.k2.noise_level
    return Guess(mean=middle + scale * mean, sd=scale * np.sqrt(np.maximum(sd**2 - noise, 0.0)))


@cache
def _tour_putts(speed_ft: float) -> Floats:
    """Putts a tour player needs from each distance of the table on a green of that speed."""
    tour = Pattern(
        start_sd_rad=np.radians([TOUR_START_SD_DEG]),
        start_bias_rad=np.zeros(1),
        pace_sd=np.array([TOUR_PACE_SD_PCT / 100.0]),
        pace_bias=np.zeros(1),
    )
    result = outcome(
        tour,
        distance_m=_TABLE_M,
        deceleration_mps2=deceleration_of(speed_ft=speed_ft),
        noise=TOUR_READ_NOISE,
    )
    return np.asarray(result.putts[0])


def _from(expected: Floats, distance_m: float) -> float:
    return float(np.interp(distance_m, _TABLE_M, expected))


def _left(expected: Floats, putt: Putt) -> float:
    """Putts expected after this one."""
    if putt.holed or putt.stop_past_m is None:
        return 0.0
    return _from(expected, float(np.hypot(putt.stop_past_m, putt.stop_right_m or 0.0)))
