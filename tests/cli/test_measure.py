"""The photos that are shipped with the guide are read as their table of truth says."""

from __future__ import annotations

import csv
import json

import pytest


@pytest.fixture
def photos(root):
    return root / "docs" / "guide" / "board-photos"


def _truth(photos):
    with (photos / "truth.csv").open(encoding="utf-8") as stream:
        return {row["photo"]: row for row in csv.DictReader(stream)}


@pytest.mark.slow
def test_the_guides_photos_are_read_as_they_were_made(run, photos):
    files = sorted(photos.glob("*.jpg"))
    result = run("measure", "board", *files, "--distance-m", 3, "--json")
    assert result.exit_code == 0
    truth = _truth(photos)
    for got, path in zip(json.loads(result.stdout), files, strict=True):
        wanted = truth[path.name]
        if wanted["reading_mm"]:
            assert got["reading_mm"] == pytest.approx(float(wanted["reading_mm"]), abs=0.4)
            assert got["colour"] == wanted["colour"]
        else:
            assert got["reading_mm"] is None
            assert got["doubt"]
    assert sum(path.stat().st_size for path in files) < 1e6


@pytest.mark.slow
def test_a_doubt_is_shown_to_be_settled_by_a_tap(run, photos, tmp_path):
    two = photos / "4-two.jpg"
    doubt = run("measure", "board", two, "--distance-m", 3, "--pictures", tmp_path / "which")
    assert doubt.exit_code == 0
    assert "two spots could be the dot" in doubt.stdout
    assert (tmp_path / "which" / "4-two-which.jpg").read_bytes().startswith(b"\xff\xd8")
    tap = doubt.stdout.split("--tap ")[1].split("\n")[0]
    settled = run("measure", "board", two, "--distance-m", 3, "--tap", tap)
    assert "dot 23.4 mm right" in settled.stdout


@pytest.mark.slow
def test_a_bad_file_costs_only_itself(run, photos, tmp_path):
    bad = tmp_path / "IMG_1.heic"
    bad.write_bytes(b"\0\0\0\x18ftypheic" + b"\0" * 100)
    result = run("measure", "board", bad, photos / "1-red.jpg", "--distance-m", 3)
    assert result.exit_code == 2
    assert "is a HEIC photo" in result.stderr
    assert "dot 21.0 mm right" in result.stdout


@pytest.mark.parametrize(
    ("options", "words"),
    [
        (["--distance-m", "30"], "must lie between 0.2 and 20 m"),
        (["--distance-m", "3", "--bar-mm", "30"], "another paper's"),
        (["--distance-m", "3", "--tap", "12"], "X,Y"),
    ],
)
def test_what_cannot_be_is_told(run, photos, options, words):
    result = run("measure", "board", photos / "1-red.jpg", *options)
    assert result.exit_code == 2
    assert words in result.stderr


@pytest.mark.slow
@pytest.mark.parametrize("paper", ["a3", "Letter"])
def test_the_board_is_printed(run, tmp_path, paper):
    result = run("board", "--paper", paper, "--out", tmp_path / "board.pdf")
    assert result.exit_code == 0
    assert (tmp_path / "board.pdf").read_bytes().startswith(b"%PDF-")
