from __future__ import annotations

import math

from puttwright.fitting.decide import decide
from puttwright.fitting.decision import (
    BuildVerdict,
    Decision,
    Estimate,
    ModelRun,
    NextTrial,
    Reason,
    RestsOn,
)
from puttwright.fitting.wire import to_json
from puttwright.store.decision_json import decision_from
from puttwright.virtual.golfers import invent

SAVED = Estimate(mean=0.42, sd=0.3, interval_90=(-0.1, 0.92), interval_50=(0.2, 0.6))
DECISION = Decision(
    choice="undecided",
    spec={"build_id": "B", "length_mm": 864.0},
    builds={
        "B": BuildVerdict(
            strokes_saved_per_round=SAVED,
            probability_better=0.9,
            probability_best=0.8,
            make_pct={1.5: Estimate(mean=81, sd=math.nan, interval_90=(70, 90))},
            quantities={"aim_bias_deg": Estimate(mean=0.8, sd=0.2, interval_90=(0.5, 1.1))},
            putts_used=12,
            putts_left_out=1,
        )
    },
    next_trial=NextTrial(build_id="B", distance_m=3.0, putts=6, aims=2, settles="whether it holds"),
    reasons=(Reason(text="It aims true.", rests_on=(RestsOn(table="aims", seq=(1, 2)),)),),
    cautions=("Mind the wind.",),
    model=ModelRun(version="1", seed=1, draws=100, r_hat_max=1.01, ess_min=400),
    inputs_sha256="abc",
    more_putts=12,
    extrapolated=True,
)


def test_a_decision_comes_back_as_it_was_written() -> None:
    document = to_json(DECISION)

    assert to_json(decision_from(document)) == document


def test_what_is_drawn_is_the_same() -> None:
    back = decision_from(to_json(DECISION))

    assert back.builds["B"].strokes_saved_per_round == SAVED
    assert back.builds["B"].quantities == DECISION.builds["B"].quantities
    assert (back.spec, back.extrapolated, back.more_putts) == (DECISION.spec, True, 12)
    assert back.reasons == DECISION.reasons


def test_no_next_trial_stays_none_and_null_becomes_nan() -> None:
    document = to_json(DECISION) | {"next_trial": None}
    document["model"]["r_hat_max"] = None

    back = decision_from(document)

    assert back.next_trial is None
    assert math.isnan(back.model.r_hat_max)


def test_what_would_change_the_answer_and_the_running_order_come_back():
    decision = decide(invent(1, seed=31)[0].fitting, worth_draws=300)

    back = decision_from(to_json(decision))

    assert back.would_change == decision.would_change
    assert back.next_trial == decision.next_trial
