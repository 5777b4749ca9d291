"""Records broken at random places after a backup: everything acknowledged comes back, once.

Half of the breaks hit records as a shop leaves them, half as a power cut does, with
their log of writes. A few are tried here; PUTTWRIGHT_BREAKS=200 tries as many.
"""

from __future__ import annotations

import os
import random
import shutil
import sqlite3
from collections.abc import Callable
from contextlib import closing
from dataclasses import dataclass, replace
from datetime import UTC, datetime, timedelta
from itertools import count
from pathlib import Path

import pytest

from puttwright.deeds.add_build import add_build
from puttwright.deeds.back_up import back_up
from puttwright.deeds.bootstrap import RECORDS, Shop, open_shop
from puttwright.deeds.check_records import check_records
from puttwright.deeds.correct_reading import correct_reading
from puttwright.deeds.keep_rack import put_on_rack
from puttwright.deeds.record_reading import record_reading
from puttwright.deeds.restore_records import Wanted, restore_records
from puttwright.deeds.shop_settings import backup_settings
from puttwright.deeds.start_fitting import start_fitting
from puttwright.deeds.void_reading import void_reading
from puttwright.evidence import AimReading, Build, Part, Putt
from puttwright.store.tables import metadata

pytestmark = [pytest.mark.faults, pytest.mark.slow]

BREAKS = int(os.environ.get("PUTTWRIGHT_BREAKS", "6"))
SEED = 20261128
PAGE = 4096
NOON = datetime(2026, 5, 1, 12, tzinfo=UTC)


@dataclass(frozen=True)
class Left:
    """A data folder as it was left, and all that was acknowledged in it."""

    folder: Path
    rows: dict[str, list[tuple[object, ...]]]


class Work:
    """What a fitter does in an afternoon, a deed at a time."""

    def __init__(self, shop: Shop, *, seed: int) -> None:
        self._shop = shop
        self._draw = random.Random(seed)
        self._number = count(1)
        self._fittings: list[str] = []
        self._standing: dict[str, list[int]] = {}

    def fitting(self, new) -> None:
        """A golfer comes in."""
        key = f"s{next(self._number)}"
        fitting_id = start_fitting(
            self._shop.store, self._shop.clock, new=new, entry_key=key, who="ann"
        )
        self._fittings.append(fitting_id)
        self._standing[fitting_id] = []

    def some(self, deeds: int) -> None:
        """So many readings, of which some are taken back or replaced, heads and parts."""
        usual = [self._putt] * 12 + [self._aim] * 4
        for _ in range(deeds):
            fitting_id = self._draw.choice(self._fittings)
            others = [self._void, self._correct] if self._standing[fitting_id] else []
            self._draw.choice([*usual, *others, self._build, self._part])(fitting_id)

    def _record(self, fitting_id: str, reading: Putt | AimReading) -> None:
        kept = record_reading(
            self._shop.store, self._shop.clock, fitting_id=fitting_id, reading=reading,
            entry_key=f"k{next(self._number)}", who="ann",
        )  # fmt: skip
        if isinstance(reading, Putt):
            self._standing[fitting_id].append(kept.seq)

    def _putt(self, fitting_id: str) -> None:
        note = "wind " * self._draw.choice([0, 0, 0, 3, 190])
        putt = Putt(seq=0, build_id="B", distance_m=3, holed=True, note=note or None)
        self._record(fitting_id, putt)

    def _aim(self, fitting_id: str) -> None:
        aim = AimReading(
            seq=0, build_id="A", board_distance_mm=2000, reading_mm=self._draw.gauss(0, 9)
        )
        self._record(fitting_id, aim)

    def _taken(self, fitting_id: str) -> int:
        seqs = self._standing[fitting_id]
        return seqs.pop(self._draw.randrange(len(seqs)))

    def _void(self, fitting_id: str) -> None:
        void_reading(
            self._shop.store, self._shop.clock, fitting_id=fitting_id,
            kind="putts", seq=self._taken(fitting_id), why="a dog ran by", who="bob",
        )  # fmt: skip

    def _correct(self, fitting_id: str) -> None:
        better = Putt(seq=0, build_id="B", distance_m=2, holed=True)
        correct_reading(
            self._shop.store, self._shop.clock, fitting_id=fitting_id,
            seq=self._taken(fitting_id), better=better, why="wrong hole",
            entry_key=f"k{next(self._number)}", who="bob",
        )  # fmt: skip

    def _build(self, fitting_id: str) -> None:
        build = Build(build_id=f"N{next(self._number)}", length_mm=850, lie_deg=70, loft_deg=3)
        add_build(self._shop.store, self._shop.clock, fitting_id=fitting_id, build=build, who="ann")

    def _part(self, _fitting_id: str) -> None:
        part = Part(part_id=f"H{next(self._number)}", kind="head")
        put_on_rack(self._shop.store, self._shop.clock, parts=[part], who="ann")


def rows_of(file: Path) -> dict[str, list[tuple[object, ...]]]:
    """Everything the records hold."""
    with closing(sqlite3.connect(file)) as connection:
        return {
            name: connection.execute(f"SELECT * FROM {name} ORDER BY rowid").fetchall()
            for name in metadata.tables
        }


@pytest.fixture(scope="module")
def left(tmp_path_factory: pytest.TempPathFactory, new_fitting) -> list[Left]:
    """The same afternoon twice: ended as one ends it, and cut off by the mains."""
    folder = tmp_path_factory.mktemp("left") / "shop"
    ticks = count()
    shop = open_shop(folder, clock=lambda: NOON + timedelta(seconds=next(ticks)))
    work = Work(shop, seed=SEED)
    work.fitting(new_fitting)
    work.fitting(replace(new_fitting, golfer=replace(new_fitting.golfer, alias="Kim")))
    work.some(120)
    back_up(shop.store, shop.clock, settings=backup_settings(folder))
    work.some(40)
    work.fitting(replace(new_fitting, golfer=replace(new_fitting.golfer, alias="Sam")))
    work.some(60)
    cut = folder.with_name("cut")
    shutil.copytree(folder, cut, ignore=shutil.ignore_patterns("*-shm"))
    rows = rows_of(folder / RECORDS)
    shop.close()
    assert (cut / f"{RECORDS}-wal").stat().st_size > 100_000
    assert len(rows["reading"]) > 150
    return [Left(folder, rows), Left(cut, rows)]


def _break(folder: Path, draw: random.Random) -> str:
    """Break something at random; what was done."""
    files = [folder / RECORDS, folder / f"{RECORDS}-wal"]
    file = draw.choice([each for each in files if each.exists()])
    ways: list[Callable[[Path, random.Random], None]] = [_pages, _bytes, _cut, _delete]
    way = draw.choices(ways, weights=[6, 3, 2, 1])[0]
    way(file, draw)
    return f"{way.__name__} {file.name}"


def _pages(file: Path, draw: random.Random) -> None:
    for _ in range(draw.randint(1, 4)):
        page = draw.randrange(max(1, file.stat().st_size // PAGE))
        what = draw.choice([b"\xa5" * PAGE, bytes(PAGE), draw.randbytes(PAGE)])
        _write(file, page * PAGE, what)


def _bytes(file: Path, draw: random.Random) -> None:
    _write(file, draw.randrange(file.stat().st_size), draw.randbytes(draw.randint(20, 500)))


def _write(file: Path, place: int, what: bytes) -> None:
    with file.open("r+b") as stream:
        stream.seek(place)
        stream.write(what)


def _cut(file: Path, draw: random.Random) -> None:
    with file.open("r+b") as stream:
        stream.truncate(draw.randrange(file.stat().st_size))


def _delete(file: Path, _draw: random.Random) -> None:
    file.unlink()


def _wrong(folder: Path) -> bool:
    if not (folder / RECORDS).exists():
        return True
    return check_records(folder, database=None, backup_folder=folder / "backups").mends


@pytest.mark.timeout(60 + 20 * BREAKS)
def test_whatever_breaks_everything_acknowledged_comes_back_once(left, tmp_path: Path) -> None:
    found = 0
    for number in range(BREAKS):
        was = left[number % 2]
        folder = tmp_path / str(number)
        shutil.copytree(was.folder, folder)
        broken = _break(folder, random.Random(SEED + number))
        wrong = _wrong(folder)
        if wrong:
            found += 1
            wanted = Wanted(folder=folder, backup_folder=folder / "backups")
            restore_records(wanted, clock=lambda: NOON)
        open_shop(folder).close()
        assert (broken, rows_of(folder / RECORDS)) == (broken, was.rows)
        assert not _wrong(folder)
        shutil.rmtree(folder)
    assert found >= BREAKS // 2  # the others hit what nothing rests on
