"""The list of fittings and the ground the pages are drawn on."""

from __future__ import annotations

import pytest

from puttwright.deeds.bootstrap import Shop


def test_an_empty_list_teaches(pages) -> None:
    answer = pages.get("/")

    assert answer.status_code == 200
    assert "No fitting yet" in answer.text
    assert "Every reading is on the disk" in answer.text


def test_a_fitting_is_listed_with_what_is_in_it(pages, full: str) -> None:
    text = pages.get("/").text

    assert "Robin &lt;b&gt;" in text
    assert "2 builds, 2 aims, 5 putts" in text
    assert f'href="{full}"' in text


@pytest.mark.parametrize(("words", "found"), [("rob", True), ("2026-05", True), ("zoe", False)])
def test_the_list_is_searched(pages, fitting_id: str, words: str, found: bool) -> None:
    text = pages.get("/", params={"q": words}).text

    assert (fitting_id in text) is found
    assert (f"Nothing holds “{words}”" in text) is not found
    assert f'value="{words}"' in text


@pytest.mark.parametrize("ground", ["paper", "sun", "bay"])
def test_the_ground_is_kept_and_shown(pages, ground: str) -> None:
    changed = pages.post("/ground", data={"ground": ground, "here": "/?q=a"})

    assert changed.headers["location"] == "/?q=a"
    assert f'data-ground="{ground}"' in pages.get("/").text


@pytest.mark.parametrize(
    "here", ["//elsewhere.example", "https://elsewhere.example", "/\\elsewhere", "", "x\r\ny: z"]
)
def test_one_only_goes_back_to_our_own_pages(pages, here: str) -> None:
    changed = pages.post("/ground", data={"ground": "bay", "here": here})

    assert changed.headers["location"] == "/"


def test_a_ground_that_is_not_there_changes_nothing(pages) -> None:
    assert "set-cookie" not in pages.post("/ground", data={"ground": "neon"}).headers
    pages.cookies.set("ground", "neon")
    assert 'data-ground="auto"' in pages.get("/").text


def test_the_colours_of_pages_and_drawings_are_one(pages, shop: Shop) -> None:
    style = pages.get("/grounds.css")

    assert style.headers["content-type"].startswith("text/css")
    assert ':root[data-ground="bay"]' in style.text
    assert "--pw-accent" in style.text
    assert pages.get("/mark.svg").headers["content-type"] == "image/svg+xml"
