"""Dates as the pages say them."""

from __future__ import annotations

from datetime import date, datetime

from puttwright.web.texts import catalogue


def day_words(day: date) -> str:
    """A date in words.

    Examples
    --------
    >>> day_words(date(2026, 5, 14))
    '14 May 2026'
    """
    text = catalogue()
    months = text("date.months").split()
    return text("date.day", day=day.day, month=months[day.month - 1], year=day.year)


def iso_words(text: str) -> str:
    """The same of a date as the records write it.

    Examples
    --------
    >>> iso_words("2026-05-14")
    '14 May 2026'
    """
    return day_words(date.fromisoformat(text))


def moment_words(when: datetime) -> str:
    """A moment by the clock of this machine."""
    here = when.astimezone()
    return f"{day_words(here.date())}, {here:%H:%M}"
