from __future__ import annotations

from puttwright.pictures.grounds import PAPER
from puttwright.pictures.regret_curve import Curve, CurvePoint, regret_by_putts


def _curve(name, *points, ours=False):
    return Curve(
        name=name,
        ours=ours,
        points=[CurvePoint(putts=n, mean=m, low=m - 0.05, high=m + 0.05) for n, m in points],
    )


CURVES = [
    _curve("as many with each", (24, 0.4), (48, 0.3), (72, 0.2)),
    _curve("where worth most", (28, 0.3), (72, 0.18), ours=True),
    _curve("until told", (40, 0.2)),
]


def test_more_putts_lie_further_right_and_more_regret_higher_up(parsed):
    means = parsed(regret_by_putts(CURVES, ground=PAPER)).kind("mean")
    few, some, many = means[:3]

    assert float(few.get("cx")) < float(some.get("cx")) < float(many.get("cx"))
    assert float(few.get("cy")) < float(some.get("cy")) < float(many.get("cy"))


def test_plans_are_told_apart_without_colour(parsed):
    drawing = parsed(regret_by_putts(CURVES, ground=PAPER))
    dashed = [path for path in drawing.all("path") if path.get("stroke-dasharray")]
    filled = [mark for mark in drawing.kind("mean") if mark.get("fill") != PAPER.paper]

    assert len(dashed) == 1
    assert len(filled) == 1
    assert {curve.name for curve in CURVES} <= set(drawing.words)


def test_a_reader_without_eyes_is_told_every_point(parsed):
    said = regret_by_putts(CURVES, ground=PAPER)

    assert "until told: 0.20 after 40 putts" in said
