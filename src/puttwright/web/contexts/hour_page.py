"""The hour on one page: every step with what is known, what is in doubt, what to read next."""

from __future__ import annotations

from dataclasses import dataclass

from puttwright.deeds.open_fitting import OpenFitting
from puttwright.web.contexts.heading import Heading, heading
from puttwright.web.contexts.hour import STEPS
from puttwright.web.contexts.step_says import StepSays, step_says
from puttwright.web.contexts.verdict import Trial, state_of, trial


@dataclass(frozen=True, slots=True, kw_only=True)
class HourPage:
    """The path, and what to hand over now."""

    heading: Heading
    stream: str
    state: str
    trial: Trial | None
    steps: tuple[StepSays, ...]


def hour_page(
    opened: OpenFitting, *, orders: int, stream: str, busy: bool, fault: str | None
) -> HourPage:
    """The page at this moment.

    Parameters
    ----------
    opened
        The fitting.
    orders
        How many putters were ordered.
    stream
        Where the page listens for news.
    busy, fault
        Whether a newer decision is on its way, and what kept the last from being made.
    """
    decision = opened.decision
    return HourPage(
        heading=heading(opened.fitting, here="hour"),
        stream=stream,
        state=state_of(opened, busy=busy, fault=fault),
        trial=trial(opened.fitting, decision) if decision else None,
        steps=tuple(step_says(opened, step, orders=orders) for step in STEPS),
    )
