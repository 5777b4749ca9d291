"""Builds never in hand: proposed only where the rack allows, believed only as far as taught."""

from __future__ import annotations

import dataclasses

import numpy as np
import pytest

from puttwright.evidence import Part
from puttwright.fitting.believe import believe
from puttwright.fitting.candidates import candidates_of
from puttwright.fitting.decide import decide
from puttwright.fitting.predict import predict
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
    assert {candidate.kin for candidate in found} == {1}


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
    same = dataclasses.replace(candidate, build=belief.builds[candidate.kin])

    pattern = predict(belief, [same], handed="right", draws=200, seed=1)
    parent = belief.pattern(draws=200)

    assert np.allclose(pattern.start_bias_rad[:, 0], parent.start_bias_rad[:, 1], atol=1e-4)
    assert np.allclose(pattern.pace_bias[:, 0], parent.pace_bias[:, 1], atol=5e-4)


def test_a_variant_is_less_certain_than_its_parent(fitting, belief):
    found = candidates_of(fitting, builds=belief.builds)

    pattern = predict(belief, found, handed="right", draws=500, seed=1)
    parent = belief.pattern(draws=500).start_bias_rad[:, 1]

    assert (pattern.start_bias_rad.std(axis=0) >= 0.98 * parent.std()).all()


@pytest.mark.parametrize("own", ["L0", "L1"])
def test_a_lever_the_readings_show_is_followed_and_marked(fitting, own):
    """Starts move with loft: bending the best head on is proposed, the own putter's too."""
    lofts = [4.0, 3.0, 5.0, 6.0]
    builds = tuple(
        dataclasses.replace(fitting.builds[0], build_id=f"L{k}", head_id=f"h{k}", loft_deg=loft)
        for k, loft in enumerate(lofts)
    )
    putts, aims = _taught(fitting, builds)
    rack = (Part(part_id="h1", kind="head", loft_min_deg=1.0, loft_max_deg=6.0),)
    taught = dataclasses.replace(
        fitting, builds=builds, own_build=own, putts=putts, aims=aims, rack=rack
    )

    decision = decide(taught, worth_draws=400)

    assert decision.extrapolated
    assert decision.spec["loft_deg"] < 3.0
    assert "never in hand" in decision.reasons[0].text
    assert decision.next_trial.putts >= 6
    _has_a_verdict_of_its_own(decision, own=own, tried={build.build_id for build in builds})


def _has_a_verdict_of_its_own(decision, *, own, tried):
    assert decision.choice not in tried
    assert decision.spec["build_id"] == decision.choice == decision.next_trial.build_id
    verdict = decision.builds[decision.choice]
    assert verdict.putts_used == 0
    assert verdict.quantities == {}
    assert verdict.strokes_saved_per_round.mean > 0.1
    assert verdict.probability_better > 0.6
    assert decision.builds[own].strokes_saved_per_round.mean == 0.0
    assert sum(each.probability_best for each in decision.builds.values()) == pytest.approx(1.0)


def _taught(fitting, builds):
    """Readings in which aim and start move 1.2° with each degree of loft."""
    rng = np.random.default_rng(3)
    mine = [putt for putt in fitting.putts if putt.build_id == fitting.putts[0].build_id]
    putts, aims = [], []
    for build in builds:
        bias = 1.2 * (build.loft_deg - 1.0)
        for k, putt in enumerate(mine * 2):
            start = bias + 0.7 * rng.standard_normal()
            putts.append(
                dataclasses.replace(
                    putt, seq=len(putts) + 1, build_id=build.build_id, start_deg=start,
                    holed=None, stop_past_m=0.4 + 0.1 * (k % 3), stop_right_m=None,
                )
            )  # fmt: skip
        for _ in range(8):
            reading = 2000.0 * np.tan(np.radians(bias + 0.3 * rng.standard_normal()))
            aims.append(
                dataclasses.replace(
                    fitting.aims[0], seq=len(aims) + 1, build_id=build.build_id, reading_mm=reading
                )
            )
    return tuple(putts), tuple(aims)


def test_lies_are_bent_within_their_own_limits(fitting):
    lie = fitting.builds[1].lie_deg
    head = Part(
        part_id=fitting.builds[1].head_id, kind="head", lie_min_deg=lie - 1.0, lie_max_deg=lie
    )

    found = candidates_of(dataclasses.replace(fitting, rack=(head,)), builds=fitting.builds)

    assert [candidate.build.lie_deg for candidate in found] == [lie - 1.0]
    assert {candidate.build.loft_deg for candidate in found} == {fitting.builds[1].loft_deg}


def test_a_head_nobody_tried_is_put_on_the_own_shaft_if_in_stock(fitting, belief):
    own = belief.builds[0]
    rack = (
        Part(part_id="new", kind="head", label="Tall one", loft_deg=2.5, stock=1, mass_g=355.0,
             loft_min_deg=2.0, loft_max_deg=3.5),
        Part(part_id="gone", kind="head", loft_deg=2.5, stock=0),
        Part(part_id="unmeasured", kind="head", stock=3),
    )  # fmt: skip

    found = candidates_of(dataclasses.replace(fitting, rack=rack), builds=belief.builds)

    assert [(c.build.build_id, c.build.loft_deg) for c in found] == [
        ("head-new", 2.5), ("head-new-loft3.5", 3.5),
    ]  # fmt: skip
    assert {c.kin for c in found} == {len(belief.builds)}
    assert (found[0].build.length_mm, found[0].build.head_mass_g) == (own.length_mm, 355.0)
    assert found[0].build.total_mass_g is None


def test_a_head_nobody_tried_is_known_least(fitting, belief):
    bent = candidates_of(fitting, builds=belief.builds)[0]
    rack = (Part(part_id="new", kind="head", loft_deg=fitting.builds[1].loft_deg),)
    new = candidates_of(dataclasses.replace(fitting, rack=rack), builds=belief.builds)[0]

    pattern = predict(belief, [bent, new], handed="right", draws=500, seed=1)

    spread_of_bias = pattern.pace_bias.std(axis=0)
    assert spread_of_bias[1] > 1.1 * spread_of_bias[0]
    spread_of_spread = np.log(pattern.start_sd_rad).std(axis=0)
    assert spread_of_spread[1] > spread_of_spread[0]


def test_no_candidate_takes_the_id_of_another_build(fitting):
    builds = list(fitting.builds)
    head = fitting.rack[0]
    taken = f"{builds[1].build_id}-loft{builds[1].loft_deg - 1.0:g}"
    builds[2] = dataclasses.replace(builds[2], build_id=taken)
    wide = dataclasses.replace(head, loft_min_deg=builds[1].loft_deg - 1.0)

    found = candidates_of(dataclasses.replace(fitting, rack=(wide,)), builds=builds)

    ids = [candidate.build.build_id for candidate in found] + [build.build_id for build in builds]
    assert len(set(ids)) == len(ids)
