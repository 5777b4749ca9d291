from __future__ import annotations

from puttwright.pictures.grounds import PAPER
from puttwright.pictures.mean_rows import MeanRow, Told, mean_rows

ROWS = [
    MeanRow(name="ours", mean=0.2, low=0.16, high=0.24, ours=True),
    MeanRow(name="theirs", mean=0.4, low=0.3, high=0.5),
]
TOLD = Told(title="Regret", scale="putts a round")
SHARES = Told(title="Held", scale="held", digits=0, factor=100.0, unit=" %")


def _drawn(parsed, rows, told=TOLD, **how):
    return parsed(mean_rows(rows, told=told, ground=PAPER, prefix="rows", **how))


def test_the_figure_and_what_it_may_lie_between_stand_beside(parsed):
    assert {"0.20", "0.16 to 0.24", "0.40", "0.30 to 0.50"} <= set(_drawn(parsed, ROWS).words)


def test_a_greater_mean_lies_further_right_and_ours_stands_out(parsed):
    ours, theirs = _drawn(parsed, ROWS).kind("mean")

    assert float(ours.get("cx")) < float(theirs.get("cx"))
    assert (ours.get("stroke"), theirs.get("stroke")) == (PAPER.accent, PAPER.ink)


def test_what_is_wanted_is_a_dashed_line_where_it_is_met(parsed):
    row = MeanRow(name="nine in ten", mean=0.9, low=0.88, high=0.92, wanted=0.9)
    drawing = _drawn(parsed, [row], told=SHARES)
    wanted = [line for line in drawing.all("line") if line.get("stroke-dasharray")]

    assert len(wanted) == 1
    assert wanted[0].get("x1") == drawing.kind("mean")[0].get("cx")
    assert "90 %" in drawing.words
