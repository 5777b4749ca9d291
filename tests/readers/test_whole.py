"""A file or folder is the old one or the new one, and nothing of others is lost."""

from __future__ import annotations

import os

import pytest

from puttwright.errors import CannotWrite
from puttwright.readers import whole
from puttwright.readers.whole import (
    FileBegun,
    change_folder_whole,
    write_file_whole,
    write_folder_whole,
)


def names_in(folder):
    return sorted(path.name for path in folder.iterdir())


def test_a_file_is_replaced_and_its_folder_made(tmp_path):
    target = tmp_path / "new" / "a.txt"
    for data in (b"one", b"two"):
        write_file_whole(target, data)

    assert target.read_bytes() == b"two"
    assert names_in(tmp_path / "new") == ["a.txt"]


def test_a_folder_is_replaced_with_files_gone(tmp_path):
    target = tmp_path / "p"
    write_folder_whole(target, {"a": b"1", "b": b"2"})
    (target / "b").unlink()
    write_folder_whole(target, {"a": b"3", "b": b"4"})

    assert {path.name: path.read_bytes() for path in target.iterdir()} == {"a": b"3", "b": b"4"}
    assert names_in(tmp_path) == ["p"]


def test_an_empty_folder_is_filled(tmp_path):
    (tmp_path / "p").mkdir()
    write_folder_whole(tmp_path / "p", {"a": b"1"})

    assert names_in(tmp_path / "p") == ["a"]


def test_a_folder_with_other_things_is_left_alone(tmp_path):
    (tmp_path / "holiday.jpg").write_bytes(b"sea")

    with pytest.raises(CannotWrite, match=r"other things \(holiday.jpg\)"):
        write_folder_whole(tmp_path, {"a": b"1"})
    assert names_in(tmp_path) == ["holiday.jpg"]


def test_a_file_in_the_way_of_a_folder_is_told(tmp_path):
    (tmp_path / "p").write_bytes(b"x")

    with pytest.raises(CannotWrite, match="a file of that name is in the way"):
        write_folder_whole(tmp_path / "p", {"a": b"1"})


def test_a_folder_in_the_way_of_a_file_is_told(tmp_path):
    with pytest.raises(CannotWrite, match="is a directory"):
        write_file_whole(tmp_path, b"x")


@pytest.mark.faults
@pytest.mark.parametrize("at", ["fsync", "replace"])
def test_a_full_disk_leaves_the_old_file_and_no_crumbs(tmp_path, monkeypatch, at):
    target = tmp_path / "a.txt"
    write_file_whole(target, b"old")

    def full(*_args, **_kwargs):
        raise OSError(28, "No space left on device")

    monkeypatch.setattr(*((os, "fsync") if at == "fsync" else (whole.Path, "replace")), full)
    with pytest.raises(CannotWrite, match="no space left on device"):
        write_file_whole(target, b"new")

    assert target.read_bytes() == b"old"
    assert names_in(tmp_path) == ["a.txt"]


@pytest.mark.faults
def test_a_full_disk_leaves_the_old_folder(tmp_path, monkeypatch):
    target = tmp_path / "p"
    write_folder_whole(target, {"a": b"old"})

    def full(*_args, **_kwargs):
        raise OSError(28, "No space left on device")

    monkeypatch.setattr(os, "fsync", full)
    with pytest.raises(CannotWrite):
        write_folder_whole(target, {"a": b"new"})

    assert (target / "a").read_bytes() == b"old"
    assert names_in(tmp_path) == ["p"]


@pytest.mark.faults
def test_a_folder_that_cannot_take_its_place_gives_it_back(tmp_path, monkeypatch):
    target = tmp_path / "p"
    write_folder_whole(target, {"a": b"old"})
    rename = whole.Path.replace

    def stubborn(self, to):
        if self.suffix == ".part" and (self / "a").read_bytes() == b"new":
            raise OSError(13, "Permission denied")
        return rename(self, to)

    monkeypatch.setattr(whole.Path, "replace", stubborn)
    with pytest.raises(CannotWrite, match="permission denied"):
        write_folder_whole(target, {"a": b"new"})

    assert (target / "a").read_bytes() == b"old"
    assert names_in(tmp_path) == ["p"]


def written_bit_by_bit(begun, count):
    for number in range(count):
        with begun.writing() as out:
            out.write(b"%d\n" % number)


def test_a_file_begun_takes_its_place_with_all_that_was_written(tmp_path):
    target = tmp_path / "p"
    write_folder_whole(target, {"a": b"1", "b": b"2"})

    with FileBegun(target) as begun:
        written_bit_by_bit(begun, 3)
        assert (target / "a").read_bytes() == b"1"
        change_folder_whole(target, {"a": begun, "c": b"3"})

    assert {path.name: path.read_bytes() for path in target.iterdir()} == {
        "a": b"0\n1\n2\n", "b": b"2", "c": b"3"
    }  # fmt: skip
    assert names_in(tmp_path) == ["p"]


def test_a_file_begun_can_be_read_back(tmp_path):
    with FileBegun(tmp_path / "p") as begun:
        written_bit_by_bit(begun, 2)
        assert begun.bytes() == b"0\n1\n"


@pytest.mark.parametrize("count", [0, 2])
def test_a_file_begun_that_nobody_wants_is_gone(tmp_path, count):
    with FileBegun(tmp_path / "p") as begun:
        written_bit_by_bit(begun, count)

    assert names_in(tmp_path) == []


def test_what_is_begun_goes_to_the_disk_while_more_is_written(tmp_path, monkeypatch):
    monkeypatch.setattr(whole, "_MANY_BYTES", 10)
    flushed, flush = [], os.fsync
    monkeypatch.setattr(os, "fsync", lambda handle: (flushed.append(handle), flush(handle)))

    with FileBegun(tmp_path / "p") as begun:
        written_bit_by_bit(begun, 13)
        on_the_way = len(flushed)
        begun.lie_at(tmp_path / "p")

    assert (on_the_way, len(flushed)) == (2, 3)


@pytest.mark.faults
@pytest.mark.parametrize("said", [(28, "No space left"), ("No space left (os error 28)",)])
def test_a_disk_that_fills_up_under_a_file_begun_is_told_and_no_crumbs_stay(tmp_path, said):
    with pytest.raises(CannotWrite, match=r"no space left\.$"), FileBegun(tmp_path / "p") as begun:
        written_bit_by_bit(begun, 2)
        with begun.writing():
            raise OSError(*said)

    assert names_in(tmp_path) == []
