"""Whoever shows a drawing may have it lettered in other words and measures; its lines stay."""

from __future__ import annotations

import re

import pytest

from puttwright.fitting.phrases import MINUS, THIN
from puttwright.pictures.aim_board import aim_board
from puttwright.pictures.annotation import measured_scale
from puttwright.pictures.drafting import Sheet
from puttwright.pictures.green import green
from puttwright.pictures.grounds import PAPER
from puttwright.pictures.hand import (
    PLAIN,
    Hand,
    as_recorded,
    in_english,
    lettered_by,
    putter_length,
)
from puttwright.pictures.make import make_by_distance
from puttwright.pictures.of_fitting import aim_sets, make_lines, stop_sets
from puttwright.pictures.of_putt import usual_roll
from puttwright.pictures.putter import putter_drawing
from puttwright.pictures.roll import skid_and_roll

INCHES = Hand(units={"mm": "in", "cm": "in", "m": "ft", "m/s": "mph"})
METRIC = re.compile(rf"\d[ {THIN}](mm|m|m/s)\b|^(mm|m|m/s)\b")


def _drawings(samples) -> dict[str, str]:
    fitting, decision = samples.FITTING, samples.DECISION
    how = {"ground": PAPER, "width": 620.0}
    sets = aim_sets(fitting, decision)
    stops = stop_sets(fitting, decision, distance_m=3.0)
    return {
        "aim": aim_board(sets, board_distance_mm=2000, handed="right", **how),
        "green": green(stops, distance_m=3.0, **how),
        "makes": make_by_distance(make_lines(fitting, decision), **how),
        "roll": skid_and_roll(usual_roll(fitting, build_id="own", distance_m=3.0), **how),
        "putter": putter_drawing(fitting.build("mallet-slant"), handed="left", **how),
    }


@pytest.mark.parametrize("name", ["aim", "green", "makes", "roll", "putter"])
def test_a_drawing_in_inches_and_feet_says_nothing_in_metric(samples, parsed, name: str) -> None:
    with lettered_by(INCHES):
        drawing = parsed(_drawings(samples)[name])

    told = [each for tag in ("text", "title", "desc") for each in drawing.all(tag)]
    words = [each.text or "" for each in told]
    assert [each for each in words if METRIC.search(each)] == []


@pytest.mark.parametrize("unit_mm", [1.0, 25.4])
def test_a_scale_says_a_place_right_in_either_unit(parsed, unit_mm: float) -> None:
    sheet = Sheet(width=400, height=60, ground=PAPER, prefix="scale")
    with lettered_by(INCHES if unit_mm > 1.0 else PLAIN):
        measured_scale(sheet, (-100.0, 80.0), unit="mm", place=lambda mm: 200 + mm, level=20)
    drawn = parsed(sheet.svg(title="scale", description="")).all("text")

    said = {float(each.get("x")): float(each.text.replace(MINUS, "-")) for each in drawn}
    assert len(said) > 3
    assert said == {x: pytest.approx((x - 200) / unit_mm, abs=0.005) for x in said}


def test_words_are_changed_before_their_room_is_measured(parsed) -> None:
    sheet = Sheet(width=400, height=60, ground=PAPER, prefix="words")
    with lettered_by(Hand(words=lambda words: words.replace("short", "a much longer word"))):
        sheet.text((0, 20), "short", room=60.0)

    assert parsed(sheet.svg(title="short", description="short")).words[0].endswith("…")


def test_paper_is_in_english_and_an_order_in_millimetres() -> None:
    with lettered_by(Hand(words=str.upper, units={"mm": "in"})):
        with in_english():
            assert putter_length(863.6) == f"34.0{THIN}in"
        with as_recorded():
            assert putter_length(863.6) == f"864{THIN}mm"
