"""Hold what we claim against invented golfers whose truth is known."""

from __future__ import annotations

from collections.abc import Callable
from pathlib import Path

from puttwright.deeds.write_whole import write_whole
from puttwright.study.calibration import judge_many
from puttwright.study.page import Study
from puttwright.study.plans import plan_many
from puttwright.study.stopping import stop_many, stopping_lines


def run_calibration(
    n: int,
    *,
    seed: int,
    plans: bool = False,
    tell: Callable[[int], None] = lambda _more: None,
) -> Study:
    """Invent, decide and judge ``n`` golfers.

    Parameters
    ----------
    n
        How many golfers.
    seed
        Makes them; the same seed gives the same study.
    plans
        Also let them putt by plans with fewer putts, weighed after every block, which takes longer.
    tell
        Called with how many more are done; with plans, twice for each golfer.
    """
    return Study(
        n=n,
        seed=seed,
        judged=judge_many(n, seed=seed, progress=lambda _done: tell(1)),
        planned=plan_many(n, seed=seed, progress=lambda _done: tell(1)) if plans else (),
    )


def run_stopping(
    n: int, *, seed: int, tell: Callable[[int], None] = lambda _more: None
) -> list[str]:
    """Let ``n`` invented golfers putt until told to stop; the study as Markdown lines.

    Parameters
    ----------
    n
        How many golfers.
    seed
        Makes them and their putts; the same seed gives the same study.
    tell
        Called with how many more are done.
    """
    return stopping_lines(stop_many(n, seed=seed, progress=lambda _done: tell(1)), seed=seed)


def write_study(study: Study, folder: Path) -> list[Path]:
    """Write the page and its pictures into ``folder``.

    Raises
    ------
    CannotWrite
        A full disk, or something else in the way.
    """
    paths = []
    for name, text in study.files().items():
        write_whole(folder / name, text.encode("utf-8"))
        paths.append(folder / name)
    return paths
