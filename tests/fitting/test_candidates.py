"""Builds never in hand: proposed only where the rack allows, believed only as far as taught."""

from __future__ import annotations

import dataclasses

import numpy as np
import pytest

from puttwright.evidence import Part
from puttwright.fitting.believe import believe
from puttwright.fitting.candidates import candidates_of, predict
from puttwright.fitting.decide import decide
from puttwright.virtual.golfers import invent


@pytest.fixture(scope="module")
def fitting():
    plain = invent(1, seed=31)[0].fitting
    head = Part(part_id=plain.builds[1].head_id, kind="head", loft_min_deg=0.0, loft_max_deg=4.0)
    return dataclasses.replace(plain, rack=(head,))


@pytest.fixture(scope="module")
def belief(fitting):
    return believe(fitting, seed=1)


def test_metal_that_is_not_on_the_rack_is_not_bent(fitting):
    found = candidates_of(fitting, builds=fitting.builds)

    assert found
    assert {candidate.parent for candidate in found} == {1}


def test_no_bend_goes_beyond_the_limits(fitting):
    loft = fitting.builds[1].loft_deg

    for candidate in candidates_of(fitting, builds=fitting.builds):
        assert 0.0 <= candidate.build.loft_deg <= 4.0
        assert 0.0 < abs(candidate.build.loft_deg - loft) <= 2.0


def test_lengths_come_from_shafts_in_stock(fitting):
    longer = fitting.builds[0].length_mm + 25.0
    shafts = (
        Part(part_id="s1", kind="shaft", length_mm=longer, stock=2),
        Part(part_id="s2", kind="shaft", length_mm=longer + 10.0, stock=0),
    )

    found = candidates_of(dataclasses.replace(fitting, rack=shafts), builds=fitting.builds)

    assert {candidate.build.length_mm for candidate in found} == {longer}


def test_a_variant_that_changes_nothing_is_its_parent(fitting, belief):
    candidate = candidates_of(fitting, builds=belief.builds)[0]
    same = dataclasses.replace(candidate, build=belief.builds[candidate.parent])

    pattern = predict(belief, [same], handed="right", draws=200, seed=1)
    parent = belief.pattern(draws=200)

    assert np.allclose(pattern.start_bias_rad[:, 0], parent.start_bias_rad[:, 1], atol=1e-4)
    assert np.allclose(pattern.pace_bias[:, 0], parent.pace_bias[:, 1], atol=5e-4)


def test_a_variant_is_less_certain_than_its_parent(fitting, belief):
    found = candidates_of(fitting, builds=belief.builds)

    pattern = predict(belief, found, handed="right", draws=500, seed=1)
    parent = belief.pattern(draws=500).start_bias_rad[:, 1]

    assert (pattern.start_bias_rad.std(axis=0) >= 0.98 * parent.std()).all()


def test_a_lever_the_readings_show_is_followed_and_marked(fitting):
    """Starts move two degrees for each degree of loft: bending the best head on is proposed."""
    handed = fitting.golfer.handed
    lofts = [4.0, 3.0, 5.0, 6.0]
    builds = tuple(
        dataclasses.replace(fitting.builds[0], build_id=f"L{k}", head_id=f"h{k}", loft_deg=loft)
        for k, loft in enumerate(lofts)
    )
    rng = np.random.default_rng(3)
    putts, aims = [], []
    for build in builds:
        bias = 1.2 * (build.loft_deg - 1.0)
        mine = [p for p in fitting.putts if p.build_id == fitting.putts[0].build_id]
        for k, putt in enumerate(mine * 2):
            start = bias + 0.7 * rng.standard_normal()
            putts.append(
                dataclasses.replace(
                    putt, seq=len(putts) + 1, build_id=build.build_id, start_deg=start,
                    holed=None, stop_past_m=0.4 + 0.1 * (k % 3), stop_right_m=None,
                )
            )  # fmt: skip
        aim = fitting.aims[0]
        for _ in range(8):
            reading = 2000.0 * np.tan(np.radians(bias + 0.3 * rng.standard_normal()))
            aims.append(
                dataclasses.replace(
                    aim, seq=len(aims) + 1, build_id=build.build_id, reading_mm=reading
                )
            )
    rack = (Part(part_id="h1", kind="head", loft_min_deg=1.0, loft_max_deg=6.0),)
    taught = dataclasses.replace(
        fitting, builds=builds, own_build="L0", putts=tuple(putts), aims=tuple(aims), rack=rack
    )

    decision = decide(taught, worth_draws=400)

    assert handed in {"right", "left"}
    assert decision.extrapolated
    assert decision.spec["loft_deg"] < 3.0
    assert "never in hand" in decision.reasons[0].text
    assert decision.next_trial.putts >= 6
