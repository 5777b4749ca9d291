"""Records of every schema there was: opened by today's program, nothing is lost."""

from __future__ import annotations

import sqlite3
from collections.abc import Callable
from contextlib import closing
from datetime import datetime
from pathlib import Path

import pytest

from puttwright.evidence import Putt
from puttwright.store import fittings, migrate, open_store, readings, revisions
from puttwright.store.examine import examine_file
from puttwright.store.steps import known_revisions

FROZEN = Path(__file__).with_name("frozen")
SCHEMAS = sorted(file.stem for file in FROZEN.glob("*.sql"))
Rows = dict[tuple[str, int, str], object]


@pytest.fixture
def old(tmp_path: Path) -> Callable[[str], Path]:
    """The records of a schema as a file."""

    def _old(revision: str) -> Path:
        file = tmp_path / "records.sqlite"
        with closing(sqlite3.connect(file)) as connection:
            connection.executescript((FROZEN / f"{revision}.sql").read_text(encoding="utf-8"))
        return file

    return _old


def _rows(file: Path) -> Rows:
    """Every value by table, row and column."""
    found: Rows = {}
    with closing(sqlite3.connect(file)) as connection:
        connection.row_factory = sqlite3.Row
        names = connection.execute("SELECT name FROM sqlite_master WHERE type = 'table'").fetchall()
        for (name,) in names:
            if name != "alembic_version":
                for row in connection.execute(f"SELECT rowid AS row_number, * FROM {name}"):
                    found |= {(name, row["row_number"], c): row[c] for c in row.keys()}  # noqa: SIM118
    return found


def test_every_schema_before_the_newest_is_frozen() -> None:
    missing = known_revisions() - set(SCHEMAS) - {migrate.HEAD}
    assert not missing, "run scripts/freeze_schema.py"


@pytest.mark.parametrize("revision", SCHEMAS)
def test_nothing_is_lost_on_the_way_to_today(
    old: Callable[[str], Path], revision: str, now: datetime
) -> None:
    file = old(revision)
    before = _rows(file)
    assert len({table for table, _, _ in before}) >= 12

    store = open_store(file)
    with store.writing() as connection:
        (found,) = fittings.search(connection)
        fitting = fittings.load(connection, found.fitting_id)
        assert len(fitting.putts) == 21  # twenty it came with, one of two that stands
        key = revisions.key_to_write(connection, fitting.fitting_id)
        history = readings.history(connection, key=key)
        assert [kept.void.why for kept in history if kept.void] == ["a gust"]
        putt = Putt(seq=0, build_id=fitting.own_build, distance_m=2, holed=True)
        written = readings.record(connection, putt, key=key, entry_key="new", now=now, who="fitter")
        assert written.seq == max(kept.seq for kept in history) + 1
    store.close()

    after = _rows(file)
    grown = ("fitting", 1, "revision")
    assert {place: after[place] for place in before if place != grown} == {
        place: value for place, value in before.items() if place != grown
    }
    assert examine_file(file).damage == ()


@pytest.mark.parametrize("revision", [each for each in SCHEMAS if each < migrate.HEAD])
def test_a_copy_of_the_old_tables_stays(old: Callable[[str], Path], revision: str) -> None:
    file = old(revision)
    before = _rows(file)

    open_store(file).close()

    copy = file.parent / "backups" / f"records-before-{migrate.HEAD}-at-{revision}.sqlite"
    assert _rows(copy) == before
