"""Put one more build among those to try."""

from __future__ import annotations

from puttwright.errors import PackageFaults
from puttwright.evidence import Build
from puttwright.evidence.sheet import sheet_of
from puttwright.evidence.tables import table_faults
from puttwright.store import Store, fittings


def add_build(store: Store, *, fitting_id: str, build: Build) -> None:
    """Add a build to a fitting; sent twice it is added once.

    Raises
    ------
    PackageFaults
        Everything in it that cannot be.
    NotFound, NotAllowed
        There is no such fitting; another build has that id.
    """
    faults = table_faults({"builds": sheet_of([build], table="builds", record=Build)})
    if faults:
        raise PackageFaults(faults=faults)
    with store.writing() as transaction:
        fittings.add_build(transaction, build, fitting_id=fitting_id)
