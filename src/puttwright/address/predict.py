"""What a golfer's address is with a putter, held before or not.

Another length or lie is met by trunk, neck, arms, elbows, grip and sole, each giving as
readily as the table says: the likeliest way to close the chain. What is asked about a
putter never held teaches nothing of the body, so the posterior stays as it is.
"""

from __future__ import annotations

from dataclasses import dataclass
from typing import Final

import numpy as np
from scipy.special import ndtri

from puttwright.address.linkage import GOLFER_SIZE, MET_SIZE, OUTPUTS, Held, outputs, posed
from puttwright.address.pose import Floats, Pose
from puttwright.address.posterior import AddressBelief, slopes
from puttwright.address.usual import CLOSES_TO_M

_NINETY: Final = float(ndtri(0.95))
FAR: Final = 3.0
"""Strain beyond which a prediction is told as a guess."""
TOO_FAR: Final = 7.0
"""Strain at which nobody is taken to stand like that."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Figure:
    """A mean and its standard deviation."""

    mean: float
    sd: float

    @property
    def interval_90(self) -> tuple[float, float]:
        """Central 90 % interval."""
        return self.mean - _NINETY * self.sd, self.mean + _NINETY * self.sd


@dataclass(frozen=True, slots=True, kw_only=True)
class Prediction:
    """How this golfer stands to a putter, on average over addresses.

    ``mean`` and ``covariance`` in the order of ``linkage.OUTPUTS``; ``pose`` is the middle of
    it; ``strain`` how far it is from the habit, in the standard deviations of what gives.
    """

    held: Held
    mean: Floats
    covariance: Floats
    pose: Pose
    strain: float
    measured: bool

    def figure(self, name: str) -> Figure:
        """One of ``linkage.OUTPUTS``."""
        at = OUTPUTS.index(name)
        return Figure(mean=float(self.mean[at]), sd=float(np.sqrt(self.covariance[at, at])))

    @property
    def flush_lie(self) -> Figure:
        """The lie at which this sole would lie flush in those hands [rad].

        The shaft stays where the hands hold it: toe up wants a flatter lie by as much.
        """
        tilt = self.figure("sole_tilt_rad")
        return Figure(mean=self.held.lie_rad - tilt.mean, sd=tilt.sd)

    @property
    def guess(self) -> bool:
        """Never held, and further from the habit than putters are usually met."""
        return not self.measured and self.strain > FAR


def predict(belief: AddressBelief, held: Held) -> Prediction:
    """How the golfer stands to a putter.

    Parameters
    ----------
    belief
        What was learnt.
    held
        The putter and how it is held.

    Returns
    -------
    Prediction
        Of the mean address; a single one lies about it as ``belief.noise`` says.
    """
    golfer = belief.mean[:GOLFER_SIZE]
    if held in belief.met:
        own = belief.columns_of(held)
        met = belief.mean[own]
        keep = np.r_[0:GOLFER_SIZE, own]
        spread = belief.covariance[np.ix_(keep, keep)]
        whole = np.hstack(_slopes_of_outputs(golfer, met, held))
        covariance = whole @ spread @ whole.T
    else:
        met = _settle(golfer, held)
        covariance = _spread_if_new(belief, met, held)
    return Prediction(
        held=held,
        mean=outputs(golfer, met, held=held),
        covariance=covariance,
        pose=posed(golfer, met, held=held),
        strain=float(np.linalg.norm(met)),
        measured=held in belief.met,
    )


def _settle(golfer: Floats, held: Held) -> Floats:
    """The likeliest way to close the chain with this putter: least giving in all."""
    met = np.zeros(MET_SIZE)
    for _ in range(60):
        gap = float(posed(golfer, met, held=held).misses_m)
        slope = _slopes_of_gap(golfer, met, held)[1]
        nearer = -slope * (gap - slope @ met) / (CLOSES_TO_M**2 + slope @ slope)
        step = np.clip(nearer - met, -2.0, 2.0)
        met = met + step
        if np.abs(step).max() < 1e-9:
            break
    return met


def _spread_if_new(belief: AddressBelief, met: Floats, held: Held) -> Floats:
    """Covariance of what is shown: what is not known of the golfer, and how each joint may give."""
    golfer = belief.mean[:GOLFER_SIZE]
    gap_by_golfer, gap_by_met = _slopes_of_gap(golfer, met, held)
    gives = gap_by_met / (CLOSES_TO_M**2 + gap_by_met @ gap_by_met)
    by_golfer, by_met = _slopes_of_outputs(golfer, met, held)
    free = np.eye(MET_SIZE) - np.outer(gives, gap_by_met)
    whole = by_golfer - np.outer(by_met @ gives, gap_by_golfer)
    known = belief.covariance[:GOLFER_SIZE, :GOLFER_SIZE]
    return np.asarray(whole @ known @ whole.T + by_met @ free @ by_met.T)


def _slopes_of_outputs(golfer: Floats, met: Floats, held: Held) -> tuple[Floats, Floats]:
    return (
        slopes(lambda at: outputs(at, met, held=held), golfer),
        slopes(lambda at: outputs(golfer, at, held=held), met),
    )


def _slopes_of_gap(golfer: Floats, met: Floats, held: Held) -> tuple[Floats, Floats]:
    """How the gap between grip and hands moves with the golfer and with how they meet it."""
    return (
        slopes(lambda at: posed(at, met, held=held).misses_m[..., None], golfer)[0],
        slopes(lambda at: posed(golfer, at, held=held).misses_m[..., None], met)[0],
    )
