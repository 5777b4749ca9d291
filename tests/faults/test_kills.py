"""Killed while entries stream in: nothing acknowledged is lost, nothing is twice.

Most points are tried on the deed alone, twenty on the pages that call it, some on the
program as a person starts it. With PUTTWRIGHT_KILLS=200 the pages get as many.
"""

from __future__ import annotations

import json
import os
import random
import re
import signal
import subprocess
import sys
import threading
from pathlib import Path

import pytest

from puttwright.deeds.open_fitting import open_fitting
from puttwright.store import open_store
from puttwright.store.backups import listed

pytestmark = [pytest.mark.faults, pytest.mark.slow]

DEED_KILLS, PROGRAM_KILLS = 200, 3
PAGE_KILLS = int(os.environ.get("PUTTWRIGHT_KILLS", "20"))
SEED = 20260501


class Writer:
    """The program that writes, started anew from where each of its threads was."""

    def __init__(self, bays) -> None:
        self._bays = bays
        self._program = subprocess.Popen(
            [sys.executable, str(Path(__file__).with_name("writing.py"))],
            stdin=subprocess.PIPE, stdout=subprocess.PIPE, text=True,
        )  # fmt: skip

    def write_until(self, *, entries: int, later_s: float) -> None:
        """Let it write so many entries, and kill it a moment later."""
        asked = {
            "folder": str(self._bays.folder),
            "fitting_id": self._bays.fitting_id,
            # what was not acknowledged is sent again under its key
            "next": {each.name: len(each.acknowledged) + 1 for each in self._bays.tablets},
        }
        self._program.stdin.write(json.dumps(asked) + "\n")
        self._program.stdin.flush()
        pid = int(self._program.stdout.readline().split()[1])
        for _ in range(entries):
            self._note(self._program.stdout.readline())
        threading.Event().wait(later_s)
        os.kill(pid, signal.SIGKILL)
        while (line := self._program.stdout.readline()) != "end\n":
            self._note(line)

    def _note(self, line: str) -> None:
        name, number, seq = line.split()
        tablet = next(each for each in self._bays.tablets if each.name == name)
        tablet.acknowledged[f"{name}-{number}"] = int(seq)
        tablet.waiting = f"{name}-{int(number) + 1}"

    def end(self) -> None:
        self._program.communicate()


@pytest.mark.timeout(1200)
def test_two_hundred_kills_of_what_writes_lose_nothing(bays) -> None:
    draw = random.Random(SEED)
    for tablet in bays.tablets:
        tablet.waiting = f"{tablet.name}-1"
    writer = Writer(bays)
    for _ in range(DEED_KILLS):
        writer.write_until(entries=draw.randint(0, 4), later_s=draw.uniform(0.0, 0.02))
    writer.end()

    assert len(bays.acknowledged) >= DEED_KILLS
    bays.check_nothing_lost_nothing_twice()
    bays.check_the_journal_alone_gives_it_all_back()


def _acknowledged_through_kills(bays, start, *, times: int, seed: int) -> int:
    """How many entries were acknowledged; none of them is lost or twice."""
    draw = random.Random(seed)
    for _ in range(times):
        server = start()
        later_s = draw.uniform(0.0, 0.03)  # an entry takes some milliseconds: anywhere within one

        def kill(server=server, later_s=later_s) -> None:
            threading.Event().wait(later_s)
            server.kill()

        bays.stream(server, until=draw.randint(0, 4), then=kill)
        assert bays.refused == []
    bays.check_nothing_lost_nothing_twice()
    return len(bays.acknowledged)


@pytest.mark.timeout(60 + 30 * PAGE_KILLS)
def test_kills_of_the_pages_lose_nothing(bays, forks) -> None:
    acknowledged = _acknowledged_through_kills(
        bays, lambda: forks.start(bays.folder), times=PAGE_KILLS, seed=SEED + 1
    )
    assert acknowledged >= PAGE_KILLS


class Program:
    """``puttwright serve`` as a person starts it."""

    def __init__(self, folder) -> None:
        self._program = subprocess.Popen(
            [sys.executable, "-m", "puttwright", "serve", "--port", "18417", "--data", str(folder)],
            stdout=subprocess.PIPE, text=True,
        )  # fmt: skip
        said = self._program.stdout.readline()
        found = re.search(r"http://127\.0\.0\.1:(\d+)", said)
        assert found, said
        self.port = int(found[1])

    def kill(self) -> None:
        self._program.kill()
        self._program.wait()
        self._program.stdout.close()

    def ended(self) -> int:
        """Asked to end, as by a machine that shuts down; what it ended with."""
        self._program.terminate()
        self._program.communicate()
        return self._program.returncode


@pytest.mark.timeout(600)
def test_kills_of_the_whole_program_lose_nothing(bays) -> None:
    acknowledged = _acknowledged_through_kills(
        bays, lambda: Program(bays.folder), times=PROGRAM_KILLS, seed=SEED + 2
    )
    assert acknowledged >= PROGRAM_KILLS


def test_a_machine_that_shuts_down_leaves_a_backup_of_the_last_entries(bays) -> None:
    program = Program(bays.folder)
    bays.stream(program, until=5)
    assert program.ended() == 0

    newest = listed(bays.folder / "backups")[-1]
    store = open_store(newest.file)
    kept = {each.entry_key for each in open_fitting(store, bays.fitting_id).history}
    store.close()
    assert kept == set(bays.acknowledged)
