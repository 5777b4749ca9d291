"""What each drawing needs, taken from a fitting and, once there is one, its decision."""

from __future__ import annotations

import math
from collections import Counter
from collections.abc import Mapping

from puttwright.address.laser import face_angle_rad
from puttwright.evidence import AimReading, Build, Fitting, Putt, columns_of
from puttwright.fitting.decision import KEEP, UNDECIDED, BuildVerdict, Decision, Estimate
from puttwright.pictures.aim_board import AimSet
from puttwright.pictures.builds import BuildMark, Role, letter_for
from puttwright.pictures.green import Spread, StopSet
from puttwright.pictures.make import MakeLine
from puttwright.pictures.strokes import SavedRow
from puttwright.pictures.svg import Point
from puttwright.worth.pattern import PLANNED_PAST_M

USUAL_BOARD_MM = 2000.0
"""Where the board is drawn when nothing was read yet."""


def marks(fitting: Fitting, decision: Decision | None = None) -> dict[str, BuildMark]:
    """Letter, name and role of every build, in the order of the fitting's table.

    A build that only the decision knows (one that was never in hand) comes last
    and counts as a guess.
    """
    names = {build.build_id: build.name for build in fitting.builds}
    if decision:
        made = {decision.choice} - {KEEP, UNDECIDED}
        for build_id in (*decision.builds, *made):
            label = decision.spec.get("label") if build_id in made else None
            names.setdefault(build_id, str(label or build_id))
    in_hand = {build.build_id for build in fitting.builds}
    return {
        build_id: BuildMark(
            letter=letter_for(order),
            name=name,
            role=_role(build_id, fitting=fitting, decision=decision),
            order=order,
            guess=build_id not in in_hand or _guessed(build_id, decision),
        )
        for order, (build_id, name) in enumerate(names.items())
    }


def _role(build_id: str, *, fitting: Fitting, decision: Decision | None) -> Role:
    if build_id == fitting.own_build:
        return "own"
    return "choice" if decision and build_id == decision.choice else "other"


def _guessed(build_id: str, decision: Decision | None) -> bool:
    return bool(decision and decision.extrapolated and build_id == decision.choice)


def chosen_build(fitting: Fitting, decision: Decision) -> Build | None:
    """The build the decision asks for, in hand or made of its spec; ``None`` to keep or wait."""
    if decision.choice in {KEEP, UNDECIDED}:
        return None
    known = [build for build in fitting.builds if build.build_id == decision.choice]
    if known and not decision.extrapolated:
        return known[0]
    wanted = {column.name for column in columns_of(Build)}
    spec = {name: value for name, value in decision.spec.items() if name in wanted}
    return Build(**{"build_id": decision.choice, **spec})  # type: ignore[arg-type]


def saved_rows(fitting: Fitting, decision: Decision) -> list[SavedRow]:
    """The rows of the strokes drawing, in the order of the letters."""
    return [
        SavedRow(
            mark=mark,
            saved=None if mark.role == "own" else _saved(decision.builds.get(build_id)),
            probability_better=_better(decision.builds.get(build_id), mark=mark),
        )
        for build_id, mark in marks(fitting, decision).items()
        if mark.role == "own" or build_id in decision.builds
    ]


def _saved(verdict: BuildVerdict | None) -> Estimate | None:
    return verdict.strokes_saved_per_round if verdict else None


def _better(verdict: BuildVerdict | None, *, mark: BuildMark) -> float | None:
    return verdict.probability_better if verdict and mark.role != "own" else None


def aim_angle_deg(aim: AimReading, /) -> float:
    """Where the face looked, from one reading of the board [°], right positive."""
    return math.degrees(
        face_angle_rad(
            reading_m=aim.reading_mm / 1000.0,
            board_distance_m=aim.board_distance_mm / 1000.0,
            mirror=aim.mirror,
        )
    )


def board_distance_mm(fitting: Fitting) -> float:
    """Where the board mostly stood [mm]."""
    counts = Counter(aim.board_distance_mm for aim in fitting.aims)
    return max(counts, key=lambda distance: (counts[distance], distance), default=USUAL_BOARD_MM)


def aim_sets(fitting: Fitting, decision: Decision | None = None) -> list[AimSet]:
    """The readings of every build that has some."""
    last = max((aim.seq for aim in fitting.aims), default=None)
    sets = []
    for build_id, mark in marks(fitting, decision).items():
        own = sorted((a for a in fitting.aims if a.build_id == build_id), key=lambda a: a.seq)
        if not own:
            continue
        found = _quantities(decision, build_id)
        spread = found.get("aim_sd_deg")
        sets.append(
            AimSet(
                mark=mark,
                angles_deg=tuple(aim_angle_deg(aim) for aim in own),
                bias=found.get("aim_bias_deg"),
                spread_deg=spread.mean if spread else None,
                latest=own[-1].seq == last,
            )
        )
    return sets


def _quantities(decision: Decision | None, build_id: str) -> Mapping[str, Estimate]:
    verdict = decision.builds.get(build_id) if decision else None
    return verdict.quantities if verdict else {}


def usual_distances(fitting: Fitting) -> list[float]:
    """The lengths putted from [m], the most used first.

    Lengths used nearly as often as the most used come first by length: from
    nearer the hole both line and pace show in where the putts stop.
    """
    counts = Counter(putt.distance_m for putt in fitting.used_putts)
    often = 0.8 * max(counts.values(), default=0)
    return sorted(counts, key=lambda d: (0 if counts[d] >= often else -counts[d] + often, d))


def stop_sets(
    fitting: Fitting, decision: Decision | None = None, *, distance_m: float
) -> list[StopSet]:
    """Where the putts from one distance stopped, a set for every build that has some."""
    last = max((putt.seq for putt in fitting.used_putts), default=None)
    sets = []
    for build_id, mark in marks(fitting, decision).items():
        putts = sorted(
            (
                p
                for p in fitting.used_putts
                if p.build_id == build_id and p.distance_m == distance_m
            ),
            key=lambda putt: putt.seq,
        )
        if not putts:
            continue
        seen = [(putt.seq, stop) for putt in putts if (stop := _stop(putt)) is not None]
        holed = sum(bool(putt.holed) for putt in putts)
        sets.append(
            StopSet(
                mark=mark,
                stops=tuple(stop for _, stop in seen),
                holed=holed,
                unseen=len(putts) - holed - len(seen),
                spread=_spread(decision, build_id, distance_m=distance_m),
                latest=bool(seen) and seen[-1][0] == last,
            )
        )
    return sets


def _stop(putt: Putt) -> Point | None:
    """Right of the line and past the hole, where a miss was measured well enough to draw."""
    if putt.holed or putt.stop_past_m is None:
        return None
    if putt.stop_right_m is not None:
        return putt.stop_right_m, putt.stop_past_m
    if putt.start_deg is None:
        return None
    along = putt.distance_m + putt.stop_past_m
    return along * math.tan(math.radians(putt.start_deg)), putt.stop_past_m


def _spread(decision: Decision | None, build_id: str, *, distance_m: float) -> Spread | None:
    """The model's start line and pace as the spread of stops at this distance."""
    found = _quantities(decision, build_id)
    try:
        line, line_sd = found["start_bias_deg"].mean, found["start_sd_deg"].mean
        pace, pace_sd = found["pace_bias_pct"].mean / 100.0, found["pace_sd_pct"].mean / 100.0
    except KeyError:
        return None
    intended = distance_m + PLANNED_PAST_M
    roll = intended * (1.0 + pace)
    return Spread(
        right_m=roll * math.sin(math.radians(line)),
        past_m=roll * math.cos(math.radians(line)) - distance_m,
        right_sd_m=roll * math.radians(line_sd),
        past_sd_m=intended * pace_sd,
    )


def make_lines(fitting: Fitting, decision: Decision) -> list[MakeLine]:
    """The own putter and the choice; without a choice, the own putter and the best of the rest."""
    every = marks(fitting, decision)
    others = [build_id for build_id in decision.builds if build_id != fitting.own_build]
    if decision.choice in decision.builds:
        others = [build_id for build_id in others if build_id == decision.choice]
    else:
        others.sort(key=lambda build_id: -decision.builds[build_id].strokes_saved_per_round.mean)
    shown = [fitting.own_build, *others[:1]]
    return [
        MakeLine(mark=every[build_id], make_pct=decision.builds[build_id].make_pct)
        for build_id in shown
        if build_id in decision.builds and decision.builds[build_id].make_pct
    ]
