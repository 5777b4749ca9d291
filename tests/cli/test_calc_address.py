"""Address and sole as commands: figures with their intervals, sentences, both hands."""

from __future__ import annotations

import json

import pytest

OWN = ("--stature-mm", 1780, "--length-mm", 864, "--lie-deg", 70, "--eyes-inside-mm", 40)


def _json(run, *arguments):
    result = run("calc", *arguments, "--json")
    assert (result.exit_code, result.stderr) == (0, "")
    return json.loads(result.stdout)


def test_an_address_says_figures_intervals_and_words(run):
    said = _json(run, "address", *OWN, "--other-length-mm", 838)
    low, high = said["eyes_inside_interval_90_mm"]

    assert low < said["eyes_inside_mm"] < high
    assert said["other_eyes_inside_mm"] < said["eyes_inside_mm"]
    assert said["other_trunk_deg"] > said["trunk_deg"]
    assert "length" in said["words"][1]
    assert "clinician" in said["cautions"][-1]


def test_people_read_the_words_a_line_each(run):
    lines = run("calc", "address", *OWN).stdout.splitlines()

    assert any(line.startswith("words") and "With this putter" in line for line in lines)


def test_a_told_height_widens_it(run):
    def width(*more):
        low, high = _json(run, "address", *OWN, *more)["wanted_length_interval_90_mm"]
        return high - low

    assert width("--told") > width()


@pytest.mark.parametrize(("handed", "sign"), [("right", -1), ("left", 1)])
def test_a_gap_under_the_toe_looks_to_the_heel_side(run, handed, sign):
    said = _json(run, "sole", "--lie-deg", 71, "--toe-gap-mm", 3, "--handed", handed)

    assert sign * said["face_deg"] > 0
    assert said["flush_lie_deg"] < 71


def test_another_lie_in_the_same_hands(run):
    said = _json(run, "sole", "--lie-deg", 71, "--sole-tilt-deg", 2, "--other-lie-deg", 69)

    assert abs(said["other_face_deg"]) < 1e-9


@pytest.mark.parametrize(
    "arguments",
    [
        ("address", "--length-mm", 864, "--lie-deg", 20),
        ("sole", "--lie-deg", 71, "--toe-gap-mm", 50, "--sole-length-mm", 60),
    ],
)
def test_what_cannot_be_is_told_with_its_range(run, arguments):
    result = run("calc", *arguments)

    assert (result.exit_code, result.stdout) == (2, "")
    assert "must lie between" in result.stderr
