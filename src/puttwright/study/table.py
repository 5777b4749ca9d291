"""The study as a page: what each rule promised, delivered and left, and how intervals fared."""

from __future__ import annotations

from collections.abc import Sequence

from puttwright.study.calibration import (
    Judged,
    coverage,
    score,
    wrong_among_confident,
)

_HEAD = (
    "| rule | regret | promised | delivered | promised/delivered | changes | wrong changes |",
    "| --- | --- | --- | --- | --- | --- | --- |",
)


def study_lines(judged: Sequence[Judged], *, seed: int) -> list[str]:
    """The study in Markdown, line by line; figures in putts a round."""
    wrong, claims = wrong_among_confident(judged)
    undecided = sum(one.undecided for one in judged)
    return [
        f"{len(judged)} invented golfers of mixed worlds, seed {seed}; figures in putts a round.",
        "",
        *_HEAD,
        *_rows(judged),
        "",
        "Regret is what the best build would have saved beyond the chosen one.",
        f"The intervals held the truth: {_coverage(judged)}.",
        f"Of {claims} builds called better with at least 90 %, {100 * wrong:.0f} % were not.",
        f"Undecided: {undecided} of {len(judged)}.",
        "",
        "| world | golfers | regret | 90 % intervals that hold the truth |",
        "| --- | --- | --- | --- |",
        *_worlds(judged),
    ]


def _rows(judged: Sequence[Judged]) -> list[str]:
    return [
        f"| {one.rule} | {one.regret:.2f} ± {one.regret_se:.2f} | {one.promised:.2f} "
        f"| {one.delivered:.2f} | {_ratio(one.promised_over_delivered)} | {one.changes} "
        f"| {100 * one.wrong_changes:.0f} % |"
        for one in score(judged).values()
    ]


def _ratio(value: float) -> str:
    return "-" if value != value else f"{value:.2f}"  # noqa: PLR0124 - nan is not itself


def _coverage(judged: Sequence[Judged]) -> str:
    return ", ".join(
        f"{100 * share:.1f} % of those meant to at {100 * level:.0f} %"
        for level, share in coverage(judged).items()
    )


def _worlds(judged: Sequence[Judged]) -> list[str]:
    worlds = dict.fromkeys(one.outcomes[0].world for one in judged)
    lines = []
    for world in worlds:
        here = [one for one in judged if one.outcomes[0].world == world]
        regret = sum(one.outcomes[0].regret for one in here) / len(here)
        held = coverage(here)[0.9]
        lines.append(f"| {world} | {len(here)} | {regret:.2f} | {100 * held:.0f} % |")
    return lines
