"""The decision a moment after a reading: near the one a new chain makes, or none at all."""

from __future__ import annotations

import dataclasses

import numpy as np
import pytest

from puttwright.evidence import LEFT
from puttwright.fitting.decide import decide, decide_with_footing
from puttwright.fitting.early import carry, early_decision
from puttwright.virtual.golfers import invent

GOLFERS = [golfer.fitting for golfer in invent(6, seed=901, putts=12, aims=3)]


def without(fitting, *, last=1):
    """The fitting before its last putts came."""
    return dataclasses.replace(fitting, putts=fitting.putts[:-last])


def saved(decision):
    return {name: each.strokes_saved_per_round for name, each in decision.builds.items()}


@pytest.fixture(scope="module")
def footing():
    return decide_with_footing(without(GOLFERS[0]))[1]


@pytest.mark.slow
def test_it_is_as_near_to_the_new_decision_as_another_seed_is():
    assert {fitting.golfer.handed for fitting in GOLFERS} > {LEFT}
    gaps, wider, luck = [], [], []
    for fitting in GOLFERS:
        early = early_decision(decide_with_footing(without(fitting))[1], fitting)
        assert early is not None
        settled, other = saved(decide(fitting)), saved(decide(fitting, seed=2))
        for build_id in settled.keys() & saved(early).keys() & other.keys() - {fitting.own_build}:
            told, kept = saved(early)[build_id], settled[build_id]
            gaps.append(told.mean - kept.mean)
            luck.append(other[build_id].mean - kept.mean)
            wider.append(np.ptp(told.interval_90) / np.ptp(kept.interval_90))

    assert np.std(gaps) < 1.3 * np.std(luck)
    assert np.mean(wider) == pytest.approx(1.0, abs=0.05)


def test_it_rests_on_all_readings_and_says_how_many(footing):
    early = early_decision(footing, GOLFERS[0])
    settled = decide(GOLFERS[0])

    assert early is not None
    assert early.inputs_sha256 == settled.inputs_sha256
    used = {name: each.putts_used for name, each in settled.builds.items()}
    assert {name: each.putts_used for name, each in early.builds.items()} == used
    assert early.model.ess_min < footing.weighed.belief.posterior.diagnostics.ess_min


def test_with_nothing_new_it_says_what_was_decided(footing):
    before = without(GOLFERS[0])

    early = early_decision(footing, before)

    assert early is not None
    for name, each in saved(decide(before)).items():
        assert saved(early)[name].mean == pytest.approx(each.mean, abs=1e-12)


def far_right(fitting):
    """The last putt, started two degrees to the right of where it was."""
    putt = fitting.putts[-1]
    moved = dataclasses.replace(putt, start_deg=(putt.start_deg or 0.0) + 2.0, stop_right_m=None)
    return dataclasses.replace(fitting, putts=(*fitting.putts[:-1], moved))


def start_of(footing, build_id):
    column = [build.build_id for build in footing.weighed.builds].index(build_id)
    return footing.weighed.pattern.start_bias_rad[:, column].mean()


def test_a_corrected_putt_takes_the_old_one_back(footing):
    whole = decide_with_footing(GOLFERS[0])[1]
    build_id = GOLFERS[0].putts[-1].build_id

    moved = carry(whole, far_right(GOLFERS[0]))

    assert moved is not None
    assert start_of(moved, build_id) > start_of(whole, build_id) + 1e-3


def test_a_voided_putt_is_taken_out_again():
    whole = decide_with_footing(GOLFERS[0])[1]
    putt = dataclasses.replace(GOLFERS[0].putts[-1], void=True)
    voided = dataclasses.replace(GOLFERS[0], putts=(*GOLFERS[0].putts[:-1], putt))

    early = early_decision(whole, voided)

    assert early is not None
    assert early.builds[putt.build_id].putts_left_out == 1


def test_none_where_more_than_readings_changed(footing):
    fitting = GOLFERS[0]
    build = dataclasses.replace(fitting.builds[1], loft_deg=fitting.builds[1].loft_deg + 0.5)
    bent = dataclasses.replace(fitting, builds=(fitting.builds[0], build, *fitting.builds[2:]))

    assert early_decision(footing, bent) is None


def test_none_where_a_quantity_was_not_read_before(footing):
    fitting = GOLFERS[0]
    launched = dataclasses.replace(fitting.putts[-1], launch_deg=2.0)
    read = {name for name, rows in footing.weighed.belief.gathered.rows.items() if rows}
    assert "launch" not in read

    more = dataclasses.replace(fitting, putts=(*fitting.putts[:-1], launched))

    assert early_decision(footing, more) is None


def test_none_where_what_came_is_too_much_for_the_draws(footing):
    fitting = GOLFERS[0]
    build_id = fitting.builds[1].build_id
    many = tuple(
        dataclasses.replace(
            putt, seq=1000 + k, build_id=build_id, start_deg=4.0, stop_right_m=None, holed=None
        )
        for k, putt in enumerate(fitting.putts[:8])
    )

    assert (
        early_decision(footing, dataclasses.replace(fitting, putts=(*fitting.putts, *many))) is None
    )


def test_the_only_reading_of_a_quantity_can_be_taken_back():
    fitting = GOLFERS[0]
    launched = dataclasses.replace(fitting.putts[-1], launch_deg=2.0)
    footing = decide_with_footing(
        dataclasses.replace(fitting, putts=(*fitting.putts[:-1], launched))
    )[1]

    early = early_decision(footing, fitting)

    assert early is not None
    assert "launch_deg" not in early.builds[launched.build_id].quantities
