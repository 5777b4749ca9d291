"""Tables of devices into the records: once, all that fits, the rest kept aside with why."""

from __future__ import annotations

import dataclasses

import pytest

from puttwright.deeds.open_fitting import open_fitting
from puttwright.deeds.read_tables import NoRowFits
from puttwright.deeds.start_fitting import start_fitting
from puttwright.deeds.take_back_table import take_back_table
from puttwright.deeds.take_table import Taking, look_at_table, take_table
from puttwright.errors import CannotRead, NotFound
from puttwright.evidence import Golfer
from puttwright.store import files_read
from puttwright.store.revisions import key_of

HEADER = "Time,Putter,Distance (m),Made,Start,Face (open +),Room"
ROWS = [
    "10:00:01,A,3,yes,-0.8,0.5,warm",
    "10:00:31,A,3,no,0.4,-0.2,warm",
    "10:01:02,B,3,no,1.2,0.1,warm",
    "10:01:40,C,3,yes,0.1,0.1,warm",
    "10:02:10,B,3,no,99,0.1,warm",
]


def table(*rows):
    return "\n".join([HEADER, *rows]).encode()


@pytest.fixture
def start(shop, new):
    def _start(name="first", *, handed="left"):
        whose = dataclasses.replace(new, golfer=Golfer(alias="Robin", handed=handed))
        return start_fitting(shop.store, shop.clock, new=whose, entry_key=name, who="fitter")

    return _start


@pytest.fixture
def take(shop):
    keys = iter(range(1000))

    def _take(fitting_id, data, *, name="log.csv", key=None, positive="right", **said):
        fitting = open_fitting(shop.store, fitting_id).fitting
        looked = look_at_table(data, name=name, fitting=fitting, folder=shop.folder)
        columns = tuple(
            dataclasses.replace(each, positive=positive) if each.into == "start_deg" else each
            for each in looked.map.columns
        )
        looked = dataclasses.replace(looked, map=dataclasses.replace(looked.map, columns=columns))
        taking = Taking(entry_key=key or f"k{next(keys)}", who="fitter", said=said)
        return take_table(
            shop.store, shop.clock, fitting_id=fitting_id, table=looked, taking=taking,
            folder=shop.folder,
        )  # fmt: skip

    return _take


def putts(shop, fitting_id):
    return [each for each in open_fitting(shop.store, fitting_id).fitting.putts if not each.void]


def asides(shop, fitting_id):
    with shop.store.reading() as look:
        kept = files_read.asides(look, key=key_of(look, fitting_id))
    return [(each.row, each.why) for each in kept]


@pytest.mark.parametrize(("handed", "sign"), [("right", 1), ("left", -1)])
def test_what_fits_is_taken_and_the_rest_kept_aside(shop, start, take, handed, sign):
    fitting_id = start(handed=handed)

    read = take(fitting_id, table(*ROWS), positive="left")

    taken = putts(shop, fitting_id)
    assert [(p.seq, p.build_id, p.start_deg) for p in taken] == [
        (1, "A", 0.8), (2, "A", -0.4), (3, "B", -1.2)
    ]  # fmt: skip
    assert [p.face_deg for p in taken] == [sign * 0.5, sign * -0.2, sign * 0.1]
    assert taken[0].extra == {"Time": "10:00:01", "Room": "warm"}
    assert (read.added, read.before, len(read.aside)) == (3, 0, 2)
    assert [row for row, _ in asides(shop, fitting_id)] == [5, 6]
    assert "99" in asides(shop, fitting_id)[1][1]


def test_the_map_is_asked_for_once(shop, start, take):
    fitting = open_fitting(shop.store, start()).fitting
    first = look_at_table(table(*ROWS), name="log.csv", fitting=fitting, folder=shop.folder)
    assert not first.sure
    assert "-0.8" in first.map.questions[0]

    take(fitting.fitting_id, table(*ROWS), positive="left")

    again = look_at_table(table(*ROWS[1:]), name="b.csv", fitting=fitting, folder=shop.folder)
    assert again.sure
    assert again.map.columns[4].positive == "left"


def test_reading_twice_adds_nothing_nor_does_an_export_that_overlaps(shop, start, take):
    fitting_id = start()
    take(fitting_id, table(*ROWS[:2]))

    again = take(fitting_id, table(*ROWS[:2]), name="copy.csv")
    grown = take(fitting_id, table(ROWS[2], *ROWS[:2]))

    assert (again.added, again.before) == (0, 2)
    assert (grown.added, grown.before) == (1, 2)
    assert len(putts(shop, fitting_id)) == 3


def test_what_was_read_into_another_fitting_is_not_read_into_this_one(shop, start, take):
    take(start("first"), table(*ROWS[:2]))
    second = start("second")

    read = take(second, table(*ROWS[:3]))

    assert (read.added, read.before) == (1, 2)
    assert [putt.start_deg for putt in putts(shop, second)] == [1.2]


def test_sent_twice_under_one_key_it_is_taken_once(shop, start, take):
    fitting_id = start()

    first = take(fitting_id, b"Made,Putter,Distance (m)\nyes,A,3\n", key="k", name="a")
    again = take(fitting_id, b"Made,Putter,Distance (m)\nyes,A,3\n", key="k", name="b")

    assert first.added == again.added == 1
    assert len(putts(shop, fitting_id)) == 1


def test_a_row_kept_aside_is_tried_again(shop, start, take):
    fitting_id = start()
    take(fitting_id, table(*ROWS[:2], "10:03:00,A,3,perhaps,0,0,warm"))
    assert [row for row, _ in asides(shop, fitting_id)] == [4]

    take(fitting_id, table(*ROWS[:2], "10:03:00,A,3,perhaps,0,0,warm", ROWS[2]))

    assert len(putts(shop, fitting_id)) == 3
    assert [row for row, _ in asides(shop, fitting_id)] == [4]


def test_a_table_taken_back_may_be_read_anew(shop, start, take):
    fitting_id = start()
    take(fitting_id, table(*ROWS[:2]), key="one", positive="left")
    take(fitting_id, table(*ROWS[:3]), key="two", positive="left")

    back = take_back_table(
        shop.store, shop.clock, fitting_id=fitting_id, entry_key="two", who="fitter"
    )
    assert back == 3
    assert putts(shop, fitting_id) == []

    take(fitting_id, table(*ROWS[:3]), positive="right")
    assert [putt.start_deg for putt in putts(shop, fitting_id)] == [-0.8, 0.4, 1.2]
    with pytest.raises(NotFound):
        take_back_table(
            shop.store, shop.clock, fitting_id=fitting_id, entry_key="two", who="fitter"
        )


def test_build_and_distance_are_those_in_hand_where_the_table_does_not_say(shop, start, take):
    fitting_id = start()

    take(fitting_id, b"Start (right +),Made\n-0.8,no\n", build_id="B", distance_m="2.5")

    (putt,) = putts(shop, fitting_id)
    assert (putt.build_id, putt.distance_m, putt.start_deg) == ("B", 2.5, -0.8)


def test_of_a_table_that_does_not_fit_nothing_is_kept(shop, start, take):
    fitting_id = start()
    before = open_fitting(shop.store, fitting_id)

    with pytest.raises(NoRowFits):
        take(fitting_id, table("10:00:01,Z,3,yes,0,0,w"))
    with pytest.raises(CannotRead):
        take(fitting_id, b"Start (right +),Made\n-0.8,no\n")  # of which build?
    with pytest.raises(CannotRead):
        take(fitting_id, b"\0\1\2\3" * 100)

    assert open_fitting(shop.store, fitting_id) == before
    assert asides(shop, fitting_id) == []
    assert not (shop.folder / "maps").exists()
