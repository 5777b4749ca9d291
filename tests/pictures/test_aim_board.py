from __future__ import annotations

import dataclasses

import pytest

from puttwright.pictures.aim_board import AimSet, aim_board, aim_table
from puttwright.pictures.builds import BuildMark
from puttwright.pictures.grounds import PAPER
from puttwright.pictures.of_fitting import aim_sets

MARK = BuildMark(letter="A", name="One", role="own")


def _board(sets, **how):
    how = {"handed": "right", "ground": PAPER, "board_distance_mm": 2000.0} | how
    return aim_board(sets, **how)


def test_every_reading_is_a_dot(samples, parsed):
    drawing = parsed(_board(aim_sets(samples.FITTING, samples.DECISION)))
    assert len(drawing.kind("pw-reading")) == len(samples.FITTING.aims)


def test_only_the_letters_asked_for_are_drawn(samples, parsed):
    drawing = parsed(_board(aim_sets(samples.FITTING), letters=["B"]))
    mine = [aim for aim in samples.FITTING.aims if aim.build_id == "mallet-slant"]
    assert len(drawing.kind("pw-reading")) == len(mine)


def test_one_reading_is_the_latest(samples, parsed):
    assert len(parsed(_board(aim_sets(samples.FITTING))).kind("pw-latest")) == 1


def test_a_dot_lies_where_its_angle_falls_on_the_board(parsed):
    one = parsed(_board([AimSet(mark=MARK, angles_deg=(0.0, 1.0, -1.0))]))
    zero, right, left = (float(dot.get("cx")) for dot in one.kind("pw-reading"))
    assert right > zero > left
    assert right - zero == pytest.approx(zero - left, abs=0.03)


@pytest.mark.parametrize(("handed", "right_is"), [("right", "open"), ("left", "closed")])
def test_right_is_open_for_a_right_hander_only(handed, right_is, parsed):
    assert f"right, {right_is}" in parsed(_board([], handed=handed)).words


def test_mirrored_readings_lie_mirrored(samples, parsed):
    right = parsed(_board(aim_sets(samples.FITTING), handed="right"))
    left = parsed(_board(aim_sets(samples.LEFT_FITTING), handed="left"))

    def offsets(drawing):
        middle = parsed(_board([AimSet(mark=MARK, angles_deg=(0.0,))])).kind("pw-reading")[0]
        return [float(d.get("cx")) - float(middle.get("cx")) for d in drawing.kind("pw-reading")]

    assert offsets(left) == pytest.approx([-offset for offset in offsets(right)], abs=0.03)


def test_a_wild_reading_widens_the_board(parsed):
    drawing = parsed(_board([AimSet(mark=MARK, angles_deg=(56.0, 89.9))], width=720.0))
    assert all(float(dot.get("cx")) <= 706 for dot in drawing.kind("pw-reading"))


def test_the_table_reads_out_every_angle(samples):
    sets = aim_sets(samples.FITTING, samples.DECISION)
    for row, item in zip(aim_table(sets).rows, sets, strict=True):
        assert row[2].count("°") == len(item.angles_deg)


def test_without_a_decision_the_readings_still_show(samples, parsed):
    bare = [dataclasses.replace(item, bias=None) for item in aim_sets(samples.FITTING)]
    assert "8 readings" in parsed(_board(bare)).words
