"""The hour as a path: its steps in the trade's words, where each is done, what each has so far.

Any step may be left out and come back to; what was taken stands in the records, so
the path needs no memory of its own.
"""

from __future__ import annotations

from collections.abc import Callable, Mapping
from typing import Final

from puttwright.evidence import Fitting, Putt
from puttwright.store.readings import AIMS, PUTTS

INTERVIEW, GAUGE, ADDRESS, AIM = "interview", "gauge", "address", "aim"
ROLL, STRIKE, PACE = "roll", "strike", "pace"
COMPARE, DECIDE, ORDER = "compare", "decide", "order"
STEPS: Final = (
    INTERVIEW, GAUGE, ADDRESS, AIM, ROLL, STRIKE, PACE, COMPARE, DECIDE, ORDER
)  # fmt: skip
LOOKS: Final = (PACE, STRIKE, ROLL)
"""What a putt is looked at for; the first is what is meant where nothing is said."""

_PLACES: Final[Mapping[str, str]] = {
    AIM: f"?task={AIMS}",
    ROLL: f"?task={PUTTS}&look={ROLL}",
    STRIKE: f"?task={PUTTS}&look={STRIKE}",
    PACE: f"?task={PUTTS}&look={PACE}",
    DECIDE: "/decision",
    ORDER: "/workshop",
}
GAUGED: Final = (
    "head_mass_g", "toe_hang_deg", "offset_mm", "total_mass_g", "balance_from_butt_mm",
    "grip_diameter_mm", "head_shape", "sight_line",
)  # fmt: skip
"""What the gauge and the scales tell of a putter beside length, lie and loft."""


def place_of(step: str, *, fitting_address: str) -> str:
    """Where a step is done."""
    return f"{fitting_address}{_PLACES.get(step, f'/{step}')}"


def sees_roll(putt: Putt) -> bool:
    """Whether something of how the ball got rolling was measured."""
    return any(
        value is not None
        for value in (putt.launch_deg, putt.skid_m, putt.roll_share_pct, putt.spin_rpm)
    )


def sees_strike(putt: Putt) -> bool:
    """Whether something of the strike, the stroke or the start was measured."""
    return any(
        value is not None
        for value in (putt.strike_toe_mm, putt.start_deg, putt.face_deg, putt.path_deg)
    )


def sees_pace(putt: Putt) -> bool:
    """Whether it is known how far it rolled."""
    return bool(putt.holed) or putt.stop_past_m is not None or putt.ball_speed_mps is not None


SEES: Final[Mapping[str, Callable[[Putt], bool]]] = {
    ROLL: sees_roll,
    STRIKE: sees_strike,
    PACE: sees_pace,
}


def taken(fitting: Fitting, step: str, *, build_id: str = "") -> int:
    """How many readings of a step there are, of all builds or of one.

    Examples
    --------
    >>> from puttwright.evidence import AimReading, Build, FittingGreen, Golfer
    >>> aim = AimReading(seq=1, build_id="A", board_distance_mm=2000, reading_mm=7)
    >>> fitting = Fitting(
    ...     fitting_id="f",
    ...     date="2026-05-01",
    ...     golfer=Golfer(alias="Robin", handed="left"),
    ...     greens=(),
    ...     fitting_green=FittingGreen(speed_ft=9),
    ...     own_build="A",
    ...     builds=(Build(build_id="A", length_mm=864, lie_deg=70, loft_deg=3),),
    ...     aims=(aim,),
    ... )
    >>> taken(fitting, "aim"), taken(fitting, "aim", build_id="B"), taken(fitting, "gauge")
    (1, 0, 0)
    """
    if step == GAUGE:
        own = fitting.build(fitting.own_build)
        return sum(getattr(own, name) is not None for name in GAUGED)
    rows: Mapping[str, tuple[object, ...]] = {ADDRESS: fitting.setups, AIM: fitting.aims}
    sees = SEES.get(step)
    found = tuple(putt for putt in fitting.used_putts if sees(putt)) if sees else rows.get(step, ())
    return sum(not build_id or getattr(each, "build_id", "") == build_id for each in found)
