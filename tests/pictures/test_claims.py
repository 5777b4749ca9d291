from __future__ import annotations

import itertools

import pytest

from puttwright.pictures.claims import ClaimDot, ClaimMean, claimed_against_true
from puttwright.pictures.grounds import PAPER

DOTS = [
    ClaimDot(claimed=k / 20 - 1.0, true=k / 30 - 0.6, chosen=k % 4 == 0) for k in range(41)
]  # from -1.0 to +1.0 claimed, less in truth
MEANS = [ClaimMean(claimed=0.5, true=0.3, low=0.2, high=0.4)]


def _drawn(parsed, dots=DOTS, means=MEANS, **how):
    return parsed(claimed_against_true(dots, means=means, ground=PAPER, **how))


def test_every_claim_is_a_dot_and_the_recommended_ones_stand_out(parsed):
    claims = _drawn(parsed).kind("claim")
    accent = [dot for dot in claims if dot.get("stroke") == PAPER.accent]

    assert len(claims) == len(DOTS)
    assert len(accent) == sum(dot.chosen for dot in DOTS)


def test_a_claim_twice_as_far_on_lies_twice_as_far_across(parsed):
    across = sorted(float(dot.get("cx")) for dot in _drawn(parsed).kind("claim"))[1:-1]
    steps = [b - a for a, b in itertools.pairwise(across)]

    assert max(steps) == pytest.approx(min(steps), abs=0.02)


def test_a_wild_claim_lies_on_the_edge_and_does_not_squeeze_the_rest(parsed):
    wild = [*DOTS, ClaimDot(claimed=60.0, true=-60.0)]
    near = _drawn(parsed, wild).kind("claim")

    assert all(0.0 <= float(dot.get("cx")) <= 720.0 for dot in near)
    assert len({dot.get("cx") for dot in near}) > 30


def test_a_reader_without_eyes_is_told_the_means(parsed):
    said = next(item.text for item in _drawn(parsed).root.iter() if "desc" in item.tag)

    assert "claimed +0.5, true +0.3, likely +0.2 to +0.4" in said
