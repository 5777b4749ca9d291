"""Photos measured together: none is lost, angles are those of the worked examples."""

from __future__ import annotations

import math

import pytest

from puttwright.deeds import measure_board as deed
from puttwright.deeds.measure_board import BoardSetup, measure_board
from puttwright.errors import OutOfRange


def test_angles_are_those_of_the_laser_and_half_off_a_mirror():
    for mirror, expected in ((False, 0.19099), (True, 0.09549)):
        setup = BoardSetup(distance_m=3.0, distance_sd_m=0.0, mirror=mirror)
        face, sd = deed._face_deg(10.0, sd_mm=1.0, setup=setup)
        assert face == pytest.approx(expected, abs=1e-5)
        assert sd == pytest.approx(0.0191 / (2 if mirror else 1), abs=1e-4)


def test_a_doubtful_distance_widens_what_is_far_off_the_line():
    setup = BoardSetup(distance_m=3.0, distance_sd_m=0.3)
    near, far = (deed._face_deg(y, sd_mm=0.5, setup=setup)[1] for y in (0.0, 150.0))
    assert near == pytest.approx(math.degrees(0.5 / 3000), rel=1e-6)
    assert far > 10 * near


def test_files_that_cannot_be_read_are_told_and_the_others_still_read(tmp_path):
    (tmp_path / "a.jpg").write_bytes(b"")
    (tmp_path / "b.jpg").write_bytes(b"no photo at all" * 40)
    told = []
    found = measure_board(
        [tmp_path / name for name in ("a.jpg", "b.jpg", "c.jpg")], BoardSetup(distance_m=3.0),
        tell=told.append,
    )  # fmt: skip
    assert [each.reading_mm for each in found] == [None, None, None]
    for each, words in zip(found, ("no bytes", "no photo", "not there"), strict=True):
        assert words in each.trouble
    assert told == [1, 1, 1]


@pytest.mark.parametrize("setup", [BoardSetup(distance_m=30), BoardSetup(distance_m=3, bar_mm=45)])
def test_a_distance_or_a_bar_that_cannot_be_is_refused_before_anything_is_read(setup, tmp_path):
    with pytest.raises(OutOfRange):
        measure_board([tmp_path / "none.jpg"], setup)
