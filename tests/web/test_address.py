"""The address page: what is foretold, the window asked for, one address taken."""

from __future__ import annotations

import re
from collections.abc import Callable

from puttwright.deeds.open_fitting import OpenFitting

TYPED = {
    "entry_key": "s1", "hand": "A", "eye_inside_mm": "60", "hands_height_mm": "735",
    "sole_tilt_deg": "1.5", "grip_style": "claw",
}  # fmt: skip


def test_before_anything_is_measured_it_says_so(pages, at: str) -> None:
    text = pages.get(f"{at}/address").text

    assert "No address was measured" in text
    assert "Comfort decides" in text
    assert "clinician" in text
    here = re.search(r'aria-current="page"><span[^>]*></span>([A-Z][a-z]+)', text)
    assert here
    assert here[1] == "Address"


def test_an_address_is_recorded_and_rested_on(
    pages, at: str, opened: Callable[[], OpenFitting]
) -> None:
    answer = pages.post(f"{at}/address", data=TYPED)
    setup = opened().fitting.setups[0]
    text = pages.get(f"{at}/address").text

    assert (answer.status_code, answer.headers["location"]) == (303, f"{at}/address")
    assert (setup.eye_inside_mm, setup.hands_height_mm, setup.grip_style) == (60, 735, "claw")
    assert "With Old faithful the golfer has the eyes 6" in text
    assert "rests on addresses 1" in text


def test_the_same_form_sent_twice_is_one_address(
    pages, at: str, opened: Callable[[], OpenFitting]
) -> None:
    for _ in range(2):
        pages.post(f"{at}/address", data=TYPED)

    assert len(opened().fitting.setups) == 1


def test_what_is_wrong_is_told_at_its_field_and_nothing_is_kept(
    pages, at: str, opened: Callable[[], OpenFitting]
) -> None:
    answer = pages.post(f"{at}/address", data=TYPED | {"eye_inside_mm": "6000"})

    assert answer.status_code == 422
    assert "6000 mm lies outside" in answer.text
    assert 'value="735"' in answer.text
    assert opened().fitting.setups == ()


def test_an_empty_form_is_no_address(pages, at: str) -> None:
    answer = pages.post(f"{at}/address", data={"entry_key": "s2", "hand": "A"})

    assert answer.status_code == 422
    assert "Write at least one figure or a note." in answer.text


def test_the_fitter_says_where_the_eyes_should_be(pages, at: str) -> None:
    text = pages.get(f"{at}/address?from=-10&to=10").text

    assert "For eyes −10 to 10\u202fmm inside" in text
    assert 'value="-10"' in text


def test_a_window_that_is_none_is_told_and_the_usual_one_drawn(pages, at: str) -> None:
    text = pages.get(f"{at}/address?from=wide&to=9000").text

    assert "is not a number" in text
    assert "9000 mm lies outside" in text
    assert "For eyes 0 to 30\u202fmm inside" in text


def test_a_left_hander_is_drawn_on_the_other_side(pages, started: Callable[[str], str]) -> None:
    left = started("left")

    assert "A left-hander seen from behind" in pages.get(f"/fittings/{left}/address").text
