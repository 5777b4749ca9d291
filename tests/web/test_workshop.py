"""From the decision to an order to the bench, a degree off and back; the rack."""

from __future__ import annotations

import json
import re
from collections.abc import Callable
from typing import Any

import icalendar
import pytest

from puttwright.deeds.bootstrap import Shop
from puttwright.deeds.keep_rack import look_at_rack


@pytest.fixture
def spec(opened: Callable[[], Any]) -> dict[str, str]:
    """Build B as the bench would type it."""
    build = opened().fitting.build("B")
    return {name: f"{getattr(build, name):g}" for name in ("length_mm", "lie_deg", "loft_deg")}


@pytest.fixture
def order_at(pages: Any, full: str) -> str:
    """The address of an order of build B."""
    typed = {"build": "B", "what-1": "work", "price-1": "40", "tax": "19", "currency": "EUR",
             "entry_key": "once"}  # fmt: skip
    answered = pages.post(f"{full}/orders", data=typed)
    assert answered.status_code == 303
    return str(answered.headers["location"])


def test_a_degree_off_is_reworked_and_passes_when_bent_back(
    pages: Any, order_at: str, spec: dict[str, str]
) -> None:
    off = spec | {"loft_deg": f"{float(spec['loft_deg']) + 1:g}"}
    assert pages.get(f"{order_at}/reminders.ics").status_code == 409
    assert pages.post(f"{order_at}/check-in", data=off | {"entry_key": "1"}).status_code == 303
    shown = pages.get(order_at).text
    assert "Rework it, then measure again." in shown
    assert "bend 1.0° stronger" in shown
    assert "Checked in on 1 May 2026: to be reworked" in shown

    pages.post(f"{order_at}/check-in", data=spec | {"entry_key": "2"})
    shown = pages.get(order_at).text
    assert shown.index("Pass: it is what was ordered.") < shown.index("Rework it")
    assert "Checked in on 1 May 2026: passed" in shown
    assert "Checked before: 1" in shown
    calendar = pages.get(f"{order_at}/reminders.ics")
    events = icalendar.Calendar.from_ical(calendar.content).walk("VEVENT")
    assert len(events) == 3
    assert order_at in str(events[0]["url"])


@pytest.mark.parametrize(
    ("measured", "told"),
    [
        ("838", "838 mm, ordered 838 mm ± 3; on it"),
        ("839", "839 mm, ordered 838 mm ± 3; 1 mm over"),
        ("836.6", "836.6 mm, ordered 838.0 mm ± 3; 1.4 mm under"),
    ],
)
def test_what_was_measured_ordered_and_off_agree(
    pages: Any, order_at: str, spec: dict[str, str], measured: str, told: str
) -> None:
    pages.post(f"{order_at}/check-in", data=spec | {"length_mm": measured})

    assert told in pages.get(order_at).text.replace("\u202f", " ")


def test_a_check_sent_twice_is_kept_once(pages: Any, order_at: str, spec: dict[str, str]) -> None:
    for _ in range(2):
        pages.post(f"{order_at}/check-in", data=spec | {"entry_key": "1"})
    assert pages.get(order_at).text.count('class="check ') == 1


def test_after_weeks_drift_is_told(pages: Any, order_at: str, spec: dict[str, str]) -> None:
    drifted = {"again-loft_deg": f"{float(spec['loft_deg']) + 1.5:g}", "entry_key": "1"}
    assert pages.post(f"{order_at}/check-again", data=drifted).status_code == 303
    assert "Check loft in again against the order" in pages.get(order_at).text


@pytest.mark.parametrize(
    ("way", "typed", "sentence"),
    [
        ("check-in", {}, "Nothing was measured"),
        ("check-in", {"loft_deg": "40"}, "lies outside"),
        ("check-in", {"loft_deg": "three"}, "is not a number"),
        ("check-again", {}, "Nothing was measured again"),
        ("check-again", {"starts-note": "0.1 0.2"}, "holds no figures of start lines"),
        ("check-again", {"aims-note": "1 2 far"}, "is not a number"),
    ],
)
def test_what_cannot_be_judged_is_told_and_not_kept(
    pages: Any, order_at: str, way: str, typed: dict[str, str], sentence: str
) -> None:
    answered = pages.post(f"{order_at}/{way}", data=typed)
    assert answered.status_code == 422
    assert sentence in answered.text
    assert 'class="check ' not in pages.get(order_at).text


@pytest.mark.slow
def test_the_papers_of_an_order(pages: Any, order_at: str) -> None:
    for name in ("order.pdf", "quote.pdf"):
        assert pages.get(f"{order_at}/{name}").content.startswith(b"%PDF")
    told = json.loads(pages.get(f"{order_at}/order.json").content)
    assert (told["schema"], told["quote"]["tax_pct"]) == ("puttwright-order/1", 19)


def test_the_workshop_shows_the_rules_for_every_build_and_the_orders(
    pages: Any, full: str, order_at: str
) -> None:
    shown = pages.get(f"{full}/workshop").text
    assert shown.count("within, 0 beyond") == 2
    assert "The governing bodies decide" in shown
    assert order_at in shown
    assert "being made" in shown
    assert f"{full}/workshop" in pages.get(f"{full}/decision").text


@pytest.mark.parametrize(
    ("typed", "sentence"),
    [({"price-1": "-4"}, "below 0"), ({"tax": "a lot"}, "is not a number"),
     ({"build": "", "price-1": ""}, "asks for no build yet")],
)  # fmt: skip
def test_an_order_that_cannot_be_made_says_why(
    pages: Any, at: str, typed: dict[str, str], sentence: str
) -> None:
    answered = pages.post(f"{at}/orders", data={"build": "B"} | typed)
    assert answered.status_code == 422
    assert sentence in answered.text


def test_parts_go_on_and_off_the_rack(pages: Any, shop: Shop) -> None:
    typed = {"part_id": "H3", "kind": "head", "label": "Mallet", "loft_deg": "3,5", "stock": "2"}
    assert pages.post("/rack", data=typed).status_code == 303
    shown = pages.get("/rack").text
    assert "Mallet" in shown
    assert "2 in stock" in shown
    for name in ("rack.csv", "rack.xlsx"):
        data = pages.get(f"/{name}").content
        pages.post("/rack/H3/off")
        assert look_at_rack(shop.store) == ()
        files = {"table": (name, data, "application/octet-stream")}
        assert pages.post("/rack/import", files=files).status_code == 303
        assert [part.loft_deg for part in look_at_rack(shop.store)] == [3.5]
    assert pages.post("/rack/nobody/off").status_code == 404


@pytest.mark.parametrize(
    ("typed", "sentence"),
    [
        ({"part_id": "", "kind": "head"}, "Needed."),
        ({"part_id": "H1", "kind": "hat"}, "Choose one"),
        ({"part_id": "H1", "kind": "head", "mass_g": "-5"}, "lies outside"),
        ({"part_id": "H1", "kind": "head", "stock": "1.5"}, "is not a whole number"),
        ({"part_id": "H1", "kind": "head", "loft_min_deg": "5", "loft_max_deg": "1"}, "more than"),
    ],
)
def test_a_part_that_cannot_be_is_told(
    pages: Any, shop: Shop, typed: dict[str, str], sentence: str
) -> None:
    answered = pages.post("/rack", data=typed)
    assert answered.status_code == 422
    assert sentence in answered.text
    assert look_at_rack(shop.store) == ()


def test_a_table_with_faults_is_told_row_by_row(pages: Any, shop: Shop) -> None:
    table = b"part_id,kind,mass_g\nG1,grip,60\nG2,grip,-1\n"
    answered = pages.post("/rack/import", files={"table": ("rack.csv", table, "text/csv")})
    assert answered.status_code == 422
    assert re.search(r"row 3, mass_g: -1 g is out of range", answered.text)
    assert look_at_rack(shop.store) == ()


RACK = b"""part_id,kind,head_shape,mass_g,loft_deg,lie_deg,length_mm,grip_diameter_mm,price,fits
H1,head,mallet,350,2,71,,,190,N1
N1,neck,,20,,,,,35,
S1,shaft,,110,,,900,,30,
"""


def test_the_workshop_tells_what_the_rack_makes_of_the_choice_or_why_not(
    pages: Any, full: str
) -> None:
    assert "From the rack" not in pages.get(f"{full}/workshop").text
    pages.post("/rack/import", files={"table": ("rack.csv", RACK, "text/csv")})
    shown = pages.get(f"{full}/workshop").text
    assert "that can be built from the parts there are: 1." in shown
    assert "H1, N1, S1" in shown
    assert "parts 255.00" in shown

    pages.post("/rack/import", files={"table": ("r.csv", RACK.replace(b",900,", b",700,"), "x")})
    assert "the longest gives 700 mm" in pages.get(f"{full}/workshop").text
