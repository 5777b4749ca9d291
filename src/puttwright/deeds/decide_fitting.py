"""Decide a fitting from all its readings and keep the decision."""

from __future__ import annotations

from puttwright.deeds.bootstrap import Clock, Decide
from puttwright.deeds.recent_evidence import fitting_now
from puttwright.evidence import Fitting
from puttwright.fitting.decision import Decision
from puttwright.fitting.wire import to_json
from puttwright.store import Store, decisions
from puttwright.store.decisions import KeptDecision
from puttwright.store.revisions import key_to_write


def decide_fitting(
    store: Store, clock: Clock, *, fitting_id: str, decide: Decide, issue: bool = False
) -> tuple[Fitting, Decision]:
    """Decide on the readings of this moment; others may come in meanwhile.

    Parameters
    ----------
    store, clock
        The shop's.
    fitting_id
        Which fitting.
    decide
        What decides it.
    issue
        Somebody is handed this decision, so it is kept for good.

    Returns
    -------
    Fitting, Decision
        What it rests on and what it says.

    Raises
    ------
    NotFound
        There is no such fitting.
    """
    fitting, seen = fitting_now(store, fitting_id)
    decision = decide(fitting)
    now = clock()
    made = KeptDecision(
        version=decision.model.version,
        seed=decision.model.seed,
        inputs_sha256=decision.inputs_sha256,
        decision=to_json(decision),
        revision=seen,
        when=now,
    )
    with store.writing() as transaction:
        key = key_to_write(transaction, fitting_id)
        decisions.keep(transaction, made, key=key)
        if issue:
            decisions.issue(transaction, made, key=key, now=now)
    return fitting, decision
