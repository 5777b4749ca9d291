"""Check a putter again after weeks: drift of loft and lie, and a short test against the fitting."""

from __future__ import annotations

import math
from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from typing import Final

from puttwright.address.laser import angle_sd_rad, face_angle_rad
from puttwright.club.targets import BY_FIELD
from puttwright.errors import OutOfRange, UserError
from puttwright.evidence import AimReading, Putt, columns_of
from puttwright.fitting.check_again import Changed, Drift, NotPromised, changed, drift
from puttwright.fitting.order import Order
from puttwright.fitting.readings import BOARD_READING_SD_M, SENSOR_START_SD_DEG

ANGLES: Final = ("loft_deg", "lie_deg")


class NothingCheckedAgain(UserError):
    """Nothing was measured again; give loft and lie, starts of putts, or aims on the board."""

    code = "nothing-checked-again"


@dataclass(frozen=True, slots=True, kw_only=True)
class ShortTest:
    """What was read again; sideways right positive, as everywhere.

    ``angles`` by column [°]; ``starts_deg`` start lines; ``aims_mm`` dots on a
    board ``board_mm`` from the laser, or from the face when ``mirror``.
    """

    angles: Mapping[str, float]
    starts_deg: Sequence[float] = ()
    aims_mm: Sequence[float] = ()
    board_mm: float = 2000.0
    mirror: bool = False


@dataclass(frozen=True, slots=True, kw_only=True)
class CheckAgain:
    """What drifted and what changed; ``starts`` and ``aims`` are ``None`` without readings."""

    drifts: tuple[Drift, ...]
    starts: Changed | None
    aims: Changed | None


def check_order_again(
    order: Order, test: ShortTest, *, handed_over: Mapping[str, float] | None = None,
    error: Mapping[str, float] | None = None,
) -> CheckAgain:  # fmt: skip
    """Hold a short test against the order and the fitting's own figures.

    Parameters
    ----------
    order
        With what the fitting promised.
    test
        What was read again.
    handed_over
        The angles as they were checked in; as ordered where absent.
    error
        Expanded uncertainty (k = 2) of an angle by column; the bench's usual where absent.

    Raises
    ------
    NothingCheckedAgain, TooFewToTell, NotPromised, OutOfRange
        Nothing to judge, or nothing to judge it by.
    """
    if not (test.angles or test.starts_deg or test.aims_mm):
        raise NothingCheckedAgain
    _possible(test)
    return CheckAgain(
        drifts=_drifts(order, test.angles, then=handed_over or {}, error=error or {}),
        starts=_starts(order, test) if test.starts_deg else None,
        aims=_aims(order, test) if test.aims_mm else None,
    )


def _possible(test: ShortTest) -> None:
    _in_range(Putt, "start_deg", test.starts_deg)
    _in_range(AimReading, "reading_mm", test.aims_mm)
    _in_range(AimReading, "board_distance_mm", [test.board_mm])


def _in_range(record: type, name: str, values: Sequence[float]) -> None:
    column = next(each for each in columns_of(record) if each.name == name)
    low, high = column.low or 0.0, column.high or 0.0
    for value in values:
        if not low <= value <= high:
            raise OutOfRange(name=name, value=value, low=low, high=high, unit=column.unit)


def _drifts(
    order: Order, now: Mapping[str, float], *, then: Mapping[str, float], error: Mapping[str, float]
) -> tuple[Drift, ...]:
    ordered = {each.field: each for each in order.ordered}
    return tuple(
        drift(
            field=name,
            then_deg=then.get(name, ordered[name].ordered),
            now_deg=now[name],
            error_then_deg=error.get(name, BY_FIELD[name].error),
            error_now_deg=error.get(name, BY_FIELD[name].error),
            tolerance_deg=ordered[name].tolerance,
        )
        for name in ANGLES
        if name in now and name in ordered
    )


def _starts(order: Order, test: ShortTest) -> Changed:
    return _changed(order, "start", test.starts_deg, sd=SENSOR_START_SD_DEG, what="start lines")


def _aims(order: Order, test: ShortTest) -> Changed:
    board_m = test.board_mm / 1000.0
    angles = [
        math.degrees(
            face_angle_rad(reading_m=each / 1000.0, board_distance_m=board_m, mirror=test.mirror)
        )
        for each in test.aims_mm
    ]
    sd = angle_sd_rad(reading_sd_m=BOARD_READING_SD_M, board_distance_m=board_m, mirror=test.mirror)
    return _changed(order, "aim", angles, sd=math.degrees(sd), what="aims")


def _changed(
    order: Order, name: str, readings: Sequence[float], *, sd: float, what: str
) -> Changed:
    bias, spread = (order.promised.get(f"{name}_{kind}_deg") for kind in ("bias", "sd"))
    if bias is None or spread is None:
        raise NotPromised(what=what)
    return changed(readings, bias=bias, spread=spread, instrument_sd=sd, what=what)
