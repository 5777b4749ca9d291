"""Invented golfers: both hands, packages that can be used, a truth beside each."""

from __future__ import annotations

import json

from puttwright.readers.package import read_package


def everything_in(folder):
    return {
        str(path.relative_to(folder)): path.read_bytes()
        for path in sorted(folder.rglob("*"))
        if path.is_file()
    }


def test_invented_golfers_are_packages_with_their_truth(run, tmp_path):
    result = run("virtual", "--n", 4, "--seed", 3, "--out", tmp_path / "v")

    assert (result.exit_code, result.stderr) == (0, "")
    folders = sorted((tmp_path / "v").iterdir())
    assert [folder.name for folder in folders] == [f"golfer-00{n}" for n in (1, 2, 3, 4)]
    assert {read_package(folder).golfer.handed for folder in folders} == {"right", "left"}
    for folder in folders:
        truth = json.loads((folder / "truth.json").read_text("utf-8"))
        builds = {build.build_id for build in read_package(folder).builds}
        assert set(truth["builds"]) == builds


def test_the_same_seed_is_the_same_bytes_and_may_be_written_again(run, tmp_path):
    for name in ("a", "b", "b"):
        assert run("virtual", "--n", 2, "--seed", 3, "--out", tmp_path / name).exit_code == 0
    run("virtual", "--n", 2, "--seed", 4, "--out", tmp_path / "c")

    assert everything_in(tmp_path / "a") == everything_in(tmp_path / "b")
    assert everything_in(tmp_path / "a") != everything_in(tmp_path / "c")


def test_progress_is_on_stderr_when_asked_for(run, tmp_path):
    result = run("virtual", "--n", 3, "--out", tmp_path, "--progress")

    assert result.stderr.splitlines() == [f"Inventing golfers: {n} of 3" for n in (1, 2, 3)]
    assert "of 3" not in result.stdout


def test_none_or_too_many_are_refused(run, tmp_path):
    for n in (0, 10_001):
        result = run("virtual", "--n", n, "--out", tmp_path / "v")
        assert result.exit_code == 2
    assert not (tmp_path / "v").exists()
