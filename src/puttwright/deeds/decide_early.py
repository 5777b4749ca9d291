"""The decision a moment after a reading, before the one that is kept: for open pages only."""

from __future__ import annotations

from collections import OrderedDict
from dataclasses import dataclass
from threading import Lock
from typing import TYPE_CHECKING, Final

from puttwright.deeds.bootstrap import Early
from puttwright.deeds.recent_evidence import fitting_now
from puttwright.evidence import Fitting
from puttwright.fitting.decision import Decision
from puttwright.store import Store

if TYPE_CHECKING:
    from puttwright.fitting.decide import Footing

MOST: Final = 12
"""What so many decisions stand on is kept in mind, about a megabyte each with eight builds."""

_lock = Lock()
_footings: OrderedDict[str, Footing] = OrderedDict()


@dataclass(frozen=True, slots=True, kw_only=True)
class EarlyDecision:
    """What the readings of a revision say, a little before the decision that will be kept."""

    decision: Decision
    revision: int


def decide_and_stand(fitting: Fitting) -> Decision:
    """Decide as everyone does, and keep in mind what the decision stands on."""
    from puttwright.fitting.decide import decide_with_footing  # noqa: PLC0415 - slow to import

    decision, footing = decide_with_footing(fitting)
    with _lock:
        _footings[fitting.fitting_id] = footing
        _footings.move_to_end(fitting.fitting_id)
        while len(_footings) > MOST:
            _footings.popitem(last=False)
    return decision


def decide_early(fitting: Fitting) -> Decision | None:
    """The decision from what the last one of this process stands on; none where that won't do."""
    from puttwright.fitting.early import early_decision  # noqa: PLC0415 - slow to import

    with _lock:
        footing = _footings.get(fitting.fitting_id)
    return early_decision(footing, fitting) if footing else None


def look_early(store: Store, *, fitting_id: str, early: Early) -> EarlyDecision | None:
    """An early decision on the readings of this moment.

    Parameters
    ----------
    store
        The shop's.
    fitting_id
        Which fitting.
    early
        What decides early, if it can.

    Raises
    ------
    NotFound
        There is no such fitting.
    """
    fitting, revision = fitting_now(store, fitting_id)
    decision = early(fitting)
    return None if decision is None else EarlyDecision(decision=decision, revision=revision)
