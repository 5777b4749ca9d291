from __future__ import annotations

import pytest
from hypothesis import given
from hypothesis import strategies as st

from puttwright.club.rules import (
    BEYOND,
    LOOK,
    WITHIN,
    NothingToMeasure,
    NotMeasurable,
    anchoring,
    rulings,
    rulings_of,
)
from puttwright.club.rules_table import CLAUSES, FROM_MEMORY, MEASURES
from puttwright.evidence import Build

KEYS = {clause.key: clause for clause in CLAUSES}


def told(key, measured, **settings):
    name = KEYS[key].name
    return next((each for each in rulings(measured, **settings) if each.clause == name), None)


def test_what_nobody_measured_is_for_a_person_to_measure():
    found = rulings({})
    assert {each.verdict for each in found} == {LOOK}
    assert (
        told("length", {}).note
        == "Measure from the top of the grip to the sole along the shaft axis."
    )


def test_a_long_putter_is_within_and_hears_of_anchoring():
    assert told("length", {"length_mm": 1400}).verdict == WITHIN
    assert "limits the stroke, not the club" in anchoring(length_mm=1400)
    assert anchoring(length_mm=880) is None


def test_the_shaft_may_lean_further_forward_than_back():
    verdicts = [
        told("shaft_lean", {"shaft_lean_deg": lean}).verdict for lean in (20, 20.1, -10, -10.1)
    ]
    assert verdicts == [WITHIN, BEYOND, WITHIN, BEYOND]


def test_a_limit_from_memory_never_says_beyond():
    for clause in CLAUSES:
        if clause.status == FROM_MEMORY:
            assert clause.beyond == LOOK
    ruling = told("head_width", {"head_width_mm": 178})
    assert (ruling.verdict, ruling.status) == (LOOK, FROM_MEMORY)
    assert "from memory only" in ruling.note


def test_a_head_as_deep_as_wide_is_beyond():
    wide = {"head_width_mm": 100}
    verdicts = [told("head_plan", wide | {"head_depth_mm": d}).verdict for d in (99.9, 100, 100.1)]
    assert verdicts == [WITHIN, BEYOND, BEYOND]


@pytest.mark.parametrize(("gap_mm", "verdict"), [(38.1, WITHIN), (38.0, LOOK)])
def test_two_grips_are_two_only_with_a_gap(gap_mm, verdict):
    measured = {"grip_gap_mm": gap_mm, "upper_grip_mm": 127}
    assert told("grip_gap", measured).verdict == verdict
    assert told("grip_length", measured) is None
    assert told("grip_gap", {"grip_length_mm": 250}) is None


def test_narrow_or_shallow_grooves_are_not_limited():
    deep = {"groove_width_mm": 0.9, "groove_depth_mm": 3.0}
    assert told("groove_depth", deep) is None
    wide = {"groove_width_mm": 1.6, "groove_depth_mm": 0.6}
    assert told("groove_width", wide).verdict == BEYOND
    assert told("groove_width", wide | {"groove_depth_mm": 0.5}) is None


def test_faces_of_different_loft_are_beyond():
    assert told("two_faces", {"loft_deg": 3, "second_loft_deg": 3}).verdict == WITHIN
    assert told("two_faces", {"loft_deg": 3, "second_loft_deg": 3.5}).verdict == BEYOND
    assert told("two_faces", {"loft_deg": 3}) is None


@pytest.mark.parametrize(
    ("loft_deg", "verdict"),
    [(9.7, WITHIN), (9.75, LOOK), (10, LOOK), (10.25, LOOK), (10.4, BEYOND)],
)
def test_nearer_to_the_limit_than_measured_to_is_for_a_person(loft_deg, verdict):
    assert told("loft", {"loft_deg": loft_deg}, error={"loft_deg": 0.3}).verdict == verdict


@given(
    name=st.sampled_from([clause.key for clause in CLAUSES if len(clause.needs) == 1]),
    value=st.floats(0.05, 1500),
    error=st.floats(0, 50),
)
def test_a_larger_error_never_makes_a_verdict_surer(name, value, error):
    need = KEYS[name].needs[0]
    exact = told(name, {need: value})
    rough = told(name, {need: value}, error={need: error})
    if exact is not None:
        assert rough.verdict in {exact.verdict, LOOK}


@pytest.mark.parametrize("name", [name for name in MEASURES if name.endswith("width_mm")])
def test_a_length_that_cannot_be_is_told_with_what_to_measure(name):
    with pytest.raises(NotMeasurable, match="more than 0"):
        rulings({name: -1.0})


def test_a_measurement_no_clause_asks_for_is_told():
    with pytest.raises(NothingToMeasure, match="length_mm"):
        rulings({"swing": 3.0})


def test_a_build_brings_what_is_known_of_it():
    build = Build(build_id="A", length_mm=864, lie_deg=70, loft_deg=3, grip_diameter_mm=50)
    verdicts = {each.clause: each.verdict for each in rulings_of(build)}
    assert verdicts[KEYS["grip_width"].name] == BEYOND
    assert [verdicts[KEYS[key].name] for key in ("length", "lie", "loft")] == [WITHIN] * 3
