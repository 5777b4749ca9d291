"""The golfer's sheet speaks in the shop's measures; the workshop works in millimetres."""

from __future__ import annotations

import pytest

from puttwright.fitting.phrases import THIN
from puttwright.paper.order import render_order
from puttwright.paper.report import render_report
from puttwright.pictures.hand import Hand, lettered_by
from puttwright.web.measures import UNITS, in_measures

INCHES = Hand(words=str.upper, figures=in_measures, units=UNITS["imperial"])


@pytest.mark.slow
def test_the_golfers_sheet_is_in_inches_and_feet_and_in_english(samples, read):
    with lettered_by(INCHES):
        sheets = read(render_report(samples.FITTING, samples.DECISION))

    text = sheets.text.replace(THIN, " ")
    assert len(sheets.pages) == 2
    assert "board at 6.6 ft" in text
    assert " mm" not in text


@pytest.mark.slow
def test_an_order_keeps_millimetres_and_says_the_length_in_inches_beside(samples, read, make):
    with lettered_by(INCHES):
        sheets = read(render_order(make(samples.FITTING, samples.DECISION)))

    text = sheets.text.replace(THIN, " ")
    assert "864 mm (34.0 in) ± 3" in text
    assert "Offset 8 mm" in text
