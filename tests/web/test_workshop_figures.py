"""A putter's figures and another feel, what the rack makes, a head on the bench."""

from __future__ import annotations

from typing import Any

import pytest

from puttwright.deeds.bootstrap import Shop
from puttwright.deeds.keep_rack import look_at_rack

RACK = b"""part_id,kind,mass_g,loft_deg,lie_deg,length_mm,stock,price,fits,alloy,neck_joint
H1,head,350,3,71,,2,190,N1,carbon steel,one_piece
N1,neck,20,,,,,35,,,
T1,shaft,110,,,900,,30,,,
S5,weight,5,,,,4,6,,,
S10,weight,10,,,,2,8,,,
P1,putter,545,2,71,864,1,320,,,
"""


@pytest.fixture
def stocked(pages: Any, full: str) -> str:
    """The address of a fitting whose shop has a rack."""
    sent = {"table": ("rack.csv", RACK, "text/csv")}
    assert pages.post("/rack/import", files=sent).status_code == 303
    return full


def test_the_workshop_leads_to_every_putters_figures(pages: Any, full: str) -> None:
    assert f'href="{full}/putters/B"' in pages.get(f"{full}/workshop").text
    shown = pages.get(f"{full}/putters/B").text
    for words in ("Swing weight", "Inertia about the butt", "taken as 110 g", "10 g more in"):
        assert words in shown
    assert pages.get(f"{full}/putters/Z").status_code == 404


def test_another_feel_is_found_with_the_weights_in_stock(pages: Any, stocked: str) -> None:
    shown = pages.get(f"{stocked}/putters/B?swing_weight=G5&tape_g=3&length_mm=35").text
    assert "Wanted: G5.0." in shown
    assert "From stock into the head: 2 × S10 and 3 g of tape" in shown
    assert "Weight in the butt" in shown


@pytest.mark.parametrize(
    ("query", "sentence"),
    [
        ("swing_weight=heavy", "is no swing weight"),
        ("length_mm=35", "one of swing weight, balance point or total mass at a time; got none"),
        ("total_mass_g=540&balance_from_butt_mm=600", "got balance point, total mass"),
        ("balance_from_butt_mm=1400", "cannot balance 1400 mm from its butt"),
        ("total_mass_g=-3", "lies outside"),
        ("total_mass_g=540&length_mm=45", "No shaft in stock gives 1143 mm"),
    ],
)
def test_a_feel_that_cannot_be_is_told(pages: Any, stocked: str, query: str, sentence: str) -> None:
    answered = pages.get(f"{stocked}/putters/B?{query}")
    assert answered.status_code == 422
    assert sentence in answered.text.replace("&#39;", "'")


def test_the_rack_is_searched_near_to_any_build_and_handed_over_to_try(
    pages: Any, stocked: str
) -> None:
    shown = pages.get(f"{stocked}/rack?near=A").text
    assert "Putters the rack makes or holds: 4." in shown
    assert "stands in the shop" in shown
    assert "swing weight" not in shown  # the grip was never weighed
    form = pages.get(f"{stocked}/builds/new?part=H1&part=N1&part=T1&near=A").text
    assert 'value="H1"' in form
    assert pages.get(f"{stocked}/rack?near=Z").status_code == 404
    assert pages.get(f"{stocked}/builds/new?part=X").status_code == 404


@pytest.mark.slow
def test_the_rack_tells_what_each_is_worth_to_this_golfer(pages: Any, stocked: str) -> None:
    shown = pages.get(f"{stocked}/rack?by=strokes").text
    assert "strokes a round (" in shown
    assert "better than the own putter" in shown
    assert "parts 255.00" in shown


def test_an_empty_rack_and_one_that_makes_nothing_are_told(pages: Any, full: str) -> None:
    assert "The rack is empty" in pages.get(f"{full}/rack").text
    sent = {"table": ("rack.csv", RACK.splitlines()[0] + b"\nT1,shaft,,,,,,,,,\n", "text/csv")}
    pages.post("/rack/import", files=sent)
    assert "There is no head in stock" in pages.get(f"{full}/rack").text


def test_a_head_on_the_bench_goes_to_the_rack_when_that_is_asked(
    pages: Any, shop: Shop, stocked: str
) -> None:
    typed = {"part_id": "H1", "kind": "head", "loft_deg": "3,0 3.5; 3.25", "lie_deg": "71",
             "alloy": "brass", "neck_joint": "one_piece"}  # fmt: skip
    looked = pages.post("/rack/bench", data=typed | {"do": "look"}).text
    assert "loft: 3.25° (" in looked
    assert "May be bent to loft 2.2° to 4.2°" in looked
    assert next(p for p in look_at_rack(shop.store) if p.part_id == "H1").loft_deg == 3
    assert "It is on the rack." in pages.post("/rack/bench", data=typed | {"do": "keep"}).text
    part = next(p for p in look_at_rack(shop.store) if p.part_id == "H1")
    assert (part.loft_deg, part.alloy, part.stock, part.price) == (3.25, "brass", 2, 190)
    assert "made of brass or bronze" in pages.get("/rack").text


@pytest.mark.parametrize(
    ("typed", "sentence"),
    [
        ({}, "Nothing was measured"),
        ({"loft_deg": "3 x"}, "“x” is not a number"),
        ({"mass_g": "-4"}, "lies outside"),
        ({"balance_from_butt_mm": "600"}, "A head has no balance point"),
        ({"kind": "putter", "balance_from_butt_mm": "900", "length_mm": "864"}, "cannot balance"),
        ({"period_s": "1.3"}, "Timings on two threads need"),
        ({"part_id": "", "loft_deg": "3"}, "Needed."),
    ],
)
def test_what_no_bench_could_read_is_told_and_not_kept(
    pages: Any, shop: Shop, typed: dict[str, str], sentence: str
) -> None:
    answered = pages.post("/rack/bench", data={"part_id": "H9", "kind": "head"} | typed)
    assert answered.status_code == 422
    assert sentence in answered.text
    assert look_at_rack(shop.store) == ()


def test_a_putter_of_zinc_a_degree_off_is_refused_with_the_reason(pages: Any, full: str) -> None:
    rack = b"part_id,kind,loft_deg,lie_deg,alloy\nH1,head,2,71,zinc\n"
    pages.post("/rack/import", files={"table": ("rack.csv", rack, "text/csv")})
    build = {"build_id": "Z", "label": "Zinc", "length_mm": "34", "lie_deg": "71", "loft_deg": "3",
             "head_id": "H1"}  # fmt: skip
    assert pages.post(f"{full}/builds", data=build).status_code == 303
    made = pages.post(f"{full}/orders", data={"build": "Z", "entry_key": "z"})
    order_at = made.headers["location"]
    assert "Never bend this head: zinc snaps. It gives a loft of 2.0°" in pages.get(order_at).text
    off = {"length_mm": "863.6", "lie_deg": "71", "loft_deg": "4", "entry_key": "1"}
    pages.post(f"{order_at}/check-in", data=off)
    shown = pages.get(order_at).text
    assert "Refuse it" in shown
    assert "It is never bent: another head or neck" in shown
