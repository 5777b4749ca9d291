from __future__ import annotations

import pytest

from puttwright.pictures.builds import BuildMark
from puttwright.pictures.green import Spread, StopSet, green, green_table
from puttwright.pictures.grounds import PAPER
from puttwright.pictures.of_fitting import stop_sets
from puttwright.pictures.of_putt import capture_region
from puttwright.units import HOLE_RADIUS_M

MARK = BuildMark(letter="A", name="One", role="own")


def test_every_miss_that_was_measured_is_a_dot(samples, parsed):
    drawing = parsed(
        green(stop_sets(samples.FITTING, distance_m=3.0), distance_m=3.0, ground=PAPER)
    )
    missed = [p for p in samples.FITTING.used_putts if p.distance_m == 3.0 and not p.holed]
    assert len(drawing.kind("pw-reading")) == len(missed)


def test_right_is_right_and_past_is_up(parsed):
    stops = ((0.2, 0.5), (-0.2, -0.5))
    drawing = parsed(green([StopSet(mark=MARK, stops=stops)], distance_m=3.0, ground=PAPER))
    first, second = drawing.kind("pw-reading")
    assert float(first.get("cx")) > float(second.get("cx"))
    assert float(first.get("cy")) < float(second.get("cy"))


@pytest.mark.parametrize("distance_m", [1.0, 3.0, 20.0])
def test_the_hole_is_to_the_scale_of_the_stops(distance_m, parsed):
    stops = ((0.0, 1.0), (0.0, -0.5))
    drawing = parsed(green([StopSet(mark=MARK, stops=stops)], distance_m=distance_m, ground=PAPER))
    far, near = (float(dot.get("cy")) for dot in drawing.kind("pw-reading"))
    units_per_m = (near - far) / 1.5
    hole = [float(c.get("r")) for c in drawing.all("circle") if c.get("stroke-width") == "2"]
    assert hole[0] == pytest.approx(HOLE_RADIUS_M * units_per_m, abs=0.02)


def test_a_long_putt_is_cut_short_and_says_its_length(parsed):
    svg = green([StopSet(mark=MARK, stops=((0.3, 1.0),))], distance_m=20.0, ground=PAPER)
    drawing = parsed(svg)
    assert "20.0\u2009m" in drawing.words
    assert float(drawing.root.get("height")) < 560


def test_holed_putts_are_tallied_in_fives(parsed):
    one, seven = (
        len(parsed(green([StopSet(mark=MARK, stops=(), holed=holed)], distance_m=3.0,
                         ground=PAPER)).all("line"))
        for holed in (1, 7)
    )  # fmt: skip
    assert seven - one == 6


def test_what_was_not_measured_still_counts(parsed):
    item = StopSet(mark=MARK, stops=((0.1, 0.2),), holed=3, unseen=2)
    assert item.putts == 6
    assert "holed 3 of 6" in parsed(green([item], distance_m=2.0, ground=PAPER)).words
    assert green_table([item], distance_m=2.0).rows[0][1] == "3 of 6"


def test_the_spread_is_an_ellipse_of_nine_in_ten(parsed):
    spread = Spread(right_m=0.0, past_m=0.3, right_sd_m=0.05, past_sd_m=0.2)
    drawing = parsed(
        green([StopSet(mark=MARK, stops=((0.0, 0.8), (0.0, -0.2)), spread=spread)],
              distance_m=3.0, ground=PAPER)
    )  # fmt: skip
    far, near = (float(dot.get("cy")) for dot in drawing.kind("pw-reading"))
    (ellipse,) = drawing.all("ellipse")
    assert float(ellipse.get("ry")) == pytest.approx(2.146 * 0.2 * (near - far), rel=0.01)


def test_the_capture_region_narrows_from_the_whole_hole_to_nothing():
    region = capture_region(green_ft=10.0)
    halves = [half for _, half in region]
    assert halves[0] == pytest.approx(HOLE_RADIUS_M, abs=1e-3)
    assert halves == sorted(halves, reverse=True)
    assert halves[-1] < 0.005
