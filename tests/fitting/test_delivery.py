"""Loft and forgiveness: told where they were read, and the right way round."""

from __future__ import annotations

import dataclasses

import numpy as np
import pytest

from puttwright.fitting.decide import decide, weigh
from puttwright.fitting.delivery import forgiveness_cost, loft_needed
from puttwright.virtual.golfers import invent


def delivered(lean_deg, *, strike_sd_mm=9.0):
    """An invented fitting whose putts carry lean, attack and strikes."""
    plain = invent(1, seed=41)[0].fitting
    rng = np.random.default_rng(1)
    putts = tuple(
        dataclasses.replace(
            putt,
            shaft_lean_deg=lean_deg + 0.5 * rng.standard_normal(),
            attack_deg=1.0 + 0.5 * rng.standard_normal(),
            strike_toe_mm=strike_sd_mm * rng.standard_normal(),
        )
        for putt in plain.putts
    )
    return dataclasses.replace(plain, putts=putts)


def test_more_lean_needs_more_loft():
    build = delivered(0.0).builds[0]

    upright, leaning = (loft_needed(delivered(lean), build) for lean in (0.0, 3.0))

    assert np.degrees(leaning.loft_rad - upright.loft_rad) == pytest.approx(3.0, abs=0.4)
    low, high = leaning.interval_90
    assert low < leaning.loft_rad < high


def test_nothing_is_said_of_loft_that_nobody_read():
    plain = invent(1, seed=41)[0].fitting

    assert loft_needed(plain, plain.builds[0]) is None


def test_a_steadier_head_forgives_more():
    fitting = delivered(0.0, strike_sd_mm=12.0)
    own = fitting.builds[0]
    blade = dataclasses.replace(own, moi_vertical_axis_g_cm2=3000.0, cg_depth_mm=12.0)
    stable = dataclasses.replace(own, moi_vertical_axis_g_cm2=11000.0, cg_depth_mm=30.0)

    thin, big = (
        forgiveness_cost(
            weigh(
                dataclasses.replace(fitting, builds=(head, *fitting.builds[1:])),
                seed=1,
                worth_draws=200,
            ),
            0,
        )
        for head in (blade, stable)
    )

    assert thin > big >= 0.0
    assert thin > 0.02


def test_both_reach_the_reasons_with_their_readings():
    fitting = delivered(2.0)

    texts = {reason.text: reason for reason in decide(fitting, worth_draws=200).reasons}

    loft = next(reason for text, reason in texts.items() if "of loft" in text)
    strikes = next(reason for text, reason in texts.items() if "off the centre" in text)
    assert len(loft.rests_on[0].seq) == len(fitting.used_putts)
    assert len(strikes.rests_on[0].seq) == len(fitting.used_putts)
