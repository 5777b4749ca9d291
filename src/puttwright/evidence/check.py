"""Does a fitting hold together: every value, every table, and what one says of another.

Pure: evidence in, faults out, all of them at once. Single values are judged in
``ranges``, tables in ``tables``, and here what stands in ``fitting.json``.
"""

from __future__ import annotations

import datetime
import itertools
from collections.abc import Collection, Sequence
from typing import Any, Final

from puttwright.errors import Fault
from puttwright.evidence.columns import Column, columns_of
from puttwright.evidence.ranges import outside, unfit
from puttwright.evidence.records import Fitting, Golfer, Instrument
from puttwright.evidence.sheet import sheet_of
from puttwright.evidence.tables import TABLES, table_faults

HEAD: Final = "fitting.json"
SHARE_TOLERANCE: Final = 0.011
"""Three greens at 0.33 each are meant to be all the rounds."""
FIRST_PUTTS_MOST: Final = 18.5
_FITTING_ID: Final = Column("fitting_id", "text", "")
_OF_A_HEAD: Final = ("greens", "first_putts", "instruments")


def _head(column: str, message: str) -> Fault:
    return Fault(HEAD, 0, column, message)


def share_faults(shares: Sequence[float | None]) -> list[Fault]:
    """The shares of the golfer's greens must make up all their rounds."""
    if not shares or None in shares:
        return []
    total = sum(share for share in shares if share is not None)
    if abs(total - 1.0) <= SHARE_TOLERANCE:
        return []
    return [_head("greens", f"the shares sum to {total:g}; they must sum to 1")]


def first_putt_faults(per_round: Sequence[float | None]) -> list[Fault]:
    """A round has some first putts, and at most eighteen."""
    if not per_round or None in per_round:
        return []
    total = sum(each for each in per_round if each is not None)
    if 0.0 < total <= FIRST_PUTTS_MOST:
        return []
    return [_head("first_putts", f"{total:g} first putts a round; there are 18 at the most")]


def own_build_faults(own_build: str | None, build_ids: Collection[str | None]) -> list[Fault]:
    """The golfer's own putter must be among the builds."""
    if own_build is None or own_build in build_ids:
        return []
    return [_head("own_build", f"{own_build!r} is not a build of builds.csv")]


def name_faults(fitting_id: str | None, date: str | None) -> list[Fault]:
    """The fitting's name must be text that can be kept, its date one of the calendar.

    Examples
    --------
    >>> [str(fault) for fault in name_faults("F1", "2026-02-30")]
    ["fitting.json, date: '2026-02-30' is not a date; write it as 2026-05-31"]
    """
    faults = []
    message = unfit(fitting_id, _FITTING_ID) if fitting_id is not None else None
    if message:
        faults.append(_head("fitting_id", message))
    try:
        datetime.date.fromisoformat(date or "2000-01-01")
    except ValueError:
        text = f"{(date or '')[:40]!r} is not a date; write it as 2026-05-31"
        faults.append(_head("date", text))
    return faults


def _message(value: Any, column: Column) -> str | None:
    if value is None or column.kind == "yes_no":
        return None
    return unfit(value, column) if column.kind == "text" else outside(value, column)


def value_faults(record: Any, *, place: str) -> list[Fault]:
    """The values of one record of fitting.json that their fields may not hold."""
    judged = (
        (column.name, _message(getattr(record, column.name), column))
        for column in columns_of(type(record))
    )
    return [_head(f"{place}{name}", message) for name, message in judged if message]


def golfer_faults(golfer: Golfer) -> list[Fault]:
    """A body is put together in one order from the ground up."""
    order = ("wrist_height_mm", "shoulder_height_mm", "stature_mm")
    heights = [(name, getattr(golfer, name)) for name in order]
    present = [(name, height) for name, height in heights if height is not None]
    return [
        _head(f"golfer, {lower}", f"{low:g} mm is not below {upper} ({high:g} mm)")
        for (lower, low), (upper, high) in itertools.pairwise(present)
        if low >= high
    ]


def instrument_faults(instruments: Sequence[Instrument]) -> list[Fault]:
    """One instrument has one repeatability for one quantity."""
    seen: set[tuple[str | None, str | None]] = set()
    faults = []
    for number, each in enumerate(instruments, start=1):
        key = (each.name, each.quantity)
        if key in seen and None not in key:
            message = f"{each.name!r} already has an entry for {each.quantity}"
            faults.append(_head(f"instruments, entry {number}", message))
        seen.add(key)
    return faults


def head_faults(fitting: Fitting, *, build_ids: Collection[str | None]) -> list[Fault]:
    """What is wrong with the part of a fitting that stands in fitting.json.

    The reader asks this of a draft in which a field that could not be read is ``None``.
    """
    faults = name_faults(fitting.fitting_id, fitting.date)
    faults += value_faults(fitting.golfer, place="golfer, ") + golfer_faults(fitting.golfer)
    faults += value_faults(fitting.fitting_green, place="fitting_green, ")
    for name in _OF_A_HEAD:
        for number, record in enumerate(getattr(fitting, name), start=1):
            faults += value_faults(record, place=f"{name}, entry {number}, ")
    faults += share_faults([green.share for green in fitting.greens])
    faults += first_putt_faults([putt.per_round for putt in fitting.first_putts])
    faults += instrument_faults(fitting.instruments)
    return faults + own_build_faults(fitting.own_build, build_ids)


def _empty_faults(fitting: Fitting) -> list[Fault]:
    faults = []
    if not fitting.greens:
        faults.append(_head("greens", "name at least one green this golfer plays"))
    if not fitting.builds:
        faults.append(Fault("builds.csv", 0, "", "there is no build; the golfer's own is one"))
    return faults


def check(fitting: Fitting) -> list[Fault]:
    """Everything that is wrong with a fitting in memory; an empty list when it can be used.

    Parameters
    ----------
    fitting
        Any fitting; rows are counted as they would stand in a file, from 2.

    Returns
    -------
    list of Fault
        In the order fitting.json, builds, setups, aims, putts, rack.

    Examples
    --------
    >>> from puttwright.evidence import Build, FittingGreen, Golfer, Green
    >>> fitting = Fitting(
    ...     fitting_id="F1",
    ...     date="2026-05-01",
    ...     golfer=Golfer(alias="A", handed="left"),
    ...     greens=(Green(name="home", speed_ft=9, share=0.5),),
    ...     fitting_green=FittingGreen(speed_ft=10),
    ...     own_build="own",
    ...     builds=(Build(build_id="old", length_mm=864, lie_deg=70, loft_deg=45),),
    ... )
    >>> for fault in check(fitting):
    ...     print(fault)
    fitting.json, greens: the shares sum to 0.5; they must sum to 1
    fitting.json, own_build: 'own' is not a build of builds.csv
    builds.csv, row 2, loft_deg: 45 deg is out of range; it must lie between -15 and 15 deg
    """
    sheets = {
        name: sheet_of(getattr(fitting, name), table=f"{name}.csv", record=record)
        for name, record in TABLES.items()
    }
    build_ids = sheets["builds"].column("build_id")
    return head_faults(fitting, build_ids=build_ids) + _empty_faults(fitting) + table_faults(sheets)
