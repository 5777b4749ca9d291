"""How this machine speaks to the network: nothing of itself to who does not speak properly."""

from __future__ import annotations

from asyncio import TimerHandle
from collections import Counter
from typing import Any, Final

from uvicorn.protocols.http.h11_impl import H11Protocol

PATIENCE_S: Final = 15.0
"""Who is connected and has not asked anything by then is let go."""
FROM_ONE: Final = 40
"""Connections from one address at a time; a browser opens six, a device may run several."""
_held: Counter[str] = Counter()


class Bare(H11Protocol):
    """The server's own way, without its words to strangers."""

    patience_s = PATIENCE_S
    _given_up: TimerHandle | None = None
    _from = ""

    def connection_made(self, transport: Any) -> None:
        """Begin to wait for the first request; hang up on who holds too many lines already."""
        super().connection_made(transport)
        self._from = str((transport.get_extra_info("peername") or ("",))[0])
        _held[self._from] += 1
        if _held[self._from] > FROM_ONE:
            transport.close()
        self._given_up = self.loop.call_later(self.patience_s, self._give_up)

    def connection_lost(self, exc: Exception | None) -> None:
        """Wait no more."""
        if self._given_up is not None:
            self._given_up.cancel()
        _held[self._from] -= 1
        if not _held[self._from]:
            del _held[self._from]
        super().connection_lost(exc)

    def send_400_response(self, msg: str) -> None:  # noqa: ARG002 - it would say what we are made of
        """Hang up on what is no request."""
        self.transport.close()

    def _give_up(self) -> None:
        if getattr(self, "cycle", None) is None:  # there is none before the first request
            self.transport.close()
