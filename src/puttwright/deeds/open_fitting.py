"""Look at one fitting as it stands: evidence, every reading's history, the last decision."""

from __future__ import annotations

from dataclasses import dataclass

from puttwright.evidence import Fitting
from puttwright.fitting.decision import Decision
from puttwright.store import Store, decisions, fittings, readings
from puttwright.store.decision_json import decision_from
from puttwright.store.readings import Kept
from puttwright.store.revisions import key_of, revision


@dataclass(frozen=True, slots=True, kw_only=True)
class OpenFitting:
    """A fitting at one moment; ``decision`` may be older than its newest reading."""

    fitting: Fitting
    revision: int
    history: tuple[Kept, ...]
    decision: Decision | None
    decided_revision: int

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
        key = key_of(look, fitting_id)
        made = decisions.latest(look, key=key)
        history = tuple(readings.history(look, key=key))
        return OpenFitting(
            fitting=fittings.load(look, fitting_id, history=history),
            revision=revision(look, fitting_id),
            history=history,
            decision=None if made is None else decision_from(made.decision),
            decided_revision=0 if made is None else made.revision,
        )
