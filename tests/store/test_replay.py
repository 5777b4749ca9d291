"""The journal taken into a backup gives the records as they were."""

from __future__ import annotations

import shutil
import sqlite3
from contextlib import closing
from datetime import UTC, datetime
from pathlib import Path

import pytest
from sqlalchemy import delete, insert, update

from puttwright.store import Store, journal, tables
from puttwright.store.journal import Line, Rows, Told
from puttwright.store.migrate import HEAD, revision_of, step_to
from puttwright.store.replay import Replayed, replay

NOW = datetime(2026, 5, 1, 9, 30, tzinfo=UTC)
TABLE = tables.shop_setting


def _change(store: Store, names: str) -> None:
    for name in names:
        row = {"name": name, "value": "1", "changed_at": NOW, "changed_by": "x"}
        with store.writing() as transaction:
            transaction.execute(insert(TABLE).values(row))
    with store.writing() as transaction:
        transaction.execute(update(TABLE).where(TABLE.c.name == names[0]).values(value="2"))
        transaction.execute(delete(TABLE).where(TABLE.c.name == names[1]))


def _told(store: Store) -> Told:
    assert store.journal is not None
    return journal.read(store.journal)


def _all(file: Path) -> list[str]:
    with closing(sqlite3.connect(file)) as connection:
        return list(connection.iterdump())


def test_a_backup_and_the_journal_are_the_records(store: Store, tmp_path: Path) -> None:
    _change(store, "abc")
    store.copy_to(tmp_path / "backup.sqlite")
    _change(store, "defg")
    store.close()

    replayed = replay(_told(store), tmp_path / "backup.sqlite")

    assert replayed == Replayed(reaches=True, whole=True, lines=5)
    assert _all(tmp_path / "backup.sqlite") == _all(store.file)
    again = replay(_told(store), tmp_path / "backup.sqlite")
    assert again == Replayed(reaches=True, whole=True)


def test_without_a_backup_the_journal_from_the_start_is_the_records(
    store: Store, tmp_path: Path
) -> None:
    _change(store, "abc")
    store.close()

    assert replay(_told(store), tmp_path / "new.sqlite").whole
    assert _all(tmp_path / "new.sqlite") == _all(store.file)


def test_a_journal_that_does_not_go_back_to_the_backup_is_not_taken_in(
    store: Store, tmp_path: Path
) -> None:
    _change(store, "abc")
    store.copy_to(tmp_path / "backup.sqlite")
    before = _all(tmp_path / "backup.sqlite")
    told = _told(store)
    later = Told(after=9, lines=told.lines)

    assert replay(later, tmp_path / "backup.sqlite") == Replayed(reaches=False)
    assert _all(tmp_path / "backup.sqlite") == before
    assert not replay(Told(after=None), tmp_path / "backup.sqlite").reaches
    assert not replay(Told(after=0), tmp_path / "none.sqlite").reaches
    assert not (tmp_path / "none.sqlite").exists()


def test_what_belongs_to_a_line_that_cannot_be_read_is_left_out(
    store: Store, tmp_path: Path
) -> None:
    store.copy_to(tmp_path / "backup.sqlite")
    names = ("id", "fitting", "position", "name", "speed_ft", "share", "extra")
    alone = Rows(columns=names, rows=((1, 77, 0, "home", 9.0, 1.0, "{}"),))
    told = Told(after=0, unreadable=1,
                lines=(Line(number=2, revision=HEAD, tables={"green": alone}),))  # fmt: skip

    replayed = replay(told, tmp_path / "backup.sqlite")

    assert (replayed.reaches, replayed.whole, replayed.unreadable) == (True, False, 1)
    with closing(sqlite3.connect(tmp_path / "backup.sqlite")) as connection:
        assert connection.execute("SELECT * FROM green").fetchall() == []


@pytest.mark.slow
def test_lines_of_older_tables_are_taken_in_before_these_are_changed(
    store: Store, tmp_path: Path
) -> None:
    """A backup of the older tables, a line of then, the change of the tables, a line of now."""
    older = f"{int(HEAD) - 1:04d}"
    backup = tmp_path / "backup.sqlite"
    step_to(backup, older)
    names = ("id", "name", "value", "changed_at", "changed_by")
    rows = [Rows(columns=names, rows=((key, f"s{key}", "1", str(NOW), "x"),)) for key in (1, 2)]
    lines = (
        Line(number=1, revision=older, tables={"shop_setting": rows[0]}),
        Line(number=2, revision=HEAD, tables={"shop_setting": rows[1]}),
    )
    shutil.copy(backup, tmp_path / "other.sqlite")

    assert replay(Told(after=0, lines=lines), backup).whole
    assert replay(Told(after=0, lines=lines[:1]), tmp_path / "other.sqlite").whole

    assert revision_of(backup) == HEAD
    assert revision_of(tmp_path / "other.sqlite") == older
    with closing(sqlite3.connect(backup)) as connection:
        assert connection.execute("SELECT name FROM shop_setting").fetchall() == [("s1",), ("s2",)]
