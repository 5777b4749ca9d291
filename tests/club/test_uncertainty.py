"""Readings to intervals, and intervals that hold what they promise."""

import math

import numpy as np
import pytest

from puttwright.club.uncertainty import NoReading, Quantity, propagated, repeated


def test_the_interval_of_repeated_readings_covers_as_often_as_it_says():
    rng = np.random.default_rng(3)
    hits = 0
    for readings in rng.normal(70.0, 0.3, (4000, 3)):
        low, high = repeated(list(readings), name="lie").interval(probability=0.90)
        hits += low <= 70.0 <= high
    assert hits / 4000 == pytest.approx(0.90, abs=0.015)


def test_a_figure_of_several_inputs_covers_too_though_each_was_read_three_times():
    rng = np.random.default_rng(5)
    hits = 0
    for lengths, masses in zip(
        rng.normal(0.6, 0.002, (1500, 3)), rng.normal(0.5, 0.001, (1500, 3)), strict=True
    ):
        found = propagated(
            lambda v: {"moment": v["mass"] * v["length"]},
            {
                "mass": repeated(list(masses), name="mass"),
                "length": repeated(list(lengths), name="length"),
            },
        )["moment"]
        low, high = found.interval()
        hits += low <= 0.3 <= high
    # Welch and Satterthwaite's degrees of freedom are meant to err on the safe side.
    assert 0.88 <= hits / 1500 <= 0.96


def test_the_spread_is_that_of_a_simulation_with_a_seed():
    inputs = {"a": Quantity(value=2.0, sd=0.02), "b": Quantity(value=0.5, sd=0.01)}
    found = propagated(lambda v: {"f": v["a"] ** 2 * math.sin(v["b"])}, inputs)["f"]
    rng = np.random.default_rng(1)
    a, b = (rng.normal(q.value, q.sd, 200_000) for q in inputs.values())
    assert found.sd == pytest.approx(np.std(a**2 * np.sin(b)), rel=0.01)


def test_rounding_of_the_instrument_stays_though_all_readings_agree():
    assert repeated([3.0, 3.0, 3.0], name="loft", resolution=0.5).sd == pytest.approx(0.1443, 1e-3)


def test_no_reading_is_told():
    with pytest.raises(NoReading, match="no reading of the lie"):
        repeated([], name="lie")
