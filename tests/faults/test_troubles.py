"""Full disks, lost folders, broken pages, a clock turned back: one sentence, and it goes on."""

from __future__ import annotations

import os
import resource
import shutil
import signal
import sqlite3
import threading
from contextlib import closing
from datetime import UTC, datetime, timedelta
from pathlib import Path

import pytest
from sqlalchemy import delete, insert

from puttwright.deeds.back_up import back_up
from puttwright.deeds.bootstrap import RECORDS, Shop, open_shop
from puttwright.deeds.check_records import check_records
from puttwright.deeds.find_fittings import find_fittings
from puttwright.deeds.open_fitting import open_fitting
from puttwright.deeds.record_reading import record_reading
from puttwright.deeds.restore_records import Wanted, restore_records
from puttwright.deeds.shop_settings import backup_settings
from puttwright.deeds.start_fitting import start_fitting
from puttwright.errors import CannotWrite
from puttwright.evidence import Putt
from puttwright.store import backups, journal, tables
from puttwright.store.faults import StoreDamaged
from puttwright.store.look_at_journal import look_at_journal
from puttwright.store.migrate import HEAD

pytestmark = [pytest.mark.faults, pytest.mark.slow]
NOON = datetime(2026, 5, 1, 12, tzinfo=UTC)


def _clear(tablets) -> None:
    for tablet in tablets:
        tablet.refused.clear()


def test_a_full_disk_is_told_and_when_there_is_room_it_goes_on(bays, forks) -> None:
    server = forks.start(bays.folder)
    bays.stream(server, until=6)
    assert bays.refused == []
    usual = resource.prlimit(server.pid, resource.RLIMIT_FSIZE)
    largest = max(file.stat().st_size for file in bays.folder.glob(f"{RECORDS}*"))
    resource.prlimit(server.pid, resource.RLIMIT_FSIZE, (largest + 8192, usual[1]))

    bays.stream(server, until=10_000)  # until every tablet was refused

    for said in bays.refused:
        assert said.startswith("507 ")
        assert "cannot be written: the disk" in said
    assert len(bays.refused) == len(bays.tablets)
    resource.prlimit(server.pid, resource.RLIMIT_FSIZE, usual)
    _clear(bays.tablets)
    bays.stream(server, until=6)
    assert bays.refused == []
    server.kill()
    bays.check_nothing_lost_nothing_twice()


def test_a_folder_that_may_only_be_read_is_told_and_then_goes_on(bays, forks) -> None:
    server = forks.start(bays.folder)
    bays.stream(server, until=6)
    server.kill()
    away = bays.folder.with_name("elsewhere")
    bays.folder.rename(away)
    bays.folder.write_text("no folder")  # nobody can write here, not even root

    assert "cannot be written" in forks.start(bays.folder).said

    bays.folder.unlink()
    away.rename(bays.folder)
    server = forks.start(bays.folder)
    bays.stream(server, until=6)
    server.kill()
    bays.check_nothing_lost_nothing_twice()


def test_a_broken_page_is_told_and_one_command_brings_everything_back(bays, forks) -> None:
    server = forks.start(bays.folder)
    bays.stream(server, until=40)
    server.kill()
    shop = open_shop(bays.folder, clock=lambda: NOON)
    back_up(shop.store, shop.clock, settings=backup_settings(bays.folder))
    shop.close()
    server = forks.start(bays.folder)
    bays.stream(server, until=20)
    server.kill()
    _break_pages(bays.folder / RECORDS)

    server = forks.start(bays.folder)
    said = server.said
    if server.port:  # the broken page is not among those a start needs
        server.kill()
        said = check_records(
            bays.folder, database=None, backup_folder=bays.folder / "backups"
        ).damage[0]
    assert "damaged" in said or "malformed" in said

    wanted = Wanted(folder=bays.folder, backup_folder=bays.folder / "backups")
    restore_records(wanted, clock=lambda: NOON)
    assert len(bays.acknowledged) >= 60
    bays.check_nothing_lost_nothing_twice()
    server = forks.start(bays.folder)
    assert server.port
    server.kill()


def test_a_journal_without_room_is_told_and_then_goes_on(bays) -> None:
    shop = open_shop(bays.folder, clock=lambda: NOON)
    for letter in "abcdef":  # the journal becomes larger than the records
        _set(shop, value=letter * 600_000)
    shop.close()
    shop = open_shop(bays.folder, clock=lambda: NOON)
    assert shop.store.journal is not None
    segment = journal.segments(shop.store.journal)[-1].file
    usual = resource.getrlimit(resource.RLIMIT_FSIZE)
    size = segment.stat().st_size
    assert size > 2 * (bays.folder / RECORDS).stat().st_size
    resource.setrlimit(resource.RLIMIT_FSIZE, (size + 100, usual[1]))
    try:
        with pytest.raises(CannotWrite, match="the disk is full"):
            _set(shop, value="g")
    finally:
        resource.setrlimit(resource.RLIMIT_FSIZE, usual)

    assert segment.stat().st_size == size  # the hundred bytes that had room are gone again
    _set(shop, value="h")
    shop.close()
    told = journal.read(shop.store.journal)
    assert (told.unreadable, told.torn) == (0, False)
    assert look_at_journal(bays.folder / RECORDS, revision=HEAD).damage == ()


def test_a_journal_that_may_not_be_written_is_told_and_then_goes_on(bays, forks) -> None:
    server = forks.start(bays.folder)
    bays.stream(server, until=6)
    segment = journal.segments(bays.folder / "records.journal")[-1].file
    away = segment.rename(bays.folder / "elsewhere")
    segment.mkdir()  # nobody can write here, not even root

    bays.stream(server, until=10_000)  # until every tablet was refused

    assert len(bays.refused) == len(bays.tablets)
    assert all(said.startswith("507 ") and "cannot be written" in said for said in bays.refused)
    segment.rmdir()
    away.rename(segment)
    _clear(bays.tablets)
    bays.stream(server, until=6)
    server.kill()
    bays.check_nothing_lost_nothing_twice()


def _set(shop: Shop, *, value: str) -> None:
    with shop.store.writing() as transaction:
        transaction.execute(delete(tables.shop_setting))
        transaction.execute(
            insert(tables.shop_setting).values(
                name="long", value=value, changed_at=NOON, changed_by="x"
            )
        )


def _break_pages(file) -> None:
    with closing(sqlite3.connect(file)) as connection:
        connection.execute("PRAGMA wal_checkpoint(TRUNCATE)")
        size = connection.execute("PRAGMA page_size").fetchone()[0]
        root = connection.execute(
            "SELECT rootpage FROM sqlite_master WHERE name = 'sqlite_autoindex_reading_1'"
        ).fetchone()[0]
    with file.open("r+b") as stream:
        stream.seek((root - 1) * size)
        stream.write(b"\xa5" * size)


def test_what_is_ended_in_order_leaves_a_last_backup_of_everything(bays, forks) -> None:
    server = forks.start(bays.folder)
    bays.stream(server, until=6)

    os.kill(server.pid, signal.SIGTERM)
    while Path(f"/proc/{server.pid}").exists():
        threading.Event().wait(0.02)

    folder = bays.folder / "backups"
    assert backups.listed(folder)
    (bays.folder / RECORDS).unlink()
    shutil.rmtree(bays.folder / "records.journal")
    restore_records(Wanted(folder=bays.folder, backup_folder=folder), clock=lambda: NOON)
    assert len(bays.acknowledged) >= 6
    bays.check_nothing_lost_nothing_twice()


def test_a_clock_turned_back_loses_nothing_and_mixes_nothing_up(bays) -> None:
    hours = iter([0, 1, 2, -30, -29, -28, 3])
    shop = open_shop(bays.folder, clock=lambda: NOON + timedelta(hours=next(hours)))
    settings = backup_settings(bays.folder)
    taken = []
    for number in range(3):
        putt = Putt(seq=0, build_id="B", distance_m=3, holed=True)
        record_reading(
            shop.store, shop.clock, fitting_id=bays.fitting_id, reading=putt,
            entry_key=f"k{number}", who="x",
        )  # fmt: skip
        taken.append(back_up(shop.store, shop.clock, settings=settings).new)
    history = open_fitting(shop.store, bays.fitting_id).history
    shop.close()

    assert [kept.seq for kept in history] == [1, 2, 3]
    assert [kept.entry_key for kept in history] == ["k0", "k1", "k2"]
    assert history[2].when < history[0].when  # as the clock said, and no order rests on it
    assert backups.listed(settings.folder) == taken
    assert taken[-1].number == 3


def test_a_backup_that_has_no_room_leaves_the_old_ones(bays, new_fitting) -> None:
    shop = open_shop(bays.folder, clock=lambda: NOON)
    settings = backup_settings(bays.folder)
    old = back_up(shop.store, shop.clock, settings=settings).newest
    start_fitting(shop.store, shop.clock, new=new_fitting, entry_key="s2", who="x")
    usual = resource.getrlimit(resource.RLIMIT_FSIZE)
    resource.setrlimit(resource.RLIMIT_FSIZE, (16_384, usual[1]))
    try:
        with pytest.raises((CannotWrite, StoreDamaged)):
            back_up(shop.store, shop.clock, settings=settings)
    finally:
        resource.setrlimit(resource.RLIMIT_FSIZE, usual)

    assert backups.listed(settings.folder) == [old]
    assert len(find_fittings(shop.store)) == 2
    assert back_up(shop.store, shop.clock, settings=settings).new is not None
    assert not list(settings.folder.glob("*.part"))
    shop.close()
