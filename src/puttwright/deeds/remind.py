"""Reminders to check a putter again, as a calendar file any calendar takes in (RFC 5545)."""

from __future__ import annotations

from datetime import UTC, date, datetime, timedelta
from typing import Final

from puttwright import __version__
from puttwright.errors import UserError
from puttwright.fitting.order import Order

AFTER_WEEKS: Final = (6, 26, 52)
"""Six weeks, half a year, a year: common practice, no source."""
_WHAT: Final = (
    "Measure loft and lie again; take twelve putts from three metres and six aims on the board, "
    "and hold them against the fitting with: puttwright check-again"
)


class NotADate(UserError):
    """{text!r} is not a date; write it as 2026-05-31."""

    code = "not-a-date"


def day_from(text: str, /) -> date:
    """The day a person wrote.

    Raises
    ------
    NotADate
        It is none, or not written as 2026-05-31.
    """
    try:
        return date.fromisoformat(text.strip())
    except ValueError as error:
        raise NotADate(text=text[:40]) from error


def reminders(order: Order, *, handed_over: date, page: str = "") -> bytes:
    """The calendar file; the same order and day give the same bytes.

    Parameters
    ----------
    order
        Of the putter to be checked again.
    handed_over
        From when the weeks count.
    page
        Address of the order's page, if it has one.
    """
    from icalendar import Alarm, Calendar, Event  # noqa: PLC0415 - needed once, by few

    calendar = Calendar()
    calendar.add("prodid", f"-//puttwright//puttwright {__version__}//EN")
    calendar.add("version", "2.0")
    stamp = datetime(handed_over.year, handed_over.month, handed_over.day, 12, tzinfo=UTC)
    for weeks in AFTER_WEEKS:
        day = handed_over + timedelta(weeks=weeks)
        event = Event()
        event.add("uid", f"{order.order_id}-{weeks}w@puttwright")
        event.add("dtstamp", stamp)
        event.add("dtstart", day)
        event.add("dtend", day + timedelta(days=1))
        event.add("transp", "TRANSPARENT")
        event.add("summary", f"Check {order.alias}'s putter again ({order.build.name})")
        event.add("description", f"Order {order.order_id}, handed over {handed_over}. {_WHAT}")
        if page:
            event.add("url", page)
        alarm = Alarm()
        alarm.add("action", "DISPLAY")
        alarm.add("description", f"Check {order.alias}'s putter again")
        alarm.add("trigger", timedelta(hours=-15))  # the morning of the day before
        event.add_component(alarm)
        calendar.add_component(event)
    return bytes(calendar.to_ical())
