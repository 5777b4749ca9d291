"""A photo of the set-up on a page: shown, tapped, measured, entered; and whose photos are off."""

from __future__ import annotations

import html
import io
import re
import sys
import tempfile
from collections.abc import Callable
from dataclasses import replace
from pathlib import Path
from typing import Any

import numpy as np
import pytest
from PIL import Image

sys.path.insert(0, str(Path(__file__).parent))

import set_up_photo

from puttwright.deeds.bootstrap import Shop
from puttwright.deeds.open_fitting import OpenFitting
from puttwright.deeds.start_fitting import NewFitting, start_fitting
from puttwright.evidence import Build, FittingGreen, Golfer, Green
from puttwright.web.held import Held


@pytest.fixture
def send(pages: Any, at: str) -> Callable[..., Any]:
    """Send one photo with the form."""

    def _send(data: bytes, *, to: str = at, **typed: str) -> Any:
        files = {"photo": ("<b>golfer.jpg", data, "image/jpeg")}
        return pages.post(f"{to}/address-photo", files=files, data=typed)

    return _send


@pytest.fixture
def shown(send: Any) -> Callable[..., str]:
    """Send the invented photo; its name on the page."""

    def _shown(*, handed: str = "right", **how: Any) -> str:
        answer = send(set_up_photo.photo(handed=handed), **how)
        assert answer.status_code == 303
        return str(answer.headers["location"]).split("photo=")[1]

    return _shown


def tapped(name: str, *, handed: str = "right", without: tuple[str, ...] = (), **more: str) -> Any:
    """The form with every point tapped."""
    taps = {
        f"point-{point}": f"{x:.1f},{y:.1f}"
        for point, (x, y) in set_up_photo.points(handed=handed).items()
        if point not in without
    }
    return taps | {"photo": name, "scale": "club", "hand": "A", "shown_px": "750"} | more


def _figures(page: str) -> dict[str, float]:
    found = re.findall(r"<dt>(.*?)</dt><dd>(.*?)</dd>", html.unescape(page))
    return {
        name: float(re.findall(r"[−\d.]+", words)[0].replace("−", "-")) for name, words in found
    }


def test_the_photo_is_shown_upright_small_and_without_notes(send: Any, pages: Any, at: str) -> None:
    turned = set_up_photo.photo(turned=True)
    assert b"An invented maker" in turned
    where = send(turned).headers["location"]
    page = pages.get(where).text
    address = re.findall(r'<img src="([^"]+)" width="1500" height="2000"', page)[0]
    picture = pages.get(address)

    assert picture.headers["cache-control"] == "no-store"
    assert b"invented" not in picture.content
    image = Image.open(io.BytesIO(picture.content))
    assert (image.size, dict(image.getexif())) == ((1500, 2000), {})
    x, y = set_up_photo.points()["ball_near"]
    assert min(image.getpixel((round(x), round(y)))) > 180
    assert "never written to the disk" in page
    assert "clinician" in page


def test_a_photo_larger_than_a_megabyte_does_not_touch_the_disk(
    send: Any, monkeypatch: pytest.MonkeyPatch
) -> None:
    noise = np.random.default_rng(1).integers(0, 255, (1200, 900, 3), np.uint8)
    out = io.BytesIO()
    Image.fromarray(noise).save(out, "PNG")
    assert len(out.getvalue()) > 2 * 2**20

    def refuse(*_args: Any, **_how: Any) -> None:
        raise AssertionError("a photo went to the disk")

    monkeypatch.setattr(tempfile, "TemporaryFile", refuse)
    assert send(out.getvalue()).status_code == 303


@pytest.mark.parametrize("handed", ["right", "left"])
def test_the_points_give_the_set_up_back_with_its_interval(
    pages: Any, shown: Any, started: Callable[[str], str], handed: str
) -> None:
    at = f"/fittings/{started(handed)}"
    name = shown(handed=handed, to=at)
    answer = pages.post(
        f"{at}/address-photo/measure",
        data=tapped(name, handed=handed, camera_m="3", eye_behind_mm="50"),
    )
    found = _figures(answer.text)

    assert answer.status_code == 200
    assert found["Eyes"] == pytest.approx(set_up_photo.EYES_MM, abs=12)
    assert found["Hands above the ground"] == pytest.approx(set_up_photo.HANDS_MM, abs=12)
    shaft = found["Shaft to the ground: the lie that sits flush"]
    assert shaft == pytest.approx(set_up_photo.LIE_DEG, abs=0.5)
    assert re.search(r"<dd>\d+\u202fmm \(\d+ to \d+\u202fmm\) inside</dd>", answer.text)
    assert "widens the eyes' interval most" in html.unescape(answer.text)
    assert 'class="shot-ink shot-plumb"' in answer.text


def test_what_was_measured_is_entered_once_and_the_photo_let_go(
    pages: Any, at: str, shown: Any, opened: Callable[[], OpenFitting]
) -> None:
    name = shown()
    page = pages.post(f"{at}/address-photo/measure", data=tapped(name, eye_behind_mm="40")).text
    assert opened().fitting.setups == ()
    form = page[page.index('id="found"') : page.index("</section>", page.index('id="found"'))]
    fields = dict(re.findall(r'name="(\w+)" value="([^"]*)"', form))
    for _again in range(2):
        answer = pages.post(f"{at}/address-photo/enter", data=fields)
        assert (answer.status_code, answer.headers["location"]) == (303, f"{at}/address")
    (setup,) = opened().fitting.setups

    assert setup.build_id == "A"
    assert setup.eye_behind_mm == 40
    assert setup.sole_tilt_deg == pytest.approx(70 - set_up_photo.LIE_DEG, abs=0.5)
    assert setup.posture_note.startswith("from a photo, eyes give or take")
    assert pages.get(f"{at}/address-photo/{name}").status_code == 404


def test_only_what_is_nearly_as_sure_as_a_tape_is_ticked(pages: Any, at: str, shown: Any) -> None:
    name = shown()
    told = {"camera_m": "3", "eye_behind_mm": "50", "level": "yes"}
    for more, ticked in (({}, False), (told, True)):
        page = pages.post(f"{at}/address-photo/measure", data=tapped(name, **more)).text
        (eyes,) = re.findall(r'name="eye_inside_mm" value="-?\d+"( checked)?>', page)
        assert bool(eyes) == ticked
        assert ("take it by tape" in page) or ticked


def test_a_minors_photo_is_off_until_the_guardian_allowed_it(
    pages: Any, shop: Shop, send: Any
) -> None:
    new = NewFitting(
        golfer=Golfer(alias="Junior", handed="right", minor=True),
        greens=(Green(name="home", speed_ft=9.5, share=1.0),),
        fitting_green=FittingGreen(speed_ft=10),
        builds=(Build(build_id="A", label="Own", length_mm=800, lie_deg=70, loft_deg=3),),
    )
    fitting_id = start_fitting(shop.store, shop.clock, new=new, entry_key="minor", who="fitter")
    at = f"/fittings/{fitting_id}"
    assert send(set_up_photo.photo(), to=at).status_code == 403
    pages.post(f"/golfers/{fitting_id}/data", data={"kind": "photos", "answer": "yes"})
    refused = send(set_up_photo.photo(), to=at)

    assert refused.status_code == 422
    assert "Photos of a minor are off" in refused.text
    assert "<img" not in refused.text
    assert 'name="guardian"' in pages.get(f"{at}/address-photo").text
    allowed = send(set_up_photo.photo(), to=at, guardian="yes")
    name = str(allowed.headers["location"]).split("photo=")[1]
    assert pages.post(f"{at}/address-photo/measure", data=tapped(name)).status_code == 200
    photos = pages._transport.app.state.address_photos
    stolen = photos.hold(replace(photos.find(name), guardian_agrees=False))
    answer = pages.post(f"{at}/address-photo/measure", data=tapped(stolen))
    assert (answer.status_code, "minor are off" in answer.text) == (422, True)


def test_what_is_no_photo_is_told_in_one_sentence(send: Any, pages: Any, at: str) -> None:
    for data, words in (
        (b"", "has no bytes in it"),
        (b"GIF89a" + b"\0" * 300, "The photo is no photo; JPEG, PNG and WebP are read."),
        (b"\0\0\0\x18ftypheic" + b"\0" * 300, "is a HEIC photo"),
        (set_up_photo.photo()[:5000], "is a damaged photo"),
    ):
        answer = send(data)
        assert answer.status_code == 422
        assert words in html.unescape(answer.text)
        assert "<b>golfer" not in answer.text
    assert "Choose a photo first." in pages.post(
        f"{at}/address-photo", files={"photo": ("", b"", "image/jpeg")}
    ).text  # fmt: skip
    assert pages.post(f"{at}/address-photo", data={"photo": "x"}).status_code == 400


def test_what_is_missing_is_told_and_what_was_tapped_stays(pages: Any, at: str, shown: Any) -> None:
    name = shown()
    for change, words in (
        (tapped(name, without=("eye",)), "Eyes is not tapped yet."),
        (tapped(name, scale="card"), "Card, one end is not tapped yet."),
        (tapped(name, without=("plumb_foot",)), "Plumb line, foot is not tapped yet."),
        (tapped(name, camera_m="far"), "is not a number"),
        (tapped(name, **{"point-eye": "9000,1"}), "outside the photo"),
        (tapped(name, **{"point-eye": "a,b"}), "The point eye"),
    ):
        answer = pages.post(f"{at}/address-photo/measure", data=change)
        assert answer.status_code == 422
        assert words in html.unescape(answer.text)
        assert f'name="point-hands" value="{change["point-hands"]}"' in answer.text


def test_a_photo_is_found_under_its_own_fitting_only_and_can_be_let_go(
    pages: Any, at: str, shown: Any, started: Callable[[str], str]
) -> None:
    name, other = shown(), f"/fittings/{started('left')}"
    pages.post(f"{other}/address-photo/forget", data={"photo": name})

    assert pages.get(f"{other}/address-photo/{name}").status_code == 404
    assert pages.get(f"{at}/address-photo/{name}").status_code == 200
    assert pages.post(f"{at}/address-photo/forget", data={"photo": name}).status_code == 303
    assert pages.get(f"{at}/address-photo/{name}").status_code == 404
    assert "no longer held" in pages.get(f"{at}/address-photo?photo={name}").text
    answer = pages.post(f"{at}/address-photo/measure", data=tapped(name))
    assert (answer.status_code, "no longer held" in answer.text) == (422, True)


def test_the_oldest_goes_when_there_are_too_many() -> None:
    held: Held[str] = Held(most=2)
    names = [held.hold(each) for each in ("a", "b", "c")]

    assert [held.find(name) for name in names] == [None, "b", "c"]
    held.forget(names[2])
    held.forget("never there")
    assert held.find(names[2]) is None
