"""Some files of a package change, all at once; whatever else lies there stays."""

from __future__ import annotations

import zipfile

import pytest

from puttwright.errors import CannotWrite
from puttwright.readers import whole
from puttwright.readers.change_package import change_package
from puttwright.readers.package import read_package, write_package


@pytest.fixture
def package(fitting, tmp_path):
    path = tmp_path / "fitting"
    write_package(fitting, path)
    (path / ".hidden").write_text("h")
    (path / "photos").mkdir()
    (path / "photos" / "board.jpg").write_bytes(b"jpeg")
    return path


def listing(folder):
    files = (each for each in folder.rglob("*") if each.is_file())
    return {each.relative_to(folder).as_posix(): each.read_bytes() for each in files}


@pytest.mark.parametrize("count", [1, 2])
def test_only_what_is_named_changes(package, count):
    before = listing(package)
    changed = dict(list({"note.txt": b"n", "aims.csv": before["aims.csv"] + b"\n"}.items())[:count])

    change_package(package, changed)

    assert listing(package) == {**before, **changed}


def test_a_zip_keeps_its_other_files_too(fitting, tmp_path):
    path = tmp_path / "fitting.zip"
    write_package(fitting, path, beside={"plan.txt": b"p"})

    change_package(path, {"note.txt": b"n"})

    assert read_package(path) == fitting
    with zipfile.ZipFile(path) as archive:
        assert (archive.read("plan.txt"), archive.read("note.txt")) == (b"p", b"n")


def test_a_disk_that_fills_up_leaves_all_as_it_was(package, monkeypatch):
    before = listing(package)

    def full(path, data):
        if path.name == "b.txt":
            raise OSError(28, "No space left on device")
        path.write_bytes(data)

    monkeypatch.setattr(whole, "_write", full)

    with pytest.raises(CannotWrite, match="no space left"):
        change_package(package, {"a.txt": b"a", "b.txt": b"b"})
    assert listing(package) == before
    assert [each.name for each in package.parent.iterdir()] == ["fitting"]
