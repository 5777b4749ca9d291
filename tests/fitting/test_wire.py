"""decision.json: the contract's keys in the contract's order, whole figures, no NaN."""

from __future__ import annotations

import json
import math
from dataclasses import replace

import numpy as np
import pytest

from puttwright.fitting.decision import (
    BuildVerdict,
    Decision,
    Estimate,
    ModelRun,
    NextTrial,
    Reason,
    RestsOn,
)
from puttwright.fitting.wire import QUANTITIES, rounded, to_bytes, to_json

SURE = Estimate(mean=0.123456, sd=0.2, interval_90=(-0.1, 0.4), interval_50=(0.0, 0.2))


@pytest.fixture
def decision() -> Decision:
    verdict = BuildVerdict(
        strokes_saved_per_round=SURE,
        probability_better=0.87,
        probability_best=np.float64(0.5),
        make_pct={10.0: SURE, 1.5: SURE},
        quantities=dict.fromkeys(reversed(QUANTITIES), SURE),
        putts_used=np.int64(12),
        putts_left_out=1,
    )
    return Decision(
        choice="undecided",
        more_putts=12,
        spec={"build_id": "B", "length_mm": 863.6, "lie_deg": None, "stock": True},
        builds={"own": verdict, "B": verdict},
        next_trial=NextTrial(build_id="B", distance_m=3.0, putts=6, aims=4, settles="B or own"),
        reasons=(Reason(text="Aims 0.8° right.", rests_on=(RestsOn(table="aims", seq=(1, 2)),)),),
        cautions=("Heat.",),
        model=ModelRun(version="0.1", seed=1, draws=4000, r_hat_max=math.nan, ess_min=3999.7),
        inputs_sha256="ab" * 32,
    )


def test_the_keys_stand_in_the_order_of_the_contract(decision):
    said = to_json(decision)

    assert " ".join(said) == (
        "choice more_putts spec builds next_trial reasons would_change cautions model inputs_sha256"
    )
    assert list(said["builds"]) == ["own", "B"]
    assert list(said["builds"]["B"]) == [
        "strokes_saved_per_round",
        "probability_better",
        "probability_best",
        "make_pct",
        *QUANTITIES,
        "putts_used",
        "putts_left_out",
    ]
    assert list(said["builds"]["B"]["make_pct"]) == ["1.5", "10"]
    assert " ".join(said["next_trial"]) == (
        "build_id distance_m putts aims settles running_order why_there"
    )
    assert " ".join(said["model"]) == "version seed draws r_hat_max ess_min"


def test_figures_are_rounded_and_finite(decision):
    said = to_json(decision)

    assert said["builds"]["B"]["strokes_saved_per_round"] == {
        "mean": 0.1235,
        "sd": 0.2,
        "interval_50": [0.0, 0.2],
        "interval_90": [-0.1, 0.4],
    }
    assert said["model"]["r_hat_max"] is None
    assert said["model"]["ess_min"] == 4000.0
    assert said["spec"] == {"build_id": "B", "length_mm": 863.6, "stock": True}


def test_a_quantity_that_is_no_number_is_left_out(decision):
    nothing = Estimate(mean=math.nan, sd=math.nan, interval_90=(math.nan, math.inf))
    verdict = replace(decision.builds["B"], quantities={"skid_m": nothing, "launch_deg": SURE})

    said = to_json(replace(decision, builds={"B": verdict}))

    assert "skid_m" not in said["builds"]["B"]
    assert "launch_deg" in said["builds"]["B"]


def test_the_bytes_are_json_without_nan_and_the_same_again(decision):
    assert to_bytes(decision) == to_bytes(replace(decision))
    assert json.loads(to_bytes(decision), parse_constant=pytest.fail) == to_json(decision)


def test_more_putts_and_next_trial_only_when_there_are(decision):
    said = to_json(replace(decision, choice="keep", more_putts=None, next_trial=None))

    assert "more_putts" not in said
    assert said["next_trial"] is None


def test_a_build_never_in_hand_says_so(decision):
    assert to_json(replace(decision, extrapolated=True))["spec"]["extrapolated"] is True


@pytest.mark.parametrize("value", [1e-9, 123456.0, -3.14159, 0.0])
def test_rounding_is_done_once(value):
    once = rounded(value)

    assert rounded(once) == once == pytest.approx(value, rel=1e-3)
