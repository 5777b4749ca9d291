"""What the shop sets is what the pages do."""

from __future__ import annotations

import httpx
import pytest

from puttwright.deeds.bootstrap import Shop
from puttwright.deeds.keep_settings import CHOICES, PageSettings, look_at_settings
from puttwright.deeds.open_fitting import open_fitting
from puttwright.web.manner import speaking
from puttwright.web.measures import measure
from puttwright.web.texts import LANGUAGES

CHOSEN = {
    "shop": "Nordbahn <b>",
    "currency": "EUR",
    "tax_pct": "19",
    "tax_included": "yes",
    "measures": "imperial",
    "ground": "sun",
    "handed": "left",
    "language": "en",
}


@pytest.fixture
def kept(pages) -> httpx.Response:
    return pages.post("/settings", data=CHOSEN)


def test_what_is_set_is_shown_and_kept(pages, kept, shop: Shop) -> None:
    page = pages.get(kept.headers["location"]).text

    assert "Kept." in page
    assert 'value="Nordbahn &lt;b&gt;"' in page
    assert look_at_settings(shop.store) == PageSettings(**CHOSEN)


def test_the_shop_and_its_ground_stand_on_every_page(pages, kept) -> None:
    page = pages.get("/rack").text

    assert "Nordbahn &lt;b&gt;</a>" in page
    assert 'data-ground="sun"' in page


def test_a_device_keeps_its_own_ground(pages, kept) -> None:
    pages.post("/ground", data={"ground": "bay", "here": "/"})

    assert 'data-ground="bay"' in pages.get("/").text


def test_money_stands_in_a_new_quote(pages, kept, at: str) -> None:
    page = pages.get(f"{at}/workshop").text

    assert 'name="tax" value="19"' in page
    assert 'name="currency" value="EUR"' in page
    assert 'value="yes" checked> with tax' in page


def test_a_new_golfer_plays_as_most_do_there(pages, kept) -> None:
    assert 'value="left" checked' in pages.get("/fittings/new").text


@pytest.mark.parametrize(
    ("name", "typed", "told"),
    [
        ("tax_pct", "a lot", "is not a number"),
        ("tax_pct", "119", "lies outside 0 % to 100 %"),
        ("measures", "cubits", "Choose one of those offered."),
        ("language", "", "Needed."),
    ],
)
def test_what_cannot_be_set_is_told_beside_it_and_nothing_changes(
    pages, shop: Shop, name: str, typed: str, told: str
) -> None:
    answer = pages.post("/settings", data=CHOSEN | {name: typed})

    assert answer.status_code == 422
    assert told in answer.text
    assert 'value="Nordbahn &lt;b&gt;"' in answer.text
    assert look_at_settings(shop.store) == PageSettings()


def test_every_language_offered_has_a_name() -> None:
    assert tuple(LANGUAGES) == CHOICES["language"]


def test_a_fields_figure_is_said_and_read_in_inches(pages, kept, shop: Shop, at: str) -> None:
    assert ">in</span>" in pages.get("/fittings/new").text
    pages.post(f"{at}/take/putts", data={"hand": "B", "from": "3", "stop_past_m": "2"})
    pages.post(f"{at}/take/setups", data={"hand": "B", "eye_inside_mm": "1"})

    fitting = open_fitting(shop.store, at.rsplit("/", 1)[1]).fitting
    assert fitting.putts[0].stop_past_m == pytest.approx(2 * 0.3048)
    assert fitting.setups[0].eye_inside_mm == pytest.approx(25.4)
    assert "2.0\u202fft past" in pages.get(f"{at}/readings").text


def test_what_is_tapped_is_not_in_feet(pages, kept, shop: Shop, at: str) -> None:
    tap = {"hand": "B", "from": "3", "via": "tap", "stop_past_m": "0.50", "stop_right_m": "0.1"}
    pages.post(f"{at}/take/putts", data=tap)

    fitting = open_fitting(shop.store, at.rsplit("/", 1)[1]).fitting
    assert fitting.putts[0].stop_past_m == pytest.approx(0.5)


def test_a_field_that_starts_with_a_figure_starts_in_the_shops_measure(pages) -> None:
    assert 'name="build-0-length_mm" value="34"' in pages.get("/fittings/new").text
    pages.post("/settings", data=CHOSEN | {"measures": "metric"})

    assert 'name="build-0-length_mm" value="863.6"' in pages.get("/fittings/new").text


@pytest.mark.parametrize(
    ("measures", "said"),
    [("trade", "864\u2009mm"), ("metric", "864\u2009mm"), ("imperial", "34.00\u2009in")],
)
def test_a_figure_is_said_as_the_shop_measures(measures: str, said: str) -> None:
    with speaking(PageSettings(measures=measures)):
        assert measure(863.6, "mm") == said
        assert measure(2.5, "°", digits=1) == "2.5°"
