"""Put one more build among those to try."""

from __future__ import annotations

from puttwright.deeds.bootstrap import Clock
from puttwright.errors import PackageFaults
from puttwright.evidence import Build
from puttwright.evidence.sheet import sheet_of
from puttwright.evidence.tables import table_faults
from puttwright.store import Store, fittings, trail
from puttwright.store.revisions import key_of
from puttwright.store.trail import Deed


def add_build(store: Store, clock: Clock, *, fitting_id: str, build: Build, who: str) -> None:
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
        if fittings.add_build(transaction, build, fitting_id=fitting_id):
            trail.note(
                transaction, Deed.BUILD_ADDED, now=clock(), who=who, about=build.build_id,
                key=key_of(transaction, fitting_id),
            )  # fmt: skip
