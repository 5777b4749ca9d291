"""Stages of reading side by side: compiled code lets a second thread run meanwhile."""

from __future__ import annotations

import contextlib
from collections import deque
from collections.abc import Callable, Iterable, Iterator
from concurrent.futures import Future, ThreadPoolExecutor
from typing import TypeVar

Item = TypeVar("Item")
Done = TypeVar("Done")


def ahead(items: Iterator[Item]) -> Iterator[Item]:
    """Each item, while a second thread gets the next one ready."""
    with ThreadPoolExecutor(1) as pool:
        coming = pool.submit(next, items, None)
        while (item := coming.result()) is not None:
            coming = pool.submit(next, items, None)
            yield item


def shared(work: Callable[[Item], Done], items: Iterable[Item]) -> Iterator[Done]:
    """What becomes of each item, in order, while two threads work on the next ones.

    No more than two are worked on or wait, so that memory stays flat.
    """
    with ThreadPoolExecutor(2) as pool:
        coming: deque[Future[Done]] = deque()
        for item in items:
            coming.append(pool.submit(work, item))
            if len(coming) > 2:
                yield coming.popleft().result()
        while coming:
            yield coming.popleft().result()


@contextlib.contextmanager
def behind(work: Callable[[Item], None]) -> Iterator[Callable[[Item], None]]:
    """Give the caller a function that has a second thread do the work, item by item in order.

    One item is at work and one waits, so that memory stays flat. What goes wrong with an item is
    raised when the next one is given, or at the end.
    """
    with ThreadPoolExecutor(1) as pool:
        last: list[Future[None]] = []

        def give(item: Item) -> None:
            while len(last) > 1:
                last.pop(0).result()
            last.append(pool.submit(work, item))

        yield give
        for each in last:
            each.result()
