"""A fitting in memory is judged whole: values, rows, tables, and what one says of another."""

from __future__ import annotations

from dataclasses import replace

import pytest

from puttwright.evidence import Build, FirstPutt, Golfer, Green, Part, Putt
from puttwright.evidence.check import check


def told(fitting):
    return [str(fault) for fault in check(fitting)]


def greens(*shares):
    return tuple(Green(name="g", speed_ft=9, share=share) for share in shares)


def with_putt(fitting, **fields):
    return replace(fitting, putts=(Putt(seq=9, build_id="own", distance_m=3, **fields),))


def with_build(fitting, **fields):
    own = {"build_id": "own", "length_mm": 864, "lie_deg": 70, "loft_deg": 3}
    return replace(fitting, putts=(), builds=(Build(**{**own, **fields}),))


def test_a_good_fitting_has_no_faults(fitting):
    assert check(fitting) == []


@pytest.mark.parametrize("shares", [(1,), (0.5, 0.5), (0.33, 0.33, 0.33), (0.333, 0.667)])
def test_shares_that_make_up_all_rounds_are_good(fitting, shares):
    assert check(replace(fitting, greens=greens(*shares))) == []


@pytest.mark.parametrize("shares", [(0.4, 0.5), (0.6, 0.6), (0.0,)])
def test_shares_that_do_not_are_told(fitting, shares):
    [fault] = told(replace(fitting, greens=greens(*shares)))

    assert fault.startswith("fitting.json, greens: the shares sum to")


def test_no_green_and_no_build_are_told(fitting):
    assert told(replace(fitting, greens=(), builds=(), putts=(), aims=())) == [
        "fitting.json, own_build: 'own' is not a build of builds.csv",
        "fitting.json, greens: name at least one green this golfer plays",
        "builds.csv: there is no build; the golfer's own is one",
    ]


def test_builds_of_putts_and_aims_must_be_there(fitting):
    only_own = replace(fitting, builds=fitting.builds[:1])

    assert told(only_own) == ["putts.csv, row 3, build_id: 'B' is not a build of builds.csv"]


def test_one_seq_is_one_row(fitting):
    twice = replace(fitting, putts=fitting.putts[:1] * 3)

    assert [fault[:25] for fault in told(twice)] == [
        "putts.csv, row 3, seq: 1 ",
        "putts.csv, row 4, seq: 1 ",
    ]


@pytest.mark.parametrize(
    ("fields", "fault"),
    [
        ({"ball_speed_mps": 40.0}, "ball_speed_mps: 40 m/s is out of range"),
        ({"ball_speed_mps": float("nan")}, "ball_speed_mps: nan is not a finite number"),
        ({"start_deg": float("inf")}, "start_deg: inf is not a finite number"),
        ({"holed": True, "stop_past_m": 1.0}, "holed: true, yet the ball stopped 1 m from"),
        ({"holed": True, "stop_right_m": -0.9}, "holed: true, yet the ball stopped 0.9 m from"),
        ({"stop_past_m": -5.0}, "stop_past_m: -5 m of a putt of 3 m is behind the golfer"),
    ],
)
def test_a_wrong_putt_is_told(fitting, fields, fault):
    [found] = told(with_putt(fitting, **fields))

    assert found.startswith(f"putts.csv, row 2, {fault}")


@pytest.mark.parametrize(
    "fields",
    [
        {"holed": True, "stop_past_m": 0.1},
        {"holed": True, "stop_past_m": 1.0, "void": True},
        {"holed": False, "stop_past_m": 6.0},
        {"stop_past_m": -3.2},
    ],
)
def test_a_putt_that_can_have_been_is_not(fitting, fields):
    assert check(with_putt(fitting, **fields)) == []


@pytest.mark.parametrize(
    ("fields", "column"),
    [
        ({"loft_deg": 45.0}, "loft_deg"),
        ({"head_shape": "banana"}, "head_shape"),
        ({"head_mass_g": 350.0, "total_mass_g": 340.0}, "total_mass_g"),
        ({"balance_from_butt_mm": 900.0}, "balance_from_butt_mm"),
        ({"label": "x" * 1001}, "label"),
        ({"label": "x\0"}, "label"),
    ],
)
def test_a_wrong_build_is_told(fitting, fields, column):
    [found] = told(with_build(fitting, **fields))

    assert found.startswith(f"builds.csv, row 2, {column}: ")


@pytest.mark.parametrize("build_id", ["keep", "undecided", " own", "a\nb", "x" * 65])
def test_a_build_may_not_be_called(fitting, build_id):
    [found] = told(replace(with_build(fitting, build_id=build_id), own_build=build_id, aims=()))

    assert found.startswith("builds.csv, row 2, build_id: ")


def test_a_range_that_ends_before_it_begins_is_told(fitting):
    part = Part(part_id="h", kind="head", lie_min_deg=72, lie_max_deg=70)

    [found] = told(replace(fitting, rack=(part,)))

    assert found.startswith("rack.csv, row 2, lie_min_deg: 72 is more than the other end")


@pytest.mark.parametrize("per_round", [0, 10])
def test_first_putts_must_fit_a_round(fitting, per_round):
    putts = (FirstPutt(distance_m=3, per_round=per_round),) * 2

    assert [fault[:26] for fault in told(replace(fitting, first_putts=putts))] == [
        "fitting.json, first_putts:"
    ]


def test_an_instrument_has_one_entry_for_a_quantity(fitting):
    twice = replace(fitting, instruments=fitting.instruments[:1] * 2)

    assert told(twice) == [
        "fitting.json, instruments, entry 2: 'laser' already has an entry for reading_mm"
    ]


def test_a_body_is_put_together_from_the_ground_up(fitting):
    golfer = Golfer(alias="A", handed="left", wrist_height_mm=900, stature_mm=900)

    [found] = told(replace(fitting, golfer=golfer))

    assert found.startswith("fitting.json, golfer, wrist_height_mm: 900 mm is not below stature_mm")


@pytest.mark.parametrize("date", ["2026-02-30", "yesterday", "31/05/2026"])
def test_a_date_must_be_one(fitting, date):
    [found] = told(replace(fitting, date=date))

    assert found.startswith("fitting.json, date: ")


def test_many_alike_are_counted_and_not_repeated(fitting):
    putts = tuple(
        Putt(seq=seq, build_id="own", distance_m=3, ball_speed_mps=40) for seq in range(100)
    )

    found = told(replace(fitting, putts=putts))

    assert len(found) == 21
    assert found[-1] == "putts.csv, ball_speed_mps: 80 more rows like these, down to row 101"
