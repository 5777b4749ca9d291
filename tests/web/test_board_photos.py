"""Photos of the board on a page: read, shown, entered only when the fitter says so."""

from __future__ import annotations

import re
from collections.abc import Callable
from pathlib import Path
from typing import Any

import pytest

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
def test_what_is_no_photo_costs_only_itself(send: Any) -> None:
    answer = send(b"", b"GIF89a" + b"\0" * 300, "1-red.jpg")

    assert answer.status_code == 200
    for words in ("Has no bytes in it", "Is no photo", "give or take"):
        assert words in answer.text
    assert "<b>x.jpg" not in answer.text


def test_what_cannot_be_is_told_at_the_form(send: Any) -> None:
    for photos, typed, words in (
        ((), {}, "Choose at least one photo"),
        (("1-red.jpg",), {"bar": "40"}, "must lie between 60 and 150 mm"),
    ):
        answer = send(*photos, **typed)
        assert answer.status_code == 422
        assert words in answer.text


def test_the_page_where_the_laser_is_used_says_the_caution(pages: Any, at: str) -> None:
    assert "never toward eyes" in pages.get(f"{at}/board-photos").text
    assert f"{at}/board-photos?hand=" in pages.get(f"{at}?task=aims").text
