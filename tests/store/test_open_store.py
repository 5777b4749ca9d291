from __future__ import annotations

import subprocess
import sys
from collections import Counter
from datetime import datetime
from pathlib import Path

import pytest

from puttwright.errors import CannotWrite
from puttwright.evidence import Fitting
from puttwright.store import Store, fittings, open_store
from puttwright.store.faults import StoreBusy, StoreDamaged


def _pragma(store: Store, name: str) -> object:
    with store.reading() as connection:
        return connection.exec_driver_sql(f"PRAGMA {name}").scalar()


@pytest.mark.parametrize(
    ("name", "value"), [("journal_mode", "wal"), ("synchronous", 2), ("foreign_keys", 1)]
)
def test_a_commit_reaches_the_disk_and_relations_hold(
    store: Store, name: str, value: object
) -> None:
    assert _pragma(store, name) == value


def test_what_was_written_is_there_when_opened_again(
    tmp_path: Path, fitting: Fitting, now: datetime
) -> None:
    file = tmp_path / "deep" / "down" / "records.sqlite"
    store = open_store(file)
    with store.writing() as connection:
        fittings.start(connection, fitting, entry_key="k", now=now, who="fitter")
    store.close()

    again = open_store(file)
    with again.reading() as connection:
        assert fittings.load(connection, "F1") == fitting
    again.close()


@pytest.mark.slow
def test_two_programs_write_one_fitting_without_loss_or_doubling(
    tmp_path: Path, fitting: Fitting, now: datetime
) -> None:
    file, count = tmp_path / "records.sqlite", 40
    store = open_store(file)
    with store.writing() as connection:
        fittings.start(connection, fitting, entry_key="k", now=now, who="fitter")
    program = str(Path(__file__).with_name("two_writers.py"))

    writers = [
        subprocess.Popen([sys.executable, program, str(file), name, str(count)])
        for name in ("left", "right")
    ]
    assert [writer.wait() for writer in writers] == [0, 0]

    with store.reading() as connection:
        putts = fittings.load(connection, "F1").putts
    store.close()
    written = putts[len(fitting.putts) :]
    assert Counter(putt.note for putt in written) == {"left": count, "right": count}
    assert [putt.seq for putt in written] == list(range(6, 6 + 2 * count))


def test_a_file_that_is_no_database_is_told(tmp_path: Path) -> None:
    file = tmp_path / "records.sqlite"
    file.write_text("dear diary, " * 1000)

    with pytest.raises(StoreDamaged, match="records.sqlite cannot be read"):
        open_store(file)


def test_a_folder_that_cannot_be_made_is_told(tmp_path: Path) -> None:
    (tmp_path / "taken").write_text("a file, not a folder")

    with pytest.raises(CannotWrite, match="taken"):
        open_store(tmp_path / "taken" / "records.sqlite")


def test_a_full_disk_is_told(store: Store, fitting: Fitting, now: datetime) -> None:
    with pytest.raises(CannotWrite, match="the disk is full"), store.writing() as connection:
        connection.exec_driver_sql("PRAGMA max_page_count = 1")
        for number in range(2000):
            each = str(number)
            connection.exec_driver_sql(
                "INSERT INTO fitting (fitting_id, entry_key, date, own_build, golfer_alias,"
                " golfer_handed, golfer_extra, green_speed_ft, green_extra, extra, search_text,"
                " revision, created_at, created_by, golfer_key, practice)"
                " VALUES (?, ?, '', '', '', '', '{}', 9, '{}', '{}', ?, 1, '', '', '', 0)",
                (each, each, "x" * 500),
            )


def test_a_record_that_stays_locked_is_told(tmp_path: Path) -> None:
    file = tmp_path / "records.sqlite"
    first = open_store(file)
    second = open_store(file, wait_s=0.05)
    with first.writing():
        with pytest.raises(StoreBusy), second.writing() as connection:
            pass
        with second.reading() as connection:  # looking goes on while another writes
            assert fittings.search(connection) == []
    first.close()
    second.close()


@pytest.mark.parametrize("there", [True, False])
def test_the_data_folder_is_made_for_this_account_alone(tmp_path: Path, there: bool) -> None:
    folder = tmp_path / "shop"
    if there:  # somebody decided otherwise
        folder.mkdir(mode=0o755)
    open_store(folder / "records.sqlite").close()

    assert folder.stat().st_mode & 0o777 == (0o755 if there else 0o700)
