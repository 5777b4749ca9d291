"""What gives a putter a wanted feel, by command."""

from __future__ import annotations

import json

import pytest

RACK = """part_id,kind,mass_g,length_mm,stock
S5,weight,5,,4
S10,weight,10,,2
H1,head,350,,
T1,shaft,110,900,
"""


@pytest.fixture
def rack(tmp_path):
    path = tmp_path / "rack.csv"
    path.write_text(RACK, encoding="utf-8")
    return path


def wanted(run, sound, *arguments):
    return run("calc", "wanted", sound, "--build", "B", *arguments)


def test_a_heavier_head_is_put_together_from_what_is_in_stock(run, sound, rack):
    now = json.loads(run("calc", "putter", sound, "--build", "B", "--json").stdout)
    asked = ("--total-g", now["total_g"] + 21, "--rack", rack, "--tape-g", 3, "--json")
    told = json.loads(wanted(run, sound, *asked).stdout)
    assert told["ways"]["head"]["change_g"] == pytest.approx(21, abs=0.01)
    assert told["stock"]["picks"] == [
        {"part_id": "S10", "count": 2, "mass_g": 20.0},
        {"part_id": "tape", "count": 1, "mass_g": 1.0},
    ]
    low, high = told["ways"]["head"]["interval"]
    assert low < told["ways"]["head"]["amount_g"] < high


def test_a_longer_putter_of_the_same_swing_weight_has_a_lighter_head_or_a_heavy_butt(run, sound):
    now = json.loads(run("calc", "putter", sound, "--build", "B", "--json").stdout)
    letter = now["swing_weight"]
    longer = ("--swing-weight", letter, "--length-mm", 914)
    told = json.loads(wanted(run, sound, *longer, "--json").stdout)
    assert told["at_length"] > told["now"]
    assert told["ways"]["head"]["change_g"] < 0 < told["ways"]["butt"]["change_g"]
    assert told["ways"]["butt"]["interval"][0] >= 0
    said = wanted(run, sound, *longer).stdout
    assert f"Wanted: {letter}." in said
    assert "Weight in the butt" in said


@pytest.mark.parametrize(
    ("arguments", "sentence"),
    [
        ((), "one of swing weight, balance point or total mass at a time; got none"),
        (("--balance-mm", 600, "--total-g", 500), "got balance point, total mass"),
        (("--swing-weight", "heavy"), "'heavy' is no swing weight; write a letter A to G"),
        (("--balance-mm", 1200), "cannot balance 1200 mm from its butt"),
        (("--total-g", -500), "--total-g is -500 g; it must lie between 200 and 2500 g"),
        (("--total-g", 540, "--length-mm", 1100), "No shaft in stock gives 1100 mm; the longest"),
        (("--total-g", 540, "--length-mm", 300), "--length-mm is 300 mm; it must lie between"),
    ],
)
def test_what_cannot_be_is_told_with_what_could(run, sound, rack, arguments, sentence):
    result = wanted(run, sound, *arguments, "--rack", rack)
    assert (result.exit_code, result.stdout) == (2, "")
    assert sentence in result.stderr


def test_a_way_that_cannot_be_is_told_beside_those_that_can(run, sound, rack):
    now = json.loads(run("calc", "putter", sound, "--build", "B", "--json").stdout)
    result = wanted(run, sound, "--total-g", now["total_g"] + 4, "--rack", rack)
    assert "No length this shaft allows gives a total mass of" in result.stdout
    assert "comes nearer to 4 g than none at all; the lightest is 10 g" in result.stdout
