"""A shop that is served, entries that stream in, and what was acknowledged of them."""

from __future__ import annotations

import os
import re
import signal
import subprocess
import sys
import threading
from collections import Counter
from collections.abc import Callable, Iterator
from contextlib import suppress
from dataclasses import dataclass, field
from datetime import UTC, datetime
from http.client import HTTPConnection, HTTPException
from pathlib import Path
from urllib.parse import urlencode

import pytest

from puttwright.deeds.bootstrap import RECORDS, open_shop
from puttwright.deeds.open_fitting import open_fitting
from puttwright.deeds.restore_records import Wanted, restore_records
from puttwright.deeds.start_fitting import NewFitting, start_fitting
from puttwright.evidence import Build, FittingGreen, Golfer, Green
from puttwright.store import open_store
from puttwright.store.examine import examine_file
from puttwright.store.look_at_journal import look_at_journal
from puttwright.store.migrate import HEAD
from puttwright.web.typed import ENTRY_KEPT

HERE = Path(__file__).parent
ADDRESS = re.compile(r"http://127\.0\.0\.1:(\d+)")
NEW = NewFitting(
    golfer=Golfer(alias="Robin", handed="left"),
    greens=(Green(name="home", speed_ft=9.5, share=1.0),),
    fitting_green=FittingGreen(speed_ft=10),
    builds=(
        Build(build_id="A", length_mm=864, lie_deg=70, loft_deg=3),
        Build(build_id="B", length_mm=838, lie_deg=71, loft_deg=2),
    ),
)


class Forks:
    """Servers that start at once, because what they need is imported already."""

    def __init__(self) -> None:
        self._started: list[int] = []
        self._program = subprocess.Popen(
            [sys.executable, str(HERE / "serving.py")],
            stdin=subprocess.PIPE, stdout=subprocess.PIPE, text=True,
        )  # fmt: skip

    def start(self, folder: Path) -> Served:
        """Serve a folder."""
        assert self._program.stdin is not None
        assert self._program.stdout is not None
        self._program.stdin.write(f"{folder}\n")
        self._program.stdin.flush()
        pid = int(self._program.stdout.readline())
        said = self._program.stdout.readline()
        found = ADDRESS.search(said)
        if found:
            self._program.stdout.readline()  # where the fittings are kept
        self._started.append(pid)
        return Served(pid=pid, said=said, port=int(found[1]) if found else 0)

    def end(self) -> None:
        """No more of them."""
        for pid in self._started:
            with suppress(ProcessLookupError):
                os.kill(pid, signal.SIGKILL)
        self._program.communicate()


@dataclass(frozen=True)
class Served:
    """A server that runs, or what it said instead."""

    pid: int
    said: str
    port: int

    def kill(self) -> None:
        """End it as a power cut would."""
        os.kill(self.pid, signal.SIGKILL)


@pytest.fixture(scope="session")
def forks() -> Iterator[Forks]:
    running = Forks()
    yield running
    running.end()


@dataclass
class Tablet:
    """Sends putts one after the other, and again under the same key until one is acknowledged."""

    name: str
    fitting_id: str
    acknowledged: dict[str, int] = field(default_factory=dict)
    refused: list[str] = field(default_factory=list)
    sent: int = 0
    waiting: str = ""

    def send(self, server: Served, *, enough: Callable[[], bool]) -> None:
        """Stream until the connection goes, an entry is refused or there are enough."""
        connection = HTTPConnection("127.0.0.1", server.port, timeout=20)
        try:
            while not enough():
                self._send_one(connection)
                if self.refused:
                    return
        except (OSError, HTTPException):
            return  # the server is gone; what waits is sent to the next one
        finally:
            connection.close()

    def _send_one(self, connection: HTTPConnection) -> None:
        if not self.waiting:
            self.sent += 1
            self.waiting = f"{self.name}-{self.sent}"
        form = {"entry_key": self.waiting, "hand": "B", "task": "putts", "from": "3", "via": "tap",
                "stop_past_m": "0.4", "stop_right_m": "-0.2"}  # fmt: skip
        connection.request(
            "POST", f"/fittings/{self.fitting_id}/take/putts", body=urlencode(form),
            headers={"Content-Type": "application/x-www-form-urlencoded", "hx-request": "true"},
        )  # fmt: skip
        answer = connection.getresponse()
        body = answer.read().decode()
        if answer.status == 200 and answer.headers.get(ENTRY_KEPT):
            self.acknowledged[self.waiting] = int(answer.headers[ENTRY_KEPT])
            self.waiting = ""
        else:
            self.refused.append(f"{answer.status} {body}")


@dataclass
class Bays:
    """Several tablets on one fitting."""

    folder: Path
    fitting_id: str
    tablets: list[Tablet]

    @property
    def acknowledged(self) -> dict[str, int]:
        """Every entry that was acknowledged, and as which number."""
        return {key: seq for each in self.tablets for key, seq in each.acknowledged.items()}

    @property
    def refused(self) -> list[str]:
        """What was answered instead."""
        return [said for each in self.tablets for said in each.refused]

    def stream(self, server: Served, *, until: int, then: Callable[[], None] | None = None) -> None:
        """Send from all tablets until so many more are acknowledged, and then do something."""
        enough = len(self.acknowledged) + until
        done = threading.Event()
        keep_on = then is not None  # what comes next must hit entries on their way

        def full() -> bool:
            if len(self.acknowledged) >= enough:
                done.set()
            return done.is_set() and not keep_on

        threads = [
            threading.Thread(target=each.send, args=(server,), kwargs={"enough": full})
            for each in self.tablets
        ]
        for thread in threads:
            thread.start()
        if then is not None:
            while not done.wait(0.001) and any(thread.is_alive() for thread in threads):
                full()
            then()
        for thread in threads:
            thread.join()

    def check_nothing_lost_nothing_twice(self) -> None:
        """What was acknowledged is there once, as that number; what waits is there once or not."""
        store = open_store(self.folder / RECORDS)
        history = open_fitting(store, self.fitting_id).history
        store.close()
        there = {kept.entry_key: kept.seq for kept in history}
        waiting = {each.waiting for each in self.tablets}
        assert {key: there.get(key) for key in self.acknowledged} == self.acknowledged
        assert max(Counter(kept.entry_key for kept in history).values()) == 1
        assert set(there) <= set(self.acknowledged) | waiting
        assert sorted(there.values()) == list(range(1, len(there) + 1))
        assert examine_file(self.folder / RECORDS).damage == ()
        assert look_at_journal(self.folder / RECORDS, revision=HEAD).damage == ()

    def check_the_journal_alone_gives_it_all_back(self) -> None:
        """Without the records, and without any backup."""
        (self.folder / RECORDS).unlink()
        wanted = Wanted(folder=self.folder, backup_folder=self.folder / "none")
        restore_records(wanted, clock=lambda: datetime(2026, 5, 1, 12, tzinfo=UTC))
        self.check_nothing_lost_nothing_twice()


@pytest.fixture
def bays(tmp_path: Path) -> Bays:
    folder = tmp_path / "shop"
    shop = open_shop(folder, clock=lambda: datetime(2026, 5, 1, 12, tzinfo=UTC))
    fitting_id = start_fitting(shop.store, shop.clock, new=NEW, entry_key="s", who="fitter")
    shop.close()
    names = ("left", "middle", "right")
    return Bays(folder, fitting_id, [Tablet(name, fitting_id) for name in names])


@pytest.fixture(scope="session")
def new_fitting() -> NewFitting:
    return NEW
