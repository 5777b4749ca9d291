"""Single computations on a putter: keys as agreed, both hands, one sentence for what is wrong."""

from __future__ import annotations

import json

import pytest

PARTS = ("--part", "350@33.5in", "--part", "110@16.5in", "--part", "65@5.0in")
PHYSICAL = ("inertia", "--physical", "--mass-g", 520, "--distance-mm", 620)
BIFILAR = ("inertia", "--bifilar", "--mass-g", 350, "--spacing-mm", 100, "--thread-mm", 600)


def said(run, *arguments):
    result = run("calc", *arguments, "--json")
    assert (result.exit_code, result.stderr) == (0, "")
    return json.loads(result.stdout)


def refused(run, *arguments):
    result = run("calc", *arguments)
    assert (result.exit_code, result.stdout) == (2, "")
    return result.stderr


def test_swing_weight_has_the_agreed_keys(run):
    found = said(run, "swing-weight", *PARTS)
    assert list(found)[:4] == ["swing_weight", "torque_in_oz", "balance_mm", "total_g"]
    assert (found["swing_weight"], found["total_g"]) == ("D9.3", 525)
    assert found["torque_in_oz"] == pytest.approx(229.81)
    assert found["torque_12_in_oz"] == pytest.approx(266.848)


def test_masses_and_distances_may_be_in_other_units(run):
    ounces = [f"{g / 28.349523125:.9f} oz@{i * 25.4:.4f} mm" for g, i in ((350, 33.5), (110, 16.5))]
    parts = ("--part", ounces[0], "--part", ounces[1], "--part", '65 g@5"')
    assert said(run, "swing-weight", *parts)["torque_in_oz"] == pytest.approx(229.81)


def test_inertia_has_the_agreed_keys_and_an_interval(run):
    for arguments, cg in (
        ((*PHYSICAL, "--period-s", 1.75), 0.045375),
        ((*BIFILAR, "--period-s", 1.1), 0.00043833),
    ):
        found = said(run, *arguments)
        keys = ["inertia_cg_kg_m2", "inertia_pivot_kg_m2", "interval"]
        assert list(found)[:3] == keys
        assert found["inertia_cg_kg_m2"] == pytest.approx(cg, rel=1e-5)
        low, high = found["interval"]
        assert low < cg < high


def test_several_timings_make_the_interval_and_agreeing_ones_a_narrow_one(run):
    def width(*periods):
        times = [each for period in periods for each in ("--period-s", period)]
        low, high = said(run, *PHYSICAL, *times)["interval"]
        return high - low

    close = width(1.749, 1.750, 1.751)
    assert close < width(1.740, 1.750, 1.760)
    assert width(1.749, 1.750, 1.751, 1.749, 1.750, 1.751) < close
    assert "One timing only" in said(run, *PHYSICAL, "--period-s", 1.75)["flags"][0]


def test_hang_from_the_ground_is_hang_from_the_axis(run):
    square = said(run, "hang", "--cg-depth-mm", 20, "--cg-from-axis-mm", 20)
    across = (20 - 12 * 0.3420201433) / 0.9396926208
    ground = ("--cg-toe-mm", across, "--cg-up-mm", 12, "--lie-deg", 70)
    assert said(run, "hang", "--cg-depth-mm", 20, *ground) == square == {"hang_deg": 45}
    assert said(run, "hang", "--cg-depth-mm", 30, "--cg-from-axis-mm", -2)["hang_deg"] < 0


def test_a_bend_aims_a_left_handers_face_the_other_way(run):
    bend = ("bend", "--add-loft-deg", 1, "--add-lie-deg", 1, "--bar", "shaft")
    metal = ("--alloy", "carbon_steel", "--neck", "one_piece")
    right = said(run, *bend, *metal)
    left = said(run, *bend, *metal, "--handed", "left")
    assert (right["loft_deg"], right["lie_deg"], right["verdict"]) == (4, 71, "within")
    for key in ("aim_soled_deg", "aim_held_deg"):
        assert left[key] == -right[key] != 0
    assert left["hang_deg"] == right["hang_deg"]
    assert any("Eye protection" in caution for caution in right["cautions"])


@pytest.mark.parametrize(
    ("arguments", "sentence"),
    [
        (("swing-weight",), "A swing weight needs parts"),
        (("swing-weight", "--part", "-5@33in"), "mass is -5 g; it must lie between 0 and 2000 g"),
        (("swing-weight", "--part", "350"), "'350' is no part"),
        (("swing-weight", "--part", "350@33.5"), "write 33.5in or 33.5mm"),
        (("swing-weight", "--part", "350@99in"), "place is 2514.6 mm"),
        (("inertia", "--mass-g", 350), "--physical or --bifilar"),
        (
            ("inertia", "--physical", "--distance-mm", 620, "--period-s", 1.75),
            "A physical pendulum needs --mass-g, --distance-mm and --period-s.",
        ),
        (BIFILAR, "A bifilar pendulum needs --mass-g, --spacing-mm, --thread-mm and --period-s."),
        ((*PHYSICAL, "--period-s", 0.875), "count a period there and back"),
        (("inertia", "--physical", "--mass-g", -5), "--mass-g is -5 g; it must lie between"),
        (("hang", "--cg-depth-mm", 15), "needs --cg-toe-mm, --cg-up-mm and --lie-deg"),
        (("bend", "--add-loft-deg", 1, "--alloy", "zinc"), "zinc snaps; what is possible is"),
        (("bend", "--add-lie-deg", 5), "up to 2° is usual and 4° the most"),
        (("bend", "--add-lie-deg", 6, "--lie-deg", 86), "lie after the bend is 92 °"),
    ],
)  # fmt: skip
def test_what_is_wrong_is_one_sentence_with_what_would_be_possible(run, arguments, sentence):
    assert sentence in refused(run, *arguments)


def test_the_help_names_every_metal_and_neck_the_tables_know():
    from puttwright.cli.calc.bend import command
    from puttwright.club.alloys import ALLOYS, NECKS, UNKNOWN

    choices = {option.name: option.type for option in command.params}
    assert set(choices["alloy"].choices) == {*ALLOYS, UNKNOWN}
    assert set(choices["neck"].choices) == {*NECKS, UNKNOWN}
