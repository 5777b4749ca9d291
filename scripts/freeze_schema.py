"""Freeze a schema: records with something in every table, as SQL, for tests/store/frozen.

    python scripts/freeze_schema.py [REVISION]     the newest unless one is named

A frozen file is never written anew once its schema was released.
"""

from __future__ import annotations

import dataclasses
import sqlite3
import sys
import tempfile
from contextlib import closing
from datetime import UTC, datetime
from pathlib import Path

from sqlalchemy import Connection, create_engine, insert

from puttwright.evidence import FirstPutt, Instrument, Part, Putt, SetupReading
from puttwright.store import (
    corrections,
    decisions,
    fittings,
    golfer_notes,
    open_store,
    orders,
    rack,
    readings,
    tables,
)
from puttwright.store.decisions import KeptDecision
from puttwright.store.golfer_notes import TOLD, YES, GolferNote
from puttwright.store.migrate import HEAD
from puttwright.store.orders import CHECKED_IN, KeptCheck
from puttwright.store.revisions import key_to_write
from puttwright.store.steps import upgrade
from puttwright.virtual.golfers import invent

FROZEN = Path(__file__).resolve().parents[1] / "tests" / "store" / "frozen"
NOW = datetime(2026, 5, 1, 9, 30, tzinfo=UTC)
BY = {"now": NOW, "who": "fitter"}


def fill(file: Path) -> None:
    """Write something into every table of the newest schema."""
    whole = invent(1, seed=3, putts=4, aims=2)[0].fitting
    parts = (Part(part_id="H1", kind="head", mass_g=350.5, stock=2, extra={"bay": "3"}),)
    golfer = dataclasses.replace(whole.golfer, alias="R\u00f3is\u00edn 'o")
    fitting = dataclasses.replace(
        whole, golfer=golfer, rack=parts, extra={"weather": "windy"},
        first_putts=(FirstPutt(distance_m=5.5, per_round=9),),
        instruments=(Instrument(name="laser", quantity="reading_mm", repeatability_sd=1.5),),
        setups=(SetupReading(seq=1000, build_id=whole.own_build, eye_inside_mm=20.5),),
    )  # fmt: skip
    store = open_store(file)
    with store.writing() as connection:
        fittings.start(connection, fitting, entry_key="k", **BY)
        key = key_to_write(connection, fitting.fitting_id)
        for number in (1, 2):
            putt = Putt(seq=0, build_id=fitting.own_build, distance_m=2.5, holed=number == 1)
            kept = readings.record(connection, putt, key=key, entry_key=f"e{number}", **BY)
        readings.void(
            connection, key=key, kind="putts", seq=kept.seq - 1, why="a gust",
            replaced_by=kept.seq, **BY,
        )  # fmt: skip
        _handed_out(connection, fitting.fitting_id, key=key)
        rack.put(connection, parts, **BY)
        connection.execute(insert(tables.practice).values(
            fitting=key, golfer={"invented": True}, shown_at=NOW))  # fmt: skip
        _files_read(connection, key=key)
        connection.execute(insert(tables.shop_setting).values(
            name="units", value="mm", changed_at=NOW, changed_by="fitter"))  # fmt: skip
        told = GolferNote(kind=TOLD, answer=YES, told="what is kept", when=NOW, who="fitter")
        golfer_notes.add(connection, told, golfer=fitting.fitting_id)
        renamed = dataclasses.replace(golfer, alias="Rose")
        corrections.note(connection, renamed, now_known=golfer, key=key, **BY)
    store.close()


def _files_read(connection: Connection, *, key: int) -> None:
    file = {"fitting": key, "file": "log.csv", "header": "0123456789abcdef"}
    read = {"entry_key": "f", "kind": "putts", "row_keys": bytes(8), "added": 1, "before": 0}
    connection.execute(insert(tables.file_read).values(
        **file, **read, aside=1, read_at=NOW, read_by="fitter"))  # fmt: skip
    connection.execute(insert(tables.row_aside).values(
        **file, row=3, why="ball speed: too fast", cells="{}", row_key="00" * 8))  # fmt: skip


def _handed_out(connection: Connection, fitting_id: str, *, key: int) -> None:
    made = KeptDecision(version="0.1.0", seed=1, inputs_sha256="a" * 64, revision=4, when=NOW,
                        decision={"choice": "keep"})  # fmt: skip
    decisions.keep(connection, made, key=key)
    decisions.issue(connection, made, key=key, now=NOW)
    document = {"order_id": f"{fitting_id}-B"}
    order_id = orders.keep(connection, document, key=key, entry_key="o", **BY)
    check = KeptCheck(kind=CHECKED_IN, verdict="pass", measured={"lie_deg": 70.5}, result={},
                      when=NOW, who="bench")  # fmt: skip
    orders.keep_check(connection, check, order_id=order_id, entry_key="c")


def at_revision(newest: Path, revision: str) -> str:
    """The same rows in the tables of a revision, as SQL."""
    old = newest.with_name("old.sqlite")
    old.unlink(missing_ok=True)
    engine = create_engine(f"sqlite:///{old}")
    with engine.begin() as connection:
        upgrade(connection, to=revision)
    engine.dispose()
    with closing(sqlite3.connect(old)) as target:
        target.execute("ATTACH ? AS newest", (str(newest),))
        tables_there = "SELECT name FROM main.sqlite_master WHERE type = 'table'"
        for (name,) in target.execute(tables_there).fetchall():
            columns = [row[1] for row in target.execute(f"PRAGMA main.table_info({name})")]
            if name != "alembic_version":
                listed = ", ".join(columns)
                copied = f"SELECT {listed} FROM newest.{name}"  # noqa: S608 - names of ours
                target.execute(f"INSERT INTO main.{name} {copied}")
        target.commit()
        target.execute("DETACH newest")
        return "\n".join(target.iterdump()) + "\n"


if __name__ == "__main__":
    wanted = sys.argv[1] if len(sys.argv) > 1 else HEAD
    with tempfile.TemporaryDirectory() as folder:
        fill(Path(folder) / "newest.sqlite")
        FROZEN.mkdir(exist_ok=True)
        target = FROZEN / f"{wanted}.sql"
        target.write_text(at_revision(Path(folder) / "newest.sqlite", wanted), encoding="utf-8")
        print(target)
