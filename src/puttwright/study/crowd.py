"""Many invented golfers at once, on all cores."""

from __future__ import annotations

import multiprocessing
import os
from collections.abc import Callable, Iterator
from concurrent.futures import ProcessPoolExecutor
from contextlib import contextmanager
from typing import Final, TypeVar

import numpy as np

from puttwright.virtual.golfers import VirtualGolfer, invent

_THREADS: Final = ("OPENBLAS_NUM_THREADS", "OMP_NUM_THREADS", "MKL_NUM_THREADS")

Done = TypeVar("Done")


def with_each(
    do: Callable[[VirtualGolfer, int], Done],
    n: int,
    *,
    seed: int,
    progress: Callable[[int], None] | None = None,
) -> list[Done]:
    """Do something with each of ``n`` invented golfers.

    Parameters
    ----------
    do
        Gets a golfer and a seed of the golfer's own, which does not depend on ``n``;
        a function of a module, so that another process finds it.
    n, seed
        How many golfers, and what makes them.
    progress
        Told how many are done.
    """
    golfers = invent(n, seed=seed)
    seeds = [int(np.random.SeedSequence([seed, k]).generate_state(1)[0]) for k in range(n)]
    spawn = multiprocessing.get_context("spawn")
    done = []
    with _one_thread_each(), ProcessPoolExecutor(os.cpu_count() or 1, mp_context=spawn) as pool:
        for one in pool.map(do, golfers, seeds, chunksize=4):
            done.append(one)
            if progress:
                progress(len(done))
    return done


@contextmanager
def _one_thread_each() -> Iterator[None]:
    """Processes started meanwhile do linear algebra in one thread.

    Each has a core to itself; more threads would wait for each other half of the time.
    """
    before = dict(os.environ)
    os.environ.update(dict.fromkeys(_THREADS, "1"))
    try:
        yield
    finally:
        for name in _THREADS:
            os.environ.pop(name)
        os.environ.update({name: before[name] for name in _THREADS if name in before})
