"""Decide a fitting that lies on the disk as a package."""

from __future__ import annotations

from pathlib import Path

from puttwright.deeds.write_whole import write_whole
from puttwright.evidence import Fitting
from puttwright.fitting.decide import decide
from puttwright.fitting.decision import Decision
from puttwright.fitting.wire import to_bytes
from puttwright.readers.package import read_package


def decide_package(
    package: Path, *, seed: int = 1, out: Path | None = None
) -> tuple[Fitting, Decision]:
    """Read, judge and decide; write ``decision.json`` into ``out`` when one is given.

    Parameters
    ----------
    package
        Folder or zip of the fitting.
    seed
        Of the draws; the same seed gives the same decision.
    out
        Folder for ``decision.json``, made if it is not there.

    Returns
    -------
    Fitting, Decision
        What was read and what it says.

    Raises
    ------
    PackageFaults
        Every fault of the package; nothing is written then.
    CannotWrite
        The decision cannot be kept.
    """
    fitting = read_package(package)
    decision = decide(fitting, seed=seed)
    if out is not None:
        write_whole(out / "decision.json", to_bytes(decision))
    return fitting, decision
