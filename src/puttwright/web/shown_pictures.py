"""Small pictures to look at once: held in memory, a few at a time, never on the disk."""

from __future__ import annotations

import secrets
from collections import OrderedDict
from typing import Final

MOST: Final = 24
"""The oldest goes when another comes; all go when the program stops."""


class ShownPictures:
    """JPEGs by a name that cannot be guessed."""

    def __init__(self) -> None:
        self._held: OrderedDict[str, bytes] = OrderedDict()

    def hold(self, picture: bytes) -> str:
        """Keep it for a while; its name."""
        name = secrets.token_urlsafe(16)
        self._held[name] = picture
        while len(self._held) > MOST:
            self._held.popitem(last=False)
        return name

    def find(self, name: str) -> bytes | None:
        """The picture, while it is held."""
        return self._held.get(name)
