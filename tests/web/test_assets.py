"""What the pages carry with them is served, as few answers, to everyone who may see a page."""

from __future__ import annotations

import re
from dataclasses import replace
from datetime import UTC, datetime

from puttwright.deeds.paired_devices import CLIENT, FITTER, WORKSHOP, Device
from puttwright.web.assets import SCRIPTS, STATIC
from puttwright.web.roles import may

NOW = datetime(2026, 5, 1, tzinfo=UTC)
SCREEN = Device(device_id="1", name="TV", role=CLIENT, key="", paired_at=NOW, seen_at=NOW)


def test_all_that_a_page_asks_for_is_served_to_every_role(pages, at: str) -> None:
    head = pages.get(at).text.split("</head>")[0]
    asked = re.findall(r'(?:href|src)="([^"]+)"', head)
    style = pages.get(next(each for each in asked if each.startswith("/pages.css"))).text
    asked += re.findall(r'url\("([^"]+)"\)', style)

    assert sum(".css" in each for each in asked) == 1  # one answer to wait for, not ten
    assert ':root[data-ground="bay"]' in style
    for address in asked:
        assert pages.get(address).status_code == 200, address
        for role in (FITTER, WORKSHOP, CLIENT):
            assert may(replace(SCREEN, role=role), address.split("?")[0]), address


def test_the_script_of_the_pages_is_each_of_its_files_in_turn(pages) -> None:
    script = pages.get("/pages.js").text

    places = [script.index((STATIC / name).read_text(encoding="utf-8")) for name in SCRIPTS]
    assert places == sorted(places)
