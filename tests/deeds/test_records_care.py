"""Check, backup and restore of a shop's records."""

from __future__ import annotations

import shutil
import sqlite3
import threading
from collections.abc import Callable
from contextlib import closing
from datetime import UTC, datetime, timedelta
from pathlib import Path

import pytest

from puttwright.deeds.back_up import BackedUp, BackupRound, back_up
from puttwright.deeds.bootstrap import RECORDS, Shop
from puttwright.deeds.check_records import Checked, check_records
from puttwright.deeds.open_fitting import open_fitting
from puttwright.deeds.restore_records import RecordsInUse, Restored, Wanted, restore_records
from puttwright.deeds.shop_settings import BackupSettings, SettingsWrong, backup_settings
from puttwright.errors import CannotWrite, NotAllowed, NotFound
from puttwright.evidence import Putt
from puttwright.store import backups, erasure, open_store, readings
from puttwright.store.backups import BackupChanged, Keep
from puttwright.store.faults import StoreDamaged
from puttwright.store.revisions import key_to_write

START = datetime(2026, 5, 1, 12, 0, tzinfo=UTC)
MARK = "a note that stands nowhere else"
Record = Callable[..., int]


@pytest.fixture
def record(shop: Shop, fitting_id: str) -> Record:
    """Write so many putts; the number of the last."""
    keys = iter(range(100_000))

    def _record(count: int = 1, note: str | None = None) -> int:
        putt = Putt(seq=0, build_id="B", distance_m=3, holed=True, note=note)
        with shop.store.writing() as connection:  # one transaction: a disk takes its time
            key = key_to_write(connection, fitting_id)
            kept = [
                readings.record(
                    connection, putt, key=key, entry_key=f"e{next(keys)}", now=START, who="x"
                )
                for _ in range(count)
            ]
        return kept[-1].seq

    return _record


@pytest.fixture
def backup(shop: Shop) -> Callable[..., BackedUp]:
    def _backup(**changes: int) -> BackedUp:
        return back_up(shop.store, shop.clock, settings=backup_settings(shop.folder))

    return _backup


def _wanted(shop: Shop, *, folder: Path | None = None, backup: Path | None = None) -> Wanted:
    return Wanted(
        folder=folder or shop.folder, backup_folder=shop.folder / "backups", backup=backup
    )


def _restore(shop: Shop, **where: Path) -> Restored:
    return restore_records(_wanted(shop, **where), clock=lambda: START)


def _check(folder: Path) -> Checked:
    return check_records(folder, database=None, backup_folder=folder / "backups")


def _seqs(folder: Path, fitting_id: str) -> list[int]:
    store = open_store(folder / RECORDS)
    try:
        return [kept.seq for kept in open_fitting(store, fitting_id).history]
    finally:
        store.close()


def _spoil(file: Path, text: str) -> None:
    """Turn a byte of the file over, past the database."""
    whole = file.read_bytes()
    assert text.encode() in whole
    file.write_bytes(whole.replace(text.encode(), text[:-1].encode() + b"!"))


def _break_page_with(file: Path, text: str) -> None:
    """Overwrite the page that holds a text, as a bad block would."""
    with closing(sqlite3.connect(file)) as connection:
        size = connection.execute("PRAGMA page_size").fetchone()[0]
    whole = bytearray(file.read_bytes())
    page = whole.index(text.encode()) // size
    assert page > 0
    whole[page * size : (page + 1) * size] = b"\xa5" * size
    file.write_bytes(bytes(whole))


def test_records_and_backups_that_are_whole_are_so_told(
    shop: Shop, record: Record, backup: Callable[..., BackedUp]
) -> None:
    record(3)
    backup()

    checked = _check(shop.folder)

    assert checked.damage == ()
    assert (checked.records.fittings, checked.records.readings, checked.backups) == (1, 3, 1)


def test_without_records_there_is_nothing_to_check(tmp_path: Path) -> None:
    with pytest.raises(NotFound):
        _check(tmp_path)
    assert list(tmp_path.iterdir()) == []


def test_a_reading_that_changed_by_itself_is_found(
    shop: Shop, record: Record, fitting_id: str
) -> None:
    record(2)
    record(note=MARK)
    shop.close()
    _spoil(shop.folder / RECORDS, MARK)

    assert _check(shop.folder).damage == (
        f"Fitting {fitting_id}: putts 3 is not what was written.",
    )


@pytest.mark.parametrize(
    ("harm", "said"),
    [
        ("DELETE FROM putt WHERE reading = 2", "1 of putts have lost what was read."),
        ("DELETE FROM fitting", "belong to a fitting that is not there."),
        ("UPDATE decision_made SET inputs_sha256 = 'x'", "its decision rests on other readings"),
    ],
)
def test_rows_that_do_not_fit_are_found(
    shop: Shop, record: Record, fitting_id: str, harm: str, said: str
) -> None:
    from puttwright import __version__
    from puttwright.deeds.decide_fitting import decide_fitting

    record(3)
    decide_fitting(shop.store, shop.clock, fitting_id=fitting_id, decide=shop.decide)
    shop.close()
    with closing(sqlite3.connect(shop.folder / RECORDS)) as connection, connection:
        connection.execute("UPDATE decision_made SET version = ?", (__version__,))
    assert _check(shop.folder).damage == ()
    with closing(sqlite3.connect(shop.folder / RECORDS)) as connection, connection:
        connection.execute(harm)

    assert any(said in sentence for sentence in _check(shop.folder).damage)


@pytest.mark.slow
def test_a_broken_page_is_found_and_no_backup_is_taken_of_it(
    shop: Shop, record: Record, backup: Callable[..., BackedUp]
) -> None:
    record(note=MARK)
    backup()
    record(200, note=f"{MARK} later")
    shop.close()
    _break_page_with(shop.folder / RECORDS, f"{MARK} later")

    assert _check(shop.folder).records.damage != ()
    with pytest.raises(StoreDamaged):
        backup()
    assert _check(shop.folder).backups == 1
    assert _check(shop.folder).backup_damage == ()


def test_a_backup_that_changed_is_found_and_not_restored(
    shop: Shop, record: Record, backup: Callable[..., BackedUp]
) -> None:
    record(note=MARK)
    file = backup().newest.file
    _spoil(file, MARK)

    assert "is not what was written" in _check(shop.folder).backup_damage[0]
    with pytest.raises(BackupChanged):
        _restore(shop, folder=shop.folder / "to", backup=file)
    assert not (shop.folder / "to" / RECORDS).exists()


def test_nothing_new_needs_no_backup(
    shop: Shop, record: Record, backup: Callable[..., BackedUp]
) -> None:
    record()
    first = backup()
    again = backup()
    record()

    assert again.new is None
    assert again.newest == first.new
    assert backup().new is not None


def test_a_restored_shop_is_the_backup_to_the_byte(
    shop: Shop, record: Record, backup: Callable[..., BackedUp], fitting_id: str, tmp_path: Path
) -> None:
    record(5)
    file = backup().newest.file
    record(2)

    restored = _restore(shop, folder=tmp_path / "elsewhere")

    assert (tmp_path / "elsewhere" / RECORDS).read_bytes() == file.read_bytes()
    assert restored.sha256 == backups.sha256_of(file)
    assert _seqs(tmp_path / "elsewhere", fitting_id) == [1, 2, 3, 4, 5]
    with closing(sqlite3.connect(shop.folder / RECORDS)) as was:
        before = "\n".join(was.iterdump())
    backup()
    again = _restore(shop, folder=tmp_path / "newest")
    with closing(sqlite3.connect(again.where)) as now:
        assert "\n".join(now.iterdump()) == before


def test_whole_records_are_not_replaced_unless_a_backup_is_named(
    shop: Shop, record: Record, backup: Callable[..., BackedUp], fitting_id: str
) -> None:
    record(2)
    file = backup().newest.file
    record(1)
    shop.close()
    with pytest.raises(NotAllowed, match="are whole, so nothing was restored"):
        _restore(shop)

    restored = _restore(shop, backup=file)

    assert _seqs(shop.folder, fitting_id) == [1, 2]
    assert restored.aside is not None
    assert len(_rows(restored.aside)) == 3


def _rows(file: Path) -> list[tuple[object, ...]]:
    with closing(sqlite3.connect(file)) as connection:
        return connection.execute("SELECT seq FROM reading").fetchall()


def test_records_in_use_are_not_replaced(
    shop: Shop, record: Record, backup: Callable[..., BackedUp]
) -> None:
    record()
    with pytest.raises(RecordsInUse):
        _restore(shop, backup=backup().newest.file)


@pytest.mark.slow
def test_what_a_damaged_file_still_holds_is_added_to_the_backup(
    shop: Shop, record: Record, backup: Callable[..., BackedUp], fitting_id: str
) -> None:
    record(400, note=f"old {MARK}")
    backup()
    record(30)
    shop.close()
    shutil.rmtree(shop.store.journal)
    _break_page_with(shop.folder / RECORDS, f"old {MARK}")
    assert _check(shop.folder).records.damage != ()

    restored = _restore(shop)

    assert restored.salvaged is not None
    assert (restored.salvaged.readings, restored.salvaged.gone) == (30, {})
    assert _seqs(shop.folder, fitting_id) == list(range(1, 431))
    assert _check(shop.folder).damage == ()


@pytest.mark.slow
def test_what_cannot_be_read_back_is_counted(
    shop: Shop, record: Record, backup: Callable[..., BackedUp], fitting_id: str
) -> None:
    record(3)
    backup()
    record(300, note=f"new {MARK}")
    shop.close()
    shutil.rmtree(shop.store.journal)
    _break_page_with(shop.folder / RECORDS, f"new {MARK}")

    restored = _restore(shop)

    there = _seqs(shop.folder, fitting_id)
    assert restored.salvaged is not None
    assert restored.salvaged.gone == {fitting_id: 303 - len(there)}
    assert 150 < len(there) < 303
    assert _check(shop.folder).damage == ()


@pytest.mark.slow
def test_a_restore_cut_off_in_between_still_finds_what_was_set_aside(
    shop: Shop, record: Record, backup: Callable[..., BackedUp], fitting_id: str
) -> None:
    record(400, note=f"old {MARK}")
    backup()
    record(30)
    shop.close()
    shutil.rmtree(shop.store.journal)
    _break_page_with(shop.folder / RECORDS, f"old {MARK}")
    shutil.move(shop.folder / RECORDS, shop.folder / "records-damaged-20260501-120000.sqlite")

    _restore(shop)

    assert _seqs(shop.folder, fitting_id) == list(range(1, 431))


def test_an_erased_fitting_does_not_come_back(
    shop: Shop, record: Record, backup: Callable[..., BackedUp], fitting_id: str, tmp_path: Path
) -> None:
    record(note=MARK)
    backup()
    erasure.note_erased(shop.folder / "backups", [fitting_id])

    restored = _restore(shop, folder=tmp_path / "to")

    assert restored.left_out == 1
    assert MARK.encode() not in (tmp_path / "to" / RECORDS).read_bytes()


@pytest.mark.slow
def test_days_and_months_decide_what_is_kept_whatever_the_clock_says(
    shop: Shop, record: Record
) -> None:
    folder = shop.folder / "backups"
    hours = [*range(0, 24 * 70, 24), 5]  # seventy days, then the clock goes back to the first
    for hour in hours:
        record()
        assert backups.take(shop.store, folder, now=START + timedelta(hours=hour))
    last = backups.listed(folder)[-1]

    backups.thin(folder, keep=Keep(newest=2, days=3, months=3))

    kept = backups.listed(folder)
    assert kept[-1] == last
    assert [backup.day for backup in kept] == ["20260630", "20260708", "20260709", "20260501"]
    assert len(list(folder.glob("*.sha256"))) == len(kept)


def test_backups_are_taken_at_the_start_and_at_the_end(
    shop: Shop, record: Record, backup: Callable[..., BackedUp]
) -> None:
    told: list[object] = []
    record()
    round_ = BackupRound(backup, every_minutes=60, tell=told.append)
    round_.start()
    record()
    round_.end()

    assert [isinstance(each, BackedUp) for each in told] == [True, True]
    assert told[-1].newest == backups.listed(shop.folder / "backups")[-1]


def test_backups_go_on_by_themselves_and_old_ones_are_let_go(shop: Shop, record: Record) -> None:
    told: list[object] = []
    enough = threading.Event()
    folder = shop.folder / "backups"
    settings = BackupSettings(folder=folder, keep=Keep(newest=2, days=0, months=0))

    def work() -> BackedUp:
        record()
        return back_up(shop.store, shop.clock, settings=settings)

    def tell(done: object) -> None:
        told.append(done)
        if len(told) == 5:
            enough.set()

    round_ = BackupRound(work, every_minutes=0.0002, tell=tell)
    round_.start()
    assert enough.wait(60)
    round_.end()

    assert [backup.number for backup in backups.listed(folder)] == [len(told) - 1, len(told)]


def test_a_backup_that_fails_is_told_and_tried_again(shop: Shop) -> None:
    told: list[object] = []

    def fails() -> BackedUp:
        raise CannotWrite(path="stick", reason="the disk is full")

    round_ = BackupRound(fails, every_minutes=60, tell=told.append)
    round_.start()
    round_.end()

    assert [str(each) for each in told] == ["stick cannot be written: the disk is full."] * 2


def test_settings_say_how_often_and_where(tmp_path: Path) -> None:
    usual = backup_settings(tmp_path)
    (tmp_path / "settings.toml").write_text(
        '[backups]\nfolder = "stick"\nevery_minutes = 0\nnewest = 3\n', encoding="utf-8"
    )
    told = backup_settings(tmp_path)

    assert (usual.folder, usual.every_minutes, usual.keep) == (tmp_path / "backups", 15, Keep())
    assert (told.folder, told.every_minutes, told.keep) == (tmp_path / "stick", 0, Keep(newest=3))


@pytest.mark.parametrize(
    ("text", "said"),
    [
        ("[backups", "cannot be read"),
        ("backups = 3", "is no table"),
        ("[backups]\ndayz = 3", "does not know dayz"),
        ("[backups]\ndays = -1", "days in [backups] is -1"),
        ("[backups]\nnewest = 0", "the newest is always kept"),
        ("[backups]\nfolder = 3", "is no text"),
    ],
)
def test_settings_that_cannot_be_are_told(tmp_path: Path, text: str, said: str) -> None:
    (tmp_path / "settings.toml").write_text(text, encoding="utf-8")
    with pytest.raises(SettingsWrong) as told:
        backup_settings(tmp_path)
    assert said in str(told.value)
