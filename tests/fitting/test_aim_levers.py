"""Which lever turns the aim, and whether the eyes' place does: told only where readings say it."""

from __future__ import annotations

import dataclasses
import math

import numpy as np
import pytest

from puttwright.evidence import (
    AimReading,
    Build,
    Fitting,
    FittingGreen,
    Golfer,
    Green,
    SetupReading,
)
from puttwright.evidence.signs import mirrored
from puttwright.fitting.aim_eyes import aim_by_eyes, eyes_reasons
from puttwright.fitting.aim_levers import aim_levers, lever_reasons
from puttwright.fitting.believe import believe

OFFSETS = (0.0, 10.0, 20.0, 30.0, 40.0)


def _fitting(*, turn_deg, bias_deg=0.0, setups=()):
    """A golfer whose aim turns by so much for every 10 mm of offset."""
    builds = tuple(
        Build(build_id=f"b{k}", length_mm=864, lie_deg=71, loft_deg=3, offset_mm=offset)
        for k, offset in enumerate(OFFSETS)
    )
    rng = np.random.default_rng(3)
    aims = tuple(
        AimReading(
            seq=10 * k + n, build_id=f"b{k}", board_distance_mm=2000,
            reading_mm=2000 * math.tan(
                math.radians(bias_deg + turn_deg * offset / 10 + 0.3 * rng.standard_normal())
            ),
        )
        for k, offset in enumerate(OFFSETS)
        for n in range(8)
    )  # fmt: skip
    return Fitting(
        fitting_id="f", date="2026-05-01", golfer=Golfer(alias="Robin", handed="right"),
        greens=(Green(name="home", speed_ft=10, share=1.0),),
        fitting_green=FittingGreen(speed_ft=10), own_build="b0", builds=builds, aims=aims,
        setups=setups,
    )  # fmt: skip


def _levers(fitting):
    belief = believe(fitting, seed=1)
    found = aim_levers(belief, handed=fitting.golfer.handed)
    return {each.lever: each for each in found}, belief


@pytest.fixture(scope="module")
def offset_turns():
    return _fitting(turn_deg=0.6)


def test_a_lever_that_turns_the_aim_is_found_and_named(offset_turns):
    found, belief = _levers(offset_turns)
    low, high = found["offset_mm"].effect.interval_90
    words = [reason.text for reason in lever_reasons(belief, handed="right")]

    assert low < 0.6 < high
    assert found["offset_mm"].sure
    assert found["offset_mm"].effect.sd < found["offset_mm"].prior.sd
    assert words[0].startswith("10 mm more offset turns this golfer's aim 0.")
    assert " right (" in words[0]


def test_a_left_handers_lever_turns_the_other_way(offset_turns):
    right, left = _levers(offset_turns)[0], _levers(mirrored(offset_turns))[0]

    assert left["offset_mm"].effect.mean == pytest.approx(-right["offset_mm"].effect.mean, abs=0.08)
    assert left["loft_deg"].prior.mean == -right["loft_deg"].prior.mean > 0


def test_common_practice_gives_loft_its_sign_and_no_more():
    """Common practice, no source: less loft aims a right-hander right, more loft left."""
    found, belief = _levers(_fitting(turn_deg=0.0))

    assert found["loft_deg"].prior.mean < 0
    assert not found["loft_deg"].tried
    assert not found["loft_deg"].sure
    assert lever_reasons(belief, handed="right") == ()


def test_a_lever_nobody_tried_stays_as_wide_as_it_was(offset_turns):
    found, belief = _levers(offset_turns)
    strength = belief.posterior.draws["aim"].strength
    untried = found["lie_deg"]

    assert untried.effect.mean == pytest.approx(0.0, abs=0.02)
    assert untried.effect.sd == pytest.approx(0.15 * np.sqrt(np.mean(strength**2)), rel=0.1)


def test_without_aim_readings_nothing_is_told(offset_turns):
    bare = dataclasses.replace(offset_turns, aims=())

    assert _levers(bare)[0] == {}


def _eyes(*values):
    return tuple(
        SetupReading(seq=k, build_id=f"b{k}", eye_inside_mm=value)
        for k, value in enumerate(values)
        if value is not None
    )


def test_aim_is_told_apart_by_where_the_eyes_are():
    fitting = _fitting(turn_deg=0.6, bias_deg=1.0, setups=_eyes(0.0, 5.0, None, 40.0, 50.0))
    belief = believe(fitting, seed=1)
    over, inside = aim_by_eyes(fitting, belief)
    reason = eyes_reasons(fitting, belief)[0]

    assert (over.where, over.build_ids) == ("over", ("b0", "b1"))
    assert (inside.where, inside.build_ids) == ("inside", ("b3", "b4"))
    assert inside.against.mean == pytest.approx(0.6 * 3.0, abs=0.4)
    assert "they differ" in reason.text
    assert {rows.table: len(rows.seq) for rows in reason.rests_on} == {"setups": 4, "aims": 32}


def test_no_difference_is_said_to_be_none():
    fitting = _fitting(turn_deg=0.0, setups=_eyes(0.0, 40.0))

    assert (
        "no difference that could be told"
        in eyes_reasons(fitting, believe(fitting, seed=1))[0].text
    )


def test_eyes_at_one_place_have_nothing_to_be_held_against():
    fitting = _fitting(turn_deg=0.0, setups=_eyes(0.0, 5.0))

    assert eyes_reasons(fitting, believe(fitting, seed=1)) == ()
