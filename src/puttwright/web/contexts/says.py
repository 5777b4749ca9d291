"""The lines of a step of the hour, before they stand on a page."""

from __future__ import annotations

from dataclasses import dataclass


@dataclass(frozen=True, slots=True, kw_only=True)
class Said:
    """What is known, what is in doubt, what to read next; ``way`` is where, past the fitting's."""

    known: tuple[str, ...] = ()
    doubt: tuple[str, ...] = ()
    next: str = ""
    way: str = ""
