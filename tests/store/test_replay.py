"""The journal taken into a backup gives the records as they were."""

from __future__ import annotations

import shutil
import sqlite3
from contextlib import closing
from datetime import UTC, datetime
from pathlib import Path

import pytest
from sqlalchemy import delete, insert, update

from puttwright.store import Store, journal, open_store, tables
from puttwright.store.journal import Line, Rows, Told
from puttwright.store.journaling import number_in_file
from puttwright.store.look_at_journal import look_at_journal
from puttwright.store.migrate import HEAD, revision_of, step_to
from puttwright.store.replay import RecordsBehind, Replayed, replay

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
        return [line for line in connection.iterdump() if line.startswith("INSERT")]


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


def test_of_a_journal_in_which_nothing_was_ever_written_empty_records_are_made(
    tmp_path: Path,
) -> None:
    assert replay(Told(after=0), tmp_path / "new.sqlite").whole
    assert revision_of(tmp_path / "new.sqlite") == HEAD


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
    assert not replay(Told(after=3), tmp_path / "none.sqlite").reaches
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


def _turned_back(store: Store, tmp_path: Path, *, names: str) -> None:
    """Records that lost their newest entries, as when the log of writes lost its end."""
    store.copy_to(tmp_path / "earlier.sqlite")
    for name in names:
        row = {"name": name, "value": "1", "changed_at": NOW, "changed_by": "x"}
        with store.writing() as transaction:
            transaction.execute(insert(TABLE).values(row))
    store.close()
    shutil.copy(store.file, tmp_path / "whole.sqlite")
    shutil.copy(tmp_path / "earlier.sqlite", store.file)


def test_one_line_that_the_records_lack_is_taken_in_when_they_are_opened(
    store: Store, tmp_path: Path
) -> None:
    _change(store, "abc")
    _turned_back(store, tmp_path, names="d")

    open_store(store.file).close()

    assert _all(store.file) == _all(tmp_path / "whole.sqlite")
    assert number_in_file(store.file) == number_in_file(tmp_path / "whole.sqlite")


def test_records_that_lack_more_are_not_written_on(store: Store, tmp_path: Path) -> None:
    _change(store, "abc")
    _turned_back(store, tmp_path, names="de")
    before = store.file.read_bytes()

    assert look_at_journal(store.file, revision=HEAD).records_wrong
    with pytest.raises(RecordsBehind, match="end 2 entries before their journal does"):
        open_store(store.file)

    assert store.file.read_bytes() == before
    assert len(_told(store).lines) == 6
