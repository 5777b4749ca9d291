"""Single computations: keys with units, signs that may be negative, ranges with a reason."""

from __future__ import annotations

import json
import re

import pytest

CASES = {
    ("holing", "--distance-m", 3, "--start-sd-deg", 1, "--pace-sd-pct", 8): (
        "make_pct expected_putts"
    ),
    ("impact", "--head-speed-mps", 1.5, "--loft-deg", 3): (
        "ball_speed_mps launch_deg start_deg spin_rpm twist_deg"
    ),
    ("roll", "--ball-speed-mps", 2, "--launch-deg", 2): (
        "skid_m skid_s roll_start_speed_mps roll_out_m roll_share_pct break_m energy_error"
    ),
    ("capture", "--offset-mm", -10): "capture_speed_mps",
    ("green-speed", "--up-ft", 8, "--down-ft", 12): "level_ft deceleration_mps2",
    ("hang", "--cg-depth-mm", 15, "--cg-from-axis-mm", 20): "hang_deg",
}


@pytest.mark.parametrize(("arguments", "keys"), CASES.items(), ids=lambda each: each[0])
def test_json_has_the_agreed_keys_and_lines_say_the_same(run, arguments, keys):
    result = run("calc", *arguments, "--json")
    said = json.loads(result.stdout)

    assert (result.exit_code, result.stderr) == (0, "")
    assert list(said)[: len(keys.split())] == keys.split()
    assert all(isinstance(said[key], float | int) for key in keys.split())
    assert len(run("calc", *arguments).stdout.splitlines()) == len(said)


def make_pct(run, *arguments):
    fixed = ["--distance-m", 3, "--start-sd-deg", 1, "--pace-sd-pct", 8]
    return json.loads(run("calc", "holing", *fixed, *arguments, "--json").stdout)["make_pct"]


def test_negative_values_are_values_and_sides_are_alike(run):
    left = make_pct(run, "--start-bias-deg", "-0.8")

    assert left == make_pct(run, "--start-bias-deg=-.8") == make_pct(run, "--start-bias-deg", 0.8)
    assert left < make_pct(run)


@pytest.mark.parametrize(
    ("text", "sentence"),
    [
        ("1,5", "'1,5' uses a decimal comma; write 1.5"),
        ("far", "'far' is not a number"),
        ("nan", "'nan' is not a finite number"),
    ],
)
def test_a_wrong_number_is_told(run, text, sentence):
    result = run("calc", "capture", "--offset-mm", text)

    assert (result.exit_code, result.stdout) == (2, "")
    assert sentence in result.stderr


@pytest.mark.parametrize(
    "arguments",
    [
        ("holing", "--distance-m", 300, "--start-sd-deg", 1, "--pace-sd-pct", 8),
        ("impact", "--head-speed-mps", 40),
        ("impact", "--head-speed-mps", 1.5, "--loft-deg", 45),
        ("roll", "--ball-speed-mps", 40),
        ("capture", "--offset-mm", 900),
        ("green-speed", "--up-ft", -1, "--down-ft", 12),
    ],
)
def test_a_value_out_of_range_is_told_with_the_range(run, arguments):
    result = run("calc", *arguments)

    assert (result.exit_code, result.stdout) == (2, "")
    assert "must lie between" in result.stderr


RANGE = re.compile(r"(--[\w-]+) NUMBER .*?(-?[\d.]+) to (-?[\d.]+)")
# Two readings of a green must also make a green together, so their ends do not go with any other.
RANGED = [arguments for arguments in CASES if arguments[0] != "green-speed"]


@pytest.mark.parametrize("arguments", RANGED, ids=lambda each: each[0])
def test_both_ends_of_every_range_in_the_help_are_taken(run, arguments):
    text = " ".join(run("calc", arguments[0], "--help").output.split())
    ranges = RANGE.findall(text)

    assert len(ranges) == text.count("NUMBER")
    for option, low, high in ranges:
        for value in (low, high):
            result = run("calc", *arguments, option, value)
            assert (option, value, result.exit_code, result.stderr) == (option, value, 0, "")


def test_a_strike_on_the_toe_turns_a_left_handers_ball_the_other_way(run):
    fixed = ["calc", "impact", "--head-speed-mps", 1.5, "--strike-toe-mm", 10, "--json"]
    right = json.loads(run(*fixed).stdout)
    left = json.loads(run(*fixed, "--handed", "left").stdout)

    assert right["twist_deg"] > 0
    assert left["twist_deg"] == -right["twist_deg"]
    assert left["start_deg"] == -right["start_deg"]
    assert left["ball_speed_mps"] == right["ball_speed_mps"]


def test_a_ball_that_never_stops_is_a_result(run):
    fixed = ["calc", "roll", "--ball-speed-mps", 2, "--slope-pct", 20]

    assert json.loads(run(*fixed, "--json").stdout)["roll_out_m"] is None
    assert "roll out          none\n" in run(*fixed).stdout
    assert "never stops" in run(*fixed).stdout


def test_a_number_without_a_unit_is_told_without_one(run):
    result = run("calc", "impact", "--head-speed-mps", 1, "--restitution", 3)

    assert result.stderr == "--restitution is 3; it must lie between 0.5 and 1.\n"


def test_what_must_be_given_is_named(run):
    result = run("calc", "roll")

    assert result.exit_code == 2
    assert "Missing option '--ball-speed-mps'" in result.stderr


def test_rules_are_told_clause_by_clause(run):
    fixed = ["calc", "rules", "--length-mm", 457.1, "--lie-deg", 80, "--loft-deg", 3]
    said = json.loads(run(*fixed, "--json").stdout)
    verdicts = {each["clause"]: each["verdict"] for each in said["clauses"]}

    assert set(verdicts.values()) == {"within", "beyond", "look"}
    assert {"clause", "measured", "limit", "verdict"} <= set(said["clauses"][0])
    assert verdicts["Length, butt to sole along the shaft"] == "beyond"
    lines = run(*fixed).stdout.splitlines()
    assert lines[0].startswith("beyond  Length")
    assert lines[-1].startswith("The governing bodies decide")
