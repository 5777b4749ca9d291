"""Print the build order of a package."""

from __future__ import annotations

from pathlib import Path

from puttwright.deeds.write_whole import write_whole
from puttwright.errors import NotFound
from puttwright.evidence import Fitting
from puttwright.fitting.decide import decide
from puttwright.paper.order import render_order
from puttwright.readers.package import read_package


def write_order(package: Path, *, out: Path, build_id: str | None = None, seed: int = 1) -> None:
    """Decide a package and write the order of what the decision, or the fitter, says to build.

    Parameters
    ----------
    package
        Folder or zip of the fitting.
    out
        The PDF.
    build_id
        A build of the fitting to order instead of what the decision says.
    seed
        Of the decision.

    Raises
    ------
    NotFound
        The fitting has no such build.
    PackageFaults, CannotWrite
        Nothing is written then.
    """
    fitting = read_package(package)
    if build_id is not None:
        _must_be_there(build_id, fitting)
    decision = decide(fitting, seed=seed)
    write_whole(out, render_order(fitting, decision, build_id=build_id))


def _must_be_there(build_id: str, fitting: Fitting) -> None:
    known = [build.build_id for build in fitting.builds]
    if build_id not in known:
        raise NotFound(what="build", name=build_id, known=f"; there are {', '.join(known)}")
