"""Readings from photos of the board, held against the truth the photos were made from."""

from __future__ import annotations

import importlib.util
import sys
from pathlib import Path

import numpy as np
import pytest

from puttwright.readers.board_photo import read_board
from puttwright.readers.files import Unreadable
from puttwright.readers.photo import Photo, photo_of


def _camera():
    path = Path(__file__).resolve().parents[2] / "scripts" / "board_scene.py"
    spec = importlib.util.spec_from_file_location("board_scene", path)
    module = importlib.util.module_from_spec(spec)
    sys.modules["board_scene"] = module  # its dataclasses look themselves up
    spec.loader.exec_module(module)
    return module


camera = _camera()
Dot, Shot = camera.Dot, camera.Shot


def _read(shot, **how):
    return read_board(photo_of(camera.jpeg(shot)), **how)


def _many(count, dots_of, **given):
    for number in range(count):
        rng = np.random.default_rng([7, number])
        dots = dots_of(rng)
        yield dots, _read(camera.a_shot(rng, dots, **given))


@pytest.mark.slow
def test_a_dot_three_metres_away_is_read_to_half_a_millimetre_and_says_how_sure():
    pairs = list(_many(30, lambda rng: [camera.a_dot(rng)]))
    read = [(dots[0], got) for dots, got in pairs if got.reading_mm is not None]
    assert len(read) >= 27
    off = np.array([got.reading_mm - dot.x_mm for dot, got in read])
    sd = np.array([got.reading_sd_mm for _, got in read])
    assert np.sqrt(np.mean(off**2)) < 0.5
    assert abs(off.mean()) < 0.15
    assert np.mean(np.abs(off) < 1.645 * sd) >= 0.85
    assert sd.max() < 1.5
    assert all(got.colour == dot.colour for dot, got in read)
    assert all(got.doubt for _, got in pairs if got.reading_mm is None)


@pytest.mark.slow
def test_no_dot_gives_no_reading_however_the_photo_is_taken():
    for _, got in _many(40, lambda _rng: []):
        assert got.reading_mm is None
        assert got.doubt.startswith("no dot found")
        assert not got.spots


@pytest.mark.slow
def test_two_dots_give_no_reading_but_both_places():
    def two(rng):
        first = camera.a_dot(rng, x_mm=-30, peak=2, sigma_mm=1.0, colour="red")
        return [first, camera.a_dot(rng, x_mm=25, peak=1, sigma_mm=1.0, colour="red")]

    for dots, got in _many(8, two):
        assert got.reading_mm is None
        assert "two spots could be the dot" in got.doubt
        places = sorted(spot.x_mm for spot in got.spots[:2])
        assert places == pytest.approx([dot.x_mm for dot in dots], abs=1.0)


@pytest.mark.parametrize("colour", ["red", "green"])
@pytest.mark.parametrize("peak", [0.4, 3.0, 30.0])
def test_dim_and_burnt_dots_are_read_from_near(colour, peak):
    dot = Dot(x_mm=-42.0, y_mm=20.0, colour=colour, peak=peak)
    got = _read(Shot(dots=(dot,), camera_m=1.2, size=(1100, 800), yaw_deg=8, k1=0.03))
    assert got.reading_mm == pytest.approx(-42.0, abs=0.3)
    assert got.colour == colour


def test_a_dot_on_the_zero_line_is_read_as_one():
    got = _read(Shot(dots=(Dot(x_mm=0.0, y_mm=-8.0),), camera_m=2.0, yaw_deg=-10))
    assert got.reading_mm == pytest.approx(0.0, abs=0.3)


def test_the_photo_turned_over_is_read_the_same():
    dot = Dot(x_mm=61.0, y_mm=12.0)
    straight, turned = (
        _read(Shot(dots=(dot,), camera_m=2.0, size=size, roll_deg=roll))
        for size, roll in (((900, 700), 0.0), ((700, 900), 90.0))
    )
    assert straight.reading_mm == pytest.approx(61.0, abs=0.35)
    assert turned.reading_mm == pytest.approx(61.0, abs=0.35)


def test_the_mirrored_dot_gives_the_mirrored_reading():
    right, left = (
        _read(Shot(dots=(Dot(x_mm=x, y_mm=5.0),), camera_m=2.0, yaw_deg=yaw)).reading_mm
        for x, yaw in ((70.0, 12.0), (-70.0, -12.0))
    )
    assert right == pytest.approx(-left, abs=0.3)


@pytest.mark.parametrize("paper", ["A4", "letter", "tabloid"])
def test_every_paper_tells_which_it_is(paper):
    got = _read(Shot(paper=paper, dots=(Dot(x_mm=-33.0, y_mm=10.0),), camera_m=1.5))
    assert got.paper == paper
    assert got.reading_mm == pytest.approx(-33.0, abs=0.3)


def test_a_print_off_its_size_is_put_right_by_the_measured_bar():
    shot = Shot(dots=(Dot(x_mm=120.0, y_mm=10.0),), camera_m=2.0)
    plain, checked = _read(shot), _read(shot, bar_mm=97.0)
    assert checked.reading_mm == pytest.approx(0.97 * plain.reading_mm, rel=1e-9)
    assert checked.reading_sd_mm < plain.reading_sd_mm


def test_covered_markers_widen_the_interval_and_too_few_are_refused():
    dot = (Dot(x_mm=90.0, y_mm=-20.0),)
    spots = [(176.0, 114.5, 30.0), (176.0, -114.5, 30.0), (0.0, 114.5, 30.0), (0.0, -114.5, 30.0)]
    whole = _read(Shot(dots=dot, camera_m=2.0))
    three = _read(Shot(dots=dot, camera_m=2.0, covered=tuple(spots[:3])))
    assert (whole.markers, three.markers) == (6, 3)
    assert three.reading_mm == pytest.approx(90.0, abs=3 * three.reading_sd_mm)
    assert three.reading_sd_mm > whole.reading_sd_mm
    with pytest.raises(Unreadable, match="shows only 2 of the board's six markers"):
        _read(Shot(dots=dot, camera_m=2.0, covered=tuple(spots)))


def test_a_lens_that_bends_is_found_out_and_taken_back():
    shot = Shot(dots=(Dot(x_mm=100.0, y_mm=5.0),), size=(1300, 950), camera_m=0.5, k1=0.1,
                focal_px=1400)  # fmt: skip
    got = _read(shot)
    assert got.reading_mm == pytest.approx(100.0, abs=0.3)
    assert got.seen.plane.noise_px < 0.6


def test_a_person_may_say_which_dot_or_where_it_is():
    dots = (Dot(x_mm=-20.0, y_mm=0.0), Dot(x_mm=35.0, y_mm=10.0, peak=1.2))
    shot = Shot(dots=dots, camera_m=2.0)
    near = camera.pixel_of(shot, x_mm=36.5, y_mm=9.0)
    assert _read(shot, tap_px=near).reading_mm == pytest.approx(35.0, abs=0.4)
    empty = camera.pixel_of(shot, x_mm=-80.0, y_mm=-20.0)
    tapped = _read(shot, tap_px=empty)
    assert tapped.reading_mm == pytest.approx(-80.0, abs=0.5)
    assert (tapped.colour, tapped.reading_sd_mm >= 1.0) == ("tapped", True)
    assert "beside the board" in _read(shot, tap_px=(2.0, 2.0)).doubt


def test_a_photo_of_something_else_is_told():
    rng = np.random.default_rng(3)
    noise = rng.integers(0, 255, (480, 640, 3), dtype=np.uint8)
    with pytest.raises(Unreadable, match="shows no marker of an aim board"):
        read_board(Photo(pixels=noise))


def _with_fringes(shot):
    """A lens that sends red aside: every black edge gets a red and a cyan rim."""
    pixels = camera.render(shot)[..., ::-1].copy()
    pixels[:, 2:, 0] = pixels[:, :-2, 0].copy()
    return Photo(pixels=pixels)


def test_colour_fringes_and_glare_are_no_dots():
    shot = Shot(glare=0.6, camera_m=1.2, size=(1100, 800), light=(0.3, 0.4, 0.55), seed=4)
    assert read_board(_with_fringes(shot)).reading_mm is None


def test_a_dot_on_a_line_with_a_fringe_is_still_read():
    dot = Dot(x_mm=0.5, y_mm=20.0, colour="red", peak=0.8)
    got = read_board(_with_fringes(Shot(dots=(dot,), camera_m=1.2, size=(1100, 800))))
    assert got.reading_mm == pytest.approx(0.5 + 2 / 2.5, abs=0.4)  # the shift moves the dot too
