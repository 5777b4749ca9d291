"""A video is read as evenly spaced grey pictures, or refused in one sentence."""

from __future__ import annotations

import av
import cv2
import numpy as np
import pytest

from puttwright.readers.files import Unreadable
from puttwright.readers.roll.clip import _numbers, count_of, read_clip


def _write(path, *, count=40, fps=240.0, size=(320, 256), kind="mp4v"):
    writer = cv2.VideoWriter(str(path), cv2.VideoWriter.fourcc(*kind), fps, size)
    for number in range(count):
        writer.write(np.full((size[1], size[0], 3), 40 + 3 * number, np.uint8))
    writer.release()
    return path


@pytest.mark.parametrize(("name", "kind"), [("a.mp4", "mp4v"), ("a.avi", "MJPG")])
def test_pictures_come_in_order_with_their_times(tmp_path, name, kind):
    path = _write(tmp_path / name, kind=kind)
    told = []
    clip = read_clip(path, tell=told.append)
    assert len(clip.pictures) == len(told) == count_of(path) == 40
    assert clip.size == (320, 256)
    assert np.allclose(np.diff(clip.time_s), 1 / 240)
    levels = [float(picture.mean()) for picture in clip.pictures]
    # Brightness is taken as it was packed: its scale is the codec's, its order ours.
    assert np.corrcoef(levels, np.arange(40))[0, 1] > 0.999


def _as_phones_do(path, *, codec="libx264", packed="yuv420p", count=40):
    """A bright patch goes right across the upper half, from dark to bright."""
    with av.open(str(path), "w") as file:
        stream = file.add_stream(codec, rate=240)
        stream.width, stream.height, stream.pix_fmt = 320, 256, packed
        stream.options = {"preset": "ultrafast", "crf": "12", "x265-params": "log-level=none"}
        for number in range(count):
            picture = np.full((256, 320), 40, np.uint8)
            picture[40:80, 4 * number : 4 * number + 40] = 100 + 3 * number
            file.mux(stream.encode(av.VideoFrame.from_ndarray(picture, format="gray")))
        file.mux(stream.encode())
    return path


@pytest.mark.parametrize(
    ("codec", "packed"),
    [
        ("libx264", "yuv420p"),
        ("libx264", "yuvj420p"),
        ("libx265", "yuv420p"),
        ("libx265", "yuv420p10le"),
    ],
)
def test_what_phones_write_is_read(tmp_path, codec, packed):
    clip = read_clip(_as_phones_do(tmp_path / "clip.mov", codec=codec, packed=packed))
    assert len(clip.pictures) == 40
    assert clip.size == (320, 256)
    assert np.allclose(np.diff(clip.time_s), 1 / 240)
    places = [int(np.argmax(picture[60])) // 4 for picture in clip.pictures]
    assert np.allclose(places, np.arange(40), atol=10)
    levels = [float(picture[60].max()) for picture in clip.pictures]
    assert np.corrcoef(levels, np.arange(40))[0, 1] > 0.99


def test_a_film_is_turned_as_the_phone_noted(tmp_path):
    path = _as_phones_do(tmp_path / "clip.mov")
    data = path.read_bytes()
    as_it_is, quarter_turn = (
        b"".join(number.to_bytes(4, "big", signed=True) for number in matrix)
        for matrix in (
            (1 << 16, 0, 0, 0, 1 << 16, 0, 0, 0, 1 << 30),
            (0, 1 << 16, 0, -1 << 16, 0, 0, 0, 0, 1 << 30),
        )
    )
    track = data.index(as_it_is, data.index(b"tkhd"))
    path.write_bytes(data[:track] + quarter_turn + data[track + len(as_it_is) :])
    clip = read_clip(path)
    assert clip.size == (256, 320)
    upper, lower = clip.pictures[5][:, 128:].max(), clip.pictures[5][:, :128].max()
    assert upper > 100 > lower + 40


def test_slow_motion_that_plays_slowly_is_asked_about(tmp_path):
    path = _write(tmp_path / "slow.mp4", fps=30.0)
    with pytest.raises(Unreadable, match="plays at 30 pictures a second; say with --fps"):
        read_clip(path)
    assert np.allclose(np.diff(read_clip(path, fps=240).time_s), 1 / 240)


@pytest.mark.parametrize(
    ("data", "why"),
    [
        (b"", "has no bytes in it"),
        (b"just text, much of it, and no film at all", "is no video"),
        (b"#EXTM3U\nhttp://somewhere/film.ts\n", "is no video"),
        (b"\0\0\0\x18ftypisom" + b"\0" * 500, "is a damaged video"),
        (b"RIFF\0\0\0\0AVI " + b"\7" * 500, "is a damaged video"),
        (b"\x1aE\xdf\xa3" + b"\1" * 500, "is a damaged video"),
    ],
)
def test_what_is_no_video_gets_one_sentence(tmp_path, data, why):
    path = tmp_path / "clip.mp4"
    path.write_bytes(data)
    with pytest.raises(Unreadable, match=why):
        read_clip(path, fps=240)
    assert count_of(path) == 0


def _pictures_or_why(path):
    try:
        return len(read_clip(path, fps=240).pictures)
    except Unreadable as trouble:
        return str(trouble)


def test_a_video_cut_off_anywhere_is_read_or_refused(tmp_path):
    whole = _write(tmp_path / "whole.avi", kind="MJPG").read_bytes()
    part = tmp_path / "part.avi"
    found = []
    for share in (0.02, 0.2, 0.5, 0.9):
        part.write_bytes(whole[: int(share * len(whole))])
        found.append(_pictures_or_why(part))
    assert "is a damaged video" in found[0]
    assert all(isinstance(each, str) or 24 <= each <= 40 for each in found)


def test_a_film_whose_end_is_lost_has_lost_its_index(tmp_path):
    whole = _write(tmp_path / "whole.mp4")
    whole.write_bytes(whole.read_bytes()[:-400])
    assert "is a damaged video" in str(_pictures_or_why(whole))


def test_few_pictures_small_ones_and_folders_are_refused(tmp_path):
    with pytest.raises(Unreadable, match="holds 5 pictures, too few"):
        read_clip(_write(tmp_path / "few.mp4", count=5))
    with pytest.raises(Unreadable, match="is only 160 × 128 pixels"):
        read_clip(_write(tmp_path / "small.mp4", size=(160, 128)))
    with pytest.raises(Unreadable, match="is a folder"):
        read_clip(tmp_path)
    with pytest.raises(Unreadable, match="is not there"):
        read_clip(tmp_path / "none.mp4")


def test_too_long_a_clip_is_refused_before_it_fills_the_memory(tmp_path, monkeypatch):
    monkeypatch.setattr("puttwright.readers.roll.clip.MOST_PIXELS", 30 * 320 * 256)
    with pytest.raises(Unreadable, match="is too long to be read"):
        read_clip(_write(tmp_path / "long.mp4"))


def test_a_missed_picture_leaves_a_gap_and_an_uneven_rate_is_refused():
    even = np.arange(60) / 240.0
    ticks = np.round(even * 600) / 600
    assert np.array_equal(_numbers(ticks), np.arange(60))
    missed = np.delete(even, [20, 21])
    assert np.array_equal(_numbers(missed), np.delete(np.arange(60), [20, 21]))
    changing = np.concatenate([np.arange(30) / 240.0, 30 / 240.0 + np.arange(30) / 130.0])
    with pytest.raises(Unreadable, match="uneven frame rate"):
        _numbers(changing)
    wandering = np.cumsum(np.random.default_rng(1).uniform(0.5, 1.5, 60)) / 240.0
    with pytest.raises(Unreadable, match="uneven frame rate"):
        _numbers(wandering)
