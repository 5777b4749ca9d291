"""The same piece for several pages is drawn once: two tablets on one fitting see the same."""

from __future__ import annotations

from collections import OrderedDict
from collections.abc import Callable, Hashable
from concurrent.futures import Future
from threading import Lock


class DrawnOnce:
    """The last pieces drawn, by what they show; who asks while one is being drawn waits for it.

    Parameters
    ----------
    most
        How many are kept; the oldest goes when another comes.
    """

    def __init__(self, *, most: int) -> None:
        self._most = most
        self._lock = Lock()
        self._kept: OrderedDict[Hashable, Future[str]] = OrderedDict()

    def __call__(self, what: Hashable, draw: Callable[[], str]) -> str:
        """The piece that shows ``what``; what goes wrong is told to all who wait, and not kept."""
        with self._lock:
            drawn = self._kept.get(what)
            ours = drawn is None
            if drawn is None:
                drawn = self._kept[what] = Future()
                while len(self._kept) > self._most:
                    self._kept.popitem(last=False)
        if not ours:
            return drawn.result()
        try:
            drawn.set_result(draw())
        except Exception as error:
            with self._lock:
                self._kept.pop(what, None)
            drawn.set_exception(error)
            raise
        return drawn.result()
