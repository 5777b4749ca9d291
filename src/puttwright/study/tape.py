"""Readings as they are taken, for plans that choose the next putter and distance on the way."""

from __future__ import annotations

import dataclasses
from typing import Final

import numpy as np

from puttwright.evidence import AimReading, Fitting, Putt
from puttwright.virtual.putting import Session

DISTANCES_M: Final = (2.4, 3.6, 6.0)


class Tape:
    """Lets an invented golfer putt and aim, and keeps what was read in order."""

    def __init__(self, *, session: Session, rng: np.random.Generator) -> None:
        self.session = session
        self.rng = rng
        self.putts: list[Putt] = []
        self.aims: list[AimReading] = []

    def take(
        self, build: int, *, putts: int, aims: int = 0, distance_m: float | None = None
    ) -> tuple[Putt, ...]:
        """Putt and aim with build number ``build``, from distances in turn unless one is given."""
        for _ in range(putts):
            seq = len(self.putts) + 1
            turn = DISTANCES_M[seq % len(DISTANCES_M)]
            self.putts.append(
                self.session.putt(seq=seq, build=build, distance_m=distance_m or turn, rng=self.rng)
            )
        for _ in range(aims):
            seq = len(self.aims) + 1
            self.aims.append(self.session.aim(seq=seq, build=build, rng=self.rng))
        return tuple(self.putts[len(self.putts) - putts :])

    def fitting(self, like: Fitting) -> Fitting:
        """``like`` with the readings so far in place of its own."""
        return dataclasses.replace(like, putts=tuple(self.putts), aims=tuple(self.aims))
