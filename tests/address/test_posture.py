"""A golfer of known measure before a known camera: the photo's points give the measure back."""

from __future__ import annotations

import math

import numpy as np
import pytest

from puttwright.address.posture import (
    BALL_MM,
    PointMissing,
    PointsTogether,
    measure_posture,
)
from puttwright.address.posture_camera import Camera, Scale

SIZE = (3000, 4000)
FOCAL = 2900.0
# From the ball's middle: right, up, nearer to the camera [mm]; a right-hander stands left.
GOLFER = {
    "eye": (-45.0, 1420.0, 60.0), "hands": (-190.0, 700.0, 30.0), "grip_end": (-225.0, 790.0, 30.0),
    "shaft_foot": (25.0, -21.3, 20.0), "ball_near": (-BALL_MM / 2, 0.0, 0.0),
    "ball_far": (BALL_MM / 2, 0.0, 0.0), "plumb_top": (-700.0, 1500.0, 0.0),
    "plumb_foot": (-700.0, 0.0, 0.0), "scale_a": (300.0, 0.0, 0.0), "scale_b": (300.0, 1000.0, 0.0),
}  # fmt: skip
CLUB_MM = math.dist(GOLFER["grip_end"], GOLFER["shaft_foot"])
LIE = math.degrees(math.atan2(790 + 21.3, 250))


def _photo(*, mirrored=False, roll_deg=0.0, pitch_deg=0.0, yaw_deg=0.0, away_m=3.0, off=(0.2, 0.7)):
    """The points' pixels: a camera ``off`` right and above the ball, looking along the line."""
    roll, pitch, yaw = np.radians([roll_deg, pitch_deg, yaw_deg])
    points = {}
    for name, (side, up, near) in GOLFER.items():
        right = -side if mirrored else side
        x, y, z = right - 1000 * off[0], up - 1000 * off[1], 1000 * away_m - near
        x, z = x * np.cos(yaw) - z * np.sin(yaw), x * np.sin(yaw) + z * np.cos(yaw)
        y, z = y * np.cos(pitch) - z * np.sin(pitch), y * np.sin(pitch) + z * np.cos(pitch)
        x, y = x * np.cos(roll) + y * np.sin(roll), -x * np.sin(roll) + y * np.cos(roll)
        points[name] = ((SIZE[0] - 1) / 2 + FOCAL * x / z, (SIZE[1] - 1) / 2 - FOCAL * y / z)
    return points


SURE = {"level_sd_deg": 0.0, "along_sd_deg": 0.0}
CLUB = Scale(kind="club", length_mm=CLUB_MM)
BALL = Scale(kind="ball", length_mm=BALL_MM)
STAFF = Scale(kind="length", length_mm=1000.0, depth_sd_mm=0.0)


def _without(points, *names):
    return {name: at for name, at in points.items() if name not in names}


@pytest.mark.parametrize("mirrored", [False, True])
@pytest.mark.parametrize("scale", [CLUB, BALL, STAFF], ids=["club", "ball", "staff"])
def test_a_level_camera_of_known_lens_gives_the_golfer_back(scale, mirrored):
    camera = Camera(size_px=SIZE, focal_px=FOCAL, eye_behind_mm=60.0, eye_behind_sd_mm=1.0, **SURE)
    got = measure_posture(
        _photo(mirrored=mirrored), camera, scale=scale, handed="left" if mirrored else "right",
        tap_sd_px=0.2,
    )  # fmt: skip
    assert got.eye_inside_mm.mean == pytest.approx(45.0, abs=3.0)
    assert got.eye_height_mm.mean == pytest.approx(1441.3, abs=12.0)
    assert got.hands_inside_mm.mean == pytest.approx(190.0, abs=4.0)
    assert got.hands_height_mm.mean == pytest.approx(721.3, abs=8.0)
    assert got.shaft_deg.mean == pytest.approx(LIE, abs=0.4)
    assert got.camera_m.mean == pytest.approx(3.0, abs=0.05)


def test_a_tilted_camera_is_put_upright_by_the_plumb_line():
    camera = Camera(size_px=SIZE, focal_px=FOCAL, eye_behind_mm=60.0, **SURE)
    with_plumb = measure_posture(_photo(roll_deg=4.0), camera, scale=CLUB, handed="right")
    assert with_plumb.eye_inside_mm.mean == pytest.approx(45.0, abs=8.0)
    assert with_plumb.shaft_deg.mean == pytest.approx(LIE, abs=0.5)
    trusted = _without(_photo(roll_deg=4.0), "plumb_top", "plumb_foot")
    without = measure_posture(trusted, camera, scale=CLUB, handed="right")
    assert abs(without.eye_inside_mm.mean - 45.0) > 60.0
    assert without.eye_inside_mm.sd > 2 * with_plumb.eye_inside_mm.sd
    assert without.most_doubt == "whether the camera stood upright"


def test_intervals_hold_the_truth_for_cameras_held_by_hand():
    rng = np.random.default_rng(5)
    z = []
    for _ in range(120):
        points = _photo(
            roll_deg=rng.normal(0, 2), pitch_deg=rng.normal(0, 4), yaw_deg=rng.normal(0, 4),
            away_m=rng.uniform(2.4, 3.8), off=(rng.normal(0, 0.3), rng.uniform(0.4, 1.2)),
        )  # fmt: skip
        taps = {name: np.add(at, rng.normal(0, 2.5, 2)) for name, at in points.items()}
        got = measure_posture(
            taps, Camera(size_px=SIZE), scale=CLUB, handed="right", draws=800, seed=3
        )
        for found, truth in ((got.eye_inside_mm, 45.0), (got.hands_height_mm, 721.3),
                             (got.shaft_deg, LIE)):  # fmt: skip
            z.append((found.mean - truth) / found.sd)
    within = np.abs(np.reshape(z, (-1, 3))) < 1.645
    assert np.all(within.mean(axis=0) > 0.8)
    # nor so wide that they say nothing
    assert np.sqrt(np.mean(np.square(z))) > 0.4


def test_what_is_measured_better_narrows_the_interval():
    points = _photo()
    guessed = measure_posture(points, Camera(size_px=SIZE), scale=CLUB, handed="right")
    told = measure_posture(
        points, Camera(size_px=SIZE, distance_m=3.0, distance_sd_m=0.05, eye_behind_mm=60.0,
                       level_sd_deg=1.0, along_sd_deg=1.0),
        scale=CLUB, handed="right",
    )  # fmt: skip
    assert told.eye_inside_mm.sd < 0.6 * guessed.eye_inside_mm.sd
    by_ball = measure_posture(points, Camera(size_px=SIZE), scale=BALL, handed="right")
    assert by_ball.hands_height_mm.sd > guessed.hands_height_mm.sd


def test_eyes_nearer_to_the_camera_look_larger_and_are_drawn_back():
    points, camera = _photo(off=(0.6, 0.7)), {"size_px": SIZE, "focal_px": FOCAL, **SURE}
    right, wrong = (
        measure_posture(
            points, Camera(eye_behind_mm=behind, **camera), scale=CLUB, handed="right"
        ).eye_inside_mm.mean
        for behind in (60.0, 300.0)
    )
    assert right == pytest.approx(45.0, abs=6.0)
    assert abs(wrong - 45.0) > 30.0


def test_the_soles_tilt_is_toe_up_when_the_handle_is_low():
    got = measure_posture(
        _photo(), Camera(size_px=SIZE, focal_px=FOCAL, **SURE), scale=CLUB, handed="right",
        lie_deg=LIE + 2.0,
    )  # fmt: skip
    assert got.sole_tilt_deg.mean == pytest.approx(2.0, abs=0.5)


def test_what_is_missing_or_together_is_told():
    camera = Camera(size_px=SIZE)
    with pytest.raises(PointMissing, match="The point eye is missing; wanted are eye, hands"):
        measure_posture(_without(_photo(), "eye"), camera, scale=CLUB, handed="right")
    with pytest.raises(PointMissing, match="plumb_foot is missing"):
        measure_posture(_without(_photo(), "plumb_foot"), camera, scale=CLUB, handed="right")
    together = _photo() | {"ball_far": _photo()["ball_near"]}
    with pytest.raises(PointsTogether, match="ball_near and ball_far lie on one spot"):
        measure_posture(
            together, camera, scale=Scale(kind="ball", length_mm=BALL_MM), handed="right"
        )
