from __future__ import annotations

import pytest

from puttwright.web import guard
from puttwright.web.guard import HEADERS, own_names


@pytest.mark.parametrize("host", ["elsewhere.example", "testserver:81", "testserver.example", ""])
def test_a_page_elsewhere_gets_nothing(pages, host: str) -> None:
    answer = pages.get("/", headers={"host": host})

    assert answer.status_code == 403
    assert "puttwright" not in answer.text


@pytest.mark.parametrize(
    "headers",
    [
        {"origin": "http://elsewhere.example"},
        {"origin": "null"},
        {"origin": "http://[1"},
        {"sec-fetch-site": "cross-site"},
        {"sec-fetch-site": "same-site"},
    ],
)
def test_a_page_elsewhere_may_not_send_an_entry(pages, headers: dict[str, str]) -> None:
    assert pages.post("/ground", data={"ground": "bay"}, headers=headers).status_code == 403


@pytest.mark.parametrize(
    "headers",
    [{}, {"origin": "http://testserver"}, {"sec-fetch-site": "same-origin"}],
)
def test_our_own_page_may(pages, headers: dict[str, str]) -> None:
    assert pages.post("/ground", data={"ground": "bay"}, headers=headers).status_code == 303


@pytest.mark.parametrize("path", ["/", "/nowhere", "/static/entry.js", "/fittings/none"])
def test_every_answer_carries_the_headers(pages, path: str) -> None:
    answer = pages.get(path)

    assert {name: answer.headers[name] for name in HEADERS} == HEADERS
    assert "unsafe" not in answer.headers["content-security-policy"]


def test_pages_are_not_kept_but_fingerprinted_files_are(pages) -> None:
    assert pages.get("/").headers["cache-control"] == "no-store"
    assert "immutable" in pages.get("/static/entry.js?v=1").headers["cache-control"]
    assert pages.get("/static/entry.js").headers["cache-control"] == "no-cache"


def test_a_form_that_is_too_large_is_refused(pages, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(guard, "FORM_BYTES", 1000)

    answer = pages.post("/fittings", data={"golfer-alias": "x" * 2000})

    assert answer.status_code == 413
    assert "more than this page takes" in answer.text


def test_a_form_of_too_many_fields_is_refused(pages) -> None:
    answer = pages.post("/fittings", data={f"f{number}": "" for number in range(1000)})

    assert answer.status_code == 400


def test_this_machine_has_three_names() -> None:
    assert own_names(8417) == {"127.0.0.1:8417", "localhost:8417", "[::1]:8417"}
