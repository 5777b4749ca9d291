from __future__ import annotations

from datetime import date

import pytest
from hypothesis import given
from hypothesis import strategies as st

from puttwright.fitting.decision import Estimate
from puttwright.paper.figures import NONE, cell, day_words, runs
from puttwright.paper.typesetting import _printable, day_of


@given(st.sets(st.integers(0, 200), min_size=1))
def test_runs_name_every_row_once(numbers):
    named = set()
    for piece in runs(numbers, most=1000).split(", "):
        low, _, high = piece.partition("–")
        named |= set(range(int(low), int(high or low) + 1))
    assert named == numbers


def test_many_runs_are_counted():
    assert runs(range(0, 40, 2), most=3) == "0, 2, 4 and 17 more"
    assert runs([]) == "none"


def test_a_cell_without_an_estimate_is_a_dash():
    assert cell(None).value == NONE
    shown = cell(Estimate(mean=0.46, sd=0.3, interval_90=(-0.1, 0.9)), digits=0)
    assert (shown.value, shown.interval) == ("0", "0 to 1")


@pytest.mark.parametrize(
    ("text", "day"),
    [
        ("2026-05-14", date(2026, 5, 14)),
        ("2026-05-14T10:00:00+02:00", date(2026, 5, 14)),
        ("tomorrow", date(1970, 1, 1)),
        ("", date(1970, 1, 1)),
    ],
)
def test_the_day_of_a_text(text, day):
    assert day_of(text) == day


def test_a_day_in_words():
    assert day_words(date(2026, 2, 1)) == "1 February 2026"


def test_no_line_of_a_sheet_ends_between_a_figure_and_its_unit():
    said = {"words": ["3\u2009% longer", {"size": "864\u2009mm\u0007"}], "seqs": (1, 2)}

    assert _printable(said) == {
        "words": ["3\u202f% longer", {"size": "864\u202fmm"}],
        "seqs": [1, 2],
    }
