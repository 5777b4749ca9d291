"""Check, restore and erase with the journal: readings since the last backup survive."""

from __future__ import annotations

import shutil
import sqlite3
from collections.abc import Callable
from contextlib import closing
from datetime import UTC, datetime
from pathlib import Path

import pytest

from puttwright.deeds.back_up import back_up
from puttwright.deeds.bootstrap import RECORDS, Shop
from puttwright.deeds.check_records import Checked, check_records
from puttwright.deeds.erase_fittings import Erased, erase_fittings, erased_lines
from puttwright.deeds.open_fitting import open_fitting
from puttwright.deeds.record_reading import record_reading
from puttwright.deeds.restore_records import Restored, Wanted, restore_records
from puttwright.deeds.say_restored import restored_lines
from puttwright.deeds.shop_settings import backup_settings
from puttwright.deeds.start_fitting import NewFitting, start_fitting
from puttwright.errors import NotFound
from puttwright.evidence import Putt
from puttwright.store import backups, journal, open_store

START = datetime(2026, 5, 1, 12, 0, tzinfo=UTC)
MARK = "a note that stands nowhere else"


@pytest.fixture
def record(shop: Shop, fitting_id: str) -> Callable[[int], None]:
    """Write so many putts, a transaction each."""
    keys = iter(range(1000))

    def _record(count: int) -> None:
        for _ in range(count):
            putt = Putt(seq=0, build_id="B", distance_m=3, holed=True, note=MARK)
            record_reading(
                shop.store, shop.clock, fitting_id=fitting_id, reading=putt,
                entry_key=f"e{next(keys)}", who="x",
            )  # fmt: skip

    return _record


def _back_up(shop: Shop) -> Path:
    return back_up(shop.store, shop.clock, settings=backup_settings(shop.folder)).newest.file


def _restore(shop: Shop, backup: Path | None = None) -> Restored:
    wanted = Wanted(folder=shop.folder, backup_folder=shop.folder / "backups", backup=backup)
    return restore_records(wanted, clock=lambda: START)


def _check(shop: Shop) -> Checked:
    return check_records(shop.folder, database=None, backup_folder=shop.folder / "backups")


def _seqs(shop: Shop, fitting_id: str) -> list[int]:
    store = open_store(shop.folder / RECORDS)
    try:
        return [kept.seq for kept in open_fitting(store, fitting_id).history]
    finally:
        store.close()


def _journal_file(shop: Shop) -> Path:
    assert shop.store.journal is not None
    return journal.segments(shop.store.journal)[-1].file


def _cut(file: Path) -> None:
    file.write_bytes(file.read_bytes()[: file.stat().st_size // 2])


@pytest.mark.parametrize("harm", [Path.unlink, _cut, lambda file: file.write_bytes(b"")])
def test_what_was_written_since_the_backup_comes_from_the_journal(
    shop: Shop, record, fitting_id: str, harm: Callable[[Path], None]
) -> None:
    record(2)
    _back_up(shop)
    record(3)
    shop.close()
    harm(shop.folder / RECORDS)

    restored = _restore(shop)

    assert restored.replayed is not None
    assert (restored.replayed.readings, restored.salvaged) == (3, None)
    assert "Added from the journal: 3 entries made since, with 3 readings" in restored_lines(
        restored
    )
    assert _seqs(shop, fitting_id) == [1, 2, 3, 4, 5]
    assert _check(shop).damage == ()
    (shop.folder / RECORDS).unlink()  # and again, without a backup in between
    _restore(shop)
    assert _seqs(shop, fitting_id) == [1, 2, 3, 4, 5]


def test_without_any_backup_the_journal_is_enough(shop: Shop, record, fitting_id: str) -> None:
    record(3)
    shop.close()
    (shop.folder / RECORDS).unlink()

    restored = _restore(shop)

    assert restored.backup is None
    assert _seqs(shop, fitting_id) == [1, 2, 3]


def test_when_the_newest_backup_is_damaged_too_the_one_before_it_is_enough(
    shop: Shop, record, fitting_id: str
) -> None:
    record(1)
    older = _back_up(shop)
    record(1)
    newest = _back_up(shop)
    record(1)
    shop.close()
    _cut(newest)
    (shop.folder / RECORDS).unlink()

    assert _restore(shop).backup == older
    assert _seqs(shop, fitting_id) == [1, 2, 3]


def test_a_last_line_that_was_cut_off_is_passed_over_with_a_sentence(
    shop: Shop, record, fitting_id: str
) -> None:
    _back_up(shop)
    record(2)
    shop.close()
    with _journal_file(shop).open("ab") as stream:
        stream.write(b'0123456789abcdef {"n":')
    checked = _check(shop)
    assert checked.damage == ()
    assert "was cut off as it was written and is passed over" in checked.notes[0]
    (shop.folder / RECORDS).unlink()

    restored = _restore(shop)

    assert any("cut off as it was written" in line for line in restored_lines(restored))
    assert _seqs(shop, fitting_id) == [1, 2]


def _break_page_of(file: Path, name: str) -> None:
    with closing(sqlite3.connect(file)) as connection:
        size = connection.execute("PRAGMA page_size").fetchone()[0]
        query = "SELECT rootpage FROM sqlite_master WHERE name = ?"
        page = connection.execute(query, (name,)).fetchone()[0]
    with file.open("r+b") as stream:
        stream.seek((page - 1) * size)
        stream.write(b"\xa5" * size)


@pytest.mark.parametrize(("name", "lost"), [("ix_trail_fitting", False), ("putt", True)])
def test_a_line_that_cannot_be_read_is_told_and_the_damaged_file_read_for_it(
    shop: Shop, record, fitting_id: str, name: str, lost: bool
) -> None:
    _back_up(shop)
    record(3)
    shop.close()
    file = _journal_file(shop)
    lines = file.read_bytes().split(b"\n")
    lines[1] = lines[1].replace(b"putts", b"putty")
    file.write_bytes(b"\n".join(lines))
    assert "Unreadable lines of the journal" in _check(shop).damage[0]
    _break_page_of(shop.folder / RECORDS, name)

    restored = _restore(shop)

    assert "1 line of the journal cannot be read" in restored_lines(restored)
    assert restored.salvaged is not None
    assert restored.salvaged.gone == ({fitting_id: 1} if lost else {})
    assert _seqs(shop, fitting_id) == ([1, 3] if lost else [1, 2, 3])
    assert [file.suffix for file in shop.folder.glob("records-damaged-*.journal")] == [".journal"]
    assert _check(shop).damage == ()


def test_a_journal_that_ends_too_early_or_says_something_else_is_told(shop: Shop, record) -> None:
    record(3)
    file = _journal_file(shop)
    whole = file.read_bytes()
    file.write_bytes(b"".join(whole.splitlines(keepends=True)[:-2]))
    assert "ends 2 entries too early" in _check(shop).damage[0]
    shutil.rmtree(file.parent)
    checked = _check(shop)
    assert checked.damage == ()
    assert "it begins when the records are next opened" in checked.notes[0]


def test_back_to_yesterday_leaves_the_journal_out_and_it_begins_anew(
    shop: Shop, record, fitting_id: str
) -> None:
    record(1)
    yesterday = _back_up(shop)
    record(2)
    shop.close()

    restored = _restore(shop, yesterday)
    assert (restored.replayed, _seqs(shop, fitting_id)) == (None, [1])
    store = open_store(shop.folder / RECORDS)
    again = Putt(seq=0, build_id="A", distance_m=2, holed=True)
    record_reading(
        store, shop.clock, fitting_id=fitting_id, reading=again, entry_key="n", who="x"
    )  # fmt: skip
    store.close()
    (shop.folder / RECORDS).unlink()

    told = _restore(shop)
    assert "does not go back to this backup" in "\n".join(restored_lines(told))
    assert _seqs(shop, fitting_id) == [1]  # and nothing of what was gone back from


def test_a_restore_cut_off_after_the_journal_was_moved_finds_it(
    shop: Shop, record, fitting_id: str
) -> None:
    _back_up(shop)
    record(2)
    shop.close()
    (shop.folder / RECORDS).unlink()
    assert shop.store.journal is not None
    journal.set_aside(shop.store.journal, name="records-damaged-20260501-120000.journal")

    _restore(shop)

    assert _seqs(shop, fitting_id) == [1, 2]


def test_with_nothing_to_restore_from_nothing_is_made(tmp_path: Path) -> None:
    wanted = Wanted(folder=tmp_path / "shop", backup_folder=tmp_path / "shop" / "backups")
    with pytest.raises(NotFound):
        restore_records(wanted, clock=lambda: START)
    assert not (tmp_path / "shop").exists()


def _erase(shop: Shop, fitting_id: str, *, copies: bool = False) -> Erased:
    return erase_fittings(
        shop.store, [fitting_id], folder=shop.folder, backup_folder=shop.folder / "backups",
        copies=copies, clock=shop.clock, who="ann",
    )  # fmt: skip


def _holding(folder: Path, text: str) -> list[Path]:
    return [each for each in folder.rglob("*") if each.is_file() and text.encode() in
            each.read_bytes()]  # fmt: skip


def test_erasing_reaches_the_journal_and_others_entries_are_kept_twice(
    shop: Shop, record, fitting_id: str, new: NewFitting
) -> None:
    record(2)
    other = start_fitting(shop.store, shop.clock, new=new, entry_key="other", who="ann")
    assert len(_holding(shop.store.journal, MARK)) == 1

    assert _erase(shop, fitting_id).untaken == ""

    assert _holding(shop.folder, MARK) == []
    assert _holding(shop.folder, fitting_id) == []
    shop.close()
    (shop.folder / RECORDS).unlink()
    _restore(shop)
    assert _seqs(shop, other) == []


def test_an_erased_golfer_does_not_come_back_out_of_a_journal(
    shop: Shop, record, fitting_id: str
) -> None:
    _back_up(shop)
    record(2)
    held = shop.folder / "kept.journal"
    shutil.copytree(shop.store.journal, held)
    _erase(shop, fitting_id)
    shop.close()
    shutil.rmtree(shop.store.journal)
    held.rename(shop.store.journal)  # a kill before the journal began anew
    (shop.folder / RECORDS).unlink()

    _restore(shop, backups.listed(shop.folder / "backups")[0].file)

    assert MARK.encode() not in (shop.folder / RECORDS).read_bytes()


def test_a_journal_set_aside_is_named_and_erased_when_wanted(
    shop: Shop, record, fitting_id: str
) -> None:
    record(1)
    aside = shop.folder / "records-damaged-20260501-120000.journal"
    shutil.copytree(shop.store.journal, aside)

    assert _erase(shop, fitting_id).holding == (aside,)
    assert aside in _erase(shop, fitting_id, copies=True).cleaned
    assert _holding(shop.folder, MARK) == []


def test_when_no_backup_can_be_taken_erasing_is_done_and_that_is_told(
    shop: Shop, record, fitting_id: str, monkeypatch: pytest.MonkeyPatch
) -> None:
    from puttwright.errors import CannotWrite

    def fails(*_given: object, **_named: object) -> None:
        raise CannotWrite(path="stick", reason="the disk is full")

    record(1)
    monkeypatch.setattr(backups, "take", fails)
    erased = _erase(shop, fitting_id)

    assert "could be taken: stick cannot be written" in "\n".join(erased_lines(erased))
    assert _holding(shop.folder, MARK) == []
