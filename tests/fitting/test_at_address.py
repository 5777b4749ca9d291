"""The address concluded from a fitting: words with their doubt, for both hands."""

from __future__ import annotations

import dataclasses
import importlib.util
from pathlib import Path

import pytest

from puttwright.evidence import Instrument, SetupReading
from puttwright.evidence.signs import mirrored
from puttwright.fitting.address_words import COMFORT, address_cautions, address_words
from puttwright.fitting.at_address import at_address


@pytest.fixture(scope="module")
def fitting():
    path = Path(__file__).resolve().parent.parent / "samples.py"
    spec = importlib.util.spec_from_file_location("samples", path)
    module = importlib.util.module_from_spec(spec)
    spec.loader.exec_module(module)
    return module.FITTING


def _with(fitting, *setups, **golfer):
    return dataclasses.replace(
        fitting, setups=setups, golfer=dataclasses.replace(fitting.golfer, **golfer)
    )


def _setup(seq=1, build_id="own", **values):
    read = {"eye_inside_mm": 70.0, "hands_height_mm": 760.0, "sole_tilt_deg": 2.5} | values
    return SetupReading(seq=seq, build_id=build_id, **read)


def test_every_build_is_foretold_and_the_one_in_hand_is_known_better(fitting):
    found = at_address(_with(fitting, _setup()))
    own, *others = found.builds

    assert [each.build.build_id for each in found.builds] == [b.build_id for b in fitting.builds]
    assert own.measured
    assert not any(each.measured for each in others)
    assert own.eyes_mm.mean == pytest.approx(70, abs=5)
    assert all(each.eyes_mm.sd > own.eyes_mm.sd for each in others)
    assert found.seqs == (1,)


def test_without_an_address_it_says_so_and_stays_wide(fitting):
    found = at_address(_with(fitting))

    assert "No address was measured" in address_words(found)[0]
    assert found.own.eyes_mm.sd > 40


def test_words_give_figures_with_their_doubt(fitting):
    words = " ".join(address_words(at_address(_with(fitting, _setup())))).replace("\u2009", " ")

    assert "the eyes 71 mm inside, give or take" in words
    assert "For eyes 0 to 30 mm inside, the hands hanging and the sole flush: length " in words
    assert "Old blade is soled with the toe up" in words


def test_a_lofted_face_with_its_toe_up_looks_to_the_heel_side(fitting):
    right = at_address(_with(fitting, _setup()))
    left = at_address(mirrored(_with(fitting, _setup())))

    assert right.own.face_deg.mean < 0 < left.own.face_deg.mean
    assert left.own.face_deg.mean == pytest.approx(-right.own.face_deg.mean)
    assert left.own.eyes_mm == right.own.eyes_mm
    assert left.wanted.lie_deg == right.wanted.lie_deg
    assert " left." in " ".join(address_words(right))
    assert " right." in " ".join(address_words(left))


def test_what_contradicts_is_named_to_be_measured_again(fitting):
    setups = (*(_setup(seq) for seq in (1, 2, 3)), _setup(4, hands_height_mm=460.0))
    told = address_cautions(at_address(_with(fitting, *setups)))

    assert any(
        "Address 4" in each and "hands above ground was read as 460" in each for each in told
    )
    assert not any("do not go together" in each for each in address_cautions(
        at_address(_with(fitting, *setups[:3]))
    ))  # fmt: skip


def test_comfort_always_decides(fitting):
    assert address_cautions(at_address(_with(fitting)))[-1] == COMFORT
    assert "clinician" in COMFORT


def test_a_child_is_not_an_adult_made_smaller(fitting):
    told = address_cautions(at_address(_with(fitting, minor=True)))

    assert any("child" in each for each in told)


def test_a_height_from_a_tape_says_more_than_one_told(fitting):
    told, taped = (
        at_address(_with(fitting, stature_told=how)).wanted.length_mm.sd for how in (True, False)
    )
    assert taped < told


def test_arms_that_do_not_hang_are_told(fitting):
    reaching = _setup(eye_inside_mm=190.0)
    words = address_words(at_address(_with(fitting, reaching, _setup(2, eye_inside_mm=195.0))))

    assert any("nearer the ball than a plumb line through the shoulders" in each for each in words)


def test_a_gauge_study_is_believed(fitting):
    sharp = Instrument(name="plumb", quantity="eye_inside_mm", repeatability_sd=1.0)
    usual = at_address(_with(fitting, _setup())).own.eyes_mm.sd
    known = at_address(
        dataclasses.replace(_with(fitting, _setup()), instruments=(sharp,))
    ).own.eyes_mm.sd

    assert known < usual


def test_eyes_wanted_outside_the_ball_are_a_wish_like_any(fitting):
    found = at_address(_with(fitting, _setup()), window_mm=(-10.0, -30.0))

    assert found.window_mm == (-30.0, -10.0)
    assert found.wanted.eyes_mm.mean == pytest.approx(-20.0, abs=0.1)
