"""A set-up measured from a photo, and what is said when it cannot be."""

from __future__ import annotations

import json
import re

import pytest
from PIL import Image

POINTS = {
    "eye": "640,200", "hands": "580,690", "grip_end": "560,640", "shaft_foot": "700,1000",
    "ball_near": "690,990", "ball_far": "710,990",
}  # fmt: skip


@pytest.fixture
def photo(tmp_path):
    path = tmp_path / "photo.jpg"
    Image.new("RGB", (1000, 1200), (200, 200, 200)).save(path)
    return path


def _given(**changed):
    points = {name: place for name, place in (POINTS | changed).items() if place}
    return [word for name, place in points.items() for word in ("--point", f"{name}={place}")]


def test_the_guides_photo_is_measured(run, photo, root):
    guide = (root / "docs" / "guide" / "posture-photo.md").read_text(encoding="utf-8")
    assert dict(re.findall(r"--point (\w+)=([\d,]+)", guide)) == POINTS
    result = run("measure", "address", photo, "--handed", "right", "--scale", "club=889",
                 "--lie-deg", 71, "--json", *_given())  # fmt: skip
    assert result.exit_code == 0
    found = json.loads(result.stdout)
    assert found["eye_inside_mm"]["mean"] > 0
    assert found["shaft_deg"]["mean"] + found["sole_tilt_deg"]["mean"] == pytest.approx(
        71, abs=0.01
    )


def test_a_left_hander_mirrored_is_measured_the_same(run, photo):
    mirrored = {
        name: f"{999 - int(place.split(',')[0])},{place.split(',')[1]}"
        for name, place in POINTS.items()
    }
    found = [
        json.loads(run("measure", "address", photo, "--handed", hand, "--scale", "club=889",
                       "--json", *_given(**points)).stdout)
        for hand, points in (("right", {}), ("left", mirrored))
    ]  # fmt: skip
    for name in ("eye_inside_mm", "hands_height_mm", "shaft_deg"):
        right, left = (each[name] for each in found)
        assert left["mean"] == pytest.approx(right["mean"], abs=0.2 * right["sd"])


def test_points_may_stand_in_a_table(run, photo, tmp_path):
    table = tmp_path / "points.csv"
    table.write_text("name,x,y\n" + "".join(f"{n},{p}\n" for n, p in POINTS.items()), "utf-8")
    ours, theirs = (
        run("measure", "address", photo, "--handed", "right", *how).stdout
        for how in (["--points", table], _given())
    )
    assert ours == theirs
    assert "What widens the eyes' interval most" in ours


@pytest.mark.parametrize(
    ("how", "words"),
    [
        (_given(eye=""), "The point eye is missing"),
        (_given(eye="5000,10"), "the point eye lies at 5000,10, outside the photo"),
        (_given(eye="12"), "write it as x,y"),
        (_given(nose="1,2"), "'nose' is no point"),
        ([*_given(), "--scale", "club"], "write ball, card, club=864"),
        ([*_given(), "--scale", "card"], "The point scale_a is missing"),
        ([*_given(), "--lie-deg", "20"], "must lie between 50 and 90"),
        ([*_given(), "--minor"], "Photos of a minor are off"),
        ([*_given(ball_far="690,990")], "lie on one spot"),
    ],
)
def test_what_cannot_be_used_is_told(run, photo, how, words):
    result = run("measure", "address", photo, "--handed", "right", *how)
    assert (result.exit_code, result.stdout) == (2, "")
    assert words in result.stderr
