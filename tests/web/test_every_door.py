"""Every page there is, asked as a browser asks and as a page elsewhere would."""

from __future__ import annotations

import re
from collections.abc import Iterator
from pathlib import Path
from typing import Any

import pytest
from fastapi.routing import APIRoute

import puttwright.web
from puttwright.deeds.bootstrap import Shop
from puttwright.web.app import create_app
from puttwright.web.guard import HEADERS
from puttwright.web.routes import ROUTERS, devices

WEB = Path(puttwright.web.__file__).parent
SAFE = {"GET", "HEAD"}
KINDS = re.compile(
    r"(text/(html|css|javascript|csv|calendar|event-stream)|application/(json|pdf|zip)"
    r"|image/(svg\+xml|jpeg|png)|application/vnd\.openxmlformats-officedocument\.spreadsheetml\.sheet)"
    r"(;|$)"
)


def _asked() -> Iterator[tuple[str, str]]:
    for router in (devices.router, *ROUTERS):
        for route in router.routes:
            assert isinstance(route, APIRoute)
            yield from ((method, route.path) for method in sorted(route.methods))


def _filled(path: str, fitting_id: str) -> str:
    return re.sub(r"\{[^}]+\}", "none", path.replace("{fitting_id}", fitting_id))


ORDERS = sorted(each for each in _asked() if each[0] not in SAFE)
LOOKS = sorted(path for method, path in _asked() if method == "GET" and "stream" not in path)


def test_whatever_is_asked_is_answered_under_the_headers(pages: Any, fitting_id: str) -> None:
    assert len(LOOKS) > 30
    for path in LOOKS:
        answer = pages.get(_filled(path, fitting_id))

        assert answer.status_code < 500, path
        assert {name: answer.headers[name] for name in HEADERS} == HEADERS, path
        assert answer.headers["cache-control"] in {"no-store", "no-cache"}, path
        assert not answer.content or KINDS.match(answer.headers["content-type"]), path


@pytest.mark.parametrize(
    "headers",
    [
        {"origin": "http://elsewhere.example"},
        {"origin": "http://testserver:81"},
        {"origin": "http://127.0.0.1"},
        {"origin": "null"},
        {"sec-fetch-site": "cross-site"},
        {"sec-fetch-site": "same-site", "origin": "http://testserver"},
    ],
    ids=["elsewhere", "other-port", "other-name", "none", "cross-site", "same-site"],
)
def test_nothing_is_changed_for_a_page_elsewhere(
    shop: Shop, fitting_id: str, beside: Any, headers: dict[str, str]
) -> None:
    # the machine's other names are its own too, and yet another origin
    pages = beside(create_app(shop, hosts={"testserver", "127.0.0.1"}))
    assert len(ORDERS) > 20
    for method, path in ORDERS:
        answer = pages.request(method, _filled(path, fitting_id), headers=headers)

        assert answer.status_code == 403, path
        assert {name: answer.headers[name] for name in HEADERS} == HEADERS, path


def test_the_policy_lets_no_script_of_a_page_itself_run() -> None:
    policy = dict(part.split(" ", 1) for part in HEADERS["Content-Security-Policy"].split("; "))

    assert policy["default-src"] == "'none'"
    assert policy["script-src"] == policy["style-src"] == "'self'"
    assert policy["frame-ancestors"] == policy["base-uri"] == "'none'"


def test_no_page_holds_a_script_or_a_style() -> None:
    templates = sorted(WEB.joinpath("templates").glob("*.html"))
    assert len(templates) > 30
    for template in templates:
        text = template.read_text(encoding="utf-8")

        assert not re.search(r"<script(?![^>]*\ssrc=)", text), template.name
        assert not re.search(r"<style|\sstyle=|\son[a-z]+=|javascript:", text), template.name
