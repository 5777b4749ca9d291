"""How the pages speak for the request at hand: language, measures, ground.

The settings of a shop are wanted wherever a word or a figure is written, deep
below the routes. A request carries them along; nothing outside a request does, so
that what is written for the records is the same in every shop.
"""

from __future__ import annotations

from collections.abc import Iterator
from contextlib import contextmanager
from contextvars import ContextVar

from starlette.datastructures import State
from starlette.types import ASGIApp, Receive, Scope, Send

from puttwright.deeds.keep_settings import PageSettings
from puttwright.pictures.hand import PLAIN, Hand, lettered_by
from puttwright.web.measures import UNITS, in_measures
from puttwright.web.reworded import rewording

_NOW: ContextVar[PageSettings] = ContextVar("manner", default=PageSettings())  # noqa: B039 - frozen


def manner() -> PageSettings:
    """The settings of the request at hand."""
    return _NOW.get()


@contextmanager
def speaking(wanted: PageSettings) -> Iterator[None]:
    """Speak like this for a while, in the words of a page and in its drawings alike."""
    before = _NOW.set(wanted)
    try:
        with lettered_by(lettering(wanted)):
            yield
    finally:
        _NOW.reset(before)


def lettering(wanted: PageSettings) -> Hand:
    """How drawings, and what the pure rooms say, are lettered for such a shop."""
    units = UNITS.get(wanted.measures, {})
    return Hand(
        words=rewording(wanted.language) or PLAIN.words,
        figures=in_measures if units else PLAIN.figures,
        units=units,
    )


class Mannered:
    """Answer each request in the manner the shop has set; ``state.manner`` holds it."""

    def __init__(self, app: ASGIApp, *, state: State) -> None:
        self._app = app
        self._state = state

    async def __call__(self, scope: Scope, receive: Receive, send: Send) -> None:
        """Handle one request."""
        with speaking(self._state.manner):
            await self._app(scope, receive, send)
