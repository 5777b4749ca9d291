"""How long a putt is and where the board stands, typed and read in the shop's measures."""

from __future__ import annotations

import re

import pytest

SETTINGS = {
    "language": "en", "measures": "imperial", "ground": "auto", "handed": "right",
    "tax_included": "no",
}  # fmt: skip


def _field(page: str, name: str) -> str:
    found = re.search(rf'<input id="{name}"[^>]*value="([^"]*)"', page)
    assert found
    return found[1]


@pytest.fixture
def in_feet(pages):
    """The pages of a shop that speaks of inches and feet."""
    assert pages.post("/settings", data=SETTINGS).status_code == 303
    return pages


def test_a_length_is_typed_in_feet_and_stays_the_same_when_it_is_taken_again(
    in_feet, full: str
) -> None:
    text = in_feet.get(full, params={"task": "putts", "from": "3", "hand": "A"}).text
    assert _field(text, "distance") == "9.843"

    again = in_feet.get(full, params={"task": "putts", "distance": "9.843", "hand": "A"}).text
    assert 'name="from" value="3"' in again


def test_a_board_is_typed_in_inches_and_any_unit_may_be_written(in_feet, full: str) -> None:
    text = in_feet.get(full, params={"task": "aims", "board-distance": "2.5 m", "hand": "A"}).text

    assert 'name="board" value="2500"' in text
    assert _field(text, "board-distance") == "98.425"


@pytest.mark.parametrize(
    ("typed", "told"), [("far", "is not a number"), ("900", "lies outside"), ("3 kg", "use")]
)
def test_what_cannot_be_a_length_is_told_beside_it_and_stays(
    in_feet, full: str, typed: str, told: str
) -> None:
    answer = in_feet.get(full, params={"task": "putts", "distance": typed, "hand": "A"})

    assert answer.status_code == 422
    assert _field(answer.text, "distance") == typed
    assert told in re.search(r'<p class="wrong" id="distance-wrong">([^<]*)', answer.text)[1]


def test_lengths_to_choose_and_what_was_tapped_are_in_feet(in_feet, full: str) -> None:
    text = in_feet.get(full, params={"task": "putts", "hand": "A", "from": "3"}).text

    assert "10 ft<small>3 m</small>" in text
    assert re.search(r'name="stop_past_m" data-tapped data-times="3\.28\d+"', text)
    assert re.search(r">from 9\.8\sft<", text)
