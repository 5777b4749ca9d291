"""Strikes off the centre: less spread from more inertia, and only what mechanics says."""

from __future__ import annotations

import dataclasses
import math

import numpy as np
import pytest

from puttwright.ball.strike import strike_scatter
from puttwright.evidence import Build
from puttwright.fitting.priors import BY_NAME
from puttwright.fitting.strike_spread import head_of, log_spread_offset, strike_sd_mm_of

BLADE = Build(
    build_id="A", length_mm=864.0, lie_deg=70.0, loft_deg=3.0,
    head_mass_g=345.0, cg_depth_mm=12.0, moi_vertical_axis_g_cm2=3500.0,
)  # fmt: skip
BIG = dataclasses.replace(BLADE, build_id="B", cg_depth_mm=30.0, moi_vertical_axis_g_cm2=10000.0)
UNKNOWN = dataclasses.replace(BLADE, build_id="C", moi_vertical_axis_g_cm2=None)


@pytest.mark.parametrize("quantity", ["start", "pace"])
def test_the_larger_inertia_is_expected_to_scatter_less(quantity):
    blade, big = log_spread_offset(quantity, builds=(BLADE, BIG), strike_sd_mm=12.0)

    assert big < 0.0 < blade


def test_two_heads_differ_by_what_the_impact_says():
    usual = BY_NAME["pace"].spread
    blade, big = (
        strike_scatter(head=head_of(build), toe_sd_m=0.012).pace_sd_share for build in (BLADE, BIG)
    )
    stroke = usual**2 - 0.5 * (blade**2 + big**2)

    offsets = log_spread_offset("pace", builds=(BLADE, BIG), strike_sd_mm=12.0)

    expected = math.log(math.hypot(blade, math.sqrt(stroke)) / math.hypot(big, math.sqrt(stroke)))
    assert offsets[0] - offsets[1] == pytest.approx(expected)


def test_a_golfer_who_strikes_the_centre_gains_nothing_from_inertia():
    steady = log_spread_offset("pace", builds=(BLADE, BIG), strike_sd_mm=1.0)

    assert np.abs(steady).max() < 1e-3


def test_an_unmeasured_head_is_taken_to_be_in_the_middle():
    offsets = log_spread_offset("start", builds=(BLADE, BIG, UNKNOWN), strike_sd_mm=10.0)

    assert offsets[2] == 0.0
    assert (log_spread_offset("start", builds=(BLADE, UNKNOWN), strike_sd_mm=10.0) == 0.0).all()
    assert (log_spread_offset("aim", builds=(BLADE, BIG), strike_sd_mm=10.0) == 0.0).all()


def test_strikes_are_pooled_about_each_build_s_own_middle():
    rng = np.random.default_rng(4)
    build = np.repeat([0, 1], 400)
    toe = 9.0 * rng.standard_normal(800) + np.where(build == 0, -20.0, 20.0)

    assert strike_sd_mm_of(toe, build) == pytest.approx(9.0, rel=0.06)
    assert strike_sd_mm_of(toe[:1], build[:1]) == pytest.approx(BY_NAME["strike"].spread)
