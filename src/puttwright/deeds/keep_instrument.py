"""Keep how well an instrument measures, with a fitting: its belief rests on it then."""

from __future__ import annotations

import tempfile
from pathlib import Path

from puttwright.deeds.bootstrap import Clock
from puttwright.deeds.study_gauge import Gauge, study_gauge
from puttwright.evidence import Instrument
from puttwright.store import Store, instruments, trail
from puttwright.store.revisions import key_to_write
from puttwright.store.trail import Deed


def study_sent(
    data: bytes, *, name: str, quantity: str, called: str, board_distance_m: float | None = None,
    mirror: bool = False,
) -> Gauge:  # fmt: skip
    """Study a table of repeat readings that was sent, as :func:`study_gauge` does one on the disk.

    Parameters
    ----------
    data, name
        The file; it lies in a folder of its own while it is read, and is gone then.
    quantity, called
        The column the instrument reads, and what it is called in the fitting's tables.
    board_distance_m, mirror
        Turns millimetres on a board into degrees of the face.

    Raises
    ------
    CannotRead, NothingReadTwice, PartNotRead, NotReadInThat, UnknownQuantity
        As :func:`study_gauge`.
    """
    with tempfile.TemporaryDirectory(prefix="puttwright-") as folder:
        path = Path(folder) / (Path(name).name[-100:] or "study")
        path.write_bytes(data)
        return study_gauge(
            path, quantity=quantity, name=called or None, board_distance_m=board_distance_m,
            mirror=mirror,
        )  # fmt: skip


def keep_instrument(
    store: Store, clock: Clock, *, fitting_id: str, entry: Instrument, who: str
) -> None:
    """Put an instrument among the fitting's, in place of one of its name and quantity.

    Raises
    ------
    NotFound
        There is no such fitting.
    """
    with store.writing() as transaction:
        key = key_to_write(transaction, fitting_id)
        instruments.put(transaction, entry, key=key)
        trail.note(transaction, Deed.INSTRUMENT, now=clock(), who=who, key=key)


def known_instruments(store: Store) -> list[Instrument]:
    """Every instrument that was ever studied here, as it was studied last."""
    with store.reading() as look:
        return instruments.latest(look)
