"""Decide in a process of its own, so that no entry and no page waits for the arithmetic."""

from __future__ import annotations

import multiprocessing
import os
import signal
import threading
from collections.abc import Callable, Iterator
from concurrent.futures import Future, ProcessPoolExecutor
from concurrent.futures.process import BrokenProcessPool
from contextlib import contextmanager
from typing import Final, TypeVar

from puttwright.deeds.bootstrap import Decide
from puttwright.deeds.decide_early import decide_and_stand, decide_early
from puttwright.deeds.keep_log import FaultElsewhereError, fault_line
from puttwright.deeds.warm_up import warm_up
from puttwright.errors import UserError
from puttwright.evidence import Fitting
from puttwright.fitting.decision import Decision

Answer = TypeVar("Answer")

BEHIND: Final = 5
"""How much nicer than the pages it is, as ``nice`` counts."""
_STARTS: Final = 2


class DecideBeside:
    """Decides fittings, one after the other, in a process that lives as long as this does.

    A process that dies (a machine short of memory) is started once more for the fitting that
    was lost; where none can be had, this process decides. Any thread may call it.

    Parameters
    ----------
    decide
        What decides one; a function of a module, so that the other process finds it.
    """

    def __init__(self, decide: Decide = decide_and_stand) -> None:
        self._decide = decide
        self._lock = threading.Lock()
        self._asked = 0
        self._pool: ProcessPoolExecutor | None = None
        self._closed = False

    def get_ready(self) -> None:
        """Start the process now, so that the first decision waits for no compiler."""
        try:
            self._started().submit(warm_up)
        except (OSError, BrokenProcessPool):
            return  # found out, and dealt with, when something is to be decided

    def __call__(self, fitting: Fitting) -> Decision:
        """The decision of a fitting.

        Raises
        ------
        FaultElsewhereError
            A fault of ours.
        UserError
            As deciding raises it.
        """
        for _ in range(_STARTS):
            pool = None
            try:
                pool = self._started()
                with self._asking():
                    asked: Future[Decision] = pool.submit(_decide, self._decide, fitting)
                    return asked.result()
            except (OSError, BrokenProcessPool):
                self._let_go(pool)
        return self._decide(fitting)

    def early(self, fitting: Fitting) -> Decision | None:
        """What can be said at once of a fitting that was decided before a few readings came.

        None while something else is being decided: then it would not be at once.

        Raises
        ------
        FaultElsewhereError
            A fault of ours.
        """
        if self._asked:
            return None
        try:
            with self._asking():
                return self._started().submit(_decide, decide_early, fitting).result()
        except (OSError, BrokenProcessPool):
            return None  # whoever decides next finds it out, and deals with it

    @contextmanager
    def _asking(self) -> Iterator[None]:
        with self._lock:
            self._asked += 1
        try:
            yield
        finally:
            with self._lock:
                self._asked -= 1

    def ask(self, question: Callable[[], Answer]) -> Answer:
        """What the other process says to a question, a function of a module."""
        return self._started().submit(question).result()

    def close(self) -> None:
        """End the process once it has decided what it was given."""
        with self._lock:
            pool, self._pool, self._closed = self._pool, None, True
        if pool:
            pool.shutdown()

    def _started(self) -> ProcessPoolExecutor:
        with self._lock:
            if self._closed:
                raise BrokenProcessPool("closed")
            if self._pool is None:
                spawn = multiprocessing.get_context("spawn")
                self._pool = ProcessPoolExecutor(1, mp_context=spawn, initializer=_settle)
            return self._pool

    def _let_go(self, pool: ProcessPoolExecutor | None) -> None:
        """Of a process that is gone, unless somebody else has already started another."""
        with self._lock:
            if pool is not None and self._pool is pool:
                self._pool = None
                pool.shutdown(wait=False)


def _settle() -> None:
    """What the process does first: it stands behind the pages and never outlives them."""
    signal.signal(signal.SIGINT, signal.SIG_IGN)  # whoever stops the pages stops this
    if hasattr(os, "nice"):
        os.nice(BEHIND)
    threading.Thread(target=_end_with_the_pages, name="parent", daemon=True).start()


def _end_with_the_pages() -> None:
    pages = multiprocessing.parent_process()
    if pages is not None:
        pages.join()
        os._exit(1)  # nothing here needs an ending: what is decided is kept by the pages


def _decide(decide: Callable[[Fitting], Answer], fitting: Fitting) -> Answer:
    try:
        return decide(fitting)
    except UserError:
        raise
    except Exception as error:  # noqa: BLE001 - told where somebody reads the log
        raise FaultElsewhereError(fault_line(error)) from None
