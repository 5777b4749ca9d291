"""The study as drawings: claims, coverage, regret by rule, regret by putts."""

from __future__ import annotations

from collections.abc import Sequence
from itertools import pairwise
from typing import Final

from puttwright.pictures.claims import ClaimDot, ClaimMean, claimed_against_true
from puttwright.pictures.grounds import PAPER
from puttwright.pictures.mean_rows import MeanRow, Told, mean_rows
from puttwright.pictures.regret_curve import Curve, CurvePoint, regret_by_putts
from puttwright.study.calibration import OURS, Claim, Judged
from puttwright.study.plans import ADAPTIVE, PlanOutcome
from puttwright.study.score import Mean, coverage, mean_of, score, score_plans

_BINS: Final = 8


def claims_picture(judged: Sequence[Judged]) -> str:
    """Claimed against true for every build tried, and means of eighths of the claims."""
    claims = [claim for one in judged for claim in one.claims]
    dots = [ClaimDot(claimed=one.claimed, true=one.true, chosen=one.chosen) for one in claims]
    return claimed_against_true(dots, means=_bins(claims), ground=PAPER, prefix="study-claims")


def coverage_picture(judged: Sequence[Judged]) -> str:
    """Share of intervals that held the truth, beside the share meant to."""
    rows = [
        _row(f"intervals of {100 * level:.0f} %", share, wanted=level)
        for level, share in coverage(judged).items()
    ]
    told = Told(
        title="Intervals that held the truth",
        scale="held the truth (dashed: meant to)",
        digits=0, factor=100.0, unit=" %",
    )  # fmt: skip
    return mean_rows(rows, told=told, ground=PAPER, prefix="study-coverage")


def regret_picture(judged: Sequence[Judged]) -> str:
    """What each rule leaves on the table."""
    rows = [_row(one.rule, one.regret, ours=one.rule == OURS) for one in score(judged).values()]
    told = Told(
        title="Left on the table, by rule", scale="left on the table, putts a round (± 2 s.e.)"
    )
    return mean_rows(rows, told=told, ground=PAPER, prefix="study-regret")


def plans_picture(planned: Sequence[Sequence[PlanOutcome]]) -> str:
    """What each plan leaves on the table with so many putts."""
    scores = score_plans(planned)
    curves = [
        Curve(
            name=plan,
            ours=plan == ADAPTIVE,
            points=[_point(one.putts, one.regret) for one in scores if one.plan == plan],
        )
        for plan in dict.fromkeys(one.plan for one in scores)
    ]
    return regret_by_putts(curves, ground=PAPER, prefix="study-plans")


def _bins(claims: Sequence[Claim]) -> list[ClaimMean]:
    """Neighbouring claims in groups of equal number; none where they are too few to tell."""
    ordered = sorted(claims, key=lambda one: one.claimed)
    edges = [round(k * len(ordered) / _BINS) for k in range(_BINS + 1)]
    groups = [ordered[a:b] for a, b in pairwise(edges) if b - a > 1]
    return [_claim_mean(group) for group in groups]


def _claim_mean(group: Sequence[Claim]) -> ClaimMean:
    true = mean_of([one.true for one in group])
    return ClaimMean(
        claimed=mean_of([one.claimed for one in group]).mean,
        true=true.mean,
        low=true.mean - 2.0 * true.se,
        high=true.mean + 2.0 * true.se,
    )


def _row(name: str, of: Mean, *, wanted: float | None = None, ours: bool = False) -> MeanRow:
    low, high = of.mean - 2.0 * of.se, of.mean + 2.0 * of.se
    if wanted is not None:  # a share
        low, high = max(low, 0.0), min(high, 1.0)
    return MeanRow(name=name, mean=of.mean, low=low, high=high, wanted=wanted, ours=ours)


def _point(putts: float, of: Mean) -> CurvePoint:
    return CurvePoint(
        putts=putts, mean=of.mean, low=of.mean - 2.0 * of.se, high=of.mean + 2.0 * of.se
    )
