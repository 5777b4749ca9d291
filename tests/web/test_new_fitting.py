from __future__ import annotations

import re

import pytest

from puttwright.deeds.bootstrap import Shop
from puttwright.deeds.find_fittings import find_fittings
from puttwright.deeds.open_fitting import open_fitting
from puttwright.evidence import Fitting

GOOD = {
    "entry_key": "k1",
    "golfer-alias": "Robin",
    "golfer-handed": "left",
    "golfer-stature_mm": "5 ft 10 in",
    "green-1-name": "home",
    "green-1-speed_ft": "9,5",
    "green-1-share": "70",
    "green-2-name": "away",
    "green-2-speed_ft": "11 ft",
    "green-2-share": "30 %",
    "here-speed_ft": "10",
    "here-slope_pct": "0",
    "build-0-label": "Old faithful",
    "build-0-length_mm": "34",
    "build-0-lie_deg": "70°",
    "build-0-loft_deg": "3",
    "build-2-length_mm": "860 mm",
    "build-2-lie_deg": "71.5",
    "build-2-loft_deg": "-0.5",
    "build-2-head_shape": "mallet",
}


def _only(shop: Shop) -> Fitting:
    (line,) = find_fittings(shop.store)
    return open_fitting(shop.store, line.fitting_id).fitting


def test_the_form_opens_with_sensible_values(pages) -> None:
    text = pages.get("/fittings/new").text

    assert re.search(r'name="build-0-length_mm" value="34"', text)
    assert re.search(r'name="build-0-lie_deg" value="70"', text)


def test_what_people_say_is_stored_in_our_units(pages, shop: Shop) -> None:
    answer = pages.post("/fittings", data=GOOD)

    assert answer.status_code == 303
    fitting = _only(shop)
    assert answer.headers["location"] == f"/fittings/{fitting.fitting_id}"
    own, other = fitting.builds
    assert own.length_mm == pytest.approx(863.6)
    assert (own.build_id, own.lie_deg, own.loft_deg) == ("A", 70, 3)
    assert (other.build_id, other.length_mm, other.head_shape) == ("B", 860, "mallet")
    assert other.loft_deg == -0.5
    assert fitting.golfer.stature_mm == pytest.approx(1778)
    assert [green.share for green in fitting.greens] == pytest.approx([0.7, 0.3])
    assert fitting.greens[0].speed_ft == 9.5


def test_sent_twice_starts_one_fitting(pages, shop: Shop) -> None:
    first, second = (pages.post("/fittings", data=GOOD) for _ in range(2))

    assert first.headers["location"] == second.headers["location"]
    assert len(find_fittings(shop.store)) == 1


BAD = [
    ("golfer-alias", "", "Needed."),
    ("golfer-handed", "", "Needed."),
    ("golfer-handed", "both", "Choose one of those offered."),
    ("golfer-stature_mm", "tall", "“tall” is not a number"),
    ("golfer-stature_mm", "70 kg", "ends in a unit that does not fit"),
    ("golfer-handicap", "99", "99 lies outside −10 to 54."),
    ("green-1-speed_ft", "40", "40 ft lies outside 3 ft to 16 ft."),
    ("green-1-speed_ft", "", "Needed."),
    ("build-0-length_mm", "12", "12 in lies outside 18 in to 62.992 in."),
    ("build-0-loft_deg", "45", "45° lies outside −15° to 15°."),
    ("build-0-lie_deg", "1,2,3", "is not a number"),
    ("build-2-length_mm", "", "Needed."),
    ("build-2-head_shape", "round", "Choose one of those offered."),
    ("here-speed_ft", "nan", "is not a number"),
    ("here-speed_ft", "1e400", "is not a number"),
]


@pytest.mark.parametrize(("name", "typed", "told"), BAD)
def test_what_was_typed_stays_and_the_message_stands_beside_it(
    pages, shop: Shop, name: str, typed: str, told: str
) -> None:
    answer = pages.post("/fittings", data=GOOD | {name: typed})

    assert answer.status_code == 422
    beside = answer.text.split(f'name="{name}"', 1)[1][:1600]
    assert told in beside
    assert f'id="{name}-wrong"' in answer.text
    if typed and name not in {"golfer-handed", "build-2-head_shape"}:
        assert f'name="{name}" value="{typed}"' in answer.text
    assert 'name="golfer-stature_mm" value="' in answer.text
    assert find_fittings(shop.store) == []


def test_faults_between_fields_are_told_on_top(pages, shop: Shop) -> None:
    answer = pages.post("/fittings", data=GOOD | {"green-2-share": "20"})

    assert answer.status_code == 422
    assert "the shares sum to 0.9; they must sum to 1" in answer.text
    assert find_fittings(shop.store) == []


def test_an_empty_form_is_told_and_nothing_breaks(pages) -> None:
    answer = pages.post("/fittings", data={})

    assert answer.status_code == 422
    assert answer.text.count("Needed.") >= 5


def test_markup_that_is_typed_is_only_text(pages) -> None:
    answer = pages.post("/fittings", data={"golfer-alias": '"><script>alert(1)</script>'})

    assert "<script>alert" not in answer.text
