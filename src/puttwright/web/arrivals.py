"""What arrives by itself: files of a watched folder, files and putts that a program posts.

It goes into the fitting that was last opened on the green, with what is in hand there. What
cannot be taken at once waits, is shown as waiting, and is never guessed at.
"""

from __future__ import annotations

import asyncio
import re
import secrets
import threading
import time
from collections.abc import Mapping
from dataclasses import dataclass
from pathlib import Path
from typing import Annotated, Final, cast
from urllib.parse import parse_qsl, unquote

from fastapi import Depends, Request
from starlette.types import ASGIApp, Message, Receive, Scope, Send

from puttwright.deeds.bootstrap import Shop
from puttwright.deeds.open_fitting import OpenFitting, open_fitting
from puttwright.deeds.take_table import LookedAt, Taking, look_at_table, take_table
from puttwright.errors import UserError
from puttwright.readers.landing import Landing
from puttwright.readers.tables.open_table import bytes_of
from puttwright.readers.tables.readings import FileRead
from puttwright.web.contexts.hand import hand_of
from puttwright.web.desk import Desk
from puttwright.web.trouble import keep_trace

CONFIRM, NOBODY, TROUBLE = "confirm", "nobody", "trouble"
RECEIVED: Final = "received"
"""The folder, in the shop's own, of files that were posted and wait."""
LOOK_EVERY_S: Final = 0.1
_RESTS: Final = 6.0
"""A look is followed by a rest so many times as long: thousands of files are listed less often."""
_MOST_WAITING: Final = 50
_FITTING: Final = re.compile(r"/fittings/([^/]+)")


@dataclass(frozen=True, slots=True, kw_only=True)
class Waiting:
    """A file that waits: ``why`` is one of CONFIRM, NOBODY, TROUBLE; ``told`` what is wrong."""

    number: str
    path: Path
    why: str
    told: str = ""


@dataclass(frozen=True, slots=True, kw_only=True)
class Outcome:
    """What became of a file: taken into a fitting, or waiting."""

    fitting_id: str = ""
    read: FileRead | None = None
    waiting: Waiting | None = None


class Arrivals:
    """Takes in what arrives; one at a time.

    Parameters
    ----------
    shop, desk
        Into whose records, and what redraws the decision then.
    """

    def __init__(self, shop: Shop, desk: Desk) -> None:
        self._shop = shop
        self._desk = desk
        self._waiting: dict[Path, Waiting] = {}
        self._lock = threading.Lock()
        self._here: tuple[str, Mapping[str, str]] | None = None
        self._landing: Landing | None = None
        self.received = shop.folder / RECEIVED
        for path in Landing(self.received).earlier():  # they were acknowledged
            self._wait(path, NOBODY)

    @property
    def open_here(self) -> str:
        """The fitting that was last opened on the green; empty when none was."""
        return self._here[0] if self._here else ""

    @property
    def folder(self) -> Path | None:
        """The folder that is watched."""
        return self._landing.folder if self._landing else None

    def watch(self, folder: Path | None) -> None:
        """Watch this folder from now on; what lies in it already is left alone."""
        self._landing = Landing(folder) if folder else None

    def opened(self, fitting_id: str, query: Mapping[str, str]) -> None:
        """A page of a fitting was opened on the green, with this in hand."""
        self._here = (fitting_id, dict(query))

    def hand(self, fitting_id: str) -> Mapping[str, str]:
        """What is in hand in that fitting, as its page was last asked for."""
        return self._here[1] if self._here and self._here[0] == fitting_id else {}

    def waiting(self) -> tuple[Waiting, ...]:
        """What waits, in the order it came."""
        return tuple(self._waiting.values())

    def find(self, number: str) -> Waiting | None:
        """One that waits."""
        return next((each for each in self.waiting() if each.number == number), None)

    def earlier(self) -> list[Path]:
        """The newest files of the watched folder, read or not."""
        return self._landing.earlier()[:10] if self._landing else []

    def look(self) -> float:
        """Take in every file that became whole since the last look; how long to rest then [s]."""
        landing, began_s = self._landing, time.monotonic()
        found = landing.whole(began_s) if landing else []
        rest_s = max(LOOK_EVERY_S, _RESTS * (time.monotonic() - began_s))
        for path in found:
            self.landed(path)
        return rest_s

    def landed(self, path: Path, *, fitting_id: str = "") -> Outcome:
        """Take in a file, or have it wait; into the fitting named, else the one that is open."""
        with self._lock:
            whose = fitting_id or self.open_here
            if not whose:
                return Outcome(waiting=self._wait(path, NOBODY))
            try:
                opened = open_fitting(self._shop.store, whose)
                table = look_at_table(
                    bytes_of(path), name=path.name, fitting=opened.fitting,
                    folder=self._shop.folder,
                )  # fmt: skip
                if not table.sure:
                    return Outcome(fitting_id=whose, waiting=self._wait(path, CONFIRM))
                return Outcome(fitting_id=whose, read=self._take(opened, table, path))
            except UserError as trouble:
                waits = self._wait(path, TROUBLE, told=str(trouble))
                return Outcome(fitting_id=whose, waiting=waits)

    def _take(self, opened: OpenFitting, table: LookedAt, path: Path) -> FileRead:
        fitting_id = opened.fitting.fitting_id
        taking = Taking(
            entry_key=secrets.token_hex(8),
            who=self._shop.who,
            said=self.said(opened, self.hand(fitting_id)),
        )
        read = take_table(
            self._shop.store, self._shop.clock, fitting_id=fitting_id, table=table, taking=taking,
            folder=self._shop.folder,
        )  # fmt: skip
        self.done(path)
        if read.added:
            self._desk.changed(fitting_id)
        return read

    @staticmethod
    def said(opened: OpenFitting, query: Mapping[str, str]) -> dict[str, str | None]:
        """What a table's rows need not say: the build in hand, the distance, the board."""
        hand = hand_of(opened, query)
        return {
            "build_id": hand.build_id, "distance_m": f"{hand.distance_m:g}",
            "board_distance_mm": f"{hand.board_mm:g}",
        }  # fmt: skip

    def done(self, path: Path) -> None:
        """A file waits no longer; one that was posted is let go."""
        waited = self._waiting.pop(path, None)
        if path.parent == self.received:
            path.unlink(missing_ok=True)
        if waited is not None:
            self._desk.stir()

    def again(self, fitting_id: str) -> None:
        """Try what waits to be confirmed once more, after a kind of table was."""
        for each in self.waiting():
            if each.why == CONFIRM:
                self.landed(each.path, fitting_id=fitting_id)

    def _wait(self, path: Path, why: str, *, told: str = "") -> Waiting:
        before = self._waiting.pop(path, None)
        number = before.number if before else secrets.token_hex(8)
        waiting = Waiting(number=number, path=path, why=why, told=told)
        self._waiting[path] = waiting
        while len(self._waiting) > _MOST_WAITING:
            del self._waiting[next(iter(self._waiting))]
        self._desk.stir()
        return waiting


async def keep_looking(arrivals: Arrivals) -> None:
    """Look at the watched folder again and again; what nobody foresaw goes to the log."""
    rest_s = LOOK_EVERY_S
    while True:
        await asyncio.sleep(rest_s)
        try:
            rest_s = await asyncio.to_thread(arrivals.look)
        except Exception as error:  # noqa: BLE001 - the next file may be sound
            keep_trace(error)
            rest_s = 5.0


class Noticed:
    """Notice which fitting is opened on the green, and with what in hand."""

    def __init__(self, app: ASGIApp, *, arrivals: Arrivals) -> None:
        self._app = app
        self._arrivals = arrivals

    async def __call__(self, scope: Scope, receive: Receive, send: Send) -> None:
        """Handle one request; a page that is not there opens nothing."""

        async def _send(message: Message) -> None:
            if message["type"] == "http.response.start" and message["status"] == 200:
                self._notice(scope)
            await send(message)

        looks = scope["type"] == "http" and scope["method"] == "GET"
        await self._app(scope, receive, _send if looks else send)

    def _notice(self, scope: Scope) -> None:
        path, query = scope["path"], scope["query_string"].decode("latin-1")
        on_green = _FITTING.fullmatch(path)
        if on_green:
            self._arrivals.opened(unquote(on_green[1]), dict(parse_qsl(query)))
        elif not self._arrivals.open_here and path.endswith("/stream"):
            waits = _FITTING.match(path)  # a page that was open before the program began anew
            if waits:
                self._arrivals.opened(unquote(waits[1]), {})


def _arrivals(request: Request) -> Arrivals:
    return cast(Arrivals, request.app.state.arrivals)


ArrivalsHere = Annotated[Arrivals, Depends(_arrivals)]
