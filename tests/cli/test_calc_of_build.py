"""The figures of a build, and what would give it a wanted feel, by command."""

from __future__ import annotations

import json

import pytest


def test_every_figure_of_a_build_is_told_with_its_interval(run, sound):
    told = json.loads(run("calc", "putter", sound, "--build", "B", "--json").stdout)
    assert told["build"] == "B"
    low, high = told["intervals"]["total_g"]
    assert 300 < low < told["total_g"] < high < 800
    assert any("taken as" in note for note in told["notes"])
    leaned = run("calc", "putter", sound, "--build", "B", "--lean-deg", 1, "--json").stdout
    assert json.loads(leaned)["loft_at_lean_deg"] == pytest.approx(told["loft_at_lean_deg"] - 1)


def test_what_a_weight_or_a_length_would_change_is_told(run, sound):
    weighed = run("calc", "putter", sound, "--build", "B", "--add", "10@33.5in")
    assert "+3.9 points" in weighed.stdout
    assert "+10" in weighed.stdout
    longer = run("calc", "putter", sound, "--build", "B", "--length-mm", 1000, "--json")
    assert json.loads(longer.stdout)["change"]["torque_in_oz"] > 5


@pytest.mark.parametrize(
    ("arguments", "sentence"),
    [
        (("--build", "Z"), "There is no build called 'Z'; there are A, B"),
        (("--add", "-3@33in"), "mass is -3 g; it must lie between 0 and 2000 g (nothing on a"),
        (("--add", "3"), "'3' is no part"),
        (("--length-mm", 100), "--length-mm is 100 mm; it must lie between 457.2 and 1600 mm"),
    ],
)
def test_no_putter_could_be_so(run, sound, arguments, sentence):
    result = run("calc", "putter", sound, *arguments)
    assert (result.exit_code, result.stdout) == (2, "")
    assert sentence in result.stderr
