from __future__ import annotations

import sqlite3
from contextlib import closing
from datetime import datetime
from pathlib import Path

import pytest
from alembic.autogenerate import compare_metadata
from alembic.config import Config
from alembic.runtime.migration import MigrationContext
from alembic.script import ScriptDirectory

from puttwright.evidence import Fitting
from puttwright.store import Store, fittings, migrate, open_store
from puttwright.store.faults import StoreTooNew
from puttwright.store.tables import metadata


def test_the_steps_lead_to_the_tables_of_the_code(store: Store) -> None:
    with store.reading() as connection:
        context = MigrationContext.configure(connection, opts={"compare_type": True})
        assert compare_metadata(context, metadata) == []


def test_head_is_the_newest_step() -> None:
    config = Config()
    config.set_main_option("script_location", "puttwright.store:migrations")

    assert ScriptDirectory.from_config(config).get_current_head() == migrate.HEAD


def test_a_file_from_the_future_is_left_alone(tmp_path: Path) -> None:
    file = tmp_path / "records.sqlite"
    open_store(file).close()
    with closing(sqlite3.connect(file)) as connection, connection:
        connection.execute("UPDATE alembic_version SET version_num = '9999'")

    with pytest.raises(StoreTooNew, match=r"newer version of this program \(9999\)"):
        open_store(file)

    with closing(sqlite3.connect(file)) as connection:
        assert connection.execute("SELECT version_num FROM alembic_version").fetchall() == [
            ("9999",)
        ]


def test_a_copy_is_whole(tmp_path: Path, store: Store, fitting: Fitting, now: datetime) -> None:
    with store.writing() as connection:
        fittings.start(connection, fitting, entry_key="k", now=now, who="fitter")

    copy = migrate.keep_copy(store._engine, tmp_path, source=store.file, revision="0000")

    assert copy.name == f"records-before-{migrate.HEAD}-at-0000.sqlite"
    copied = open_store(copy)
    with copied.reading() as connection:
        assert fittings.load(connection, "F1") == fitting
    copied.close()


def test_a_step_that_fails_leaves_no_trace(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    file = tmp_path / "records.sqlite"

    def broken(_connection: object) -> None:
        raise RuntimeError("power cut")

    monkeypatch.setattr(migrate, "_check_relations", broken)
    with pytest.raises(RuntimeError, match="power cut"):
        open_store(file)

    with closing(sqlite3.connect(file)) as connection:
        assert connection.execute("SELECT name FROM sqlite_master").fetchall() == []
    monkeypatch.undo()
    open_store(file).close()
