"""Invent golfers: a fitting as it would lie on disk, and the truth behind it."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Final

import numpy as np

from puttwright.evidence import (
    LEFT,
    RIGHT,
    AimReading,
    Fitting,
    FittingGreen,
    Golfer,
    Green,
    Putt,
)
from puttwright.virtual.putting import Device, Session
from puttwright.virtual.rack import invent_build
from puttwright.virtual.truth import TrueStroke, invent_stroke
from puttwright.virtual.worlds import WORLDS, World
from puttwright.worth.first_putts import TOUR_FIRST_PUTTS
from puttwright.worth.noise import read_noise_for
from puttwright.worth.rounds import Course, putts_per_round

PUTTS_A_BUILD: Final = 12
AIMS_A_BUILD: Final = 6
BLOCK: Final = 4
_DISTANCES_M: Final = (2.4, 3.6, 6.0)
_LETTERS: Final = "ABCDEFGH"


@dataclass(frozen=True, slots=True, kw_only=True)
class VirtualGolfer:
    """An invented golfer: ``fitting`` is what was read, ``truth`` what is so.

    ``truth`` holds, by build, the true biases and spreads and
    ``strokes_saved_per_round`` against the own putter, with the world's name.
    ``session`` lets the golfer putt on.
    """

    fitting: Fitting
    truth: dict[str, object]
    session: Session
    saved: dict[str, float]
    world: str

    def true_saved(self, build_id: str) -> float:
        """Strokes a round a build truly saves against the own putter."""
        return self.saved[build_id]


def invent(
    n: int, *, seed: int, putts: int = PUTTS_A_BUILD, aims: int = AIMS_A_BUILD
) -> list[VirtualGolfer]:
    """Invent ``n`` golfers of mixed worlds; the same seed gives the same golfers.

    Parameters
    ----------
    n
        How many.
    seed
        Makes all of them; golfer ``k`` does not depend on ``n``.
    putts, aims
        Readings with each build.
    """
    seeds = np.random.SeedSequence(seed).spawn(n)
    return [
        invent_one(number, world=WORLDS[number % len(WORLDS)], rng=np.random.default_rng(one),
                   putts=putts, aims=aims)
        for number, one in enumerate(seeds)
    ]  # fmt: skip


def invent_one(
    number: int, *, world: World, rng: np.random.Generator, putts: int, aims: int
) -> VirtualGolfer:
    """One golfer of a world; every third is left-handed."""
    handed = LEFT if number % 3 == 2 else RIGHT
    handicap = round(float(rng.uniform(0.0, 24.0)), 1)
    builds = tuple(
        invent_build(letter, label=f"Trial {letter}" if index else "Own putter", rng=rng)
        for index, letter in enumerate(_LETTERS[: int(rng.integers(5, 8))])
    )
    stroke = invent_stroke(builds, world=world, handicap=handicap, handed=handed, rng=rng)
    green_ft = round(float(rng.uniform(8.5, 11.0)), 1)
    session = Session(
        stroke=stroke,
        world=world,
        device=Device(sensor=bool(rng.random() < 0.6)),
        green_ft=green_ft,
        build_ids=tuple(build.build_id for build in builds),
        expected_putts=putts * len(builds),
    )
    fitting = Fitting(
        fitting_id=f"virtual-{number:04d}",
        date="2026-05-01",
        golfer=Golfer(alias=f"Invented golfer {number + 1}", handed=handed, handicap=handicap,
                      stature_mm=round(float(rng.normal(1760.0, 70.0)), 0)),
        greens=(
            Green(name="Home green", speed_ft=round(float(rng.uniform(8.0, 11.5)), 1), share=0.7),
            Green(name="Away green", speed_ft=round(float(rng.uniform(8.0, 12.0)), 1), share=0.3),
        ),
        fitting_green=FittingGreen(speed_ft=green_ft),
        own_build=builds[0].build_id,
        builds=builds,
        aims=_aims(session, aims=aims, rng=rng),
        putts=_putts(session, putts=putts, rng=rng),
    )  # fmt: skip
    saved, facts = _true_worth(fitting, stroke)
    best = max(saved, key=saved.__getitem__)
    return VirtualGolfer(
        fitting=fitting,
        truth={"world": world.name, "best": best, "builds": facts},
        session=session,
        saved=saved,
        world=world.name,
    )


def _aims(session: Session, *, aims: int, rng: np.random.Generator) -> tuple[AimReading, ...]:
    order = [build for build in range(len(session.build_ids)) for _ in range(aims)]
    return tuple(
        session.aim(seq=seq, build=build, rng=rng) for seq, build in enumerate(order, start=1)
    )


def _putts(session: Session, *, putts: int, rng: np.random.Generator) -> tuple[Putt, ...]:
    """Blocks of a few putts a build, builds in a new order each round."""
    done: list[Putt] = []
    for first in range(0, putts, BLOCK):
        for build in rng.permutation(len(session.build_ids)):
            for k in range(first, min(first + BLOCK, putts)):
                distance = _DISTANCES_M[k % len(_DISTANCES_M)]
                seq = len(done) + 1
                done.append(session.putt(seq=seq, build=int(build), distance_m=distance, rng=rng))
    return tuple(done)


def course_of_truth(fitting: Fitting) -> Course:
    """The course on which an invented golfer's strokes are counted."""
    return Course(
        greens=fitting.greens,
        first_putts=TOUR_FIRST_PUTTS,
        noise=read_noise_for(handicap=fitting.golfer.handicap),
    )


def _true_worth(
    fitting: Fitting, stroke: TrueStroke
) -> tuple[dict[str, float], dict[str, dict[str, float]]]:
    """Strokes saved by build, and all that is true of each build."""
    putts = putts_per_round(stroke.pattern, course=course_of_truth(fitting))
    saved = putts[0] - putts
    builds = {
        build.build_id: {
            "strokes_saved_per_round": float(saved[b]),
            "putts_per_round": float(putts[b]),
            "aim_bias_deg": float(stroke.aim_bias_deg[b]),
            "start_bias_deg": float(stroke.start_bias_deg[b]),
            "start_sd_deg": float(stroke.start_sd_deg[b]),
            "pace_bias_pct": float(stroke.pace_bias_pct[b]),
            "pace_sd_pct": float(stroke.pace_sd_pct[b]),
        }
        for b, build in enumerate(fitting.builds)
    }
    return {b: facts["strokes_saved_per_round"] for b, facts in builds.items()}, builds
