"""A golfer's data on the pages, the trail, the backups."""

from __future__ import annotations

import io
import zipfile

import pytest

from puttwright.deeds.bootstrap import Shop
from puttwright.deeds.golfers_data import golfers_data
from puttwright.deeds.look_at_trail import look_at_trail
from puttwright.store.examine import examine_file

NEW = {
    "golfer-alias": "Wren", "golfer-handed": "left", "green-1-name": "home",
    "green-1-speed_ft": "9", "green-1-share": "100", "here-speed_ft": "10",
    "build-0-length_mm": "34", "build-0-lie_deg": "70", "build-0-loft_deg": "3",
}  # fmt: skip


@pytest.fixture
def golfer(fitting_id: str) -> str:
    return f"/golfers/{fitting_id}"


def test_what_was_told_and_agreed_stands_on_the_golfers_page(
    pages, shop: Shop, fitting_id: str, golfer: str
) -> None:
    assert "Nobody has noted yet" in pages.get(golfer).text
    answer = pages.post(f"{golfer}/data", data={"kind": "told", "answer": "yes"})
    assert answer.headers["location"] == f"{golfer}/data"

    assert "Told and agreed on 1 May 2026." in pages.get(golfer).text
    page = pages.get(f"{golfer}/data").text
    assert f"puttwright erase {fitting_id} --golfer --copies --data {shop.folder}" in page
    assert page.count("It stays on this shop&#39;s computers and their backups") == 2
    assert "Not legal advice; local law decides." in page
    pages.post(f"{golfer}/data", data={"kind": "told", "answer": "no"})
    assert "They took their consent back on 1 May 2026" in pages.get(golfer).text


def test_what_cannot_be_noted_is_not(pages, golfer: str) -> None:
    answer = pages.post(f"{golfer}/data", data={"kind": "age", "answer": "eleven"})
    assert answer.status_code == 404


@pytest.mark.parametrize("door", ["address-photo", "board-photos", "films"])
def test_photos_of_a_child_wait_for_a_guardian(pages, golfer: str, at: str, door: str) -> None:
    assert pages.get(f"{at}/{door}").status_code == 200
    pages.post(f"{golfer}/data", data={"kind": "age", "answer": "minor"})
    for answer in (pages.get(f"{at}/{door}"), pages.post(f"{at}/{door}", files={"photo": b""})):
        assert answer.status_code == 403
        assert "no photo is taken until a guardian&#39;s consent to photos is noted" in answer.text
    page = pages.get(golfer).text
    assert "Under age." in page
    assert "No photos until a guardian agrees to them." in page

    pages.post(f"{golfer}/data", data={"kind": "photos", "answer": "yes"})
    assert pages.get(f"{at}/{door}").status_code == 200


def test_a_fitting_of_a_child_begins_with_asking_a_guardian(pages, shop: Shop) -> None:
    started = pages.post("/fittings", data=NEW | {"golfer-minor": "yes"}).headers["location"]
    page = pages.get(started).text
    whose = started.split("/")[2]

    assert golfers_data(shop.store, whose).minor
    assert "A guardian agrees to the fitting" in page
    assert f'href="/fittings/{whose}"' in page
    again = pages.get(f"/fittings/new?golfer={whose}").text
    assert '<option value="yes" selected>under age' in again


def test_of_age_or_not_said_begins_at_once(pages) -> None:
    for minor in ("", "no"):
        started = pages.post("/fittings", data=NEW | {"golfer-minor": minor}).headers["location"]
        assert started.startswith("/fittings/")


def test_a_name_is_put_right_in_every_fitting(pages, golfer: str, at: str) -> None:
    wrong = pages.post(f"{golfer}/name", data={"name": "  "})
    assert wrong.status_code == 422
    pages.post(f"{golfer}/name", data={"name": "Robyn"})

    assert "<h1>Robyn</h1>" in pages.get(at).text
    assert "The name was “Robin &lt;b&gt;”, is “Robyn”." in pages.get(f"{golfer}/data").text


def test_a_copy_is_handed_over_and_noted(pages, shop: Shop, golfer: str, full: str) -> None:
    answer = pages.post(f"{golfer}/copy")

    assert answer.headers["content-type"] == "application/zip"
    with zipfile.ZipFile(io.BytesIO(answer.content)) as copy:
        assert "PUTT (5)" in copy.read("everything.txt").decode()
    assert look_at_trail(shop.store, "golfer-copied")[1] == 1


def test_who_is_kept_long_stands_on_the_golfers_page(
    pages, shop: Shop, golfer: str, monkeypatch
) -> None:
    settings = {
        "language": "en", "measures": "trade", "ground": "auto", "handed": "right",
        "tax_included": "no", "keep_years": "2",
    }  # fmt: skip
    assert pages.post("/settings", data=settings).status_code == 303
    assert 'value="2"' in pages.get("/settings").text
    assert "Not here for more than" not in pages.get("/golfers").text
    monkeypatch.setattr("puttwright.deeds.golfers_data.day_before", lambda *_: "2026-12-31")

    page = pages.get("/golfers").text
    assert "Not here for more than 2 years: look at them" in page
    assert f'href="{golfer}/data"' in page
    assert "after 2 years without a visit" in pages.get(f"{golfer}/data").text


def test_the_trail_is_read_on_a_page(pages, full: str, fitting_id: str) -> None:
    page = pages.get("/trail").text
    assert page.count("Reading recorded") == 7
    assert "Fitting started" in page
    assert pages.get(f"/trail?q={fitting_id}").text.count("Reading recorded") == 7
    assert "No line." in pages.get("/trail?q=nobody").text


def test_a_backup_is_taken_listed_and_taken_out(pages, shop: Shop, full: str, tmp_path) -> None:
    assert "None yet." in pages.get("/backups").text
    done = pages.post("/backups").headers["location"]
    assert "it is whole" in pages.get(done).text
    assert "Nothing has changed" in pages.get(pages.post("/backups").headers["location"]).text

    page = pages.get("/backups").text
    assert "The last one: 1 May 2026" in page
    assert f"puttwright restore --data {shop.folder}" in page
    copy = tmp_path / "copy.sqlite"
    copy.write_bytes(pages.get("/backups/1").content)
    assert examine_file(copy).fittings == 1
    assert look_at_trail(shop.store, "backup-taken-out")[1] == 1
    assert pages.get("/backups/2").status_code == 404
    assert pages.get("/backups/newest").status_code == 404


def test_a_backup_that_cannot_be_taken_is_told(pages, shop: Shop) -> None:
    (shop.folder / "backups").write_text("in the way")
    answer = pages.post("/backups")
    assert answer.status_code == 507
    assert "cannot be written" in answer.text
