"""Look at one fitting as it stands: evidence, every reading's history, the last decision."""

from __future__ import annotations

from dataclasses import dataclass

from puttwright.deeds.recent_evidence import evidence_of
from puttwright.evidence import Fitting
from puttwright.fitting.decision import Decision
from puttwright.store import Store, decisions
from puttwright.store.decision_json import decision_from
from puttwright.store.readings import Kept
from puttwright.store.revisions import row_of_fitting


@dataclass(frozen=True, slots=True, kw_only=True)
class Glance:
    """How far a fitting and its decision have come, looked up without loading either."""

    fitting_id: str
    revision: int
    decided_revision: int


@dataclass(frozen=True, slots=True, kw_only=True)
class OpenFitting:
    """A fitting at one moment; ``decision`` may be older than its newest reading."""

    fitting: Fitting
    revision: int
    history: tuple[Kept, ...]
    decision: Decision | None
    decided_revision: int

    @property
    def glance(self) -> Glance:
        """How far it has come."""
        return Glance(
            fitting_id=self.fitting.fitting_id,
            revision=self.revision,
            decided_revision=self.decided_revision,
        )

    @property
    def decided(self) -> bool:
        """Whether the decision rests on every reading there is."""
        return self.decision is not None and self.decided_revision >= self.revision

    @property
    def last(self) -> Kept | None:
        """The reading taken last that still counts."""
        return next((kept for kept in reversed(self.history) if kept.void is None), None)


def open_fitting(store: Store, fitting_id: str) -> OpenFitting:
    """Everything the pages show of a fitting, of one moment.

    Raises
    ------
    NotFound
        There is no such fitting.
    """
    with store.reading() as look:
        row = row_of_fitting(look, fitting_id)
        made = decisions.latest(look, key=row["id"])
        evidence = evidence_of(store, look, row=row)
        return OpenFitting(
            fitting=evidence.fitting,
            revision=row["revision"],
            history=evidence.history,
            decision=None if made is None else decision_from(made.decision),
            decided_revision=0 if made is None else made.revision,
        )


def glance_at(store: Store, fitting_id: str) -> Glance:
    """Enough to know whether there is anything new to show.

    Raises
    ------
    NotFound
        There is no such fitting.
    """
    with store.reading() as look:
        reached = decisions.reached(look, fitting_id)
    return Glance(fitting_id=fitting_id, revision=reached[0], decided_revision=reached[1])
