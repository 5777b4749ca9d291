from __future__ import annotations

import math
from xml.etree import ElementTree

import pytest
from hypothesis import given
from hypothesis import strategies as st

from puttwright.pictures.annotation import nice_step, ticks
from puttwright.pictures.builds import BuildMark, letter_for
from puttwright.pictures.drafting import Sheet, ellipse_points, hatch_lines
from puttwright.pictures.grounds import BAY, GROUNDS, INKS, PAGE, PAPER, css_properties
from puttwright.pictures.lettering import shortened, width_of, wrapped
from puttwright.pictures.svg import element, number, safe_id


@given(st.floats(-1e6, 1e6))
def test_numbers_round_to_hundredths_and_are_never_minus_zero(value):
    text = number(value)
    assert float(text) == pytest.approx(value, abs=0.005001)
    assert text != "-0"
    assert "e" not in text


@pytest.mark.parametrize("value", [math.nan, math.inf])
def test_what_is_no_place_cannot_be_drawn(value):
    with pytest.raises(ValueError, match="not a coordinate"):
        number(value)


@given(st.text())
def test_attributes_are_escaped(text):
    parsed = ElementTree.fromstring(element("a", b=text))
    assert parsed.tag == "a"
    assert len(parsed.attrib) == 1


def test_an_id_is_plain():
    assert safe_id("a b<c>") == "a-b-c-"


@given(st.floats(0.5, 20.0), st.floats(-80.0, 80.0))
def test_hatching_stays_inside(gap, turn_deg):
    outline = [(0.0, 0.0), (40.0, 0.0), (40.0, 25.0), (0.0, 25.0)]
    for line in hatch_lines(outline, gap=gap, turn_deg=turn_deg):
        for x, y in line:
            assert -1e-6 <= x <= 40 + 1e-6
            assert -1e-6 <= y <= 25 + 1e-6


def test_points_of_an_ellipse_lie_on_it():
    for x, y in ellipse_points((1.0, 2.0), radii=(3.0, 2.0)):
        assert ((x - 1) / 3) ** 2 + ((y - 2) / 2) ** 2 == pytest.approx(1.0)


@given(st.floats(-1e3, 1e3), st.floats(1e-2, 1e3))
def test_ticks_are_round_and_inside(low, span):
    values = ticks((low, low + span))
    step = nice_step(span)
    assert all(low - 1e-6 <= value <= low + span + 1e-6 for value in values)
    assert 2 <= len(values) <= 16
    assert f"{step:.0e}"[0] in "125"


def test_a_mirrored_sheet_flips_places_and_keeps_words(parsed):
    sheet = Sheet(width=100, height=50, ground=PAPER, prefix="m", mirrored=True)
    sheet.text((10, 20), "toe", anchor="start")
    sheet.circle((30, 20), radius=3)
    drawing = parsed(sheet.svg(title="t", description="d"))
    (word,), (circle,) = drawing.all("text"), drawing.all("circle")
    assert (word.get("x"), word.get("text-anchor")) == ("90", "end")
    assert circle.get("cx") == "70"


def test_long_words_are_shortened_to_their_room():
    words = "a very long label for a putter, longer than any shop would write"
    short = shortened(words, size="body", room=120)
    assert short.endswith("…")
    assert width_of(short, size="body") <= 120
    assert all(width_of(row, size="body") <= 120 for row in wrapped(words, size="body", room=120))
    assert wrapped("", size="body", room=10) == []


def test_letters_go_on_after_z():
    assert [letter_for(n) for n in (0, 25, 26, 51, 52)] == ["A", "Z", "AA", "AZ", "BA"]


def test_builds_differ_in_line_before_colour():
    others = [BuildMark(letter="X", name="x", order=order) for order in range(3)]
    assert len({mark.style for mark in others}) == 3
    assert all(mark.style != "hidden" for mark in others)


def _luminance(colour):
    parts = [int(colour[i : i + 2], 16) / 255 for i in (1, 3, 5)]
    linear = [c / 12.92 if c <= 0.04045 else ((c + 0.055) / 1.055) ** 2.4 for c in parts]
    return 0.2126 * linear[0] + 0.7152 * linear[1] + 0.0722 * linear[2]


@pytest.mark.parametrize("ground", GROUNDS.values(), ids=list(GROUNDS))
@pytest.mark.parametrize("ink", ["ink", "muted", "accent", "own"])
def test_lettering_is_readable_on_every_ground(ground, ink):
    """4.5 : 1 for text of ordinary size: WCAG 2.2, success criterion 1.4.3."""
    lights = sorted((_luminance(ground.paper), _luminance(getattr(ground, ink))))
    assert (lights[1] + 0.05) / (lights[0] + 0.05) >= 4.5


def test_a_page_switches_ground_by_custom_properties():
    assert PAGE.colour("accent") == f"var(--pw-accent, {PAPER.accent})"
    properties = css_properties(BAY)
    assert {f"--pw-{ink}" for ink in INKS} < set(properties)
    assert properties["--pw-paper"] == BAY.paper
