"""The golfer from down the line: both hands, every ground, the table beside it."""

from __future__ import annotations

import dataclasses

import pytest

from puttwright.evidence import SetupReading
from puttwright.evidence.signs import mirrored
from puttwright.fitting.at_address import at_address
from puttwright.pictures.address import address_drawing, address_table, address_view
from puttwright.pictures.grounds import GROUNDS, PAPER
from puttwright.pictures.of_fitting import marks

SETUP = SetupReading(
    seq=1, build_id="own", eye_inside_mm=70, hands_height_mm=760, sole_tilt_deg=2.5
)


@pytest.fixture(scope="module")
def fitting(samples):
    return dataclasses.replace(samples.FITTING, setups=(SETUP,))


def _drawn(fitting, **how):
    found = at_address(fitting)
    view = address_view(found, list(marks(fitting).values()))
    return address_drawing(view, **{"ground": PAPER} | how)


@pytest.mark.parametrize("ground", GROUNDS.values(), ids=list(GROUNDS))
def test_it_is_sound_and_says_where_the_eyes_are(fitting, ground, parsed):
    drawing = parsed(_drawn(fitting, ground=ground, prefix="p7"))
    told = next(item.text for item in drawing.root.iter() if item.get("id") == "p7-desc")

    assert "the eyes 71\u2009mm inside" in told
    assert "eyes 0 to 30 mm inside" in told


@pytest.mark.parametrize("width", [320.0, 356.0, 620.0])
def test_it_keeps_to_its_width(fitting, width, parsed):
    for circle in parsed(_drawn(fitting, width=width)).all("circle"):
        assert float(circle.get("cx")) - float(circle.get("r")) >= 0
        assert float(circle.get("cx")) + float(circle.get("r")) <= width


def test_a_left_hander_stands_on_the_other_side(fitting, parsed):
    right, left = (parsed(_drawn(each)).all("circle") for each in (fitting, mirrored(fitting)))
    places = [
        (float(one.get("cx")), 620.0 - float(other.get("cx")))
        for one, other in zip(right, left, strict=True)
    ]
    assert all(one == pytest.approx(other, abs=0.011) for one, other in places)


def test_the_table_has_a_row_a_putter_and_one_for_the_putter_wanted(fitting):
    table = address_table(at_address(fitting), list(marks(fitting).values()))

    assert len(table.rows) == len(fitting.builds) + 1
    assert {len(row) for row in table.rows} == {len(table.head)}
    assert table.rows[0][1] == "measured"


def test_nothing_measured_still_draws(samples, parsed):
    assert parsed(_drawn(samples.FITTING)).root.tag.endswith("svg")
