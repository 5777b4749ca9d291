"""Invent golfers whose truth is known and write each as a package."""

from __future__ import annotations

from collections.abc import Callable
from pathlib import Path

from puttwright.readers.package import write_package
from puttwright.readers.writing import json_bytes
from puttwright.virtual.golfers import VirtualGolfer, invent


def invent_golfers(
    n: int, *, seed: int, out: Path, tell: Callable[[int], None] = lambda _more: None
) -> list[Path]:
    """Write ``n`` packages into ``out``, each with a ``truth.json`` in it.

    Parameters
    ----------
    n
        How many.
    seed
        The same seed gives the same golfers and the same bytes.
    out
        The folder that gets a folder a golfer, made if it is not there.
    tell
        Called with 1 after each golfer.

    Returns
    -------
    list of Path
        The packages.

    Raises
    ------
    CannotWrite
        A full disk, or a folder with other things in the way.
    """
    width = max(3, len(str(n)))
    paths = []
    for number, golfer in enumerate(invent(n, seed=seed), start=1):
        path = out / f"golfer-{number:0{width}}"
        write_golfer(golfer, path)
        paths.append(path)
        tell(1)
    return paths


def write_golfer(golfer: VirtualGolfer, path: Path) -> None:
    """Write one invented golfer as a package with its truth."""
    write_package(golfer.fitting, path, beside={"truth.json": json_bytes(golfer.truth)})
