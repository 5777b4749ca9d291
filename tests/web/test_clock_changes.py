"""The clock of the machine with the records jumps: entries keep their order, none is lost."""

from __future__ import annotations

import re
import shutil
import time
from collections.abc import Callable, Iterator
from datetime import UTC, datetime, timedelta
from pathlib import Path
from typing import Any

import pytest

from puttwright.deeds.bootstrap import Shop, open_shop
from puttwright.deeds.open_fitting import open_fitting
from puttwright.web.app import create_app

BACK = datetime(2026, 10, 25, 0, 55, tzinfo=UTC)
"""Five minutes before Berlin's clocks go back from three to two."""
JUMPS_MIN = (0, 3, 8, -52, -50, 200, 12)
"""When each putt is entered, as the machine has it: an hour back, hours ahead, back again."""


@pytest.fixture
def jumping(tmp_path: Path, empty_records: Path, beside: Callable[[Any], Any]) -> Iterator[Any]:
    """A shop, its pages, and a clock that says what it is told."""
    (tmp_path / "shop").mkdir()
    shutil.copy(empty_records, tmp_path / "shop")
    said = {"min": 0.0}
    shop = open_shop(
        tmp_path / "shop", clock=lambda: BACK + timedelta(minutes=said["min"]), decide=_never
    )
    yield shop, beside(create_app(shop, hosts={"testserver"})), said
    shop.close()


def _never(fitting: object) -> Any:
    raise AssertionError("nothing is decided here")


@pytest.fixture
def berlin(monkeypatch: pytest.MonkeyPatch) -> Iterator[None]:
    """The machine stands where clocks are changed."""
    monkeypatch.setenv("TZ", "Europe/Berlin")
    time.tzset()
    yield
    monkeypatch.undo()
    time.tzset()


def _new(pages: Any) -> str:
    typed = {
        "golfer-alias": "Robin", "golfer-handed": "left", "green-1-name": "home",
        "green-1-speed_ft": "9", "green-1-share": "100", "here-speed_ft": "10",
        "build-0-length_mm": "34", "build-0-lie_deg": "70", "build-0-loft_deg": "3",
    }  # fmt: skip
    return str(pages.post("/fittings", data=typed).headers["location"])


@pytest.mark.usefixtures("berlin")
def test_putts_keep_their_order_through_every_jump_of_the_clock(
    jumping: tuple[Shop, Any, dict[str, float]],
) -> None:
    shop, pages, said = jumping
    at = _new(pages)
    for number, minutes in enumerate(JUMPS_MIN, start=1):
        said["min"] = minutes
        putt = {"stop_past_m": f"0.{number}", "from": "3", "entry_key": f"key-{number}"}
        for _ in range(2):  # the answer was lost, it is sent again
            assert pages.post(f"{at}/take/putts", data=putt).status_code == 303
    opened = open_fitting(shop.store, at.rsplit("/", maxsplit=1)[-1])

    assert [putt.stop_past_m for putt in opened.fitting.putts] == [
        0.1,
        0.2,
        0.3,
        0.4,
        0.5,
        0.6,
        0.7,
    ]
    assert opened.last is not None
    assert opened.last.seq == len(JUMPS_MIN)
    shown = re.findall(
        r"0\.(\d)0\u202fm past\s*<span class=\"what\">(\d\d:\d\d)", pages.get(f"{at}/readings").text
    )
    assert shown == [
        ("1", "02:55"), ("2", "02:58"), ("3", "02:03"), ("4", "02:03"), ("5", "02:05"),
        ("6", "05:15"), ("7", "02:07"),
    ]  # fmt: skip


def test_what_is_taken_back_is_the_last_entered_not_the_latest_by_the_clock(
    jumping: tuple[Shop, Any, dict[str, float]],
) -> None:
    _shop, pages, said = jumping
    at = _new(pages)
    for minutes, past in ((60, "0.1"), (0, "0.2")):
        said["min"] = minutes
        pages.post(f"{at}/take/putts", data={"stop_past_m": past, "from": "3"})
    undo = re.search(r'id="last".*?name="seq" value="(\d+)"', pages.get(at).text, re.DOTALL)

    assert undo
    assert undo[1] == "2"


def test_a_form_is_old_by_what_changed_not_by_the_clock(
    jumping: tuple[Shop, Any, dict[str, float]],
) -> None:
    _shop, pages, said = jumping
    at = _new(pages)
    shown = pages.get(f"{at}/gauge").text
    seen = re.search(r'name="seen" value="(\w+)"', shown)
    assert seen
    said["min"] = -60
    typed = {"hand": "A", "length_mm": "35", "lie_deg": "70", "loft_deg": "3", "seen": seen[1]}

    assert pages.post(f"{at}/gauge", data=typed).status_code == 303
    assert pages.post(f"{at}/gauge", data=typed | {"loft_deg": "4"}).status_code == 409
