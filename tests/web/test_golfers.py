"""Golfers and their history, and lists that go on."""

from __future__ import annotations

import re

import pytest

from puttwright.deeds.bootstrap import Shop
from puttwright.deeds.open_fitting import open_fitting


@pytest.fixture
def golfer(fitting_id: str) -> str:
    """The golfer is named after their first fitting."""
    return f"/golfers/{fitting_id}"


def _fields(page: str) -> dict[str, str]:
    found = re.findall(r'<input [^>]*?name="([^"]+)" value="([^"]*)"', page)
    picked = re.findall(r'type="radio" name="([^"]+)" value="([^"]*)" checked', page)
    return dict([*found, *picked])


def test_an_empty_list_of_golfers_teaches(pages) -> None:
    assert "With their first fitting a golfer stands here" in pages.get("/golfers").text


@pytest.mark.parametrize(("words", "found"), [("rob", True), ("2026-05", True), ("zoe", False)])
def test_golfers_are_found_by_name_and_date(pages, golfer: str, words: str, found: bool) -> None:
    text = pages.get("/golfers", params={"q": words}).text

    assert (f'href="{golfer}"' in text) is found
    assert (f"Nothing holds “{words}”" in text) is not found


def test_a_golfers_page_tells_what_happened(pages, golfer: str, full: str) -> None:
    order = pages.post(f"{full}/orders", data={"build": "B"}).headers["location"]
    pages.post(f"{order}/check-in", data={"length_mm": "838", "lie_deg": "71", "loft_deg": "2"})
    page = pages.get(golfer).text

    assert "Robin &lt;b&gt;" in page
    assert "2 builds, 2 aims, 5 putts. Change to" in page
    assert "Putter ordered: Blade" in page
    assert "Checked in: Blade" in page
    assert page.index("Checked in") < page.index("Putter ordered") < page.index(">Fitting</a>")
    assert "Plays by our records: Blade, 33.0\u202fin long" in page


def test_who_comes_back_starts_with_what_is_known_and_has_one_history(
    pages, shop: Shop, golfer: str, fitting_id: str
) -> None:
    page = pages.get(f"/fittings/new?golfer={fitting_id}").text
    typed = _fields(page)
    assert typed["golfer-alias"] == "Robin &lt;b&gt;"
    assert typed["build-0-label"] == "Old faithful"
    assert typed["golfer-handed"] == "right"
    started = pages.post("/fittings", data=typed | {"golfer-alias": "Robin"})

    second = started.headers["location"].rsplit("/", 1)[1]
    assert open_fitting(shop.store, second).fitting.builds[0].length_mm == pytest.approx(864, 0.001)
    shown = pages.get(golfer).text
    assert shown.count(">Fitting</a>") == 2
    assert "2 fittings" in pages.get("/golfers").text


def test_a_golfer_who_is_not_there_starts_nothing(pages) -> None:
    assert pages.get("/fittings/new?golfer=nobody").status_code == 404
    assert pages.get("/golfers/nobody").status_code == 404


def test_one_called_alike_is_joined_by_a_word_and_parted_again(
    pages, golfer: str, started, fitting_id: str
) -> None:
    other = started("left")
    page = pages.get(golfer).text
    assert "Called alike" in page
    joined = pages.post(f"{golfer}/same", data={"other": other})
    assert joined.headers["location"] == golfer
    page = pages.get(golfer).text
    assert "Called alike" not in page
    assert page.count("Not this golfer") == 2

    parted = pages.post(f"{golfer}/other", data={"fitting": other})
    assert parted.headers["location"] == f"/golfers/{other}"
    assert pages.get(golfer).text.count(">Fitting</a>") == 1


def test_nobody_is_joined_with_somebody_who_is_not_there(pages, golfer: str) -> None:
    assert pages.post(f"{golfer}/same", data={"other": "nobody"}).status_code == 404
    assert pages.post(f"{golfer}/other", data={"fitting": "F9"}).status_code == 404


def test_a_long_list_goes_on(pages, shop: Shop, monkeypatch) -> None:
    monkeypatch.setattr("puttwright.web.routes.fittings.ON_A_PAGE", 2)
    monkeypatch.setattr("puttwright.web.contexts.paging.ON_A_PAGE", 2)
    for number in range(5):
        new = {
            "golfer-alias": f"Wren {number}", "golfer-handed": "left", "green-1-name": "home",
            "green-1-speed_ft": "9", "green-1-share": "100", "here-speed_ft": "10",
            "build-0-length_mm": "34", "build-0-lie_deg": "70", "build-0-loft_deg": "3",
        }  # fmt: skip
        assert pages.post("/fittings", data=new).status_code == 303
    second = pages.get("/?q=wren&page=2").text

    assert "3 to 4 of 5" in second
    assert 'rel="prev" href="/?q=wren"' in second
    assert 'rel="next" href="/?q=wren&amp;page=3"' in second
    assert "Wren 2" in second
    assert "Wren 4" not in second
    assert 'rel="next"' not in pages.get("/?page=3").text
    assert pages.get("/?page=lots").status_code == 200
