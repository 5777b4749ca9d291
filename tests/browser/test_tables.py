"""A device's tables in a real browser: asked once, then they appear by themselves."""

from __future__ import annotations

import re
import sys
import urllib.request
from collections.abc import Callable
from pathlib import Path

import pytest
from playwright.sync_api import Page, expect

sys.path[:0] = [str(Path(__file__).parent)]

from hands import start_fitting  # noqa: E402 - beside this file
from test_every_page import STICKS_OUT, TOO_SMALL  # noqa: E402

HEADER = "Time,Distance (m),Made,Ball speed,Start\n"
ROWS = [f"10:0{n}:01,3,{'yes' if n % 2 else 'no'},1.{50 + n},{0.4 * n - 0.8:.1f}\n"
        for n in range(9)]  # fmt: skip


def _log(upto: int, *, header: str = HEADER) -> bytes:
    return (header + "".join(ROWS[:upto])).encode()


@pytest.mark.parametrize(("size", "handed"), [("phone", "left"), ("tablet", "right")])
def test_a_new_kind_of_table_is_asked_about_once_and_then_lands(
    open_page: Callable[..., Page], picture: Callable[[Page, str], None], tmp_path: Path,
    size: str, handed: str,
) -> None:  # fmt: skip
    header = HEADER.replace("Start", f"Start line ({size})")
    page = open_page(size)
    start_fitting(page, handed=handed)
    at = re.sub(r"[?#].*", "", page.url)
    page.goto(f"{at}/tables")
    log = {"name": "log.csv", "mimeType": "text/csv", "buffer": _log(4, header=header)}
    page.get_by_label("File", exact=True).set_input_files(log)
    page.get_by_role("button", name="Read it").click()
    asked = page.get_by_role("group", name=f"“Start line ({size})” says -0.8 in row 2. That was")
    expect(asked).to_be_visible()
    assert page.evaluate(STICKS_OUT) == []
    assert page.evaluate(TOO_SMALL) == []
    picture(page, f"{size}-tables-1-asked")
    page.get_by_role("button", name="That is right").click()
    expect(asked).to_contain_text("Say which side it was")
    asked.get_by_label("left").check()
    page.get_by_text("All columns").click()
    page.get_by_role("button", name="Show what comes of it").click()
    expect(page.locator(".table-preview tbody tr")).to_have_count(4)
    assert page.evaluate(STICKS_OUT) == []
    picture(page, f"{size}-tables-2-shown")
    page.get_by_role("button", name="That is right").click()
    expect(page.get_by_role("status").first).to_contain_text("4 putts added.")
    folder = tmp_path / "landed"
    folder.mkdir()
    page.get_by_label("Folder, its whole path").fill(str(folder))
    page.get_by_role("button", name="Watch it").click()
    expect(page.get_by_label("Folder, its whole path")).to_have_value(str(folder))
    assert page.evaluate(STICKS_OUT) == []
    assert page.evaluate(TOO_SMALL) == []
    picture(page, f"{size}-tables-3-read")

    page.goto(f"{at}?task=putts")
    expect(page.locator("#counts")).to_contain_text("4")
    (folder / "log.csv").write_bytes(_log(7, header=header))
    expect(page.locator("#last .last-words")).to_contain_text("1.6", timeout=5000)
    (folder / "new.csv").write_bytes(_log(4, header=header.replace("Made", "In the hole?")))
    waits = page.get_by_role("link", name="new.csv waits")
    expect(waits).to_be_visible(timeout=5000)
    assert page.evaluate(STICKS_OUT) == []
    picture(page, f"{size}-tables-4-landed")
    putt = b'{"start_deg": 0.3, "distance_m": 4.5, "holed": true}'
    kind = {"Content-Type": "application/json"}
    with urllib.request.urlopen(
        urllib.request.Request(f"{at[: at.index('/fittings')]}/receive", data=putt, headers=kind)
    ) as said:
        assert said.status == 201
    expect(page.locator("#last .last-words")).to_contain_text("from 4.5", timeout=5000)
    waits.click()
    page.get_by_role("link", name="Look at it new.csv").click()
    page.get_by_role("button", name="Leave it").click()
    expect(page.get_by_text("Waiting", exact=True)).to_have_count(0)


def test_what_lands_shows_up_by_itself_and_a_half_written_file_once_it_is_whole(
    open_page: Callable[..., Page], tmp_path: Path
) -> None:
    page = open_page("tablet")
    start_fitting(page)
    at = re.sub(r"[?#].*", "", page.url)
    page.goto(f"{at}/tables")
    page.get_by_label("Folder, its whole path").fill(str(tmp_path))
    page.get_by_role("button", name="Watch it").click()
    expect(page.get_by_label("Folder, its whole path")).to_have_value(str(tmp_path))
    page.goto(f"{at}?task=putts")
    last = page.locator("#last .last-words")
    header = "distance_m,holed,start_deg\n"

    (tmp_path / "whole.csv").write_text(f"{header}3,no,0.5\n")
    expect(last).to_contain_text("Putt 1")
    with (tmp_path / "slow.csv").open("w") as slow:
        slow.write(f"{header}4,no,0.1\n5,no,-0.")
        slow.flush()
        (tmp_path / "later.csv").write_text(f"{header}6,no,-0.5\n")  # it overtakes the slow one
        expect(last).to_contain_text(re.compile("Putt 2, .: from 6.0.m, missed, started 0.5° left"))
        slow.write("7\n")
    expect(last).to_contain_text(re.compile("Putt 4, .: from 5.0.m, missed, started 0.7° left"))
    (tmp_path / "whole.csv").write_text(f"{header}3,no,0.5\n2,no,0.2\n")
    expect(last).to_contain_text(re.compile("Putt 5, .: from 2.0.m, missed, started 0.2° right"))
