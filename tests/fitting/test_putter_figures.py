from __future__ import annotations

import dataclasses

import pytest

from puttwright.club.uncertainty import Quantity
from puttwright.evidence import Build, SetupReading
from puttwright.fitting.putter_figures import (
    figures_json,
    in_short,
    lean_of,
    putter_figures,
)
from puttwright.virtual.golfers import invent

BUILD = Build(
    build_id="B", length_mm=864, lie_deg=70, loft_deg=3, total_mass_g=525,
    balance_from_butt_mm=670.8, head_mass_g=350,
)  # fmt: skip


@pytest.fixture(scope="module")
def fitting():
    return dataclasses.replace(invent(1, seed=3)[0].fitting, putts=(), setups=())


def setup(build_id, lean_deg, *, seq):
    return SetupReading(seq=seq, build_id=build_id, shaft_lean_deg=lean_deg)


def test_a_golfer_who_leans_the_handle_forward_takes_loft_off():
    found = putter_figures(BUILD, lean=Quantity(value=2.0, sd=0.5))
    told = figures_json(found)
    assert told["loft_at_lean_deg"] == pytest.approx(1.0)
    low, high = told["intervals"]["loft_at_lean_deg"]
    assert high - low > 2 * 1.645 * 0.5
    assert "2.0° toward the target" in found.lean_words
    assert "away" in putter_figures(BUILD, lean=Quantity(value=-2.0)).lean_words


def test_the_lean_is_of_this_build_where_it_was_read_and_never_surer_than_its_readings(fitting):
    own = fitting.own_build
    readings = (setup(own, 1.0, seq=1), setup(own, 1.0, seq=2), setup("B", 4.0, seq=3))
    leaned = dataclasses.replace(fitting, setups=readings)
    assert lean_of(fitting, build_id=own) is None
    assert lean_of(leaned, build_id=own).value == 1.0
    assert lean_of(leaned, build_id="B").value == 4.0
    assert lean_of(leaned, build_id="C").value == 2.0
    assert lean_of(leaned, build_id=own).sd > 0.5


def test_what_was_measured_and_is_a_target_is_not_told_again_as_computed():
    words = " ".join(in_short(putter_figures(BUILD)))
    assert "swing weight D9.3" in words
    assert "hang" in words
    assert "mass" not in words
    assert "balance" not in words


def test_each_figure_has_an_interval_about_it():
    told = figures_json(putter_figures(BUILD))
    assert len(told["intervals"]) == 12
    for name, (low, high) in told["intervals"].items():
        assert low <= told[name] <= high
