"""What a page shows for a while: held in memory, a few at a time, never on the disk."""

from __future__ import annotations

import secrets
from collections import OrderedDict
from typing import Generic, TypeVar

Thing = TypeVar("Thing")


class Held(Generic[Thing]):
    """Things by a name that cannot be guessed; all go when the program stops.

    Parameters
    ----------
    most
        How many there are at a time; the oldest goes when another comes.
    """

    def __init__(self, *, most: int) -> None:
        self._most = most
        self._held: OrderedDict[str, Thing] = OrderedDict()

    def hold(self, thing: Thing) -> str:
        """Keep it for a while; its name."""
        name = secrets.token_urlsafe(16)
        self._held[name] = thing
        while len(self._held) > self._most:
            self._held.popitem(last=False)
        return name

    def find(self, name: str) -> Thing | None:
        """The thing, while it is held."""
        return self._held.get(name)

    def forget(self, name: str) -> None:
        """Let it go, if it is still there."""
        self._held.pop(name, None)
