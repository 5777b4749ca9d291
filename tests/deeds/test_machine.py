"""Deeds in any order, on SQLite and on PostgreSQL, held to a model of a few lists."""

from __future__ import annotations

import dataclasses
import shutil
import tempfile
from collections.abc import Callable
from datetime import UTC, datetime, timedelta
from itertools import count
from pathlib import Path

import pytest
from hypothesis import HealthCheck, settings
from hypothesis import strategies as st
from hypothesis.stateful import (
    Bundle,
    RuleBasedStateMachine,
    consumes,
    initialize,
    invariant,
    rule,
    run_state_machine_as_test,
)

from puttwright.deeds.bootstrap import RECORDS
from puttwright.deeds.correct_reading import correct_reading
from puttwright.deeds.erase_fittings import erase_fittings
from puttwright.deeds.find_fittings import find_fittings
from puttwright.deeds.open_fitting import open_fitting
from puttwright.deeds.record_reading import record_reading
from puttwright.deeds.restore_records import Wanted, restore_records
from puttwright.deeds.start_fitting import NewFitting, start_fitting
from puttwright.deeds.void_reading import void_reading
from puttwright.errors import NotAllowed, NotFound
from puttwright.evidence import AimReading, Build, FittingGreen, Golfer, Green, Putt
from puttwright.store import Store, open_store
from puttwright.store.examine import examine
from puttwright.store.look_at_journal import look_at_journal
from puttwright.store.migrate import HEAD

START = datetime(2026, 5, 1, 12, 0, tzinfo=UTC)
HANDS = st.sampled_from(["left", "right"])
READINGS = st.one_of(
    st.builds(
        Putt, seq=st.just(0), build_id=st.sampled_from("AB"), holed=st.just(False),
        distance_m=st.floats(0.5, 20), stop_past_m=st.floats(-3, 3), stop_right_m=st.floats(-2, 2),
        note=st.none() | st.text(st.characters(exclude_categories=["C", "Z"]), min_size=1),
    ),
    st.builds(
        AimReading, seq=st.just(0), build_id=st.sampled_from("AB"), reading_mm=st.floats(-60, 60),
        board_distance_mm=st.just(2000.0), mirror=st.none() | st.booleans(),
    ),
)  # fmt: skip
KIND = {Putt: "putts", AimReading: "aims"}


@dataclasses.dataclass
class Entry:
    """A reading as the model knows it."""

    reading: Putt | AimReading
    key: str
    why: str | None = None
    instead: int | None = None


class Shop(RuleBasedStateMachine):
    """What a shop does, and what must then be in its records."""

    opened: Callable[[Path], Store]
    fitting_ids = Bundle("fitting_ids")

    @initialize()
    def open_it(self) -> None:
        self.folder = Path(tempfile.mkdtemp(prefix="puttwright-machine-"))
        self.store = self.opened(self.folder)
        self.model: dict[str, list[Entry]] = {}
        self.keys, ticks = count(), count()
        self.clock = lambda: START + timedelta(seconds=next(ticks))
        self.erased: list[str] = []

    @rule(target=fitting_ids, hand=HANDS, twice=st.booleans())
    def start(self, hand: str, twice: bool) -> str:
        new = NewFitting(
            golfer=Golfer(alias="Robin", handed=hand),
            greens=(Green(name="home", speed_ft=9.5, share=1.0),),
            fitting_green=FittingGreen(speed_ft=10),
            builds=tuple(Build(build_id=b, length_mm=864, lie_deg=70, loft_deg=3) for b in "AB"),
        )
        key = f"s{next(self.keys)}"
        ids = {
            start_fitting(self.store, self.clock, new=new, entry_key=key, who="x")
            for _ in range(1 + twice)
        }
        (fitting_id,) = ids
        self.model[fitting_id] = []
        return fitting_id

    @rule(fitting_id=fitting_ids, reading=READINGS, times=st.integers(1, 3))
    def record(self, fitting_id: str, reading: Putt | AimReading, times: int) -> None:
        key = f"e{next(self.keys)}"
        entries = self.model[fitting_id]
        seqs = {
            record_reading(
                self.store, self.clock, fitting_id=fitting_id, reading=reading, entry_key=key,
                who="x",
            ).seq
            for _ in range(times)
        }  # fmt: skip
        entries.append(Entry(reading, key))
        assert seqs == {len(entries)}

    @rule(fitting_id=fitting_ids, seq=st.integers(1, 8), why=st.sampled_from(["gust", "dog"]))
    def take_back(self, fitting_id: str, seq: int, why: str) -> None:
        entries = self.model[fitting_id]
        wanted = {"fitting_id": fitting_id, "seq": seq, "why": why, "who": "x"}
        if seq > len(entries):
            with pytest.raises(NotFound):
                void_reading(self.store, self.clock, kind="putts", **wanted)
            return
        entry = entries[seq - 1]
        kind = KIND[type(entry.reading)]
        if entry.why not in {None, why}:
            with pytest.raises(NotAllowed):
                void_reading(self.store, self.clock, kind=kind, **wanted)
            return
        void_reading(self.store, self.clock, kind=kind, **wanted)
        entry.why = why

    @rule(fitting_id=fitting_ids, seq=st.integers(1, 8), reading=READINGS)
    def correct(self, fitting_id: str, seq: int, reading: Putt | AimReading) -> None:
        entries = self.model[fitting_id]
        key = f"c{next(self.keys)}"
        wanted = {"fitting_id": fitting_id, "seq": seq, "better": reading, "entry_key": key}
        fits = seq <= len(entries) and type(entries[seq - 1].reading) is type(reading)
        if not fits or entries[seq - 1].why is not None:
            with pytest.raises((NotFound, NotAllowed)):
                correct_reading(self.store, self.clock, why="typed wrong", who="x", **wanted)
            return
        correct_reading(self.store, self.clock, why="typed wrong", who="x", **wanted)
        entries.append(Entry(reading, key))
        entries[seq - 1].why, entries[seq - 1].instead = "typed wrong", len(entries)

    @rule(fitting_id=consumes(fitting_ids))
    def erase(self, fitting_id: str) -> None:
        erase_fittings(
            self.store, [fitting_id], folder=self.folder, backup_folder=self.folder / "b",
            copies=True, clock=self.clock, who="x",
        )  # fmt: skip
        del self.model[fitting_id]
        with pytest.raises(NotFound):
            open_fitting(self.store, fitting_id)

    @rule()
    def restart(self) -> None:
        self.store.close()
        self.store = self.opened(self.folder)

    @rule()
    def lose_the_file(self) -> None:
        """The records are deleted, and come back out of the journal and what backups erasing took.

        A database server looks after its own files.
        """
        file = self.store.file
        if file is None:
            return
        self.store.close()
        file.unlink()
        wanted = Wanted(folder=self.folder, backup_folder=self.folder / "b")
        restore_records(wanted, clock=self.clock)
        self.store = self.opened(self.folder)

    @invariant()
    def the_records_are_the_model(self) -> None:
        if not hasattr(self, "store"):
            return
        assert {each.fitting_id for each in find_fittings(self.store)} == set(self.model)
        for fitting_id, entries in self.model.items():
            opened = open_fitting(self.store, fitting_id)
            for seq, (kept, entry) in enumerate(zip(opened.history, entries, strict=True), 1):
                assert kept.reading == dataclasses.replace(entry.reading, seq=seq)
                assert kept.entry_key == entry.key
                void = kept.void
                assert (void and void.why, void and void.replaced_by) == (entry.why, entry.instead)
            used = [
                seq
                for seq, each in enumerate(entries, 1)
                if each.why is None and isinstance(each.reading, Putt)
            ]
            assert [putt.seq for putt in opened.fitting.used_putts] == used

    def teardown(self) -> None:
        if hasattr(self, "store"):
            with self.store.reading() as look:
                assert examine(look).damage == ()
            if self.store.file is not None:
                assert look_at_journal(self.store.file, revision=HEAD).damage == ()
            self.store.close()
        if hasattr(self, "folder"):
            shutil.rmtree(self.folder)


def _check_machine(opened: Callable[[Path], Store], *, examples: int) -> None:
    machine = type("Run", (Shop,), {"opened": staticmethod(opened)})
    run_state_machine_as_test(
        machine,
        settings=settings(
            max_examples=examples, stateful_step_count=15, deadline=None,
            suppress_health_check=list(HealthCheck),
        ),
    )  # fmt: skip


@pytest.mark.slow
def test_the_file_agrees_with_the_model() -> None:
    _check_machine(lambda folder: open_store(folder / RECORDS), examples=20)


@pytest.mark.slow
@pytest.mark.faults
def test_postgresql_agrees_with_the_model(postgres) -> None:
    names: dict[Path, str] = {}

    def opened(folder: Path) -> Store:
        if folder not in names:
            names[folder] = postgres.database(f"machine_{len(names)}")
        return open_store(names[folder])

    _check_machine(opened, examples=5)
