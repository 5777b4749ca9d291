"""The calculators: the commands' figures, a drawing, errors beside the field."""

from __future__ import annotations

import re

import pytest

from puttwright.ball.calc import calc_capture, calc_impact
from puttwright.club.calc import calc_bend
from puttwright.deeds.keep_settings import PageSettings
from puttwright.web.manner import speaking
from puttwright.web.routes.calculators import GROUPS

KEYS = [each.key for group in GROUPS.values() for each in group]


def _figures(page: str) -> dict[str, str]:
    return dict(re.findall(r"<dt>([^<]+)</dt><dd>([^<]+)</dd>", page))


@pytest.mark.parametrize("key", KEYS)
@pytest.mark.parametrize("measures", ["trade", "imperial"])
def test_each_opens_with_a_result_and_a_drawing(pages, key: str, measures: str) -> None:
    set_so = {"measures": measures, "ground": "auto", "handed": "left", "language": "en"}
    pages.post("/settings", data=set_so | {"tax_included": "no"})
    answer = pages.get(f"/calculators/{key}")

    assert answer.status_code == 200
    assert answer.text.count('role="img"') >= 2
    assert "notice-wrong" not in answer.text
    assert f'href="/calculators/{key}"' in pages.get("/calculators").text


def test_a_figure_is_the_commands(pages) -> None:
    asked = {"head_speed_mps": "1.8", "face_deg": "2", "path_deg": "-3", "handed": "left"}
    found = _figures(pages.get("/calculators/impact", params=asked).text)
    command = calc_impact(head_speed_mps=1.8, face_deg=2.0, path_deg=-3.0, handed="left")

    assert found["Ball speed"] == f"{command['ball_speed_mps']:.2f}\u202fm/s"
    assert found["Start line, right positive"] == f"+{command['start_deg']:.1f}°"


def test_a_figure_typed_in_inches_is_the_same(pages) -> None:
    page = pages.get("/calculators/capture", params={"offset_mm": "1 in"}).text
    command = calc_capture(offset_mm=25.4)["capture_speed_mps"]

    assert _figures(page)["The hole takes up to"] == f"{command:.2f}\u202fm/s"


@pytest.mark.parametrize("handed", ["right", "left"])
def test_the_aim_after_a_bend_is_the_commands_for_either_hand(pages, handed: str) -> None:
    asked = {
        "loft_deg": "3", "lie_deg": "70", "add_lie_deg": "2", "alloy": "carbon_steel",
        "neck": "one_piece", "bar": "sole", "handed": handed,
    }  # fmt: skip
    page = pages.get("/calculators/bend", params=asked).text
    command = calc_bend(
        loft_deg=3, lie_deg=70, add_lie_deg=2, alloy="carbon_steel", neck="one_piece", handed=handed
    )
    side = "+" if command["aim_held_deg"] > 0 else "−"

    assert _figures(page)["Aim, held as before"] == f"{side}{abs(command['aim_held_deg']):.2f}°"
    assert "ye protection" in page or "goggles" in page or "glasses" in page


@pytest.mark.parametrize(
    ("key", "asked", "told"),
    [
        ("impact", {"head_speed_mps": "fast"}, "“fast” is not a number"),
        ("impact", {"head_speed_mps": "99"}, "lies outside 0.05 m/s to 10 m/s"),
        ("holing", {"distance_m": ""}, "Needed."),
        ("swing-weight", {"mass_1": "350", "place_1": ""}, "A part needs its mass"),
        ("inertia", {"way": "bifilar", "mass_g": "5", "period_1": "1"}, "their distance and"),
        ("inertia", {"way": "sideways", "mass_g": "5", "period_1": "1"}, "Choose one of"),
        (
            "bend",
            {"loft_deg": "3", "lie_deg": "70", "add_lie_deg": "2", "alloy": "zinc",
             "neck": "one_piece", "bar": "sole", "handed": "left"},
            "not to be bent",
        ),
    ],
)  # fmt: skip
def test_what_cannot_be_is_told_and_what_was_typed_stays(
    pages, key: str, asked: dict[str, str], told: str
) -> None:
    if key == "impact":
        asked = {"handed": "right"} | asked
    answer = pages.get(f"/calculators/{key}", params=asked)

    assert answer.status_code == 422
    assert told in answer.text
    for name, typed in asked.items():
        if typed and re.match(r"[\d.]+$|fast", typed):
            assert f'name="{name}" value="{typed}"' in answer.text


def test_a_calculator_that_is_not_there_is_told(pages) -> None:
    assert pages.get("/calculators/luck").status_code == 404


def test_every_question_and_figure_has_its_words_in_every_measure() -> None:
    for measures in ("trade", "metric", "imperial"):
        with speaking(PageSettings(measures=measures)):
            for group in GROUPS.values():
                for each in group:
                    assert all(asked.label for asked in each.questions())
