"""Lines of the journal: written, read back, cut off, spoiled, trimmed."""

from __future__ import annotations

import errno
import os
from pathlib import Path

import pytest

from puttwright.errors import CannotWrite
from puttwright.store import journal
from puttwright.store.journal import Line, Rows, Told

VALUES = (None, -3, 0.1, float("inf"), 'é "quoted"\n', b"\x00\xff")


def _line(number: int, word: str = "a") -> Line:
    rows = Rows(columns=("id", "word"), rows=((number, word),), gone=(7,))
    return Line(number=number, revision="0008", tables={"reading": rows})


@pytest.fixture
def folder(tmp_path: Path) -> Path:
    journal.begin(tmp_path / "records.journal", after=4)
    return tmp_path / "records.journal"


def _write(folder: Path, *lines: Line) -> Path:
    for line in lines:
        journal.append(journal.segments(folder)[-1], line)
    return journal.segments(folder)[-1].file


def _numbers(told: Told) -> list[int]:
    return [line.number for line in told.lines]


def test_what_was_written_is_read_to_the_last_digit(folder: Path) -> None:
    rows = Rows(columns=tuple("abcdef"), rows=(VALUES,))
    line = Line(number=5, revision="0008", tables={"putt": rows})
    _write(folder, line)

    assert journal.read(folder) == Told(after=4, lines=(line,))


def test_without_a_journal_nothing_is_told(tmp_path: Path) -> None:
    assert journal.read(tmp_path / "none") == Told(after=None)
    assert journal.read(tmp_path / "none").last is None


@pytest.mark.parametrize("kept", [0, 1, 20, 60])
def test_a_last_line_that_was_cut_off_is_passed_over_and_the_next_one_stands(
    folder: Path, kept: int
) -> None:
    file = _write(folder, _line(5), _line(6))
    first, second, _ = file.read_bytes().split(b"\n")
    file.write_bytes(first + b"\n" + second[:kept])

    told = journal.read(folder)
    assert (_numbers(told), told.torn, told.unreadable) == ([5], kept > 0, 0)
    _write(folder, _line(6, "again"), _line(7))
    told = journal.read(folder)
    assert (_numbers(told), told.torn, told.unreadable) == ([5, 6, 7], False, 0)
    assert told.lines[1] == _line(6, "again")


@pytest.mark.parametrize("place", [5, 30])
def test_a_line_in_between_that_changed_is_counted_and_the_others_stand(
    folder: Path, place: int
) -> None:
    file = _write(folder, _line(5), _line(6), _line(7))
    lines = file.read_bytes().split(b"\n")
    lines[1] = lines[1][:place] + b"\xa5" + lines[1][place + 1 :]
    file.write_bytes(b"\n".join(lines))

    told = journal.read(folder)

    assert (_numbers(told), told.torn, told.unreadable, told.after) == ([5, 7], False, 1, 4)


def test_a_last_line_that_changed_was_acknowledged_and_is_counted(folder: Path) -> None:
    file = _write(folder, _line(5), _line(6))
    file.write_bytes(file.read_bytes()[:-2] + b"!\n")

    told = journal.read(folder)

    assert (_numbers(told), told.torn, told.unreadable) == ([5], False, 1)


def test_a_number_that_comes_again_takes_back_what_followed_its_first(folder: Path) -> None:
    _write(folder, _line(5), _line(6), _line(7), _line(6, "again"))

    assert journal.read(folder).lines == (_line(5), _line(6, "again"))


def test_a_number_that_does_not_follow_begins_anew(folder: Path) -> None:
    _write(folder, _line(5), _line(9), _line(10))

    told = journal.read(folder)

    assert (told.after, _numbers(told), told.unreadable) == (8, [9, 10], 0)


def test_files_go_when_a_backup_holds_all_of_them(folder: Path) -> None:
    _write(folder, _line(5), _line(6))
    journal.begin(folder, after=6)
    _write(folder, _line(7))

    journal.trim(folder, held=5)
    assert _numbers(journal.read(folder)) == [5, 6, 7]
    journal.trim(folder, held=6)
    assert journal.read(folder) == Told(after=6, lines=(_line(7),))
    journal.trim(folder, held=9)  # the newest file stays: it says that there were records
    assert len(journal.segments(folder)) == 1


def test_begun_anew_nothing_of_before_is_left(folder: Path) -> None:
    _write(folder, _line(5))

    journal.forget(folder, after=5)

    assert journal.read(folder) == Told(after=5)
    assert [file.stat().st_size for file in folder.iterdir()] == [0]


def test_set_aside_and_deleted(folder: Path) -> None:
    _write(folder, _line(5))
    aside = journal.set_aside(folder, name="records-damaged-1.journal")
    assert aside is not None
    journal.begin(folder, after=0)
    second = journal.set_aside(folder, name="records-damaged-1.journal")
    assert second not in {None, aside}
    assert journal.set_aside(folder, name="another") is None
    assert _numbers(journal.read(aside)) == [5]

    journal.delete(aside)

    assert not aside.exists()


@pytest.mark.parametrize(
    ("number", "said"),
    [
        (errno.ENOSPC, "the disk is full"),
        (errno.EROFS, "the file or its folder may only be read"),
        (errno.EIO, "input/output error"),
    ],
)
def test_what_the_disk_does_not_take_leaves_nothing(
    folder: Path, monkeypatch: pytest.MonkeyPatch, number: int, said: str
) -> None:
    file = _write(folder, _line(5))
    before = file.read_bytes()

    def fails(_handle: int) -> None:
        raise OSError(number, os.strerror(number))

    monkeypatch.setattr(os, "fsync", fails)
    with pytest.raises(CannotWrite, match=said):
        _write(folder, _line(6))

    assert file.read_bytes() == before
