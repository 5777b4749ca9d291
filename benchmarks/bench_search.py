"""Ten thousand fittings in the records: what a fitter types into the list is found.

The peer is the same search in records without the two indexes that answer it.
"""

from __future__ import annotations

import random
import statistics
import tempfile
import time
from collections.abc import Callable, Iterator
from datetime import UTC, datetime, timedelta
from functools import partial
from pathlib import Path

from sqlalchemy import Connection, insert, text

from puttwright.deeds.find_fittings import count_fittings, find_fittings
from puttwright.deeds.know_golfers import find_golfers
from puttwright.store import Store, open_store, tables

FITTINGS = 10_000
ROUNDS = 15
PEER = "without its index"
INDEXES = ("ix_fitting_found", "ix_fitting_golfer")
SYLLABLES = ("al", "ber", "cor", "dun", "el", "fin", "gre", "hol", "is", "jun", "kes", "lor")


def rows() -> Iterator[tuple[str, float, str, float]]:
    """Medians of the processor's time, which hears no others."""
    with tempfile.TemporaryDirectory() as folder:
        ours, peer = (_filled(Path(folder) / f"{name}.sqlite") for name in ("ours", "peer"))
        with peer.writing() as write:
            for name in INDEXES:
                write.execute(text(f"DROP INDEX {name}"))
        for what, words in (("one name", "corfin"), ("nobody", "zzz"), ("a month", "al 2021-03")):
            for whom, find in (("fittings", _found), ("golfers", find_golfers)):
                took = [_median(partial(find, on, words)) for on in (ours, peer)]
                yield f"{whom} found, {what}", took[0], PEER, took[1]
        last = partial(find_fittings, skip=FITTINGS - 50)
        took = [_median(partial(last, on)) for on in (ours, peer)]
        yield "the last page of the list", took[0], PEER, took[1]
        ours.close()
        peer.close()


def _filled(file: Path) -> Store:
    store = open_store(file)
    with store.writing() as write:
        _fill(write)
    return store


def _found(store: Store, words: str) -> None:
    find_fittings(store, words)
    count_fittings(store, words)


def _median(do: Callable[[], object]) -> float:
    took = []
    for _ in range(ROUNDS):
        began = time.process_time()
        do()
        took.append(time.process_time() - began)
    return statistics.median(took)


def _fill(write: Connection) -> None:
    chance = random.Random(7)  # noqa: S311 - invented names
    first = datetime(2019, 1, 1, 9, 0, tzinfo=UTC)
    fittings, builds, readings = [], [], []
    for number in range(1, FITTINGS + 1):
        when = first + timedelta(hours=6 * number)
        alias = "".join(chance.choices(SYLLABLES, k=3)).title()
        name, day = f"{when.date()}-{number:08x}", str(when.date())
        again = fittings and chance.random() < 0.4
        fittings.append(
            {
                "id": number, "fitting_id": name, "entry_key": name, "date": day, "own_build": "A",
                "golfer_alias": alias, "golfer_handed": "right", "golfer_extra": {"note": "x" * 99},
                "green_speed_ft": 10.0, "green_extra": {}, "extra": {}, "revision": 1,
                "search_text": f"{alias} {day} {name}".casefold(), "created_at": when,
                "created_by": "bench", "practice": False,
                "golfer_key": chance.choice(fittings)["golfer_key"] if again else name,
            }
        )  # fmt: skip
        builds.append({"fitting": number, "position": 0, "build_id": "A", "length_mm": 864.0,
                       "lie_deg": 70.0, "loft_deg": 3.0, "extra": {}})  # fmt: skip
        readings += [
            {"fitting": number, "kind": "putts", "seq": seq, "build_id": "A", "extra": {},
             "entry_key": f"{seq}", "recorded_at": when, "recorded_by": "bench"}
            for seq in range(1, 9)
        ]  # fmt: skip
    write.execute(insert(tables.fitting), fittings)
    write.execute(insert(tables.build), builds)
    write.execute(insert(tables.reading), readings)
