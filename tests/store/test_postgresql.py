"""The same records in a real PostgreSQL: same tables, same steps, nothing lost, nothing twice."""

from __future__ import annotations

import sqlite3
import threading
from collections import Counter
from collections.abc import Callable, Iterator
from contextlib import closing
from datetime import datetime
from itertools import count
from pathlib import Path

import pytest
from alembic.autogenerate import compare_metadata
from alembic.runtime.migration import MigrationContext
from sqlalchemy import create_engine

from puttwright.deeds.back_up import back_up
from puttwright.deeds.restore_records import Wanted, restore_records
from puttwright.deeds.shop_settings import BackupSettings
from puttwright.errors import NotAllowed
from puttwright.evidence import Fitting, Putt
from puttwright.store import Store, erasure, fittings, migrate, open_store, readings, revisions
from puttwright.store.examine import examine, examine_file
from puttwright.store.faults import StoreAway
from puttwright.store.steps import upgrade
from puttwright.store.tables import metadata

pytestmark = [pytest.mark.slow, pytest.mark.faults]
FROZEN = Path(__file__).with_name("frozen")
NAMES = count()


@pytest.fixture
def empty(postgres) -> Callable[[], str]:
    """The address of an empty database."""
    return lambda: postgres.database(f"shop_{next(NAMES)}")


@pytest.fixture
def store(empty: Callable[[], str], fitting: Fitting, now: datetime) -> Iterator[Store]:
    opened = open_store(empty())
    with opened.writing() as connection:
        fittings.start(connection, fitting, entry_key="k", now=now, who="fitter")
    yield opened
    opened.close()


def _record(store: Store, *, entry_key: str, now: datetime) -> int:
    putt = Putt(seq=0, build_id="own", distance_m=3, holed=True, note=entry_key)
    with store.writing() as connection:
        key = revisions.key_to_write(connection, "F1")
        return readings.record(
            connection, putt, key=key, entry_key=entry_key, now=now, who="fitter"
        ).seq


def test_a_fitting_comes_back_as_it_was(store: Store, fitting: Fitting, now: datetime) -> None:
    with store.reading() as connection:
        assert fittings.load(connection, "F1") == fitting
        history = readings.history(connection, key=revisions.key_of(connection, "F1"))
        assert {kept.when for kept in history} == {now}
        assert examine(connection).damage == ()


def test_the_steps_lead_to_the_tables_of_the_code(store: Store) -> None:
    with store.reading() as connection:
        context = MigrationContext.configure(connection, opts={"compare_type": True})
        assert compare_metadata(context, metadata) == []


def test_several_bays_write_one_fitting_without_loss_or_doubling(
    store: Store, now: datetime
) -> None:
    def bay(name: str) -> None:
        for number in range(25):
            for _ in range(2):  # each sent twice
                _record(store, entry_key=f"{name}-{number}", now=now)

    bays = [threading.Thread(target=bay, args=(name,)) for name in "abcd"]
    for each in bays:
        each.start()
    for each in bays:
        each.join()

    with store.reading() as connection:
        history = readings.history(connection, key=revisions.key_of(connection, "F1"))
    written = [kept for kept in history if not kept.entry_key.startswith("package:")]
    assert Counter(kept.entry_key[0] for kept in written) == dict.fromkeys("abcd", 25)
    assert [kept.seq for kept in written] == list(range(6, 106))


def test_a_database_pulled_away_is_told_and_when_it_is_back_it_goes_on(
    store: Store, postgres, now: datetime
) -> None:
    first = _record(store, entry_key="before", now=now)
    postgres.stop()
    try:
        for _ in range(2):
            with pytest.raises(StoreAway, match="does not answer; nothing was stored"):
                _record(store, entry_key="away", now=now)
    finally:
        postgres.start()

    assert _record(store, entry_key="before", now=now) == first
    assert _record(store, entry_key="away", now=now) == first + 1


def test_older_tables_are_copied_and_brought_up_to_date(
    empty: Callable[[], str], tmp_path: Path
) -> None:
    address = empty()
    engine = create_engine(address.replace("postgresql:", "postgresql+psycopg:"))
    with engine.begin() as connection:
        upgrade(connection, to="0004")
    engine.dispose()

    store = open_store(address, copies=tmp_path)
    with store.reading() as connection:
        assert examine(connection).revision == migrate.HEAD
    store.close()
    (copy,) = tmp_path.iterdir()
    assert examine_file(copy).revision == "0004"


@pytest.mark.parametrize("revision", ["0001", "0004"])
def test_records_of_every_schema_move_into_it(
    empty: Callable[[], str], tmp_path: Path, revision: str, now: datetime
) -> None:
    backup = tmp_path / "old.sqlite"
    with closing(sqlite3.connect(backup)) as connection:
        connection.executescript((FROZEN / f"{revision}.sql").read_text(encoding="utf-8"))
    address = empty()
    wanted = Wanted(
        folder=tmp_path, backup_folder=tmp_path / "backups", backup=backup, database=address
    )

    restore_records(wanted, clock=lambda: now)

    store = open_store(address)
    with store.writing() as connection:
        (found,) = fittings.search(connection)
        fitting = fittings.load(connection, found.fitting_id)
        assert len(fitting.putts) == 21
        key = revisions.key_to_write(connection, found.fitting_id)
        putt = Putt(seq=0, build_id=fitting.own_build, distance_m=2, holed=True)
        readings.record(connection, putt, key=key, entry_key="new", now=now, who="fitter")
        assert examine(connection).damage == ()
    with pytest.raises(NotAllowed, match="holds records already"):
        restore_records(wanted, clock=lambda: now)
    store.close()


def test_a_backup_holds_everything_and_fills_another_database(
    store: Store, empty: Callable[[], str], fitting: Fitting, tmp_path: Path, now: datetime
) -> None:
    _record(store, entry_key="e", now=now)
    settings = BackupSettings(folder=tmp_path / "backups")
    backup = back_up(store, lambda: now, settings=settings).newest.file
    assert back_up(store, lambda: now, settings=settings).new is None
    address = empty()
    restore_records(
        Wanted(folder=tmp_path, backup_folder=settings.folder, database=address), clock=lambda: now
    )

    other = open_store(address)
    with store.reading() as here, other.reading() as there:
        assert fittings.load(here, "F1") == fittings.load(there, "F1")
        key = revisions.key_of(here, "F1")
        assert readings.history(here, key=key) == readings.history(there, key=key)
    other.close()
    assert examine_file(backup).damage == ()


def test_an_erased_fitting_is_gone(store: Store, now: datetime) -> None:
    assert erasure.erase(store, ["F1"], now=now, who="x")
    with store.reading() as connection:
        assert fittings.search(connection) == []
