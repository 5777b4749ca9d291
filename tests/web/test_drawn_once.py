"""A piece that several pages show is drawn once, and a fault is told to each."""

from __future__ import annotations

from concurrent.futures import ThreadPoolExecutor
from threading import Event

import pytest

from puttwright.web.drawn_once import DrawnOnce


def test_who_asks_while_a_piece_is_drawn_waits_for_it() -> None:
    once, begun, go, drawn = DrawnOnce(most=2), Event(), Event(), []

    def draw() -> str:
        begun.set()
        assert go.wait(20)
        drawn.append(1)
        return "a piece"

    with ThreadPoolExecutor(3) as pages:
        first = pages.submit(once, ("F1", "pace", "1"), draw)
        assert begun.wait(20)
        others = [pages.submit(once, ("F1", "pace", "1"), draw) for _ in range(2)]
        go.set()
        assert {each.result(20) for each in (first, *others)} == {"a piece"}
    assert drawn == [1]


def test_another_state_is_drawn_anew_and_old_ones_go() -> None:
    once = DrawnOnce(most=2)
    states = ["1", "2", "2", "3", "1"]
    drawn: list[str] = []
    for state in states:
        assert once(state, lambda state=state: drawn.append(state) or state) == state
    assert drawn == ["1", "2", "3", "1"]


def test_what_goes_wrong_is_not_kept() -> None:
    once = DrawnOnce(most=2)

    def broken() -> str:
        raise ValueError("no ink")

    for _ in range(2):
        with pytest.raises(ValueError, match="no ink"):
            once("F1", broken)
    assert once("F1", lambda: "a piece") == "a piece"
