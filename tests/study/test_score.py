from __future__ import annotations

import numpy as np
import pytest

from puttwright.study.calibration import OURS
from puttwright.study.plans import ADAPTIVE, FIXED
from puttwright.study.score import (
    coverage,
    mean_of,
    score,
    score_plans,
    wrong_among_confident,
)


def test_a_rule_is_held_against_ours_golfer_by_golfer(judged):
    raw = score(judged)["raw averages"]
    scores = score(judged)
    unpaired = np.hypot(scores[OURS].regret.se, raw.regret.se)

    assert raw.beyond_ours.mean == pytest.approx(raw.regret.mean - scores[OURS].regret.mean)
    assert raw.beyond_ours.se < 0.5 * unpaired
    assert raw.beyond_ours.clear


def test_ours_is_not_beyond_itself(judged):
    ours = score(judged)[OURS]

    assert (ours.beyond_ours.mean, ours.beyond_ours.se) == (0.0, 0.0)
    assert not ours.beyond_ours.clear


def test_the_standard_error_of_a_ratio_is_that_of_drawing_the_golfers_again(judged):
    ours = [one.outcomes[0] for one in judged]
    rng = np.random.default_rng(0)
    ratios = []
    for _ in range(4000):
        again = [ours[k] for k in rng.integers(len(ours), size=len(ours))]
        ratios.append(sum(o.promised for o in again) / sum(o.delivered for o in again))

    assert score(judged)[OURS].promised_over_delivered_se == pytest.approx(np.std(ratios), rel=0.1)


def test_a_single_golfer_has_no_standard_error():
    assert mean_of([0.3]).se == 0.0


def test_coverage_is_the_mean_over_golfers(judged):
    shares = [one.covered[2] for one in judged]

    assert coverage(judged)[0.9].mean == pytest.approx(np.mean(shares))


def test_wrong_claims_are_counted_with_what_their_share_may_be(judged):
    wrong = wrong_among_confident(judged)

    assert (wrong.claims, wrong.wrong) == (80, 4)
    # Wilson's interval of 4 in 80, by his formula of 1927.
    n, p, z = 80, 0.05, 1.959964
    middle = (p + z * z / (2 * n)) / (1 + z * z / n)
    half = z / (1 + z * z / n) * np.sqrt(p * (1 - p) / n + z * z / (4 * n * n))
    assert wrong.interval_95 == pytest.approx((middle - half, middle + half), abs=1e-5)


def test_plans_are_held_against_the_whole_fixed_plan(planned):
    scores = {(one.plan, one.share): one for one in score_plans(planned)}
    whole, few = scores[FIXED, 1.0], scores[ADAPTIVE, 0.4]

    assert whole.beyond_fixed.mean == 0.0
    assert few.beyond_fixed.mean == pytest.approx(few.regret.mean - whole.regret.mean)
    assert few.putts == pytest.approx(30.0)
