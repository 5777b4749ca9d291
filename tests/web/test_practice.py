"""A practice: an invented golfer putts when asked, the truth ends it, nobody's history knows."""

from __future__ import annotations

import io
import json
import re
import zipfile

import pytest

from puttwright.deeds.bootstrap import Shop
from puttwright.deeds.decide_fitting import decide_fitting
from puttwright.deeds.open_fitting import open_fitting
from puttwright.deeds.practise import practise, start_practice


@pytest.fixture(params=["right", "left"])
def at(pages, request) -> str:
    begun = pages.post("/practice", data={"handed": request.param, "entry_key": "k"})
    return begun.headers["location"]


def _id(at: str) -> str:
    return at.rsplit("/", 1)[1]


def _hidden(page: str) -> dict[str, str]:
    form = page[page.index("/once") :]
    return dict(re.findall(r'name="(\w+)" value="([^"]*)"', form[: form.index("</form>")]))


def test_the_golfer_putts_and_aims_with_what_is_in_hand(pages, shop: Shop, at: str) -> None:
    for query in ("?hand=B&task=putts&from=5", "?hand=A&task=aims"):
        page = pages.get(at + query).text
        assert "An invented golfer, kept out of every history." in page
        done = pages.post(f"/practice/{_id(at)}/once", data=_hidden(page))
        assert done.headers["location"].startswith(at)

    fitting = open_fitting(shop.store, _id(at)).fitting
    assert [(putt.build_id, putt.distance_m) for putt in fitting.putts] == [("B", 5.0)]
    assert [aim.build_id for aim in fitting.aims] == ["A"]


def test_the_same_press_twice_is_one_putt(pages, shop: Shop, at: str) -> None:
    pressed = _hidden(pages.get(f"{at}?task=putts").text)
    for _ in range(2):
        pages.post(f"/practice/{_id(at)}/once", data=pressed)

    assert len(open_fitting(shop.store, _id(at)).fitting.putts) == 1


def test_it_is_found_under_practice_and_nowhere_else(pages, at: str) -> None:
    assert f'href="{at}"' in pages.get("/practice").text
    assert _id(at) not in pages.get("/").text
    assert _id(at) not in pages.get("/golfers").text
    assert pages.get(f"/golfers/{_id(at)}").status_code == 404


def test_the_truth_stands_beside_what_was_believed_and_ends_it(pages, shop: Shop, at: str) -> None:
    for build in "ABAB":
        practise(shop.store, shop.clock, fitting_id=_id(at), kind="putts", build_id=build,
                 distance_m=3.0, entry_key=f"{build}{id(object())}", who="fitter")  # fmt: skip
    decide_fitting(shop.store, shop.clock, fitting_id=_id(at), decide=shop.decide)
    shown = pages.get(pages.post(f"/practice/{_id(at)}/truth").headers["location"]).text
    assert re.search(r"For \d of 3 putters the truth lies", shown)
    assert "Belief and truth" in shown
    refused = pages.post(f"/practice/{_id(at)}/once", data={"task": "putts", "hand": "A"})

    assert refused.status_code == 409
    assert "The truth of this practice was shown" in refused.text


def test_the_truth_of_a_fitting_with_a_person_is_not_to_be_had(pages, fitting_id: str) -> None:
    assert pages.post(f"/practice/{fitting_id}/truth").status_code == 404
    assert pages.post(f"/practice/{fitting_id}/once", data={"task": "putts"}).status_code == 404


def test_the_same_golfer_comes_in_for_the_same_key_and_putts_the_same(shop: Shop) -> None:
    ids = {
        start_practice(shop.store, shop.clock, handed="left", entry_key="one", who="fitter")
        for _ in range(2)
    }

    assert len(ids) == 1


def test_a_package_of_a_practice_says_so(pages, at: str) -> None:
    package = pages.get(f"{at}/package.zip").content
    with zipfile.ZipFile(io.BytesIO(package)) as files:
        (head,) = [name for name in files.namelist() if name.endswith("fitting.json")]
        written = json.loads(files.read(head))

    assert written["practice"] is True
