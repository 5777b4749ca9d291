"""The page and its pictures say what the study found."""

from __future__ import annotations

import re

import pytest

from puttwright.study.calibration import OURS
from puttwright.study.page import PAGE, Study
from puttwright.study.score import coverage, score, score_plans
from puttwright.study.table import plan_lines, study_lines


@pytest.fixture(scope="module")
def files(judged, planned):
    return Study(n=40, seed=7, judged=judged, planned=planned).files()


def test_every_rule_has_a_row_with_its_pair_beside(judged):
    rows = [line for line in study_lines(judged, seed=7) if line.startswith(f"| {OURS}")]
    raw = score(judged)["raw averages"]
    line = next(row for row in study_lines(judged, seed=7) if row.startswith("| raw averages"))

    assert len(rows) == 1
    assert f"{raw.regret.mean:.2f} ± {raw.regret.se:.2f}" in line
    assert f"+{raw.beyond_ours.mean:.2f} ± {raw.beyond_ours.se:.2f}" in line


def test_what_ours_does_not_clearly_beat_is_said(judged):
    for one in judged:
        assert one.outcomes[2].rule == "keep"
    told = " ".join(study_lines(judged, seed=7))
    clear = [rule for rule, of in score(judged).items() if rule != OURS and of.beyond_ours.clear]

    assert f"More than ours beyond two standard errors: {', '.join(clear)}." in told


def test_without_its_library_the_optimiser_is_said_to_be_left_out(
    judged, judged_without_the_library
):
    told = "\n".join(study_lines(judged_without_the_library, seed=7))

    assert "Left out: the Bayesian optimiser, because scikit-learn is not installed" in told
    assert "Left out" not in "\n".join(study_lines(judged, seed=7))


def test_the_adaptive_plan_at_six_tenths_is_told_with_its_interval(planned):
    sixth = next(one for one in score_plans(planned) if one.share == 0.6)
    low, high = sixth.beyond_fixed.interval_95
    told = " ".join(plan_lines(planned)).replace("−", "-")

    assert f"(95 % interval {low:+.2f} to {high:+.2f})" in told


def test_the_page_tells_how_to_make_it_again_and_shows_every_picture(files):
    page = files[PAGE]
    shown = set(re.findall(r"\]\((pictures/[^)]+)\)", page))

    assert "puttwright study calibration --n 40 --seed 7 --plans" in page
    assert shown == set(files) - {PAGE}
    assert len(shown) == 4


def test_without_plans_no_plans_are_shown(judged):
    files = Study(n=40, seed=7, judged=judged).files()

    assert "--plans" not in files[PAGE]
    assert "pictures/study-plans.svg" not in files


def test_pictures_hold_the_figures_of_the_tables(files, judged):
    held = coverage(judged)[0.9]
    regret = score(judged)["raw averages"].regret

    assert f">{100 * held.mean:.0f} %<" in files["pictures/study-coverage.svg"]
    assert f">{regret.mean:.2f}<" in files["pictures/study-regret.svg"]
    claims = files["pictures/study-claims.svg"]
    assert claims.count('class="claim"') == sum(len(one.claims) for one in judged)
    assert claims.count('class="mean"') == 8
    assert files["pictures/study-plans.svg"].count('class="mean"') == 8
