"""Usual figures beside the fields of a putt, in the unit and at the width of the distance."""

from __future__ import annotations

import re
from typing import Any

import pytest

from puttwright.deeds.keep_settings import PageSettings


def values(page: str, name: str, side: str) -> list[str]:
    return re.findall(rf'value="([\d.]+)" data-quick="{name}" data-side="{side}"', page)


@pytest.mark.parametrize(("distance", "step"), [("1", 0.1), ("4", 0.1), ("8", 0.2)])
def test_a_long_putts_figures_are_wider_apart(
    pages: Any, at: str, distance: str, step: float
) -> None:
    page = pages.get(f"{at}?hand=B&task=putts&from={distance}").text
    along = [round(step * place, 3) for place in range(1, 7)]

    for side in ("past", "short"):
        assert [float(each) for each in values(page, "stop_past_m", side)] == along
    right, left = (values(page, "stop_right_m", side) for side in ("right", "left"))
    assert [float(each) for each in right] == [0.0] + [each / 2 for each in along[:-1]]
    assert left == right[1:]


def test_figures_are_offered_in_feet_where_feet_are_spoken(pages: Any, at: str) -> None:
    pages.app.state.manner = PageSettings(measures="imperial")
    page = pages.get(f"{at}?hand=B&task=putts&from=3").text

    assert values(page, "stop_past_m", "past") == ["0.5", "1", "1.5", "2", "2.5", "3"]
    assert values(page, "stop_right_m", "left") == ["0.25", "0.5", "0.75", "1", "1.25"]
    assert re.search(r"2\.5<span class=\"away\"> ft past", page)


@pytest.mark.parametrize("task", ["aims", "setups"])
def test_only_putts_have_usual_figures(pages: Any, at: str, task: str) -> None:
    assert "data-quick" not in pages.get(f"{at}?hand=B&task={task}").text
