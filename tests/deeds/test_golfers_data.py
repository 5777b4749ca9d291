"""What golfers agreed to, their rights, and who did what."""

from __future__ import annotations

import dataclasses
import io
import json
import zipfile
from pathlib import Path

import pytest

from puttwright.deeds.back_up import back_up
from puttwright.deeds.bootstrap import Shop, open_shop
from puttwright.deeds.carry_shop import export_shop, import_shop
from puttwright.deeds.check_records import check_records
from puttwright.deeds.copy_golfer import copy_golfer, golfer_of
from puttwright.deeds.erase_fittings import erase_fittings
from puttwright.deeds.golfers_data import (
    PhotosNeedGuardian,
    correct_golfer,
    golfers_data,
    note_on_golfer,
    refuse_photos,
)
from puttwright.deeds.keep_settings import change_settings, look_at_settings
from puttwright.deeds.know_golfers import other_golfer, same_golfer
from puttwright.deeds.look_at_trail import look_at_trail, trail_lines
from puttwright.deeds.record_reading import record_reading
from puttwright.deeds.shop_settings import backup_settings
from puttwright.deeds.start_fitting import NewFitting, start_fitting
from puttwright.errors import NotFound
from puttwright.evidence import Putt
from puttwright.store import everything
from puttwright.store.golfer_notes import (
    GUARDIAN,
    NO,
    PHOTOS,
    TOLD,
    YES,
)
from puttwright.store.tables import metadata

WORDS = "words that stand nowhere else"


def _note(shop: Shop, golfer: str, kind: str, answer: str, told: str = "") -> None:
    note_on_golfer(
        shop.store, shop.clock, golfer=golfer, kind=kind, answer=answer, told=told, who="bay 2"
    )


@pytest.fixture
def second(shop: Shop, fitting_id: str, new: NewFitting) -> str:
    """Another fitting of the same golfer."""
    return start_fitting(
        shop.store, shop.clock, new=new, entry_key="second", who="ann", golfer=fitting_id
    )


@pytest.fixture
def child(shop: Shop, fitting_id: str) -> str:
    correct_golfer(shop.store, shop.clock, golfer=fitting_id, minor=True, who="ann")
    return fitting_id


def test_what_was_told_is_kept_with_when_and_by_whom(shop: Shop, fitting_id: str) -> None:
    assert not golfers_data(shop.store, fitting_id).agreed
    _note(shop, fitting_id, TOLD, YES, WORDS)
    data = golfers_data(shop.store, fitting_id)

    assert data.agreed
    assert (data.notes[0].told, data.notes[0].who) == (WORDS, "bay 2")
    _note(shop, fitting_id, TOLD, NO)
    assert not golfers_data(shop.store, fitting_id).agreed


def test_a_minors_photos_wait_for_a_guardian(shop: Shop, child: str) -> None:
    _note(shop, child, TOLD, YES, WORDS)
    assert not golfers_data(shop.store, child).agreed
    with pytest.raises(PhotosNeedGuardian):
        refuse_photos(shop.store, child)
    _note(shop, child, GUARDIAN, YES)
    assert golfers_data(shop.store, child).agreed
    with pytest.raises(PhotosNeedGuardian):
        refuse_photos(shop.store, child)
    _note(shop, child, PHOTOS, YES)
    refuse_photos(shop.store, child)
    _note(shop, child, PHOTOS, NO)
    with pytest.raises(PhotosNeedGuardian):
        refuse_photos(shop.store, child)
    correct_golfer(shop.store, shop.clock, golfer=child, minor=False, who="ann")
    refuse_photos(shop.store, child)


def test_notes_follow_the_golfer(shop: Shop, fitting_id: str, new: NewFitting) -> None:
    other = start_fitting(shop.store, shop.clock, new=new, entry_key="other", who="ann")
    _note(shop, fitting_id, TOLD, YES, WORDS)
    by = {"clock": shop.clock, "who": "ann"}
    same_golfer(shop.store, other, other=fitting_id, **by)
    assert golfers_data(shop.store, other).agreed

    assert other_golfer(shop.store, other, fitting_id=other, **by) == other
    assert golfers_data(shop.store, fitting_id).agreed
    assert golfers_data(shop.store, other).notes == ()


@pytest.mark.parametrize(("kind", "answer"), [("shoe", YES), (PHOTOS, "12"), ("", "")])
def test_nothing_else_is_noted(shop: Shop, fitting_id: str, kind: str, answer: str) -> None:
    with pytest.raises(NotFound):
        _note(shop, fitting_id, kind, answer)
    assert golfers_data(shop.store, fitting_id).notes == ()


def test_a_name_is_put_right_everywhere_and_its_history_stays(
    shop: Shop, fitting_id: str, second: str
) -> None:
    for _ in range(2):  # a double tap
        correct_golfer(shop.store, shop.clock, golfer=fitting_id, name="Robyn", who="ann")
    data = golfers_data(shop.store, fitting_id)

    assert data.name == "Robyn"
    assert {each.fitting_id for each in data.corrected} == {fitting_id, second}
    assert [each.changes for each in data.corrected] == [{"alias": ("Robin", "Robyn")}] * 2


def test_every_table_is_the_shops_or_in_the_copy() -> None:
    assert set(metadata.tables) == everything.tables_of_golfer() | everything.OF_THE_SHOP


def test_a_copy_holds_everything_of_one_golfer_and_nothing_of_another(
    shop: Shop, fitting_id: str, second: str, new: NewFitting
) -> None:
    _note(shop, fitting_id, TOLD, YES, WORDS)
    putt = Putt(seq=0, build_id="B", distance_m=3, holed=True, note="on the left edge")
    by = {"entry_key": "p", "who": "ann"}
    record_reading(shop.store, shop.clock, fitting_id=second, reading=putt, **by)
    stranger = dataclasses.replace(new, golfer=dataclasses.replace(new.golfer, alias="Zora"))
    start_fitting(shop.store, shop.clock, new=stranger, entry_key="zora", who="ann")

    data = copy_golfer(shop.store, shop.clock, golfer=fitting_id, who="ann")
    with zipfile.ZipFile(io.BytesIO(data)) as copy:
        names, text = set(copy.namelist()), copy.read("everything.txt").decode()
        said = json.loads(copy.read("everything.json"))

    assert {f"fittings/{each}.zip" for each in (fitting_id, second)} < names
    for words in (WORDS, "on the left edge", "golfer_alias Robin", "reading-recorded"):
        assert words in text
    assert "Zora" not in text
    assert len(said["fitting"]) == 2
    assert [row["note"] for row in said["putt"]] == ["on the left edge"]


def test_an_erased_golfers_notes_are_gone_from_records_and_copies(
    shop: Shop, fitting_id: str, second: str
) -> None:
    _note(shop, fitting_id, TOLD, YES, WORDS)
    correct_golfer(shop.store, shop.clock, golfer=fitting_id, name="Robyn", who="ann")
    back_up(shop.store, shop.clock, settings=backup_settings(shop.folder))

    def erase(which: list[str]) -> None:
        erase_fittings(
            shop.store, which, folder=shop.folder, backup_folder=shop.folder / "backups",
            copies=True, clock=shop.clock, who="ann",
        )  # fmt: skip

    erase([second])
    assert golfers_data(shop.store, fitting_id).agreed  # of the golfer something is left
    erase([fitting_id])

    files = [each for each in shop.folder.rglob("*") if each.is_file()]
    assert any(each.suffix == ".sqlite" and each.parent != shop.folder for each in files)
    for words in (WORDS, "Robyn", fitting_id, second):
        assert [each.name for each in files if words.encode() in each.read_bytes()] == []
    found, _ = look_at_trail(shop.store, "fitting-erased")
    assert [each.who for each in found] == ["ann", "ann"]


def test_the_trail_says_who_did_what_and_nothing_of_what(shop: Shop, fitting_id: str) -> None:
    putt = Putt(seq=0, build_id="B", distance_m=3, holed=True, note=WORDS)
    for _ in range(2):  # sent twice, done once
        record_reading(
            shop.store, shop.clock, fitting_id=fitting_id, reading=putt, entry_key="p", who="bay 2"
        )
    found, total = look_at_trail(shop.store, fitting_id)

    assert (len(found), total) == (2, 2)
    lines = trail_lines(found)
    assert lines[0].endswith(f"  bay 2  reading-recorded  {fitting_id}  putts 1")
    assert lines[1].endswith(f"  fitter  fitting-started  {fitting_id}")
    assert WORDS not in "".join(lines)
    assert look_at_trail(shop.store, "bay 2")[1] == 1


def test_who_is_kept_for_long_is_told_and_nobody_erased(shop: Shop, fitting_id: str) -> None:
    wanted = dataclasses.replace(look_at_settings(shop.store), keep_years="2")

    def told(days_later: int) -> tuple[str, ...]:
        later = shop.clock().replace(year=2026 + days_later // 365)
        backups = shop.folder / "backups"
        return check_records(
            shop.folder, database=None, backup_folder=backups, clock=lambda: later
        ).reminders

    assert told(3 * 365) == ()
    change_settings(shop.store, shop.clock, wanted=wanted, who="ann")
    assert told(0) == ()
    (sentence,) = told(3 * 365)
    assert sentence.startswith("One golfer was not here for more than 2 years, the longest since")
    assert golfers_data(shop.store, fitting_id).golfer == fitting_id


def test_a_shop_carried_away_knows_whose_fitting_is_whose_and_who_is_under_age(
    shop: Shop, child: str, second: str, tmp_path: Path
) -> None:
    _note(shop, child, TOLD, YES, WORDS)
    file = tmp_path / "shop.zip"
    file.write_bytes(export_shop(shop.store))
    other = open_shop(tmp_path / "other", clock=shop.clock)
    for _ in range(2):
        import_shop(other.store, other.clock, file=file, who="ann")

    there = golfers_data(other.store, golfer_of(other.store, child))
    assert golfer_of(other.store, child) == golfer_of(other.store, second)
    assert there.notes == golfers_data(shop.store, child).notes
    assert there.notes[0].told == WORDS
    with pytest.raises(PhotosNeedGuardian):
        refuse_photos(other.store, child)
    assert export_shop(other.store) == file.read_bytes()
    other.close()
