"""What the steps of the hour ask for, and what is worth most."""

from __future__ import annotations

import dataclasses
from collections.abc import Callable
from typing import Any

import pytest

from puttwright.deeds.open_fitting import OpenFitting
from puttwright.fitting.decision import Estimate
from puttwright.web.contexts.step_says import MEASURED, step_says, worth_most
from puttwright.web.texts import LANGUAGES, catalogue
from puttwright.worth.pattern import PLANNED_PAST_M


@pytest.fixture
def settled(full: str, opened: Callable[[], OpenFitting]) -> OpenFitting:
    """A fitting with nothing more worth trying."""
    now = opened()
    assert now.decision is not None
    return dataclasses.replace(now, decision=dataclasses.replace(now.decision, next_trial=None))


@pytest.mark.parametrize("step", MEASURED)
def test_no_step_asks_for_what_is_not_worth_taking(settled: OpenFitting, step: str) -> None:
    says = step_says(settled, step)

    assert says.next.startswith("Nothing more to try")
    assert says.address.endswith("/compare")
    assert not says.now


def test_what_is_worth_most_is_what_the_next_trial_takes(
    full: str, opened: Callable[[], OpenFitting]
) -> None:
    decision = opened().decision
    assert decision is not None
    assert decision.next_trial is not None
    board = dataclasses.replace(decision.next_trial, putts=0, aims=3)

    assert worth_most(decision) == "pace"
    assert worth_most(dataclasses.replace(decision, next_trial=board)) == "aim"
    assert worth_most(None) == ""


def test_no_line_ends_between_a_figure_and_its_unit(pages: Any, full: str) -> None:
    shown = pages.get(full).text

    assert "\u202fm" in shown
    assert "\u2009" not in shown


def test_pace_is_held_against_what_was_meant_not_against_the_hole(
    full: str, opened: Callable[[], OpenFitting]
) -> None:
    now = opened()
    assert now.decision is not None
    own = now.fitting.own_build
    found = now.decision.builds[own]
    short = Estimate(mean=-5.0, sd=2.0, interval_90=(-8.0, -2.0))
    told = dataclasses.replace(found, quantities={**found.quantities, "pace_bias_pct": short})
    builds = {**now.decision.builds, own: told}
    decided = dataclasses.replace(now, decision=dataclasses.replace(now.decision, builds=builds))

    assert any("% shorter than meant" in line for line in step_says(decided, "pace").known)


@pytest.mark.parametrize("language", LANGUAGES)
def test_the_comparison_says_where_a_putt_is_meant_to_end(language: str) -> None:
    assert f" {PLANNED_PAST_M} m " in catalogue(language)("compare.hint")
