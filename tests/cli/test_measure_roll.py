"""A putt out of a rendered video whose truth is known; and clips that cannot carry it."""

from __future__ import annotations

import csv
import importlib.util
import json
import re
import sys
from pathlib import Path

import numpy as np
import pytest

SCRIPTS = Path(__file__).resolve().parents[2] / "scripts"


def _script(name):
    spec = importlib.util.spec_from_file_location(name, SCRIPTS / f"{name}.py")
    module = importlib.util.module_from_spec(spec)
    sys.modules[name] = module  # one imports the other by its name
    spec.loader.exec_module(module)
    return module


truth = _script("roll_truth")
_script("roll_paint")
scene = _script("roll_scene")
FPS = 240


@pytest.fixture(scope="module")
def clip():
    return scene.Clip(
        truth=truth.follow(
            truth.Strike(ball_speed_mps=1.7, launch_deg=2.5, spin_radps=6.0, friction=0.45),
            until_s=0.6,
        ),
        shot=scene.Shot(
            size=(832, 480),
            seconds=0.5,
            before_s=0.06,
            lens_mm=27.0,
            width_m=0.84,
            yaw_deg=2.0,
            high_px=40.0,
            seed=5,
        ),
        ball=scene.Ball(tilt_deg=4.0, off_mm=0.8),
    )


@pytest.fixture(scope="module")
def pictures(clip):
    return scene.frames(clip)


@pytest.fixture(scope="module")
def video(pictures, tmp_path_factory):
    path = tmp_path_factory.mktemp("film") / "putt.mp4"
    scene.write_clip(path, pictures, fps=FPS)
    return path


def _inside(figure, value, *, wider=0.5):
    low, high = figure["interval_90"]
    more = wider * (high - low)
    return low - more <= value <= high + more


@pytest.mark.slow
def test_the_figures_are_those_the_putt_was_made_with(run, video, clip, tmp_path):
    picture = tmp_path / "roll.svg"
    result = run("measure", "roll", video, "--json", "--picture", picture, "--progress")
    assert result.exit_code == 0, result.stderr
    got, strike = json.loads(result.stdout), clip.truth.strike
    assert got["fits"]
    assert got["skid_m"]["value"] == pytest.approx(clip.truth.skid_m, abs=0.004)
    assert got["skid_s"]["value"] == pytest.approx(clip.truth.skid_s, abs=0.003)
    assert got["ball_speed_mps"]["value"] == pytest.approx(strike.ball_speed_mps, rel=0.01)
    assert got["launch_deg"]["value"] == pytest.approx(strike.launch_deg, abs=1.0)
    assert got["spin_rpm"]["value"] == pytest.approx(strike.spin_radps * 30 / np.pi, abs=12)
    assert _inside(got["skid_m"], clip.truth.skid_m)
    assert got["meets_m"] == pytest.approx(clip.truth.skid_m, abs=0.02)
    share = 1 - clip.truth.skid_m / got["total_m"]["value"]
    assert got["roll_share_pct"]["value"] == pytest.approx(100 * share, abs=1.0)
    assert picture.read_text(encoding="utf-8").startswith("<svg")
    assert "Reading the video: " in result.stderr


@pytest.mark.slow
def test_a_putt_packed_as_phones_pack_is_the_same_putt(run, pictures, clip, tmp_path):
    path = tmp_path / "phone.mov"
    scene.write_as_phones_do(path, pictures, fps=FPS)
    got, strike = json.loads(run("measure", "roll", path, "--json").stdout), clip.truth.strike
    assert got["skid_m"]["value"] == pytest.approx(clip.truth.skid_m, abs=0.004)
    assert got["ball_speed_mps"]["value"] == pytest.approx(strike.ball_speed_mps, rel=0.01)
    assert got["spin_rpm"]["value"] == pytest.approx(strike.spin_radps * 30 / np.pi, abs=12)


@pytest.mark.slow
def test_a_putt_the_other_way_is_the_same_putt(run, pictures, clip, tmp_path):
    path = tmp_path / "left.mp4"
    scene.write_clip(path, [np.ascontiguousarray(each[:, ::-1]) for each in pictures], fps=FPS)
    got = json.loads(run("measure", "roll", path, "--json").stdout)
    assert got["skid_m"]["value"] == pytest.approx(clip.truth.skid_m, abs=0.004)
    assert got["spin_rpm"]["value"] == pytest.approx(
        clip.truth.strike.spin_radps * 30 / np.pi, abs=12
    )


@pytest.mark.slow
def test_it_is_entered_into_a_fitting_and_the_words_say_it(run, video, package, tmp_path):
    before = _putts(package)
    result = run(
        "measure", "roll", video, "--went-m", 2.4, "--into", package, "--build", "A",
        "--distance-m", 2.5,
    )  # fmt: skip
    assert result.exit_code == 0, result.stderr
    assert re.search(r"ball speed 1\.(6[89]|7\d) m/s", result.stdout)
    assert re.search(r"true roll 93\.\d % \(.*\) of a putt of 2\.4 m\n", result.stdout)
    rows = _putts(package)
    assert len(rows) == len(before) + 1
    new = rows[-1]
    assert (new["build_id"], new["distance_m"]) == ("A", "2.5")
    assert float(new["ball_speed_mps"]) == pytest.approx(1.7, rel=0.01)
    assert float(new["skid_m"]) > 0.1
    again = run("measure", "roll", video, "--into", package, "--build", "none", "--distance-m", 2.5)
    assert again.exit_code == 2
    again = run("measure", "roll", video, "--into", package, "--build", "A", "--distance-m", 2.5)
    assert (again.exit_code, again.stdout) == (2, "")
    assert "is in this fitting already, and one clip is one putt" in again.stderr
    assert len(_putts(package)) == len(rows)


def _putts(package):
    with (Path(package) / "putts.csv").open(encoding="utf-8") as stream:
        return list(csv.DictReader(stream))


def _smeared(pictures):
    """As if the shutter had been open for five pictures."""
    stack = np.array([pictures[0]] * 12 + pictures[:100], np.float32)
    whole = np.cumsum(stack, axis=0)
    return list(np.clip((whole[5:] - whole[:-5]) / 5, 0, 255).astype(np.uint8))


def _far(pictures):
    """A third as large, in the middle of bare ground."""
    import cv2

    framed = []
    for each in pictures:
        small = cv2.resize(each, None, fx=0.35, fy=0.35, interpolation=cv2.INTER_AREA)
        picture = np.full_like(each, 80)
        picture[150 : 150 + small.shape[0], 250 : 250 + small.shape[1]] = small
        framed.append(picture)
    return framed


WRONG = {
    "wall": (lambda p: [p[0]] * 60, "shows nothing that moves"),
    "sideways": (
        lambda p: [np.ascontiguousarray(np.rot90(each)) for each in p[:110]], "lies on its side",
    ),
    "late": (lambda p: p[24:100], "begins when the ball is already rolling"),
    "early": (lambda p: p[:38], "ends while the ball still slides|not show the ball in true roll"),
    "two": (
        lambda p: [np.maximum(a, b) for a, b in zip(p[:80], p[32:112], strict=True)],
        "shows two balls that roll",
    ),
    "smeared": (_smeared, "smears the ball|blurs the line|edge well enough|too dim, and loses"),
    "far": (_far, "only .* pixels wide; go nearer"),
}  # fmt: skip


@pytest.mark.slow
@pytest.mark.parametrize("name", WRONG)
def test_a_clip_that_cannot_carry_it_is_refused_in_one_sentence(run, pictures, tmp_path, name):
    change, why = WRONG[name]
    path = tmp_path / f"{name}.mp4"
    scene.write_clip(path, change(pictures), fps=FPS)
    picture = tmp_path / "roll.svg"
    result = run("measure", "roll", path, "--json", "--picture", picture)
    assert re.search(why, _said(result)), _said(result)
    assert not picture.exists()


def _said(result):
    """The one sentence, or what else came."""
    lines = result.stderr.strip().splitlines()
    return lines[0] if (result.exit_code, result.stdout, len(lines)) == (2, "", 1) else str(result)


@pytest.mark.slow
def test_a_ball_without_a_line_is_refused(run, clip, tmp_path):
    import dataclasses

    bare = dataclasses.replace(clip, ball=scene.Ball(line=False))
    path = tmp_path / "bare.mp4"
    scene.write_clip(path, scene.frames(bare), fps=FPS)
    assert "shows no line on the ball" in _said(run("measure", "roll", path))


@pytest.mark.slow
def test_a_hand_that_waves_is_no_ball(run, pictures, tmp_path):
    waving = []
    for number in range(60):
        picture = np.asarray(pictures[0]).copy()
        left = 100 + 12 * number
        picture[300:340, left : left + 160] = 220
        waving.append(picture)
    path = tmp_path / "hand.mp4"
    scene.write_clip(path, waving, fps=FPS)
    assert "shows no ball that rolls" in _said(run("measure", "roll", path))


@pytest.mark.parametrize(
    ("given", "why"),
    [
        (("--into", "somewhere"), "--into needs --distance-m"),
        (("--fps", "10"), "--fps is 10"),
        ((), "is no video"),
    ],
)
def test_what_is_asked_wrongly_is_said_at_once(run, tmp_path, given, why):
    path = tmp_path / "notes.mp4"
    path.write_text("no film", encoding="utf-8")
    result = run("measure", "roll", path, *given)
    assert result.exit_code == 2
    assert why in result.stderr
