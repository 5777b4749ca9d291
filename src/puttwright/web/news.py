"""Where a page listens for news of its fitting, and what it has seen already."""

from __future__ import annotations

from dataclasses import replace
from urllib.parse import urlencode

from puttwright.deeds.open_fitting import Glance, OpenFitting
from puttwright.web.contexts.heading import address_of
from puttwright.web.desk import Desk


def state_of(opened: OpenFitting, desk: Desk) -> str:
    """A word for everything a page of this fitting shows: another word, something to redraw."""
    return state_at(opened.glance, desk)


def state_at(glance: Glance, desk: Desk) -> str:
    """The same, without the fitting having been loaded."""
    fitting_id = glance.fitting_id
    busy, fault = desk.busy(fitting_id), desk.fault(fitting_id)
    early = desk.early(fitting_id)
    decided = max(glance.decided_revision, early.revision if early else 0)
    return f"{glance.revision}.{decided}.{int(busy)}.{fault or ''}.{desk.stirred}"


def up_to_now(opened: OpenFitting, desk: Desk) -> OpenFitting:
    """The fitting with what is said of it already, where its decision is still on its way."""
    early = desk.early(opened.fitting.fitting_id)
    if early is None or early.revision <= opened.decided_revision:
        return opened
    return replace(opened, decision=early.decision, decided_revision=early.revision)


def stream_address(opened: OpenFitting, desk: Desk, *, view: str) -> str:
    """Where a page that shows this state listens."""
    query = urlencode({"view": view, "seen": state_of(opened, desk)})
    return f"{address_of(opened.fitting.fitting_id)}/stream?{query}"
