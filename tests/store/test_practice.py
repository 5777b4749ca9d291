"""The invented golfer of a practice is kept once, and the first look at the truth counts."""

from __future__ import annotations

from datetime import datetime

from puttwright.evidence import Fitting
from puttwright.store import Store, fittings, practice


def test_who_putts_is_kept_once_and_shown_once(
    store: Store, fitting: Fitting, now: datetime
) -> None:
    with store.writing() as write:
        fittings.start(write, fitting, entry_key="k", now=now, who="fitter")
        assert practice.find(write, "F1") is None
        practice.keep(write, "F1", golfer={"world": "first"})
        practice.keep(write, "F1", golfer={"world": "second"})

    with store.writing() as write:
        kept = practice.find(write, "F1")
        assert kept is not None
        assert (kept.golfer, kept.shown) == ({"world": "first"}, False)
        practice.show(write, "F1", now=now)
        again = practice.find(write, "F1")

    assert again is not None
    assert again.shown
