"""Clips of putts sent from a tablet: measured beside the pages, shown, entered once confirmed."""

from __future__ import annotations

import dataclasses
import hashlib
import io
import os
import re
import tempfile
import threading
from collections.abc import Callable
from pathlib import Path
from typing import Any

import cv2
import numpy as np
import pytest
from fastapi import FastAPI

from puttwright.deeds.keep_settings import PageSettings
from puttwright.deeds.measure_roll import Figure, RollAsk, RollReading
from puttwright.deeds.open_fitting import OpenFitting
from puttwright.errors import CannotRead
from puttwright.web.clips import MOST_WAITING, Clips, Round, sweep_clips
from puttwright.web.contexts.films_page import figures_of

WAY = (0.1, 0.2, 0.3, 0.4)
SLOW = "plays at 30 pictures a second; say with --fps how many the camera took"


def made_up(**changed: Any) -> RollReading:
    def figure(value: float, half: float) -> Figure:
        return Figure(value=value, low=value - half, high=value + half)

    values: dict[str, Any] = {
        "video": "clip", "sha256": "00", "fps": 240.0, "pictures": 200, "ball_px": 46.0,
        "ball_speed_mps": figure(2.0, 0.0329), "launch_deg": figure(1.5, 0.3),
        "spin_rpm": figure(-42.0, 15.0), "skid_m": figure(0.31, 0.01), "skid_s": figure(0.2, 0.01),
        "roll_share_pct": figure(91.0, 1.0), "total_m": figure(4.1, 0.2), "meets_m": 0.31,
        "fits": True, "notes": ("say --green-ft, and it is narrower.",), "seen_m": WAY,
        "seen_speed_mps": WAY, "seen_surface_mps": WAY, "fitted_m": WAY,
        "fitted_speed_mps": WAY, "fitted_surface_mps": WAY,
    }  # fmt: skip
    return RollReading(**(values | changed))


class Reader:
    """Reads clips as told to, and remembers what it was asked and where the clip lay."""

    def __init__(self) -> None:
        self.asked: list[tuple[RollAsk, bytes]] = []
        self.folders: list[Path] = []
        self.gives: Any = made_up()

    def __call__(self, clip: Path, ask: RollAsk, *, tell: Callable[[int, int], object]) -> Any:
        tell(3, 4)
        self.asked.append((ask, clip.read_bytes()))
        self.folders.append(clip.parent)
        slow = self.gives == SLOW
        if isinstance(self.gives, str) and not (slow and ask.fps):
            raise CannotRead(path=clip, reason=self.gives)
        if isinstance(self.gives, Exception):
            raise self.gives
        found = made_up() if slow else self.gives
        return dataclasses.replace(found, sha256=hashlib.sha256(clip.read_bytes()).hexdigest())


@pytest.fixture
def app(pages: Any) -> FastAPI:
    found: FastAPI = pages.app
    return found


@pytest.fixture
def reader(app: FastAPI) -> Reader:
    app.state.clips = Clips(Reader())
    found: Reader = app.state.clips.measure
    return found


@pytest.fixture
def send(pages: Any, app: FastAPI, at: str) -> Callable[..., str]:
    """Send clips and wait until they are read; the page's address, or what was answered."""

    def _send(*clips: bytes, status: int = 303, **typed: str) -> str:
        files = [("clips", (f"<b>{n}.mov", clip, "video/mp4")) for n, clip in enumerate(clips)]
        data = {"hand": "B", "distance_m": "4"} | typed
        answer = pages.post(f"{at}/films", files=files or {"other": b""}, data=data)
        assert answer.status_code == status
        app.state.clips.settle(at_most_s=100.0)
        found: str = answer.headers.get("location", answer.text)
        return found

    return _send


@pytest.fixture
def enter(pages: Any) -> Callable[..., Any]:
    """Confirm what a page shows, or some of it."""

    def _enter(where: str, *ticked: int, **typed: str) -> Any:
        at, name = where.split("?read=")
        data = {f"clip-{n}": "yes" for n in ticked} | typed
        return pages.post(f"{at}/{name}/enter", data=data)

    return _enter


def words(page: str) -> str:
    return re.sub(r"\s+", " ", re.sub(r"<[^>]+>", " ", page.replace("\u202f", " ")))


def test_a_narrow_interval_is_told_fine_enough_to_be_seen() -> None:
    film = made_up(
        skid_m=Figure(value=0.1388, low=0.1368, high=0.1408),
        spin_rpm=Figure(value=152.0, low=148.0, high=156.0),
        total_m=Figure(value=4.1, low=4.1, high=4.1),
    )
    told = words(" ".join(each.words for each in figures_of(film)))

    assert "0.139 m (0.137 to 0.141 m)" in told
    assert "152 (148 to 156) turns a minute, forward" in told
    assert "of a putt of 4.1 m" in told


def test_a_clip_is_measured_shown_and_entered_once_confirmed(
    reader: Reader, send: Any, enter: Any, pages: Any, opened: Callable[[], OpenFitting]
) -> None:
    where = send(b"a film", fps="240", speed_ft="9.5", went_m="4,1")
    page = pages.get(where).text

    assert reader.asked == [(RollAsk(fps=240.0, green_ft=9.5, went_m=4.1), b"a film")]
    assert "&lt;b&gt;0.mov" in page
    assert "<svg" in page
    told = words(page)
    assert "Ball speed 2.00 m/s (1.97 to 2.03 m/s)" in told
    assert "40 (30 to 60) turns a minute, backward" in told
    assert "0.31 m (0.30 to 0.32 m), in 0.20 s (0.19 to 0.21 s)" in told
    assert "True roll is taken from a metre of film." not in told
    assert "--" not in told
    assert opened().fitting.putts == ()

    assert "task=putts" in enter(where, 0).headers["location"]
    (putt,) = opened().fitting.putts
    assert (putt.build_id, putt.distance_m, putt.instrument) == ("B", 4.0, "phone video")
    assert (putt.ball_speed_mps, putt.spin_rpm, putt.skid_m) == (2.0, -42.0, 0.31)
    assert (putt.holed, putt.stop_past_m) == (None, None)
    films = {each.quantity: each.repeatability_sd for each in opened().fitting.instruments}
    assert films["ball_speed_mps"] == pytest.approx(0.02)
    again = pages.get(where).text
    assert "Putt 1 of this fitting is this clip." in again
    assert "Enter as putts" not in again


def test_one_clip_is_one_putt_however_often_it_is_sent(
    reader: Reader, send: Any, enter: Any, pages: Any, opened: Callable[[], OpenFitting]
) -> None:
    where = send(b"one", b"one", b"two")
    told = enter(where, 0, 1, 2)
    assert told.status_code == 422
    assert "is the same clip as" in told.text
    assert opened().fitting.putts == ()

    for _ in range(2):  # a double tap
        assert enter(where, 1, 2, entry_key="tap").status_code == 303
    again = send(b"two")
    assert "Putt 2 of this fitting is this clip." in pages.get(again).text
    assert enter(again, 0).status_code == 303
    assert [putt.seq for putt in opened().fitting.putts] == [1, 2]

    pages.post(f"{where.split('/films')[0]}/void", data={"kind": "putts", "seq": "2"})
    enter(again, 0)
    assert [putt.seq for putt in opened().fitting.putts if putt.seq > 2] == [3]


def test_the_clip_itself_is_gone_when_it_was_read(reader: Reader, send: Any, pages: Any) -> None:
    send(b"one", b"two")
    reader.gives = "is no video"
    send(b"three")

    assert [clip for _, clip in reader.asked] == [b"one", b"two", b"three"]
    assert not [folder for folder in reader.folders if folder.exists()]


def test_a_refusal_is_one_sentence_and_nothing_can_be_entered(
    reader: Reader, send: Any, enter: Any, pages: Any, opened: Callable[[], OpenFitting]
) -> None:
    reader.gives = "shows two balls; keep one in the picture"
    where = send(b"a film")
    page = pages.get(where).text

    assert "The clip shows two balls; keep one in the picture." in words(page)
    assert 'name="clip-0"' not in page
    assert "Enter as putts" not in page
    assert enter(where, 0).status_code == 422
    assert opened().fitting.putts == ()


def test_the_rate_is_asked_where_the_file_does_not_say_it(
    reader: Reader, send: Any, pages: Any, app: FastAPI
) -> None:
    reader.gives = SLOW
    where = send(b"a film")
    at, name = where.split("?read=")
    asks = words(pages.get(where).text)
    assert "plays at 30 pictures a second and does not say" in asks
    assert "--fps" not in asks
    assert reader.folders[0].exists()

    wrong = pages.post(f"{at}/{name}/rate", data={"fps-0": "many"})
    assert wrong.status_code == 422
    assert 'id="fps-0-wrong"' in wrong.text
    assert 'value="many"' in wrong.text

    assert pages.post(f"{at}/{name}/rate", data={"quick": "0:120"}).status_code == 303
    app.state.clips.settle(at_most_s=10.0)
    assert [ask.fps for ask, _ in reader.asked] == [None, 120.0]
    assert 'name="clip-0"' in pages.get(where).text
    assert not reader.folders[0].exists()


def test_a_clip_nobody_answers_for_goes_all_the_same(
    reader: Reader, send: Any, pages: Any, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setattr("puttwright.web.clips.ASKED_S", 0.0)
    reader.gives = SLOW
    where = send(b"a film")
    for timer in _timers():
        timer.join(10.0)

    assert "Nobody said how many pictures a second" in words(pages.get(where).text)
    assert not reader.folders[0].exists()


def _timers() -> list[Any]:
    return [each for each in threading.enumerate() if isinstance(each, threading.Timer)]


@pytest.mark.parametrize(
    ("typed", "told"),
    [
        ({"fps": "fast"}, "fps-wrong"),
        ({"fps": "24"}, "fps-wrong"),
        ({"distance_m": "far"}, "distance_m-wrong"),
        ({"speed_ft": "99"}, "speed_ft-wrong"),
        ({"went_m": "x"}, "went_m-wrong"),
    ],
)
def test_what_cannot_be_read_is_told_beside_its_field(
    reader: Reader, send: Any, typed: dict[str, str], told: str
) -> None:
    page = send(b"a film", status=422, **typed)

    assert f'id="{told}"' in page
    (value,) = typed.values()
    assert f'value="{value}"' in page
    assert reader.asked == []


def test_no_clip_is_told_beside_the_field(send: Any) -> None:
    assert 'id="clips-wrong">Choose at least one clip first.' in send(status=422)


def test_where_the_putt_ended_may_be_said(
    reader: Reader, send: Any, enter: Any, opened: Callable[[], OpenFitting]
) -> None:
    where = send(b"one", b"two", b"three")
    short = {"end-0-stop_past_m": "0,4", "end-0-stop_past_m-side": "short", "end-1-holed": "yes"}
    wrong = enter(where, 0, 1, 2, **(short | {"end-2-stop_right_m": "near"}))
    assert wrong.status_code == 422
    assert 'id="end-2-stop_right_m-wrong"' in wrong.text
    assert opened().fitting.putts == ()

    assert enter(where, 0, 1, **short).status_code == 303
    missed, holed = opened().fitting.putts
    assert (missed.holed, missed.stop_past_m, missed.skid_m) == (False, -0.4, 0.31)
    assert (holed.holed, holed.stop_past_m, holed.skid_m) == (True, None, 0.31)


def test_what_the_clip_does_not_tell_is_said_to_lack(
    reader: Reader, send: Any, enter: Any, pages: Any, opened: Callable[[], OpenFitting]
) -> None:
    lost = Figure(value=None, low=-9.0, high=9.0)
    reader.gives = made_up(launch_deg=lost, spin_rpm=lost, roll_share_pct=lost, fits=False)
    where = send(b"one", speed_ft="")
    told = words(pages.get(where).text)

    assert "Launch the clip does not tell it Spin" in told
    assert "Spin at launch the clip does not tell it Slides" in told
    assert "True roll the clip does not tell it More light" in told
    assert "More light, a nearer camera or a clearer line would tell the rest." in told
    assert "This turf does not behave as an even green" in told
    assert "True roll is taken from a metre of film." in told
    enter(where, 0)
    (putt,) = opened().fitting.putts
    assert (putt.launch_deg, putt.spin_rpm, putt.skid_m) == (None, None, 0.31)


def test_what_is_not_ticked_is_not_entered(
    reader: Reader, send: Any, enter: Any, opened: Callable[[], OpenFitting]
) -> None:
    where = send(b"one", b"two")
    none = enter(where)
    assert none.status_code == 422
    assert "Tick at least one putt first." in none.text

    enter(where, 1)
    assert len(opened().fitting.putts) == 1


def test_clips_of_one_fitting_are_not_shown_in_another(
    reader: Reader, send: Any, pages: Any, started: Callable[[str], str]
) -> None:
    name = send(b"one").split("?read=")[1]
    other = f"/fittings/{started('left')}/films"

    assert "no longer known" in pages.get(f"{other}?read={name}").text
    assert pages.get(f"{other}/{name}/0").status_code == 404
    assert pages.post(f"{other}/{name}/enter", data={"clip-0": "yes"}).status_code == 404


def test_clips_without_end_are_refused(app: FastAPI, at: str, pages: Any, send: Any) -> None:
    app.state.clips = clips = Clips()
    clips._working = True  # as if it were at one that takes long
    whole = Round(fitting_id="F", build_id="A", distance_m=3.0)
    for _ in range(MOST_WAITING):
        clips.send(whole, [("a", _file())], ask=RollAsk())
    files = [("clips", ("a.mov", b"x", "video/mp4"))]
    told = pages.post(f"{at}/films", files=files, data={"hand": "B", "distance_m": "4"})
    assert told.status_code == 409
    assert f'id="clips-wrong">{MOST_WAITING} clips wait already' in told.text
    clips._working = False
    clips.close()


def _file() -> io.BytesIO:
    return io.BytesIO(b"film")


def test_when_the_program_ends_no_clip_is_left(app: FastAPI) -> None:
    clips = Clips(Reader())
    clips._working = True
    whole = Round(fitting_id="F", build_id="A", distance_m=3.0)
    found = clips.find(clips.send(whole, [("a", _file())], ask=RollAsk()))
    assert found is not None
    (clip,) = found.clips
    assert clip.path.read_bytes() == b"film"
    clips._working = False

    clips.close()
    assert not clip.folder.exists()


def test_what_a_killed_program_left_is_swept_up(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setattr(tempfile, "tempdir", str(tmp_path))
    for name, old in (("puttwright-clip-a", True), ("puttwright-clip-b", False), ("other", True)):
        (tmp_path / name).mkdir()
        if old:
            os.utime(tmp_path / name, (1.0, 1.0))
    sweep_clips()

    assert sorted(each.name for each in tmp_path.iterdir()) == ["other", "puttwright-clip-b"]


def test_a_fault_of_ours_has_an_id(reader: Reader, send: Any, pages: Any) -> None:
    reader.gives = RuntimeError("nobody foresaw this")
    where = send(b"one")

    told = words(pages.get(where).text)
    assert re.search(r"could not be measured, by a fault of ours; it is kept in the log as", told)
    assert "foresaw" not in told


def test_figures_are_said_in_the_shops_measures(
    reader: Reader, send: Any, pages: Any, app: FastAPI
) -> None:
    where = send(b"one")
    app.state.manner = PageSettings(measures="imperial")
    told = words(pages.get(where).text)

    assert "Ball speed 4.5 mph (4.4 to 4.5 mph)" in told
    assert "1.0 ft (1.0 to 1.0 ft)" in told


def test_three_metres_said_in_feet_stay_three(
    reader: Reader, send: Any, enter: Any, app: FastAPI, opened: Callable[[], OpenFitting]
) -> None:
    app.state.manner = PageSettings(measures="imperial")
    enter(send(b"one", distance_m="9.843"), 0)

    assert [putt.distance_m for putt in opened().fitting.putts] == [3.0]


@pytest.mark.slow
@pytest.mark.parametrize(
    ("clip", "told"),
    [
        (b"just text", "The clip is no video; MP4, MOV, AVI and WebM are read."),
        (b"\0\0\0\x18ftypisom" + b"\0" * 500, "The clip is a damaged video"),
        ("wall", "The clip shows"),
        ("slow", "plays at 30 pictures a second"),
        ("small", "The clip is only 160 × 128 pixels"),
    ],
)
def test_a_file_is_judged_by_what_is_in_it(
    send: Any, pages: Any, tmp_path: Path, clip: bytes | str, told: str
) -> None:
    data = clip if isinstance(clip, bytes) else _film(tmp_path / "a.mp4", clip)

    assert told in words(pages.get(send(data)).text)


def _film(path: Path, kind: str) -> bytes:
    size = (160, 128) if kind == "small" else (320, 256)
    rate = 30.0 if kind == "slow" else 240.0
    writer = cv2.VideoWriter(str(path), cv2.VideoWriter.fourcc(*"mp4v"), rate, size)
    for number in range(40):
        writer.write(np.full((size[1], size[0], 3), 90 + number % 2, np.uint8))
    writer.release()
    return path.read_bytes()
