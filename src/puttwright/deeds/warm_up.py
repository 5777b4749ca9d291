"""Get the arithmetic ready: compile what is compiled on first use, before anyone waits for it."""

from __future__ import annotations

from puttwright.fitting.decide import decide
from puttwright.virtual.golfers import invent


def warm_up() -> None:
    """Decide the smallest invented fitting, which compiles and caches every kernel a decision uses.

    Takes some seconds the first time after an install and a fraction of one later.
    """
    golfer = invent(1, seed=0, putts=1, aims=1)[0]
    decide(golfer.fitting, worth_draws=20)


if __name__ == "__main__":
    warm_up()
