"""A program that writes putts into a store, run twice at once by test_open_store."""

from __future__ import annotations

import sys
from datetime import UTC, datetime
from pathlib import Path

from puttwright.evidence import Putt
from puttwright.store import open_store, readings, revisions

file, name, count = Path(sys.argv[1]), sys.argv[2], int(sys.argv[3])
store = open_store(file)
for number in range(count):
    putt = Putt(seq=0, build_id="own", distance_m=3, holed=False, note=name)
    with store.writing() as connection:
        readings.record(
            connection,
            putt,
            key=revisions.key_to_write(connection, "F1"),
            entry_key=f"{name}-{number}",
            now=datetime(2026, 5, 1, tzinfo=UTC),
            who=name,
        )
store.close()
