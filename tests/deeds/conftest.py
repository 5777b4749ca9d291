"""A shop whose decisions are quick and made up, and a fitting started in it."""

from __future__ import annotations

from collections.abc import Callable, Iterator
from datetime import UTC, datetime, timedelta
from pathlib import Path

import pytest

from puttwright.deeds.bootstrap import Shop, open_shop
from puttwright.deeds.start_fitting import NewFitting, start_fitting
from puttwright.evidence import Build, Fitting, FittingGreen, Golfer, Green
from puttwright.evidence.fingerprint import inputs_sha256
from puttwright.fitting.decision import Decision, ModelRun, Reason

START = datetime(2026, 5, 1, 12, 0, tzinfo=UTC)


@pytest.fixture
def clock() -> Callable[[], datetime]:
    """A clock that goes on a minute each time it is looked at."""
    looks = iter(range(10_000))
    return lambda: START + timedelta(minutes=next(looks))


def quick(fitting: Fitting) -> Decision:
    """A decision that only counts."""
    return Decision(
        choice="undecided",
        spec={},
        builds={},
        next_trial=None,
        reasons=(Reason(text=f"{len(fitting.used_putts)} putts"),),
        cautions=(),
        model=ModelRun(version="0.1.0", seed=1, draws=1, r_hat_max=1.0, ess_min=1.0),
        inputs_sha256=inputs_sha256(fitting),
        more_putts=12,
    )


@pytest.fixture
def shop(tmp_path: Path, clock: Callable[[], datetime]) -> Iterator[Shop]:
    opened = open_shop(tmp_path / "shop", clock=clock, decide=quick)
    yield opened
    opened.close()


@pytest.fixture
def new() -> NewFitting:
    return NewFitting(
        golfer=Golfer(alias="Robin", handed="left"),
        greens=(Green(name="home", speed_ft=9.5, share=1.0),),
        fitting_green=FittingGreen(speed_ft=10),
        builds=(
            Build(build_id="A", length_mm=864, lie_deg=70, loft_deg=3),
            Build(build_id="B", length_mm=838, lie_deg=71, loft_deg=2),
        ),
    )


@pytest.fixture
def fitting_id(shop: Shop, new: NewFitting) -> str:
    return start_fitting(shop.store, shop.clock, new=new, entry_key="start", who="fitter")
