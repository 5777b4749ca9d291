"""Hold what we claim against invented golfers whose truth is known."""

from __future__ import annotations

from collections.abc import Callable

from puttwright.study.calibration import judge_many
from puttwright.study.table import study_lines


def run_calibration(
    n: int, *, seed: int, tell: Callable[[int], None] = lambda _more: None
) -> list[str]:
    """Invent, decide and judge ``n`` golfers; the study as Markdown lines.

    Parameters
    ----------
    n
        How many golfers.
    seed
        Makes them; the same seed gives the same study.
    tell
        Called with how many more are done.
    """
    return study_lines(judge_many(n, seed=seed, progress=lambda _done: tell(1)), seed=seed)
