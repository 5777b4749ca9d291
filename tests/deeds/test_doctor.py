"""An installation that is well, and each thing that can be wrong with it."""

from __future__ import annotations

import os
import sqlite3
import subprocess
import sys
from collections import namedtuple
from contextlib import closing
from datetime import UTC, datetime, timedelta
from importlib.metadata import PackageNotFoundError
from pathlib import Path

import pytest

from puttwright.deeds import cache_folder, doctor
from puttwright.deeds.back_up import back_up
from puttwright.deeds.bootstrap import RECORDS, Shop
from puttwright.deeds.shop_settings import backup_settings

NOW = datetime(2026, 5, 2, tzinfo=UTC)


def _wrong(folder: Path, *, now: datetime = NOW) -> dict[str, str]:
    found = doctor.examine_installation(folder, database=None, clock=lambda: now)
    return {each.what: each.seen for each in found if not each.well}


def test_all_is_well(shop: Shop, fitting_id: str) -> None:
    back_up(shop.store, shop.clock, settings=backup_settings(shop.folder))
    found = doctor.examine_installation(shop.folder, database=None, clock=lambda: NOW)

    assert _wrong(shop.folder) == {}
    assert doctor.doctor_lines(found)[-1] == "All is well."
    assert {"Python", "Libraries", "Records", "Backups", "Clock"} <= {each.what for each in found}


def test_a_new_installation_has_no_records_and_is_well(tmp_path: Path) -> None:
    assert _wrong(tmp_path / "new") == {}
    assert not (tmp_path / "new").exists()


def test_records_without_a_backup_are_told(shop: Shop, fitting_id: str) -> None:
    assert list(_wrong(shop.folder)) == ["Backups"]


def test_damaged_records_are_told(tmp_path: Path) -> None:
    (tmp_path / RECORDS).write_bytes(b"not a database at all" * 100)
    assert "Records" in _wrong(tmp_path)


def test_records_that_are_not_what_their_journal_says_are_told(shop: Shop, fitting_id: str) -> None:
    back_up(shop.store, shop.clock, settings=backup_settings(shop.folder))
    shop.close()
    with closing(sqlite3.connect(shop.folder / RECORDS)) as connection, connection:
        connection.execute("UPDATE build SET lie_deg = 60")

    assert _wrong(shop.folder) == {"Records": "Rows that are not what the journal says: build: 2."}


def test_a_folder_that_cannot_be_written_is_told(monkeypatch, tmp_path: Path) -> None:
    monkeypatch.setattr(doctor, "writable", lambda _folder: False)

    assert _wrong(tmp_path) == {"Data folder": str(tmp_path)}


def test_a_newest_backup_from_the_future_is_told(shop: Shop, fitting_id: str) -> None:
    settings = backup_settings(shop.folder)
    back_up(shop.store, lambda: NOW + timedelta(days=400), settings=settings)

    assert _wrong(shop.folder) == {"Time since the newest": "20270606"}


def test_an_old_python_and_files_that_are_missing_are_told(monkeypatch, tmp_path: Path) -> None:
    monkeypatch.setattr(doctor.sys, "version_info", (3, 9, 1, "final", 0))
    monkeypatch.setattr(doctor, "_FILES", {"the sheets' type": "paper/no-such-fonts"})

    assert _wrong(tmp_path) == {"Python": "3.9.1", "Files, the sheets' type": "0 files"}


def test_a_program_that_only_lies_here_is_told(monkeypatch, tmp_path: Path) -> None:
    def fails(_name: str) -> None:
        raise PackageNotFoundError

    monkeypatch.setattr(doctor, "requires", fails)

    assert _wrong(tmp_path) == {"puttwright": "not installed, only lying here"}


def test_a_library_that_is_missing_or_old_is_told(monkeypatch, tmp_path: Path) -> None:
    wanted = ["numpy>=900", "no-such-library>=1", "no-other; extra == 'x'"]
    monkeypatch.setattr(doctor, "requires", lambda _name: wanted)
    seen = _wrong(tmp_path)["Libraries"]
    assert "numpy is " in seen
    assert "no-such-library is missing" in seen
    assert "no-other" not in seen


def test_too_little_room_and_a_clock_that_starts_anew_are_told(monkeypatch, tmp_path: Path) -> None:
    usage = namedtuple("usage", "total used free")(10**9, 10**9, 10**6)
    monkeypatch.setattr(doctor.shutil, "disk_usage", lambda _path: usage)
    wrong = _wrong(tmp_path, now=datetime(1970, 1, 1, tzinfo=UTC))
    assert wrong == {"Room on its disk": "1 MB", "Clock": "1970-01-01 00:00 UTC"}


def test_without_any_folder_the_compiler_gets_one_that_passes(monkeypatch, tmp_path) -> None:
    monkeypatch.setenv(cache_folder.CACHE, "")  # and as it was when the test is over
    monkeypatch.setattr(cache_folder, "writable", lambda _folder: False)

    assert "cannot be kept" in cache_folder.settle_cache()
    assert Path(os.environ[cache_folder.CACHE]).is_dir()
    del os.environ[cache_folder.CACHE]  # the fixture would put it back


def test_without_a_home_the_data_folder_keeps_what_is_compiled(monkeypatch, tmp_path) -> None:
    monkeypatch.setenv(cache_folder.CACHE, "")  # and as it was when the test is over
    monkeypatch.setenv("PUTTWRIGHT_DATA", str(tmp_path))
    monkeypatch.setattr(
        cache_folder, "writable", lambda folder: str(folder).startswith(str(tmp_path))
    )

    assert cache_folder.settle_cache() is None
    assert os.environ[cache_folder.CACHE] == str(tmp_path / "cache")
    del os.environ[cache_folder.CACHE]  # the fixture would put it back


@pytest.mark.slow
def test_the_compiler_uses_the_folder_it_is_given(tmp_path: Path) -> None:
    code = (
        "from puttwright.deeds import cache_folder\n"
        "cache_folder.writable = lambda folder: 'shop' in str(folder)\n"
        "cache_folder.settle_cache()\n"
        "from puttwright.ball import kernels\n"
        "print(kernels._whole._cache.cache_path)"
    )
    run = subprocess.run(
        [sys.executable, "-c", code], capture_output=True, text=True, check=True,
        env={**os.environ, "PUTTWRIGHT_DATA": str(tmp_path / "shop")},
    )  # fmt: skip

    assert run.stdout.startswith(str(tmp_path / "shop" / "cache"))
