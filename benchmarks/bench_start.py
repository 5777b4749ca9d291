"""How soon the program answers, beside one that imports its libraries first."""

from __future__ import annotations

import subprocess
import sys
import time
from collections.abc import Iterator

LIBRARIES = "import numpy, scipy.stats, numba, sqlalchemy, fastapi, typst"
PEER = "all libraries imported first"


def _best_of_three(arguments: list[str]) -> float:
    def once() -> float:
        started = time.perf_counter()
        subprocess.run([sys.executable, *arguments], check=True, capture_output=True)
        return time.perf_counter() - started

    return min(once() for _ in range(3))


def rows() -> Iterator[tuple[str, float, str, float]]:
    """The version and the help."""
    peer_s = _best_of_three(["-c", LIBRARIES])
    for argument in ("--version", "--help"):
        program = (
            f"import sys; sys.argv = ['puttwright', '{argument}'];"
            "from puttwright.cli import main; main()"
        )
        yield f"puttwright {argument}", _best_of_three(["-c", program]), PEER, peer_s
