"""What the steps of the hour ask for, and what is worth most."""

from __future__ import annotations

import dataclasses
from collections.abc import Callable
from typing import Any

import pytest

from puttwright.deeds.open_fitting import OpenFitting
from puttwright.web.contexts.step_says import MEASURED, step_says, worth_most


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
