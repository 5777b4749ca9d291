"""Run every benchmark side by side with its peer, in one go on one machine.

A benchmark is a file ``bench_*.py`` with a function ``rows()`` that yields ``(what, ours_s, peer,
peer_s)``: seconds of ours, the peer and its seconds. Only the ratio means anything on another
machine. ``make benchmark`` runs all; names as arguments run some.
"""

from __future__ import annotations

import importlib
import os
import platform
import sys
from collections.abc import Iterator
from pathlib import Path

HERE = Path(__file__).resolve().parent
sys.path.insert(0, str(HERE))

Row = tuple[str, float, str, float]


def benchmarks(wanted: list[str]) -> Iterator[tuple[str, Iterator[Row]]]:
    """The benchmarks asked for, or all."""
    for path in sorted(HERE.glob("bench_*.py")):
        name = path.stem.removeprefix("bench_")
        if not wanted or name in wanted:
            yield name, importlib.import_module(path.stem).rows()


def main() -> None:
    """Print a table, a line as soon as it is measured."""
    os.environ.setdefault("OPENBLAS_NUM_THREADS", "1")  # as the program itself runs
    print(f"Python {platform.python_version()}, {platform.machine()}\n")
    print("| benchmark | what | ours, s | peer | peer, s | ratio |")
    print("| --- | --- | --: | --- | --: | --: |")
    for name, rows in benchmarks(sys.argv[1:]):
        for what, ours_s, peer, peer_s in rows:
            ratio = f"{peer_s / ours_s:.3g}"
            line = f"| {name} | {what} | {ours_s:.3g} | {peer} | {peer_s:.3g} | {ratio} |"
            print(line, flush=True)


if __name__ == "__main__":
    main()
