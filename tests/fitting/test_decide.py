"""Decisions on invented golfers: honest, mirrored for the other hand, the same every time."""

from __future__ import annotations

import dataclasses
import re

import numpy as np
import pytest

from puttwright.evidence.signs import mirrored
from puttwright.fitting.decide import decide
from puttwright.fitting.wire import to_json
from puttwright.virtual.golfers import invent


@pytest.fixture(scope="module")
def golfer():
    return invent(1, seed=21)[0]


@pytest.fixture(scope="module")
def decision(golfer):
    return decide(golfer.fitting, seed=1, worth_draws=300)


def test_it_says_something_of_every_build(golfer, decision):
    assert set(decision.builds) == {build.build_id for build in golfer.fitting.builds}
    assert decision.choice in {*decision.builds, "keep", "undecided"}


def test_the_own_putter_saves_nothing_against_itself(golfer, decision):
    own = decision.builds[golfer.fitting.own_build].strokes_saved_per_round

    assert (own.mean, own.sd) == (0.0, 0.0)


def test_the_same_seed_gives_the_same_decision(golfer, decision):
    assert to_json(decide(golfer.fitting, seed=1, worth_draws=300)) == to_json(decision)


def test_a_left_handers_mirror_image_is_worth_the_same(golfer, decision):
    other = decide(mirrored(golfer.fitting), seed=1, worth_draws=300)

    for build_id, verdict in decision.builds.items():
        twin = other.builds[build_id]
        assert twin.strokes_saved_per_round.mean == pytest.approx(
            verdict.strokes_saved_per_round.mean, abs=0.35
        )
        bias = verdict.quantities["start_bias_deg"].mean
        assert twin.quantities["start_bias_deg"].mean == pytest.approx(-bias, abs=0.12)


def test_reasons_point_at_rows_that_are_there(golfer, decision):
    seqs = {
        "putts": {putt.seq for putt in golfer.fitting.putts},
        "aims": {aim.seq for aim in golfer.fitting.aims},
    }

    rests = [rest for reason in decision.reasons for rest in reason.rests_on]

    assert rests
    for rest in rests:
        assert set(rest.seq) <= seqs[rest.table]


def only(fitting, **tables):
    return dataclasses.replace(fitting, **tables)


def test_no_putts_at_all_is_a_wide_honest_interval(golfer):
    bare = decide(only(golfer.fitting, putts=(), aims=()), worth_draws=300)

    spans = [np.ptp(v.strokes_saved_per_round.interval_90) for v in bare.builds.values()]
    assert bare.choice in {"keep", "undecided"}
    assert max(spans) > 2.0
    assert any("No putt counts" in caution for caution in bare.cautions)


def test_voided_putts_do_not_count(golfer):
    void = tuple(dataclasses.replace(putt, void=True) for putt in golfer.fitting.putts)

    decision = decide(only(golfer.fitting, putts=void), worth_draws=300)

    assert all(verdict.putts_used == 0 for verdict in decision.builds.values())
    assert sum(verdict.putts_left_out for verdict in decision.builds.values()) == len(void)


def test_one_build_is_kept(golfer):
    own = golfer.fitting.own_build
    alone = only(
        golfer.fitting,
        builds=(golfer.fitting.build(own),),
        putts=tuple(p for p in golfer.fitting.putts if p.build_id == own),
        aims=tuple(a for a in golfer.fitting.aims if a.build_id == own),
    )

    decision = decide(alone, worth_draws=300)

    assert decision.choice == "keep"
    assert decision.next_trial is None


def test_one_putt_a_build_is_survived(golfer):
    first = {putt.build_id: putt for putt in reversed(golfer.fitting.putts)}

    decision = decide(only(golfer.fitting, putts=tuple(first.values()), aims=()), worth_draws=300)

    assert all(verdict.putts_used == 1 for verdict in decision.builds.values())


def test_a_build_that_is_plainly_better_is_chosen(golfer):
    """Trial B starts every putt on line; the own putter starts them two degrees off."""
    own, better = golfer.fitting.own_build, golfer.fitting.builds[1].build_id
    rng = np.random.default_rng(2)
    putts = []
    for putt in golfer.fitting.putts:
        if putt.build_id in {own, better}:
            bias = 2.0 if putt.build_id == own else 0.0
            putts.append(
                dataclasses.replace(
                    putt,
                    start_deg=bias + 0.8 * rng.standard_normal(),
                    holed=None,
                    stop_past_m=0.4,
                    stop_right_m=None,
                )
            )
    decision = decide(only(golfer.fitting, putts=tuple(putts), aims=()), worth_draws=300)

    assert decision.choice == better
    assert decision.builds[better].strokes_saved_per_round.interval_90[0] > 0


@pytest.mark.parametrize("seed", [24, 27])
def test_further_putts_promise_no_more_than_knowing_all(seed):
    some = only(invent(1, seed=seed)[0].fitting, putts=(), aims=())
    bare = decide(some, worth_draws=200)
    said = next(each.text for each in bare.reasons if each.text.startswith("Knowing all"))

    all_of_it, of_these = map(float, re.findall(r"about (\d+\.\d+)", said))
    assert of_these <= all_of_it


def test_what_a_trial_of_the_own_putter_settles_names_it_once(golfer):
    bare = decide(only(golfer.fitting, putts=()), seed=1, worth_draws=200)

    assert bare.next_trial.build_id == golfer.fitting.own_build
    assert bare.next_trial.settles == "how good the golfer's own putter really is"
