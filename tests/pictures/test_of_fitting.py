from __future__ import annotations

import dataclasses

import pytest

from puttwright.evidence import AimReading, Putt
from puttwright.pictures.of_fitting import (
    aim_angle_deg,
    aim_sets,
    board_distance_mm,
    chosen_build,
    make_lines,
    marks,
    saved_rows,
    stop_sets,
    usual_distances,
)


def test_letters_follow_the_table_and_stay(samples):
    before, after = marks(samples.FITTING), marks(samples.FITTING, samples.DECISION)
    letters = {build_id: mark.letter for build_id, mark in before.items()}
    assert letters == {"own": "A", "mallet-slant": "B", "half-plumber": "C"}
    assert {build_id: mark.letter for build_id, mark in after.items()} == letters


def test_roles_come_from_the_decision(samples):
    assert [m.role for m in marks(samples.FITTING, samples.DECISION).values()] == [
        "own", "choice", "other",
    ]  # fmt: skip
    kept = marks(samples.FITTING, samples.KEEP).values()
    assert [mark.role for mark in kept] == ["own", "other", "other"]


def _never_in_hand(samples):
    spec = {"build_id": "new", "label": "Never tried", "length_mm": 850.0, "lie_deg": 70.0,
            "loft_deg": 2.0, "unknown_column": "x"}  # fmt: skip
    verdict = samples.DECISION.builds["mallet-slant"]
    return dataclasses.replace(
        samples.DECISION, choice="new", spec=spec, extrapolated=True,
        builds={**samples.DECISION.builds, "new": verdict},
    )  # fmt: skip


def test_a_build_never_in_hand_is_a_guess(samples):
    decision = _never_in_hand(samples)
    mark = marks(samples.FITTING, decision)["new"]
    assert (mark.letter, mark.role, mark.guess, mark.style) == ("D", "choice", True, "hidden")
    assert mark.name == "Never tried"
    assert len(saved_rows(samples.FITTING, decision)) == 4
    assert chosen_build(samples.FITTING, decision).name == "Never tried"


def test_keep_and_undecided_choose_nothing(samples):
    assert chosen_build(samples.FITTING, samples.KEEP) is None
    assert chosen_build(samples.FITTING, samples.UNDECIDED) is None
    assert chosen_build(samples.FITTING, samples.DECISION).build_id == "mallet-slant"


def test_a_mirror_turns_twice():
    face = AimReading(seq=1, build_id="b", board_distance_mm=1000, reading_mm=100)
    mirror = dataclasses.replace(face, mirror=True)
    assert aim_angle_deg(face) == pytest.approx(2 * aim_angle_deg(mirror))


def test_the_board_stands_where_it_mostly_stood(samples):
    odd = dataclasses.replace(samples.FITTING.aims[0], board_distance_mm=3000.0)
    fitting = dataclasses.replace(samples.FITTING, aims=(odd, *samples.FITTING.aims[1:]))
    assert board_distance_mm(fitting) == 2000.0
    assert board_distance_mm(dataclasses.replace(fitting, aims=())) == 2000.0


def test_voided_putts_are_not_drawn(samples):
    putts = [s.putts for d in (3.0, 9.0) for s in stop_sets(samples.FITTING, distance_m=d)]
    assert sum(putts) == len(samples.FITTING.used_putts)


def test_a_miss_nobody_measured_is_counted_and_not_drawn(samples):
    putts = (
        Putt(seq=1, build_id="own", distance_m=2.0, holed=True),
        Putt(seq=2, build_id="own", distance_m=2.0, holed=False),
        Putt(seq=3, build_id="own", distance_m=2.0, holed=False, stop_past_m=0.4, start_deg=-1.0),
        Putt(seq=4, build_id="own", distance_m=2.0, holed=False, stop_past_m=0.4),
    )
    (item,) = stop_sets(dataclasses.replace(samples.FITTING, putts=putts), distance_m=2.0)
    assert (item.holed, item.unseen, len(item.stops), item.putts) == (1, 2, 1, 4)
    assert item.stops[0][0] == pytest.approx(-0.0419, abs=1e-4)


def test_the_most_used_length_comes_first_and_of_equals_the_shorter(samples):
    assert usual_distances(samples.FITTING) == [3.0, 9.0]
    short = tuple(p for p in samples.FITTING.putts if p.distance_m == 9.0 or p.seq < 3)
    assert usual_distances(dataclasses.replace(samples.FITTING, putts=short)) == [9.0, 3.0]
    assert usual_distances(dataclasses.replace(samples.FITTING, putts=())) == []


def test_the_models_spread_is_laid_over_the_putts(samples):
    own = stop_sets(samples.FITTING, samples.DECISION, distance_m=3.0)[0].spread
    left = stop_sets(samples.LEFT_FITTING, samples.LEFT_DECISION, distance_m=3.0)[0].spread
    assert own.past_m == pytest.approx(3.43 * 1.02 - 3.0, abs=0.01)
    assert left.right_m == pytest.approx(-own.right_m)


def test_make_lines_are_own_and_choice(samples):
    assert [line.mark.letter for line in make_lines(samples.FITTING, samples.DECISION)] == [
        "A",
        "B",
    ]
    assert [line.mark.role for line in make_lines(samples.FITTING, samples.KEEP)] == [
        "own",
        "other",
    ]


def test_aim_sets_leave_out_builds_without_readings(samples):
    aims = tuple(a for a in samples.FITTING.aims if a.build_id != "own")
    sets = aim_sets(dataclasses.replace(samples.FITTING, aims=aims))
    assert [item.mark.letter for item in sets] == ["B", "C"]
