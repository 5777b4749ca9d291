"""The study in words and tables: what each rule promised, delivered and left, and how plans did."""

from __future__ import annotations

from collections.abc import Sequence
from typing import Final

from puttwright.fitting.phrases import figure
from puttwright.study.calibration import OURS, Judged
from puttwright.study.optimiser import LIBRARY, OPTIMISERS
from puttwright.study.plans import ADAPTIVE, FIXED, PlanOutcome
from puttwright.study.score import (
    Mean,
    PlanScore,
    Score,
    Wrong,
    coverage,
    score,
    score_plans,
    wrong_among_confident,
)
from puttwright.virtual.golfers import PUTTS_A_BUILD

_HEAD: Final = """\
| rule | regret | beyond ours | promised | delivered | promised/delivered | changes | wrong |
| --- | --- | --- | --- | --- | --- | --- | --- |"""
_PLAN_HEAD: Final = """\
| plan | putts | regret | beyond twelve a head |
| --- | --- | --- | --- |"""
_NOT_INSTALLED: Final = f"""\
Left out: the Bayesian optimiser, because {LIBRARY} is not installed
(`pip install 'puttwright[study]'` brings it)."""
_WORDS: Final = """\
Regret is what the best build would have saved beyond the chosen one; beyond ours is how much more
of it a rule leaves to the same golfers. Promised and delivered are of the golfers it would change,
and wrong is how many of these changes cost strokes."""


def study_lines(judged: Sequence[Judged], *, seed: int) -> list[str]:
    """Rules, intervals and claims in Markdown, line by line; figures in putts a round."""
    scores = list(score(judged).values())
    undecided = sum(one.undecided for one in judged)
    return [
        f"{len(judged)} invented golfers of mixed worlds, seed {seed}; putts a round, ± one s.e.",
        "",
        _HEAD,
        *(_row(one) for one in scores),
        "",
        _WORDS,
        _verdict(scores),
        *_left_out(scores),
        "",
        f"The intervals held the truth: {_coverage(judged)}.",
        _confident(wrong_among_confident(judged)),
        f"Undecided, which counts as keeping the own putter: {undecided} of {len(judged)}.",
    ]


def world_lines(judged: Sequence[Judged]) -> list[str]:
    """How ours did in each world."""
    return [
        "| world | golfers | regret | 90 % intervals that hold the truth |",
        "| --- | --- | --- | --- |",
        *_worlds(judged),
    ]


def plan_lines(planned: Sequence[Sequence[PlanOutcome]]) -> list[str]:
    """The plans in Markdown, with what they used and left."""
    scores = score_plans(planned)
    return [
        _PLAN_HEAD,
        *(_plan_row(one) for one in scores),
        "",
        *(_plan_verdict(one) for one in scores if one.plan == ADAPTIVE and one.share == 0.6),
    ]


def _row(one: Score) -> str:
    beyond = "" if one.rule == OURS else _signed(one.beyond_ours)
    return (
        f"| {one.rule} | {_plain(one.regret)} | {beyond} | {one.promised:.2f} "
        f"| {figure(one.delivered, digits=2)} | {_ratio(one)} | {one.changes} "
        f"| {100 * one.wrong_changes:.0f} % |"
    )


def _plain(mean: Mean) -> str:
    return f"{mean.mean:.2f} ± {mean.se:.2f}"


def _signed(mean: Mean) -> str:
    return f"{figure(mean.mean, digits=2, sign=True)} ± {mean.se:.2f}"


def _ratio(one: Score) -> str:
    if not one.promised or one.delivered <= 0.0:
        return "–"  # nothing promised, or nothing came of it
    return f"{one.promised_over_delivered:.2f} ± {one.promised_over_delivered_se:.2f}"


def _verdict(scores: Sequence[Score]) -> str:
    """Which rules ours beats beyond two standard errors, pair by pair, and which not."""
    others = [one for one in scores if one.rule != OURS]
    worse = ", ".join(one.rule for one in others if one.beyond_ours.clear)
    near = ", ".join(one.rule for one in others if not one.beyond_ours.clear)
    told = f"More than ours beyond two standard errors: {worse or 'none'}."
    return f"{told} Not beyond two: {near}." if near else told


def _left_out(scores: Sequence[Score]) -> list[str]:
    if {one.rule for one in scores} >= set(OPTIMISERS):
        return []
    return [_NOT_INSTALLED]


def _coverage(judged: Sequence[Judged]) -> str:
    return ", ".join(
        f"{100 * share.mean:.1f} ± {100 * share.se:.1f} % of those meant to at {100 * level:.0f} %"
        for level, share in coverage(judged).items()
    )


def _confident(of: Wrong) -> str:
    if not of.claims:
        return "No build was called better with at least 90 %."
    low, high = of.interval_95
    return (
        f"Of {of.claims} builds called better with at least 90 %, {of.wrong} were not: "
        f"{100 * of.share:.0f} %, likely {100 * low:.0f} to {100 * high:.0f} %."
    )


def _worlds(judged: Sequence[Judged]) -> list[str]:
    worlds = dict.fromkeys(one.outcomes[0].world for one in judged)
    lines = []
    for world in worlds:
        here = [one for one in judged if one.outcomes[0].world == world]
        regret = sum(one.outcomes[0].regret for one in here) / len(here)
        held = coverage(here)[0.9].mean
        lines.append(f"| {world} | {len(here)} | {regret:.2f} | {100 * held:.0f} % |")
    return lines


def _plan_row(one: PlanScore) -> str:
    beyond = "" if one.plan == FIXED and one.share == 1.0 else _signed(one.beyond_fixed)
    return f"| {one.plan}, {one.allowed} | {one.putts:.0f} | {_plain(one.regret)} | {beyond} |"


def _plan_verdict(one: PlanScore) -> str:
    low, high = (figure(end, digits=2, sign=True) for end in one.beyond_fixed.interval_95)
    return (
        f"With {one.allowed} of the putts, where they are worth most, regret differs from\n"
        f"{PUTTS_A_BUILD} a head by {_signed(one.beyond_fixed)} putts a round "
        f"(95 % interval {low} to {high})."
    )
