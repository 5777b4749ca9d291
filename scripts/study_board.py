"""How well the dot is read off photos whose truth is known: the table of docs/concepts/board.md.

Run it, and put what it prints into the page.
"""

from __future__ import annotations

import sys
from collections.abc import Callable
from pathlib import Path

import numpy as np

sys.path.insert(0, str(Path(__file__).resolve().parent))

from board_scene import Dot, a_dot, a_shot, jpeg

from puttwright.readers.board_photo import read_board
from puttwright.readers.photo import photo_of

COUNT = 60
Dots = Callable[[np.random.Generator], list[Dot]]


def main() -> None:
    """Print the table."""
    print("| photos | read | rms error, mm | worst, mm | within the 90 % interval |")
    print("| --- | --: | --: | --: | --: |")
    for said, dots_of, given in (
        ("a dot, from 3 m (1 pixel a millimetre)", lambda rng: [a_dot(rng)], {}),
        ("a dot, from 1.5 m", lambda rng: [a_dot(rng)], {"camera_m": 1.5, "size": (960, 720)}),
        ("a dim dot, from 3 m", lambda rng: [a_dot(rng, peak=0.3)], {}),
        ("a dim dot, from 1.5 m", lambda rng: [a_dot(rng, peak=0.3)],
         {"camera_m": 1.5, "size": (960, 720)}),
        ("two dots", _two, {}),
        ("no dot", lambda _rng: [], {}),
    ):  # fmt: skip
        print(_row(said, dots_of, given), flush=True)


def _two(rng: np.random.Generator) -> list[Dot]:
    first = a_dot(rng, x_mm=rng.uniform(-100, -10), peak=2.0, colour="red")
    return [first, a_dot(rng, x_mm=rng.uniform(10, 100), peak=1.0, colour="red")]


def _row(said: str, dots_of: Dots, given: dict[str, object]) -> str:
    off, within = [], []
    for number in range(COUNT):
        rng = np.random.default_rng([11, number])
        dots = dots_of(rng)
        got = read_board(photo_of(jpeg(a_shot(rng, dots, **given))), bar_mm=100.0)
        if got.reading_mm is not None:
            off.append(got.reading_mm - dots[0].x_mm if dots else np.inf)
            within.append(abs(off[-1]) < 1.645 * got.reading_sd_mm)
    if not off:
        return f"| {said} | 0 of {COUNT} | | | |"
    rms, worst = float(np.sqrt(np.mean(np.square(off)))), float(np.max(np.abs(off)))
    share = f"{100 * np.mean(within):.0f} %"
    return f"| {said} | {len(off)} of {COUNT} | {rms:.2f} | {worst:.2f} | {share} |"


if __name__ == "__main__":
    main()
