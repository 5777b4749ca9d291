"""Deciding in a process of its own: the same decision, and nothing lost when it dies."""

from __future__ import annotations

import dataclasses
import os
import pickle
import signal
import subprocess
import sys
import threading
from collections.abc import Iterator
from contextlib import closing

import pytest

from puttwright.deeds import decide_beside
from puttwright.deeds.bootstrap import decide_now
from puttwright.deeds.decide_beside import BEHIND, DecideBeside
from puttwright.deeds.keep_log import FaultElsewhereError, fault_line
from puttwright.errors import Fault, OutOfRange, PackageFaults
from puttwright.evidence.fingerprint import inputs_sha256
from puttwright.fitting.wire import to_json
from puttwright.virtual.golfers import invent

pytestmark = pytest.mark.slow

FITTING = invent(1, seed=3, putts=2, aims=1)[0].fitting
NOBODY = dataclasses.replace(FITTING, builds=(), putts=(), aims=())
"""Faulty: no way of entering lets a fitting be without builds."""


@pytest.fixture(scope="module")
def beside() -> Iterator[DecideBeside]:
    with closing(DecideBeside()) as opened:
        opened.get_ready()
        yield opened


def test_it_decides_the_same_in_another_process_behind_the_pages(beside) -> None:
    assert to_json(beside(FITTING)) == to_json(decide_now(FITTING))
    assert beside.ask(os.getpid) != os.getpid()
    assert beside.ask(_niceness) == min(os.nice(0) + BEHIND, 19)


def _niceness() -> int:
    return os.nice(0)


def test_a_fault_there_is_told_by_where_it_was_and_the_next_fitting_is_decided(beside) -> None:
    with pytest.raises(FaultElsewhereError) as caught:
        beside(NOBODY)
    assert " at evidence/records.py:" in fault_line(caught.value)
    assert " < fitting/believe.py:" in fault_line(caught.value)
    assert FITTING.golfer.alias not in fault_line(caught.value)

    assert beside(FITTING).choice == decide_now(FITTING).choice


def test_a_process_that_dies_is_started_again(beside) -> None:
    first = beside.ask(os.getpid)
    os.kill(first, signal.SIGKILL)

    assert to_json(beside(FITTING)) == to_json(decide_now(FITTING))
    assert beside.ask(os.getpid) not in {first, os.getpid()}


def test_fittings_asked_for_by_several_threads_each_get_their_own(beside) -> None:
    others = [each.fitting for each in invent(3, seed=8, putts=1, aims=1)]
    found: dict[str, str] = {}

    def ask(fitting) -> None:
        found[fitting.fitting_id] = to_json(beside(fitting))

    asking = [threading.Thread(target=ask, args=(each,)) for each in others]
    for each in asking:
        each.start()
    for each in asking:
        each.join()

    assert found == {each.fitting_id: to_json(decide_now(each)) for each in others}


def one_more(fitting):
    """The same fitting when its first putt has been putted again."""
    putt = dataclasses.replace(fitting.putts[0], seq=1000)
    return dataclasses.replace(fitting, putts=(*fitting.putts, putt))


def test_something_is_said_at_once_of_a_fitting_that_was_decided_before(beside) -> None:
    known = invent(1, seed=12, putts=3, aims=3)[0].fitting
    assert beside.early(known) is None
    beside(known)

    early = beside.early(one_more(known))

    assert early is not None
    assert early.inputs_sha256 == inputs_sha256(one_more(known))
    assert early.model.seed == decide_now(known).model.seed


def test_nothing_is_said_at_once_while_something_is_being_decided(beside) -> None:
    beside(FITTING)
    assert beside.early(one_more(FITTING)) is not None
    with beside._asking():
        assert beside.early(one_more(FITTING)) is None
    closed = DecideBeside()
    closed.close()
    assert closed.early(one_more(FITTING)) is None


def test_where_no_process_can_be_had_it_decides_here(monkeypatch) -> None:
    def refused(*_args: object, **_kwargs: object) -> None:
        raise OSError("no more processes")

    monkeypatch.setattr(decide_beside, "ProcessPoolExecutor", refused)
    with closing(DecideBeside()) as beside:
        beside.get_ready()
        assert to_json(beside(FITTING)) == to_json(decide_now(FITTING))


def test_once_closed_it_starts_nothing(beside) -> None:
    closed = DecideBeside()
    closed.close()
    assert closed(FITTING).choice == decide_now(FITTING).choice
    assert closed._pool is None


@pytest.mark.skipif(sys.platform == "win32", reason="asks for signals")
def test_it_does_not_outlive_pages_that_are_killed() -> None:
    program = (
        "import os, sys\n"
        "from puttwright.deeds.decide_beside import DecideBeside\n"
        "if __name__ == '__main__':\n"
        "    beside = DecideBeside()\n"
        "    print(beside.ask(os.getpid), flush=True)\n"
        "    sys.stdin.read()\n"
    )
    # its end of the pipe is closed when the last process that holds it has ended
    pages = subprocess.Popen(
        [sys.executable, "-c", program], stdin=subprocess.PIPE, stdout=subprocess.PIPE, text=True
    )
    assert pages.stdout is not None
    child = int(pages.stdout.readline())
    pages.kill()
    assert pages.stdout.read() == ""
    pages.communicate()
    with pytest.raises(ProcessLookupError):
        _until_gone(child)


def _until_gone(pid: int) -> None:
    """Raises ``ProcessLookupError`` once it is; somebody else collects it."""
    for _ in range(500):
        os.kill(pid, 0)
        threading.Event().wait(0.01)


@pytest.mark.parametrize(
    "error",
    [
        OutOfRange(name="the loft", value=12.0, low=0.0, high=8.0, unit="deg", why="of a putter"),
        PackageFaults(faults=[Fault("putts.csv", 3, "seq", "is there twice")]),
    ],
)
def test_what_a_person_can_put_right_comes_over_whole(error) -> None:
    again = pickle.loads(pickle.dumps(error))
    assert (type(again), str(again), again.data) == (type(error), str(error), error.data)
