"""The machine's cores for arithmetic that leaves the interpreter free, in threads started once."""

from __future__ import annotations

import os
from collections.abc import Callable, Iterable
from concurrent.futures import ThreadPoolExecutor
from functools import cache
from typing import TypeVar

Part = TypeVar("Part")
Done = TypeVar("Done")


def cores() -> int:
    """How many there are."""
    return os.cpu_count() or 1


def on_all_cores(do: Callable[[Part], Done], parts: Iterable[Part]) -> list[Done]:
    """What ``do`` makes of each part, in their order; ``do`` must not call this itself."""
    return list(_threads().map(do, parts))


@cache
def _threads() -> ThreadPoolExecutor:
    """Kept: to start one takes a good part of a millisecond, and a decision needs forty."""
    return ThreadPoolExecutor(cores(), thread_name_prefix="arithmetic")


if hasattr(os, "register_at_fork"):
    os.register_at_fork(after_in_child=_threads.cache_clear)  # a fork has none of the threads
