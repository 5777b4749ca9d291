"""Codes by which a device is let in: good once, for a short while, and not to be guessed."""

from __future__ import annotations

import secrets
from collections import OrderedDict
from dataclasses import dataclass
from datetime import datetime, timedelta
from threading import Lock
from typing import Final

LETTERS: Final = "23456789ABCDEFGHJKLMNPQRSTUVWXYZ"
"""Without those that are taken for another one."""
LENGTH: Final = 12
"""Twelve letters of 32: 60 bits."""
GOOD_FOR: Final = timedelta(minutes=10)
WRONG_FROM_ONE: Final = 5
"""So many wrong codes from one address, and it is not listened to for a while."""
WRONG_IN_ALL: Final = 25
"""So many from anywhere while codes are open, and all of them are void."""
LOCKED_FOR: Final = timedelta(minutes=15)
_MOST_CODES: Final = 20
_MOST_ADDRESSES: Final = 1000


@dataclass(frozen=True, slots=True, kw_only=True)
class Invitation:
    """What the device that shows the code will be."""

    code: str
    name: str
    role: str
    until: datetime
    fitting_id: str = ""
    ticket: str
    """The name of its page on this machine, which is no secret."""


class Codes:
    """The codes that are open, held in memory; who guesses is shut out."""

    def __init__(self) -> None:
        self._lock = Lock()
        self._open: OrderedDict[str, Invitation] = OrderedDict()
        self._wrong: OrderedDict[str, tuple[int, datetime]] = OrderedDict()
        self._wrong_in_all = 0
        self._guessed = False

    @property
    def guessed(self) -> bool:
        """Whether codes were made void because somebody was guessing; until the next one."""
        return self._guessed

    def invite(self, *, name: str, role: str, fitting_id: str = "", now: datetime) -> Invitation:
        """Open a code."""
        code = "".join(secrets.choice(LETTERS) for _ in range(LENGTH))
        invitation = Invitation(
            code=code, name=name, role=role, until=now + GOOD_FOR, fitting_id=fitting_id,
            ticket=secrets.token_hex(8),
        )  # fmt: skip
        with self._lock:
            self._guessed = False
            self._wrong_in_all = 0
            self._open[code] = invitation
            while len(self._open) > _MOST_CODES:
                self._open.popitem(last=False)
        return invitation

    def invited(self, ticket: str, *, now: datetime) -> Invitation | None:
        """The invitation of a ticket, while its code is good and was not used."""
        with self._lock:
            found = self._ticket(ticket)
            return found if found is not None and now < found.until else None

    def close(self, ticket: str) -> None:
        """Let nobody in by the code of a ticket."""
        with self._lock:
            found = self._ticket(ticket)
            if found is not None:
                del self._open[found.code]

    def _ticket(self, ticket: str) -> Invitation | None:
        return next((each for each in self._open.values() if each.ticket == ticket), None)

    def shown(self, typed: str, *, address: str, now: datetime, use: bool) -> Invitation | None:
        """The invitation of a code that somebody at ``address`` shows; used up with ``use``.

        A wrong code counts as a guess. Who has guessed too often is not heard,
        with the right code either.
        """
        code = plain(typed)
        with self._lock:
            if self._shut_out(address, now):
                return None
            found = self._open.get(code)
            if found is None or now >= found.until:
                self._count(address, now)
                return None
            if use:
                del self._open[code]
                self._wrong.pop(address, None)
            return found

    def _shut_out(self, address: str, now: datetime) -> bool:
        times, last = self._wrong.get(address, (0, now))
        if times and now - last >= LOCKED_FOR:
            del self._wrong[address]
            return False
        return times >= WRONG_FROM_ONE

    def _count(self, address: str, now: datetime) -> None:
        times, _ = self._wrong.pop(address, (0, now))
        self._wrong[address] = (times + 1, now)
        while len(self._wrong) > _MOST_ADDRESSES:
            self._wrong.popitem(last=False)
        self._wrong_in_all += 1
        if self._wrong_in_all >= WRONG_IN_ALL and self._open:
            self._open.clear()
            self._guessed = True


def plain(typed: str) -> str:
    """A code as it is kept, however it was typed.

    Examples
    --------
    >>> plain("k7qm-2xtp 9dwv")
    'K7QM2XTP9DWV'
    """
    return typed.replace("-", "").replace(" ", "").upper()[: 2 * LENGTH]


def spelled(code: str) -> str:
    """A code as people read it.

    Examples
    --------
    >>> spelled("K7QM2XTP9DWV")
    'K7QM-2XTP-9DWV'
    """
    return "-".join(code[n : n + 4] for n in range(0, len(code), 4))
