"""Photos of the board on a page: read, shown, entered only when the fitter says so."""

from __future__ import annotations

import io
import re
from collections.abc import Callable
from pathlib import Path
from typing import Any

import numpy as np
import pytest
from PIL import Image

from puttwright.deeds.open_fitting import OpenFitting


@pytest.fixture
def send(pages: Any, at: str, root: Path) -> Callable[..., Any]:
    """Send photos of the guide, or bytes, with a form."""
    folder = root / "docs" / "guide" / "board-photos"

    def _send(*photos: str | bytes, **typed: str) -> Any:
        files = [
            ("photos", (each, (folder / each).read_bytes(), "image/jpeg"))
            if isinstance(each, str)
            else ("photos", ("<b>x.jpg", each, "image/jpeg"))
            for each in photos
        ]
        data = {"hand": "B", "board": "3000", "laser": "mirror"} | typed
        return pages.post(f"{at}/board-photos", files=files, data=data)

    return _send


@pytest.mark.slow
def test_readings_are_shown_first_and_entered_when_confirmed(
    send: Any, pages: Any, at: str, opened: Callable[[], OpenFitting]
) -> None:
    answer = send("1-red.jpg", "4-two.jpg")

    assert answer.status_code == 200
    assert "give or take" in answer.text
    assert "wo spots could be the dot" in answer.text
    assert not opened().fitting.aims
    fields = dict(re.findall(r'type="hidden" name="(\w+)" value="([^"]*)"', answer.text))
    first = re.findall(r'name="photo-0" value="([^"]+)" checked', answer.text)[0]
    second = re.findall(r'name="photo-1" value="([^"]+)"', answer.text)[0]
    chosen = fields | {"photo-0": first, "photo-1": second}
    for _again in range(2):
        assert pages.post(f"{at}/board-photos/enter", data=chosen).status_code == 303
    aims = opened().fitting.aims
    assert [aim.reading_mm for aim in aims] == pytest.approx([21.0, 23.4], abs=0.4)
    assert {(aim.build_id, aim.board_distance_mm, aim.mirror) for aim in aims} == {
        ("B", 3000, True)
    }


@pytest.mark.slow
def test_a_doubtful_photo_is_shown_small_and_without_the_cameras_notes(
    send: Any, pages: Any
) -> None:
    answer = send("4-two.jpg")
    address = re.findall(r'src="(/board-pictures/[\w-]+)"', answer.text)[0]
    picture = pages.get(address)

    assert picture.headers["content-type"] == "image/jpeg"
    assert picture.content.startswith(b"\xff\xd8")
    assert b"Exif" not in picture.content
    assert pages.get("/board-pictures/not-there").status_code == 404


@pytest.mark.slow
def test_a_doubtful_dot_is_settled_by_a_tap_in_its_picture(
    send: Any, pages: Any, at: str, opened: Callable[[], OpenFitting]
) -> None:
    answer = send("4-two.jpg", "5-none.jpg")
    seen = re.findall(r'data-tap-to="([^"]+)" data-number="(\d)"', answer.text)
    assert [number for _, number in seen] == ["0", "1"]
    first, second = (pages.get(address.removesuffix("/tap")).content for address, _ in seen)
    offered = re.findall(r'name="photo-0" value="([^"]+)"', answer.text)
    taken = set()
    for x, y in _two_rings(first):
        told = pages.post(seen[0][0], data={"number": "0", "x": f"{x}", "y": f"{y}"}).text
        value, words = re.findall(
            r'name="photo-0" value="([^"]+)" checked> where you tapped: (.*)<', told
        )[0]
        taken.add(value)
        assert "give or take 0." in words

    assert taken == set(offered[:2])
    width, height = Image.open(io.BytesIO(second)).size
    told = pages.post(seen[1][0], data={"number": "1", "x": f"{width / 2}", "y": f"{height / 2}"})
    middle = re.findall(r'name="photo-1" value="([^"]+)" checked', told.text)[0]
    assert abs(float(middle)) < 30
    beside = pages.post(seen[0][0], data={"number": "0", "x": "-900", "y": "-900"}).text
    assert "The tap lies beside the board." in beside
    assert "radio" not in beside
    assert pages.post(seen[0][0], data={"number": "0", "x": "here", "y": "1"}).status_code == 404
    assert pages.post("/board-pictures/none/tap", data={"x": "1"}).status_code == 404
    assert not opened().fitting.aims


def _two_rings(picture: bytes) -> list[tuple[float, float]]:
    """The middles of the rings drawn around two places."""
    pixels = np.asarray(Image.open(io.BytesIO(picture)).convert("RGB")).astype(int)
    ys, xs = np.nonzero(np.abs(pixels - (189, 58, 27)).sum(axis=2) < 60)
    found = []
    for _ in range(2):
        best = max(
            ((x, y) for x in range(xs.min(), xs.max(), 2) for y in range(ys.min(), ys.max(), 2)),
            key=lambda at: int((np.abs(np.hypot(xs - at[0], ys - at[1]) - 13) < 2).sum()),
        )
        found.append((float(best[0]), float(best[1])))
        far = np.hypot(xs - best[0], ys - best[1]) > 20
        xs, ys = xs[far], ys[far]
    return found


@pytest.mark.slow
def test_what_is_no_photo_costs_only_itself(send: Any) -> None:
    answer = send(b"", b"GIF89a" + b"\0" * 300, "1-red.jpg")

    assert answer.status_code == 200
    for words in ("Has no bytes in it", "Is no photo", "give or take"):
        assert words in answer.text
    assert "<b>x.jpg" not in answer.text


def test_what_cannot_be_is_told_at_the_form(send: Any) -> None:
    for photos, typed, words in (
        ((), {}, "Choose at least one photo"),
        (("1-red.jpg",), {"bar": "40"}, "40 mm lies outside 60 mm to 150 mm."),
    ):
        answer = send(*photos, **typed)
        assert answer.status_code == 422
        assert words in answer.text


def test_the_page_where_the_laser_is_used_says_the_caution(pages: Any, at: str) -> None:
    assert "never toward eyes" in pages.get(f"{at}/board-photos").text
    assert f"{at}/board-photos?hand=" in pages.get(f"{at}?task=aims").text
