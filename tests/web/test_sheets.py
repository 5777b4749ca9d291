"""The decision in full, the client's view, all readings, paper, and packages coming in."""

from __future__ import annotations

import io
import re
import zipfile
from collections.abc import Callable
from pathlib import Path

import pytest

from puttwright.deeds.bootstrap import Shop, open_shop
from puttwright.deeds.export_package import export_package
from puttwright.deeds.open_fitting import OpenFitting
from puttwright.web.app import create_app


def test_the_decision_shows_everything_it_says(pages, full: str) -> None:
    text = pages.get(f"{full}/decision").text

    for said in (
        "Change to Blade (B).",
        "It rests on 5 putts.",
        "rests on putts 3–7",
        "Mind that this is made up.",
        "What would change the answer",
        "More putts would.",
        "Hand over in this order",
        "What each build is worth",
        "What would be ordered",
        "Version 0.1.0, seed 1",
    ):
        assert said in text, said
    assert text.count("<caption>") >= 2  # every drawing is a table too


def test_the_putters_stand_side_by_side(pages, full: str) -> None:
    text = pages.get(f"{full}/compare").text

    for said in (
        "What each build is worth",
        "Better than their own",
        "Where each looks at address",
        "Where the putts stopped, from 3.0\u202fm",
        "The chance to hole",
    ):
        assert said in text, said
    assert text.count("<caption>") >= 4


def test_every_drawing_on_a_page_has_ids_of_its_own(pages, full: str) -> None:
    for page in (
        "",
        "?task=putts&look=strike",
        "/hour",
        "/compare",
        "/decision",
        "/client",
        "/gauge",
    ):
        ids = re.findall(r'\sid="([^"]+)"', pages.get(full + page).text)
        assert len(ids) == len(set(ids)), page


@pytest.mark.parametrize(
    "page",
    ["", "/hour", "/interview", "/gauge", "/compare", "/decision", "/client", "/readings",
     "/builds/new"],
)  # fmt: skip
def test_no_page_carries_script_or_style_of_its_own(pages, full: str, page: str) -> None:
    text = pages.get(full + page).text

    assert not re.search(r"<script(?![^>]*\ssrc=)", text)
    assert not re.search(r"<style|\sstyle=|\son\w+=|javascript:", text)
    assert not re.search(r'(?:href|src|action)="(?:https?:)?//', text)


@pytest.mark.parametrize("page", ["/decision", "/client", "/readings"])
def test_before_the_first_reading_a_page_says_so(pages, at: str, page: str) -> None:
    answer = pages.get(at + page)

    assert answer.status_code == 200
    assert re.search("No decision yet|not seen enough|No reading yet", answer.text)


def test_a_putter_nobody_putted_with_does_not_count_as_tried(
    pages, at: str, record, decide
) -> None:
    record()
    decide()

    text = pages.get(f"{at}/client").text

    assert "Putts: 1, aim readings: 0, all with one putter." in text


def test_the_client_reads_plain_words(pages, full: str) -> None:
    text = pages.get(f"{full}/client").text

    assert "Blade suits you better than your own putter." in text
    assert "5 putts and 2 aim readings with 2 putters." in text
    assert "How sure we are" in text
    assert "seed" not in text


def test_every_reading_is_listed_and_can_be_taken_back_for_a_reason(
    pages, full: str, opened: Callable[[], OpenFitting]
) -> None:
    before = pages.get(f"{full}/readings").text
    sent = {"kind": "putts", "seq": "3", "why": "distracted"}
    answer = pages.post(f"{full}/readings/void", data=sent)
    after = pages.get(f"{full}/readings").text

    assert before.count("<li id=") == 7
    assert answer.headers["location"] == f"{full}/readings#putts-3"
    assert "taken back: the golfer was distracted" in after
    assert after.count("<li id=") == 7
    assert [kept.seq for kept in opened().history if kept.void] == [3]


def test_a_reading_is_taken_back_once(pages, full: str) -> None:
    sent = {"kind": "putts", "seq": "3"}
    pages.post(f"{full}/readings/void", data=sent | {"why": "slip"})

    assert pages.post(f"{full}/readings/void", data=sent | {"why": "practice"}).status_code == 409


def test_the_decision_goes_along_as_a_file(pages, full: str) -> None:
    answer = pages.get(f"{full}/decision.json")

    assert answer.json()["choice"] == "B"
    assert answer.headers["content-disposition"].startswith("attachment;")
    assert pages.get(f"{full}/decision.json").content == answer.content


@pytest.mark.slow
@pytest.mark.parametrize("sheet", ["report.pdf", "order.pdf"])
def test_the_sheets_are_pdfs(pages, full: str, sheet: str) -> None:
    answer = pages.get(f"{full}/{sheet}")

    assert answer.status_code == 200
    assert answer.headers["content-type"] == "application/pdf"
    assert answer.content.startswith(b"%PDF-")


def test_a_package_goes_out_and_comes_in_elsewhere(
    pages, full: str, opened: Callable[[], OpenFitting], tmp_path: Path, elsewhere: Shop
) -> None:
    package = pages.get(f"{full}/package.zip")
    assert zipfile.ZipFile(io.BytesIO(package.content)).testzip() is None
    other = type(pages)(create_app(elsewhere, hosts={"testserver"}))

    taken = other.post("/import", files={"package": ("../../x.zip", package.content)})

    assert taken.status_code == 303
    assert taken.headers["location"] == full
    assert other.get(f"{full}/package.zip").content == package.content
    assert "2 builds, 2 aims, 5 putts" in other.get("/").text


@pytest.fixture
def elsewhere(tmp_path: Path, shop: Shop):
    opened_shop = open_shop(tmp_path / "elsewhere", clock=shop.clock, decide=shop.decide)
    yield opened_shop
    opened_shop.close()


def test_a_package_with_faults_is_told_whole_and_not_taken(pages, shop: Shop, full: str) -> None:
    good = export_package(shop.store, full.rsplit("/", maxsplit=1)[-1])
    bad = io.BytesIO()
    with zipfile.ZipFile(io.BytesIO(good)) as source, zipfile.ZipFile(bad, "w") as target:
        for name in source.namelist():
            data = source.read(name)
            if name.endswith("builds.csv"):
                data = data.replace(b",864,", b",long,").replace(b",838,", b",12,")
            target.writestr(name, data)

    answer = pages.post("/import", files={"package": ("x.zip", bad.getvalue())})

    assert answer.status_code == 422
    assert "2 things need to be put right" in answer.text
    assert "builds.csv, row 2, length_mm" in answer.text
    assert "builds.csv, row 3, length_mm" in answer.text


@pytest.mark.parametrize(
    ("sent", "told"),
    [
        ({"files": {"package": ("x.zip", b"")}}, "One thing needs to be put right"),
        ({"files": {"package": ("x.zip", b"no zip at all")}}, "One thing needs to be put right"),
        ({"data": {"package": "text"}}, "Choose a file first."),
        ({}, "Choose a file first."),
    ],
)
def test_what_is_no_package_is_told(pages, sent: dict, told: str) -> None:
    answer = pages.post("/import", **sent)

    assert answer.status_code == 422
    assert told in answer.text


def test_a_broken_form_is_told(pages) -> None:
    headers = {"content-type": "multipart/form-data; boundary=x"}
    answer = pages.post("/import", content=b"--y\r\nnonsense", headers=headers)

    assert answer.status_code in {400, 422}


def test_the_import_page_opens(pages) -> None:
    assert 'enctype="multipart/form-data"' in pages.get("/import").text
