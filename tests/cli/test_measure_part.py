"""A head or putter on the bench, by command, and its line in a rack file."""

from __future__ import annotations

import json

import pytest

from puttwright.readers.rack_file import read_rack


def head(run, *arguments):
    return run("measure", "part", "H7", *arguments)


THREE = ("--loft-deg", 3, "--loft-deg", 3.5, "--loft-deg", 3.25)


def test_readings_become_a_line_of_the_rack_and_are_searched_like_any_other(run, tmp_path):
    rack = tmp_path / "rack.csv"
    rack.write_text(
        "part_id,kind,stock,price,loft_deg,colour\nH7,head,2,190,9,grey\nS1,shaft,,,,\n"
    )
    asked = (*THREE, "--lie-deg", 71, "--mass-g", 350, "--alloy", "carbon steel")
    done = head(run, *asked, "--neck-joint", "one_piece", "--into", rack)
    assert done.exit_code == 0
    assert "loft: 3.25° (" in done.stdout
    assert "May be bent to loft 1.2° to 5.2°, lie 69.0° to 73.0°" in done.stdout
    part, shaft = read_rack(rack)
    assert (part.loft_deg, part.loft_min_deg, part.alloy) == (3.25, 1.25, "carbon_steel")
    # What nobody measured now stays as it was.
    assert (part.stock, part.price, part.extra) == (2, 190, {"colour": "grey"})
    assert shaft.part_id == "S1"


def test_a_hang_off_a_photo_and_a_turn_on_two_threads_are_told_with_their_doubt(run):
    asked = ("--face-px", "100,100:300,300", "--cg-depth-mm", 15, "--offset-mm", 5)
    threads = ("--mass-g", 350, "--spacing-mm", 100, "--thread-mm", 600)
    timed = ("--period-s", 1.35, "--period-s", 1.36, "--period-s", 1.35)
    told = json.loads(head(run, *asked, *threads, *timed, "--json").stdout)
    assert told["part"]["toe_hang_deg"] == pytest.approx(45)
    assert told["part"]["cg_from_axis_mm"] == pytest.approx(20)
    low, high = told["intervals"]["moi_vertical_axis_g_cm2"]
    # m g D² T² / 16 π² L, by hand.
    by_hand = 0.35 * 9.80665 * 0.1**2 * (4.06 / 3) ** 2 / (16 * 3.14159265**2 * 0.6) * 1e7
    assert low < by_hand < high
    assert told["part"]["moi_vertical_axis_g_cm2"] == pytest.approx(by_hand, rel=1e-3)


def test_a_built_putter_balances_within_its_length(run, tmp_path):
    rack = tmp_path / "rack.csv"
    built = ("measure", "part", "P1", "--kind", "putter", "--length-mm", 864)
    run(*built, "--balance-from-butt-mm", 670, "--balance-from-butt-mm", 672, "--into", rack)
    assert read_rack(rack)[0].balance_from_butt_mm == 671


@pytest.mark.parametrize(
    ("arguments", "sentence"),
    [
        ((), "Nothing was measured; give at least one reading"),
        (("--mass-g", -3), "mass_g is -3 g; it must lie between 0.1 and 1500 g"),
        (("--mass-g", 350, "--alloy", "cheese"), "'cheese' is no alloy we know; use one of"),
        (("--balance-from-butt-mm", 600), "A head has no balance point from a butt"),
        (("--kind", "putter", "--balance-from-butt-mm", 600), "needs the length of the putter"),
        (("--kind", "putter", "--length-mm", 864, "--balance-from-butt-mm", 900),
         "A putter of 864 mm cannot balance 900 mm from its butt"),
        (("--period-s", 1.3), "Timings on two threads need the mass, the spacing"),
        (("--face-px", "1,1:2,1"), "The two points of the face lie on one spot"),
        (("--face-px", "1,1"), "is no two points; write X,Y:X,Y in pixels"),
    ],
)  # fmt: skip
def test_what_no_bench_could_read_is_told_and_nothing_is_written(
    run, tmp_path, arguments, sentence
):
    result = head(run, *arguments, "--into", tmp_path / "rack.csv")
    assert (result.exit_code, result.stdout) == (2, "")
    assert sentence in result.stderr
    assert not (tmp_path / "rack.csv").exists()


def test_what_is_never_bent_is_said_on_its_sheet(run):
    assert "Never bent: zinc snaps." in head(run, "--loft-deg", 3, "--alloy", "zinc").stdout
    assert "Not bent before alloy and neck are known" in head(run, "--loft-deg", 3).stdout
