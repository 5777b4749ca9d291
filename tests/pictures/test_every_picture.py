"""What holds of every drawing, whatever it shows."""

from __future__ import annotations

import dataclasses

import pytest

from puttwright.pictures.aim_board import aim_board, aim_table
from puttwright.pictures.claims import ClaimDot, ClaimMean, claimed_against_true
from puttwright.pictures.green import green, green_table
from puttwright.pictures.grounds import BAY, GROUNDS, PAGE, PAPER, PRINT, SUNLIGHT
from puttwright.pictures.hang import hang
from puttwright.pictures.make import make_by_distance, make_table
from puttwright.pictures.mark import mark
from puttwright.pictures.mean_rows import MeanRow, Told, mean_rows
from puttwright.pictures.of_fitting import aim_sets, make_lines, saved_rows, stop_sets
from puttwright.pictures.of_putt import capture_region, usual_roll
from puttwright.pictures.putter import putter_drawing, putter_table
from puttwright.pictures.regret_curve import Curve, CurvePoint, regret_by_putts
from puttwright.pictures.roll import roll_table, skid_and_roll
from puttwright.pictures.strokes import strokes_saved, strokes_table

HOSTILE = '<script>alert("1")</script> & \u0007\'"]]> #eval'


def _draw(name, samples, **how):
    fitting, decision = samples.FITTING, samples.DECISION
    width = {k: v for k, v in how.items() if k == "width"}
    how = {k: v for k, v in how.items() if k != "width"} | {"ground": how.get("ground", PAPER)}
    build = fitting.build("mallet-slant")
    return {
        "aim": lambda: aim_board(
            aim_sets(fitting, decision), board_distance_mm=2000, handed="right", **how, **width
        ),
        "green": lambda: green(
            stop_sets(fitting, decision, distance_m=3.0),
            distance_m=3.0,
            capture=capture_region(green_ft=10.0),
            **how,
            **width,
        ),
        "strokes": lambda: strokes_saved(saved_rows(fitting, decision), **how, **width),
        "roll": lambda: skid_and_roll(
            usual_roll(fitting, build_id="own", distance_m=3.0), **how, **width
        ),
        "make": lambda: make_by_distance(make_lines(fitting, decision), **how, **width),
        "putter": lambda: putter_drawing(build, handed="left", **how, **width),
        "hang": lambda: hang(build, handed="right", **how),
        "mark": lambda: mark(**how),
        "claims": lambda: claimed_against_true(
            [ClaimDot(claimed=0.5, true=0.2, chosen=True), ClaimDot(claimed=-0.4, true=0.1)],
            means=[ClaimMean(claimed=0.1, true=0.1, low=-0.1, high=0.3)],
            **how,
            **width,
        ),
        "rows": lambda: mean_rows(
            [MeanRow(name="a rule with a long name", mean=0.3, low=0.2, high=0.4, wanted=0.2)],
            told=Told(title="Regret", scale="putts a round"),
            **{"prefix": "rows"} | how,
            **width,
        ),
        "curve": lambda: regret_by_putts(
            [Curve(name="a plan", points=[CurvePoint(putts=24, mean=0.3, low=0.2, high=0.4)])],
            **how,
            **width,
        ),
    }[name]()


EVERY = (
    "aim",
    "green",
    "strokes",
    "roll",
    "make",
    "putter",
    "hang",
    "mark",
    "claims",
    "rows",
    "curve",
)


@pytest.mark.parametrize("name", EVERY)
@pytest.mark.parametrize("ground", GROUNDS.values(), ids=list(GROUNDS))
def test_a_drawing_is_sound_xml_and_says_what_it_is(name, ground, samples, parsed):
    drawing = parsed(_draw(name, samples, ground=ground, prefix="p7"))
    assert drawing.root.get("role") == "img"
    labels = drawing.root.get("aria-labelledby").split()
    assert labels == ["p7-title", "p7-desc"]
    assert all(
        next(item.text for item in drawing.root.iter() if item.get("id") == label).strip()
        for label in labels
    )


@pytest.mark.parametrize("name", EVERY)
def test_ids_are_unique_and_begin_with_the_prefix(name, samples, parsed):
    ids = parsed(_draw(name, samples, prefix="shop")).ids
    assert len(ids) == len(set(ids))
    assert all(each.startswith("shop-") for each in ids)


@pytest.mark.parametrize("name", EVERY)
def test_the_same_data_draw_the_same_bytes(name, samples):
    assert _draw(name, samples) == _draw(name, samples)


@pytest.mark.parametrize("name", EVERY)
@pytest.mark.parametrize("ground", [PAPER, SUNLIGHT, BAY, PRINT], ids=lambda g: g.name)
def test_for_paper_colours_are_fixed(name, ground, samples):
    assert "var(" not in _draw(name, samples, ground=ground)


@pytest.mark.parametrize("name", EVERY)
def test_for_a_page_every_colour_can_be_switched(name, samples):
    svg = _draw(name, samples, ground=PAGE)
    loose = svg.replace("var(--pw-", "").count("#")
    assert svg.count("var(--pw-") >= loose > 0


@pytest.mark.parametrize("name", EVERY)
def test_no_drawing_brings_style_or_script(name, samples):
    svg = _draw(name, samples)
    assert not any(word in svg for word in ("<style", "style=", "<script", "href", "url("))


@pytest.mark.parametrize("name", [name for name in EVERY if name not in {"mark", "hang"}])
@pytest.mark.parametrize("width", [320.0, 344.0, 560.0, 1100.0])
def test_a_drawing_keeps_to_its_width(name, width, samples, parsed):
    drawing = parsed(_draw(name, samples, width=width))
    assert drawing.root.get("viewBox").split()[2] == f"{width:g}"
    for circle in drawing.all("circle"):
        reach = float(circle.get("cx")), float(circle.get("r"))
        assert reach[0] - reach[1] >= -1
        assert reach[0] + reach[1] <= width + 1


def _hostile(samples):
    builds = tuple(
        dataclasses.replace(build, label=HOSTILE, neck_style=HOSTILE)
        for build in samples.FITTING.builds
    )
    return dataclasses.replace(samples.FITTING, builds=builds)


def test_hostile_labels_stay_words(samples, parsed):
    fitting, decision = _hostile(samples), samples.DECISION
    drawings = [
        aim_board(aim_sets(fitting, decision), board_distance_mm=2000, handed="left", ground=PAPER),
        green(stop_sets(fitting, decision, distance_m=3.0), distance_m=3.0, ground=PAPER),
        strokes_saved(saved_rows(fitting, decision), ground=PAPER, width=1400.0),
        make_by_distance(make_lines(fitting, decision), ground=PAPER),
        putter_drawing(fitting.builds[0], handed="right", ground=PAPER, prefix='"><x'),
    ]
    for svg in drawings:
        drawing = parsed(svg)
        assert not drawing.all("script")
        assert "\u0007" not in svg
        assert any("<script>" in (item.text or "") for item in drawing.root.iter())


def test_nothing_to_draw_still_draws(parsed):
    empty = [
        aim_board([], board_distance_mm=2000, handed="right", ground=PAPER),
        green([], distance_m=3.0, ground=PAPER),
        strokes_saved([], ground=PAPER),
        make_by_distance([], ground=PAPER),
    ]
    assert all(parsed(svg).root.tag.endswith("svg") for svg in empty)


def test_every_table_has_as_many_cells_as_heads(samples):
    fitting, decision = samples.FITTING, samples.DECISION
    tables = [
        aim_table(aim_sets(fitting, decision)),
        green_table(stop_sets(fitting, decision, distance_m=3.0), distance_m=3.0),
        strokes_table(saved_rows(fitting, decision)),
        make_table(make_lines(fitting, decision)),
        putter_table(fitting.builds[0], handed="right"),
        roll_table(usual_roll(fitting, build_id="own", distance_m=3.0)),
    ]
    for table in tables:
        assert table.rows
        assert {len(row) for row in table.rows} == {len(table.head)}
