"""Every transaction on a file of records stands in its journal, as the rows then were."""

from __future__ import annotations

import multiprocessing
import os
import shutil
import sqlite3
from contextlib import closing
from datetime import UTC, datetime, timedelta
from pathlib import Path

import pytest
from sqlalchemy import Integer, delete, insert, select, update

from puttwright.errors import CannotWrite
from puttwright.store import Store, backups, journal, open_store, tables
from puttwright.store.journaling import RecordsGone, number_in, number_in_file
from puttwright.store.migrate import HEAD
from puttwright.store.replay import differing

NOW = datetime(2026, 5, 1, 9, 30, tzinfo=UTC)


def _setting(store: Store, name: str, value: str = "1") -> None:
    row = {"name": name, "value": value, "changed_at": NOW, "changed_by": "x"}
    with store.writing() as transaction:
        transaction.execute(insert(tables.shop_setting).values(row))


def _told(store: Store) -> journal.Told:
    assert store.journal is not None
    return journal.read(store.journal)


def _number(store: Store) -> int:
    with store.reading() as look:
        return number_in(look)


def test_a_transaction_is_a_line_of_whole_rows_and_of_keys_that_are_gone(store: Store) -> None:
    table = tables.shop_setting
    _setting(store, "a")
    with store.writing() as transaction:
        transaction.execute(update(table).values(value="2"))
        transaction.execute(update(table).values(value="3"))
        transaction.execute(
            insert(table).values(name="b", value="", changed_at=NOW, changed_by="x")
        )
        transaction.execute(delete(table).where(table.c.name == "b"))

    first, second = _told(store).lines
    assert (first.number, second.number, _number(store)) == (1, 2, 2)
    said = second.tables["shop_setting"]
    assert [dict(zip(said.columns, row, strict=True))["value"] for row in said.rows] == ["3"]
    assert said.gone == (2,)


def test_what_goes_along_with_its_fitting_is_gone_in_the_journal_too(store: Store) -> None:
    fitting = dict.fromkeys((column.name for column in tables.fitting.c), "x")
    numbers = {"id": 1, "green_speed_ft": 10.0, "revision": 1, "practice": False}
    rest = {"created_at": NOW, "golfer_extra": {}, "green_extra": {}, "extra": {}}
    none = {column.name: None for column in tables.fitting.c if column.nullable}
    with store.writing() as transaction:
        transaction.execute(insert(tables.fitting).values(fitting | none | numbers | rest))
        transaction.execute(
            insert(tables.green).values(
                fitting=1, position=0, name="home", speed_ft=9.0, share=1.0, extra={}
            )
        )
    with store.writing() as transaction:
        transaction.execute(delete(tables.fitting))

    last = _told(store).lines[-1]
    assert {name: rows.gone for name, rows in last.tables.items()} == {"fitting": (1,),
                                                                       "green": (1,)}  # fmt: skip


def test_every_table_can_be_journaled_its_key_is_one_whole_number() -> None:
    """A key of another kind would be numbered anew when the file is tidied."""
    for table in tables.metadata.tables.values():
        assert [type(key.type) for key in table.primary_key] == [Integer], table.name


def test_what_was_undone_or_changed_nothing_is_no_line(store: Store) -> None:
    with pytest.raises(ZeroDivisionError), store.writing() as transaction:
        transaction.execute(update(tables.shop_setting).values(value="2"))
        transaction.execute(
            insert(tables.shop_setting).values(name="b", value="", changed_at=NOW, changed_by="x")
        )
        raise ZeroDivisionError
    with store.writing() as transaction:
        transaction.execute(delete(tables.shop_setting))

    assert _told(store).lines == ()
    assert _number(store) == 0


def test_what_the_journal_does_not_take_is_not_in_the_records_either(
    store: Store, monkeypatch: pytest.MonkeyPatch
) -> None:
    _setting(store, "a")

    def fails(_handle: int) -> None:
        raise OSError(28, os.strerror(28))

    with monkeypatch.context() as patch:
        patch.setattr(os, "fsync", fails)
        with pytest.raises(CannotWrite, match="the disk is full"):
            _setting(store, "b")
    with store.reading() as look:
        assert look.execute(select(tables.shop_setting.c.name)).scalars().all() == ["a"]
    _setting(store, "c")

    assert [line.number for line in _told(store).lines] == [1, 2]
    assert list(differing_tables(store)) == []


def differing_tables(store: Store) -> list[str]:
    """Where records and journal say different things."""
    with closing(sqlite3.connect(store.file)) as connection:
        return list(differing(_told(store), connection, revision=HEAD))


def test_what_changed_past_the_program_differs_from_the_journal(store: Store) -> None:
    _setting(store, "a")
    _setting(store, "b")
    assert differing_tables(store) == []
    with closing(sqlite3.connect(store.file)) as connection, connection:
        connection.execute("UPDATE shop_setting SET value = 'other' WHERE name = 'a'")

    assert differing_tables(store) == ["shop_setting: 1"]


def _many(where: Path, name: str) -> None:
    store = open_store(where)
    for number in range(20):
        _setting(store, f"{name}{number}")
    store.close()


@pytest.mark.slow
def test_several_processes_write_one_journal(store: Store) -> None:
    context = multiprocessing.get_context("spawn")
    processes = [context.Process(target=_many, args=(store.file, name)) for name in "abc"]
    for process in processes:
        process.start()
    for process in processes:
        process.join()

    told = _told(store)
    assert [line.number for line in told.lines] == list(range(1, 61))
    assert (told.unreadable, told.torn, _number(store)) == (0, False, 60)
    assert differing_tables(store) == []


def test_records_that_had_no_journal_skip_a_number(store: Store) -> None:
    _setting(store, "a")
    store.close()
    shutil.rmtree(store.journal)
    again = open_store(store.file)
    _setting(again, "b")
    shutil.rmtree(store.journal)  # under its hands
    _setting(again, "c")
    again.close()

    told = journal.read(store.journal)
    assert (told.after, [line.number for line in told.lines]) == (4, [5])


def test_a_backup_lets_go_of_what_the_backup_before_it_holds(store: Store, tmp_path: Path) -> None:
    folder = tmp_path / "backups"
    afters = []
    for number in range(3):
        _setting(store, f"a{number}")
        _setting(store, f"b{number}")
        taken = backups.take(store, folder, now=NOW + timedelta(hours=number))
        assert taken is not None
        assert number_in_file(taken.file) == _number(store)
        afters.append(_told(store).after)

    assert afters == [0, 2, 4]
    assert backups.take(store, folder, now=NOW) is None
    assert _told(store).after == 4
    assert len(_told(store).lines) == 2


@pytest.mark.parametrize("cut", [True, False])
def test_records_that_are_gone_are_not_made_anew_beside_their_journal(
    store: Store, cut: bool
) -> None:
    _setting(store, "a")
    store.close()
    if cut:
        store.file.write_bytes(b"")
    else:
        store.file.unlink()

    with pytest.raises(RecordsGone, match="their journal is there"):
        open_store(store.file)
    shutil.rmtree(store.journal)
    open_store(store.file).close()


def test_a_copy_that_is_looked_at_gets_no_journal(store: Store, tmp_path: Path) -> None:
    store.copy_to(tmp_path / "copy.sqlite")
    copy = open_store(tmp_path / "copy.sqlite", journaled=False)
    _setting(copy, "a")
    copy.close()

    assert copy.journal is None
    assert not (tmp_path / "copy.journal").exists()
