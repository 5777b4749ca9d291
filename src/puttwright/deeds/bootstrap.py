"""The one place that joins the records, the clock, the folders and the decision."""

from __future__ import annotations

import os
from collections.abc import Callable
from dataclasses import dataclass
from datetime import UTC, datetime
from pathlib import Path
from typing import Final

from puttwright.evidence import Fitting
from puttwright.fitting.decision import Decision
from puttwright.store import Store, open_store

Clock = Callable[[], datetime]
Decide = Callable[[Fitting], Decision]
Early = Callable[[Fitting], Decision | None]

RECORDS: Final = "records.sqlite"
FITTER: Final = "fitter"
"""Who works at this machine; one fitter there needs no name."""
DATA_FOLDER: Final = "PUTTWRIGHT_DATA"
"""The environment variable that moves a shop's records elsewhere."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Shop:
    """What the deeds of a shop work with; ``who`` works with it."""

    store: Store
    clock: Clock
    decide: Decide
    early: Early
    folder: Path
    who: str = FITTER

    def close(self) -> None:
        """Let go of the records."""
        self.store.close()


def open_shop(
    folder: Path | None = None,
    *,
    database: str | None = None,
    clock: Clock | None = None,
    decide: Decide | None = None,
    early: Early | None = None,
) -> Shop:
    """Open a shop's records, made when they are not there yet.

    Parameters
    ----------
    folder
        Where they lie; the user's own data folder when not given.
    database
        The address of a database (``postgresql://...``) that holds the records
        instead of a file in the folder.
    clock
        What tells the time, aware; the system's when not given.
    decide
        What decides a fitting; ``fitting.decide.decide`` when not given.
    early
        What says something at once of a fitting that was decided before; nothing does when
        not given.

    Raises
    ------
    CannotWrite, NoDriver, StoreAway, StoreDamaged, StoreTooNew
        The records cannot be used.
    """
    place = folder or data_folder()
    return Shop(
        store=open_store(database or place / RECORDS, copies=place / "backups"),
        clock=clock or system_clock,
        decide=decide or decide_now,
        early=early or never_early,
        folder=place,
    )


def data_folder() -> Path:
    """Where the records lie unless somebody says otherwise."""
    import platformdirs  # noqa: PLC0415 - needed once, by some starts only

    told = os.environ.get(DATA_FOLDER)
    return Path(told) if told else platformdirs.user_data_path("puttwright", appauthor=False)


def system_clock() -> datetime:
    """Now, in UTC."""
    return datetime.now(UTC)


def decide_now(fitting: Fitting) -> Decision:
    """Decide with the seed everyone uses."""
    from puttwright.fitting.decide import decide  # noqa: PLC0415 - slow to import, not at start

    return decide(fitting)


def never_early(_fitting: Fitting) -> None:
    """Say nothing before the decision."""
