"""Print the golfer's sheet of a package."""

from __future__ import annotations

from pathlib import Path

from puttwright.deeds.decide_package import decide_package
from puttwright.deeds.write_whole import write_whole
from puttwright.paper.report import render_report


def write_report(package: Path, *, out: Path, seed: int = 1) -> None:
    """Decide a package and write its sheet.

    Parameters
    ----------
    package
        Folder or zip of the fitting.
    out
        The PDF.
    seed
        Of the decision.

    Raises
    ------
    PackageFaults, CannotWrite
        Nothing is written then.
    """
    fitting, decision = decide_package(package, seed=seed)
    write_whole(out, render_report(fitting, decision))
