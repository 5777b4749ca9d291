"""A reading corrected, a shop carried away and in again, a golfer erased."""

from __future__ import annotations

import dataclasses
import shutil
from datetime import UTC, datetime
from pathlib import Path

import pytest

from puttwright.deeds.back_up import back_up
from puttwright.deeds.bootstrap import Shop, open_shop
from puttwright.deeds.carry_shop import Carried, export_shop, import_shop
from puttwright.deeds.correct_reading import correct_reading
from puttwright.deeds.erase_fittings import Erased, erase_fittings, erased_lines
from puttwright.deeds.keep_order import keep_check_in, keep_order, open_order
from puttwright.deeds.keep_rack import put_on_rack
from puttwright.deeds.make_order import Prices
from puttwright.deeds.open_fitting import open_fitting
from puttwright.deeds.record_reading import record_reading
from puttwright.deeds.say_history import history_lines
from puttwright.deeds.shop_settings import backup_settings
from puttwright.deeds.start_fitting import NewFitting, start_fitting
from puttwright.errors import CannotRead, NotAllowed, PackageFaults
from puttwright.evidence import Part, Putt
from puttwright.store.examine import examine_file

PUTT = Putt(seq=0, build_id="B", distance_m=3, holed=True)
MARK = "a note that stands nowhere else"


@pytest.fixture
def putt(shop: Shop, fitting_id: str) -> int:
    return record_reading(
        shop.store, shop.clock, fitting_id=fitting_id, reading=PUTT, entry_key="p", who="ann"
    ).seq


def _correct(shop: Shop, fitting_id: str, *, better: Putt, seq: int = 1, key: str = "c") -> int:
    return correct_reading(
        shop.store, shop.clock, fitting_id=fitting_id, seq=seq, better=better, why="wrong hole",
        entry_key=key, who="bob",
    ).seq  # fmt: skip


def test_a_corrected_reading_stays_with_who_when_and_why(
    shop: Shop, fitting_id: str, putt: int
) -> None:
    better = dataclasses.replace(PUTT, distance_m=2.0)
    first, again = (_correct(shop, fitting_id, better=better) for _ in range(2))

    opened = open_fitting(shop.store, fitting_id)
    assert first == again == 2
    assert [each.distance_m for each in opened.fitting.putts] == [2.0]
    assert history_lines(opened.history) == [
        (
            "2026-05-01 12:01:00  ann  putt 1  build_id=B distance_m=3.0 holed=True\n"
            "    taken back 2026-05-01 12:02:00 by bob: wrong hole, putt 2 in its place"
        ),
        "2026-05-01 12:02:00  bob  putt 2  build_id=B distance_m=2.0 holed=True",
    ]


@pytest.mark.parametrize(
    ("better", "error"),
    [
        (dataclasses.replace(PUTT, distance_m=-1.0), PackageFaults),
        (dataclasses.replace(PUTT, note="another"), NotAllowed),
    ],
)
def test_a_correction_is_whole_or_not_at_all(
    shop: Shop, fitting_id: str, putt: int, better: Putt, error: type[Exception]
) -> None:
    _correct(shop, fitting_id, better=PUTT)
    with pytest.raises(error):
        correct_reading(
            shop.store, shop.clock, fitting_id=fitting_id, seq=putt, better=better,
            why="another reason", entry_key="d", who="bob",
        )  # fmt: skip
    assert len(open_fitting(shop.store, fitting_id).history) == 2


def test_a_reading_is_corrected_once(shop: Shop, fitting_id: str, putt: int) -> None:
    _correct(shop, fitting_id, better=PUTT)
    with pytest.raises(NotAllowed, match="taken back before"):
        _correct(shop, fitting_id, better=PUTT, key="another tablet")
    assert len(open_fitting(shop.store, fitting_id).history) == 2


@pytest.fixture
def full(shop: Shop, fitting_id: str, putt: int, new: NewFitting) -> str:
    """A shop with two golfers, an order with its check, and a part; the order's id."""
    _correct(shop, fitting_id, better=dataclasses.replace(PUTT, note=MARK))
    start_fitting(shop.store, shop.clock, new=new, entry_key="other", who="ann")
    put_on_rack(shop.store, shop.clock, parts=[Part(part_id="H1", kind="head")], who="ann")
    order_id = keep_order(
        shop, fitting_id=fitting_id, build_id="B", prices=Prices(), entry_key="o", who="ann"
    )
    good = {"length_mm": 838.0, "lie_deg": 71.0, "loft_deg": 2.0}
    keep_check_in(
        shop.store, shop.clock, order_id=order_id, measured=good, entry_key="1", who="bench"
    )
    return order_id


@pytest.fixture
def other(tmp_path: Path) -> Shop:
    opened = open_shop(tmp_path / "other", clock=lambda: datetime(2027, 1, 1, tzinfo=UTC))
    yield opened
    opened.close()


def test_a_shop_carried_away_is_the_same_elsewhere(
    shop: Shop, full: str, fitting_id: str, other: Shop, tmp_path: Path
) -> None:
    file = tmp_path / "shop.zip"
    file.write_bytes(export_shop(shop.store))

    carried = import_shop(other.store, other.clock, file=file, who="ann")
    again = import_shop(other.store, other.clock, file=file, who="ann")

    assert carried == again == Carried(fittings=2, orders=1, parts=1)
    assert export_shop(other.store) == file.read_bytes()
    assert open_order(other.store, full).checks == open_order(shop.store, full).checks
    there = open_fitting(other.store, fitting_id).fitting
    assert there == open_fitting(shop.store, fitting_id).fitting


def test_into_the_same_shop_it_changes_nothing(shop: Shop, full: str, tmp_path: Path) -> None:
    file = tmp_path / "shop.zip"
    file.write_bytes(export_shop(shop.store))

    import_shop(shop.store, shop.clock, file=file, who="ann")

    assert export_shop(shop.store) == file.read_bytes()


@pytest.mark.parametrize("content", [b"", b"not a zip", b"PK\x05\x06" + bytes(18)])
def test_what_is_no_shop_is_told(other: Shop, tmp_path: Path, content: bytes) -> None:
    (tmp_path / "shop.zip").write_bytes(content)
    with pytest.raises(CannotRead):
        import_shop(other.store, other.clock, file=tmp_path / "shop.zip", who="ann")


def _erase(shop: Shop, fitting_id: str, *, copies: bool = False) -> Erased:
    return erase_fittings(
        shop.store, [fitting_id], folder=shop.folder, backup_folder=shop.folder / "backups",
        copies=copies, clock=shop.clock, who="ann",
    )  # fmt: skip


def _holding(folder: Path, text: str) -> list[str]:
    files = [each for each in folder.rglob("*") if each.is_file()]
    return [each.name for each in files if text.encode() in each.read_bytes()]


def test_an_erased_golfer_leaves_no_byte(shop: Shop, full: str, fitting_id: str) -> None:
    assert _holding(shop.folder, MARK) != []
    assert _holding(shop.folder, fitting_id) != []

    erased = _erase(shop, fitting_id)

    assert (erased.log_empty, erased.holding) == (True, ())
    assert _holding(shop.folder, MARK) == []
    assert _holding(shop.folder, fitting_id) == []
    assert examine_file(shop.store.file).damage == ()
    later = back_up(shop.store, shop.clock, settings=backup_settings(shop.folder)).newest
    assert MARK.encode() not in later.file.read_bytes()


def test_what_older_copies_hold_is_told_and_erased_when_wanted(
    shop: Shop, full: str, fitting_id: str
) -> None:
    backup = back_up(shop.store, shop.clock, settings=backup_settings(shop.folder)).newest.file
    shutil.copy(backup, shop.folder / "records-damaged-20260501-120000.sqlite")
    (shop.folder / "records-aside-20260501-120000.sqlite").write_bytes(b"broken" * 1000)

    told = _erase(shop, fitting_id)
    names = {"records-damaged-20260501-120000.sqlite", "records-aside-20260501-120000.sqlite"}
    assert {file.name for file in told.holding} == names | {backup.name}
    assert f"Still in {backup}" in erased_lines(told)
    cleaned = _erase(shop, fitting_id, copies=True)

    assert _holding(shop.folder, MARK) == []
    assert len(cleaned.cleaned) == 2
    assert [file.name for file in cleaned.holding] == ["records-aside-20260501-120000.sqlite"]
    assert examine_file(backup).damage == ()


def test_a_log_that_another_program_holds_is_told(shop: Shop, full: str, fitting_id: str) -> None:
    import sqlite3
    from contextlib import closing

    with closing(sqlite3.connect(shop.store.file)) as looking:
        looking.execute("BEGIN")
        looking.execute("SELECT * FROM fitting").fetchone()
        erased = _erase(shop, fitting_id)

    assert not erased.log_empty
    assert "Close the pages once" in erased_lines(erased)[1]
