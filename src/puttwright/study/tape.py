"""Readings as they are taken, for plans that choose the next putter and distance on the way."""

from __future__ import annotations

import dataclasses
from collections import Counter
from typing import Final

import numpy as np

from puttwright.evidence import AimReading, Fitting, Putt
from puttwright.virtual.putting import Session

DISTANCES_M: Final = (2.4, 3.6, 6.0)
_PUTT, _AIM = 0, 1


class Tape:
    """Lets an invented golfer putt and aim, and keeps what was read in order.

    The luck of the tenth putt with a build is the same whatever plan led to it, so that
    plans on tapes of one seed differ in what they chose and not in luck.
    """

    def __init__(self, *, session: Session, seed: int) -> None:
        self.session = session
        self.seed = seed
        self.putts: list[Putt] = []
        self.aims: list[AimReading] = []
        self._taken: Counter[tuple[int, int]] = Counter()

    def take(
        self, build: int, *, putts: int, aims: int = 0, distance_m: float | None = None
    ) -> tuple[Putt, ...]:
        """Putt and aim with build number ``build``, from distances in turn unless one is given."""
        for _ in range(putts):
            turn = DISTANCES_M[self._taken[_PUTT, build] % len(DISTANCES_M)]
            putt = self.session.putt(
                seq=len(self.putts) + 1,
                build=build,
                distance_m=distance_m or turn,
                rng=self._luck(_PUTT, build),
            )
            self.putts.append(putt)
        for _ in range(aims):
            rng = self._luck(_AIM, build)
            self.aims.append(self.session.aim(seq=len(self.aims) + 1, build=build, rng=rng))
        return tuple(self.putts[len(self.putts) - putts :])

    def _luck(self, kind: int, build: int) -> np.random.Generator:
        """What makes the next reading of a kind with a build."""
        self._taken[kind, build] += 1
        return np.random.default_rng([self.seed, kind, build, self._taken[kind, build]])

    def fitting(self, like: Fitting) -> Fitting:
        """``like`` with the readings so far in place of its own."""
        return dataclasses.replace(like, putts=tuple(self.putts), aims=tuple(self.aims))
