"""Check a finished putter in against its order file, and remind of checking it again."""

from __future__ import annotations

from collections.abc import Mapping
from datetime import date
from pathlib import Path

from puttwright.club.check_in import PASS, CheckIn, check_in
from puttwright.deeds.remind import reminders
from puttwright.deeds.write_whole import write_whole
from puttwright.readers.order_file import read_order


def check_in_order(
    path: Path,
    *,
    measured: Mapping[str, float],
    error: Mapping[str, float] | None = None,
    reminders_to: Path | None = None,
    day: date,
) -> CheckIn:
    """Judge what was measured; a putter that passes gets its reminders.

    Parameters
    ----------
    path
        The order's ``.json``.
    measured, error
        By the columns of a build, see :func:`puttwright.club.check_in.check_in`.
    reminders_to
        Where the calendar file goes if the putter passes.
    day
        The day it is handed over.

    Raises
    ------
    CannotRead, NotAnOrder
        The file is no order.
    NothingMeasured, NotOnThisOrder, OutOfRange, HeavierThanTheWhole, BalanceOffThePutter
        The figures cannot be judged.
    CannotWrite
        The reminders cannot be kept.
    """
    order = read_order(path)
    result = check_in(order.ordered, measured, bendable=order.bendable, error=error)
    if reminders_to is not None and result.verdict == PASS:
        write_whole(reminders_to, reminders(order, handed_over=day))
    return result
