"""The page on the green and what is entered there."""

from __future__ import annotations

import dataclasses
import re
from collections.abc import Callable

import pytest

from puttwright.deeds.bootstrap import Shop
from puttwright.deeds.decide_fitting import decide_fitting
from puttwright.deeds.open_fitting import OpenFitting
from puttwright.evidence import AimReading, Fitting
from puttwright.fitting.decision import Decision

LIVE = {"hx-request": "true"}
PUTT = {"entry_key": "p1", "via": "tap", "hand": "B", "task": "putts", "from": "3"}
AIM = {"entry_key": "a1", "via": "tap", "hand": "A", "task": "aims", "board": "2000"}


def test_it_opens_with_aim_and_the_own_putter(pages, at: str) -> None:
    text = pages.get(at).text

    assert "Tap where the dot sits on the board" in text
    assert "Nothing yet. The first reading appears here" in text
    assert 'name="hand" value="A"' in text
    assert "Robin &lt;b&gt;" in text


def test_a_decision_that_is_missing_is_on_its_way(pages, at: str) -> None:
    assert "The first drawing is on its way" in pages.get(at).text


def test_the_laser_s_caution_stands_where_the_laser_is_used(pages, at: str) -> None:
    caution = "Laser class 1 or 2 only, never toward eyes."

    assert caution in pages.get(f"{at}?task=aims").text
    assert caution not in pages.get(f"{at}?task=putts").text


def test_it_opens_where_it_was_left(pages, at: str, record: Callable[..., int]) -> None:
    record(distance_m=5.0)

    text = pages.get(at).text

    assert "Tap where the ball stopped" in text
    assert 'name="hand" value="B"' in text
    assert 'name="from" value="5"' in text


def test_a_tapped_putt_is_in_the_records(pages, at: str, opened: Callable[[], OpenFitting]) -> None:
    tapped = PUTT | {"stop_right_m": "-0.104", "stop_past_m": "0.412"}
    answer = pages.post(f"{at}/take/putts", data=tapped, headers=LIVE)

    assert answer.status_code == 200
    (putt,) = opened().fitting.putts
    assert (putt.build_id, putt.distance_m, putt.holed) == ("B", 3.0, False)
    assert (putt.stop_past_m, putt.stop_right_m) == (0.412, -0.104)
    assert "Putt 1 is on the disk." in answer.text
    assert 'hx-target="#surface"' in answer.text
    assert "0.41\u202fm past, 0.10\u202fm left" in answer.text


@pytest.mark.parametrize(
    ("distance", "past", "right", "asked"),
    [("3", "12", "0.1", True), ("3", "0.12", "-5", True), ("1", "1.4", "0", False),
     ("3", "2.9", "0", False), ("8", "-7", "0", False)],
)  # fmt: skip
def test_a_stop_that_was_meant_in_centimetres_is_asked_about(
    pages, at: str, *, distance: str, past: str, right: str, asked: bool
) -> None:
    answer = pages.post(
        f"{at}/take/putts",
        data={"hand": "B", "from": distance, "stop_past_m": past, "stop_right_m": right,
              "entry_key": "k"},
        headers={"HX-Request": "true"},
    )  # fmt: skip

    # above the drawing, and where the figure was typed, for that is far below it
    assert answer.text.count("Putt 1 is on the disk.") == 2
    assert answer.text.count("If centimetres were meant, take it back.") == 2 * asked


def test_holed_is_one_touch(pages, at: str, opened: Callable[[], OpenFitting]) -> None:
    pages.post(f"{at}/take/putts", data=PUTT | {"holed": "yes", "stop_past_m": ""}, headers=LIVE)

    (putt,) = opened().fitting.putts
    assert putt.holed is True
    assert putt.stop_past_m is None


def test_a_tapped_aim_is_in_the_records(pages, at: str, opened: Callable[[], OpenFitting]) -> None:
    tapped = AIM | {"reading_mm": "-14.5", "laser": "mirror"}
    pages.post(f"{at}/take/aims", data=tapped, headers=LIVE)

    assert opened().fitting.aims == (
        AimReading(seq=1, build_id="A", board_distance_mm=2000, reading_mm=-14.5, mirror=True),
    )


@pytest.mark.parametrize(
    ("typed", "stored"),
    [
        ({"reading_mm": "12", "reading_mm-side": "left"}, -12),
        ({"reading_mm": "12", "reading_mm-side": "right"}, 12),
        ({"reading_mm": "−12", "reading_mm-side": "right"}, -12),
        ({"reading_mm": "-12", "reading_mm-side": "left"}, -12),
        ({"reading_mm": "1,5 cm"}, 15),
        ({"reading_mm": "0.5 in"}, 12.7),
    ],
)
def test_a_side_is_a_sign(
    pages,
    at: str,
    opened: Callable[[], OpenFitting],
    typed: dict[str, str],
    stored: float,
) -> None:
    pages.post(f"{at}/take/aims", data=AIM | {"via": "numbers"} | typed, headers=LIVE)

    assert opened().fitting.aims[0].reading_mm == pytest.approx(stored)


def test_an_address_position_is_in_the_records(
    pages, at: str, opened: Callable[[], OpenFitting]
) -> None:
    typed = {"hand": "B", "task": "setups", "sole_tilt_deg": "-1.5", "posture_note": "upright"}
    answer = pages.post(f"{at}/take/setups", data=typed, headers=LIVE)

    (setup,) = opened().fitting.setups
    assert (setup.build_id, setup.sole_tilt_deg, setup.posture_note) == ("B", -1.5, "upright")
    assert "sole −1.5°" in answer.text


def test_device_figures_are_kept(pages, at: str, opened: Callable[[], OpenFitting]) -> None:
    typed = {"ball_speed_mps": "8 ft/s", "start_deg": "-0.4", "note": "a gust"}
    pages.post(f"{at}/take/putts", data=PUTT | {"via": "numbers"} | typed, headers=LIVE)

    (putt,) = opened().fitting.putts
    assert putt.ball_speed_mps == pytest.approx(2.4384)
    assert (putt.start_deg, putt.note, putt.holed) == (-0.4, "a gust", None)


def test_an_entry_sent_twice_is_kept_once(
    pages, at: str, opened: Callable[[], OpenFitting]
) -> None:
    for _ in range(2):
        pages.post(f"{at}/take/putts", data=PUTT | {"holed": "yes"}, headers=LIVE)

    assert len(opened().fitting.putts) == 1


WRONG = [
    ("putts", {"stop_past_m": "nine"}, "stop_past_m", "“nine” is not a number"),
    ("putts", {"stop_past_m": "99"}, "stop_past_m", "99 m lies outside −40 m to 40 m."),
    ("putts", {"stop_past_m": "-7"}, "stop_past_m", "behind the golfer"),
    ("putts", {}, "stop_past_m", "Write at least one figure"),
    ("putts", {"ball_speed_mps": "40"}, "ball_speed_mps", "40 m/s lies outside"),
    ("putts", {"stop_past_m": "1", "stop_right_m": "3 kg"}, "stop_right_m", "does not fit"),
    ("aims", {}, "reading_mm", "Needed."),
    ("aims", {"reading_mm": "9999"}, "reading_mm", "lies outside"),
    ("setups", {}, "eye_inside_mm", "Write at least one figure"),
    ("setups", {"shaft_lean_deg": "60"}, "shaft_lean_deg", "lies outside"),
]


@pytest.mark.parametrize(("kind", "typed", "name", "told"), WRONG)
@pytest.mark.parametrize("headers", [{}, LIVE])
def test_a_wrong_entry_stays_with_its_message(
    pages,
    at: str,
    opened: Callable[[], OpenFitting],
    kind: str,
    typed: dict[str, str],
    name: str,
    told: str,
    headers: dict[str, str],
) -> None:
    sent = {"hand": "B", "task": kind, "from": "3", "via": "numbers"} | typed
    answer = pages.post(f"{at}/take/{kind}", data=sent, headers=headers)

    assert answer.status_code == 422
    assert told in answer.text.split(f'name="{name}"', 1)[-1]
    for each, value in typed.items():
        assert f'name="{each}" value="{value}"' in answer.text
    assert ("<html" in answer.text) is (not headers)
    assert opened().history == ()


def test_a_tap_outside_is_told_in_a_line(pages, at: str) -> None:
    answer = pages.post(
        f"{at}/take/putts", data=PUTT | {"stop_past_m": "-50", "stop_right_m": "0"}, headers=LIVE
    )

    assert answer.status_code == 422
    assert 'hx-target="#notice"' in answer.text
    assert "Not stored." in answer.text


@pytest.mark.parametrize(
    ("path", "sent", "told"),
    [
        ("take/putts", {"hand": "Z", "holed": "yes"}, "There is no build called"),
        ("take/weather", {"hand": "A"}, "There is no table of readings"),
        ("void", {"kind": "putts", "seq": "99"}, "There is no reading in putts called"),
        ("void", {"kind": "putts", "seq": "x"}, "There is no reading called"),
        ("void", {"kind": "weather", "seq": "1"}, "There is no table of readings"),
        ("void", {}, "There is no reading called"),
        ("void", {"kind": "putts", "seq": "²"}, "There is no reading called"),
    ],
)
def test_an_entry_for_nothing_is_told(
    pages, at: str, path: str, sent: dict[str, str], told: str
) -> None:
    answer = pages.post(f"{at}/{path}", data=sent, headers=LIVE)

    assert answer.status_code == 404
    assert told in answer.text


def test_without_scripts_one_comes_back_to_the_page(pages, at: str) -> None:
    sent = {each: value for each, value in PUTT.items() if each != "via"} | {"holed": "yes"}
    answer = pages.post(f"{at}/take/putts", data=sent)

    assert answer.status_code == 303
    assert answer.headers["location"] == f"{at}?hand=B&task=putts&from=3"
    undone = pages.post(f"{at}/void", data={"kind": "putts", "seq": "1"})
    assert undone.status_code == 303


def test_the_last_reading_is_taken_back(
    pages, at: str, record: Callable[..., int], opened: Callable[[], OpenFitting]
) -> None:
    record(distance_m=2.0)
    seq = record()
    sent = PUTT | {"kind": "putts", "seq": str(seq)}

    answers = [pages.post(f"{at}/void", data=sent, headers=LIVE) for _ in range(2)]  # double tap

    assert [answer.status_code for answer in answers] == [200, 200]
    assert f"Putt {seq} was taken back." in answers[0].text
    assert f"Putt {seq - 1}, B" in answers[0].text  # the one before is last again
    assert opened().history[-1].void is not None


def test_the_verdict_stands_beside_the_entry(pages, full: str) -> None:
    text = pages.get(full).text

    assert "Change to Blade (B)." in text
    assert "rests on putts 3–7" in text
    assert "Strokes saved a round" in text
    assert f'href="{full}?hand=B&amp;task=putts&amp;from=3"' in text
    assert '<p class="state" role="status"></p>' in text


def test_every_build_and_length_is_one_touch(pages, full: str) -> None:
    text = pages.get(full, params={"hand": "A", "task": "putts", "from": "4.2"}).text

    assert f"{full}?hand=B&amp;task=putts&amp;from=4.2" in text
    assert f"{full}?hand=A&amp;task=putts&amp;from=1" in text
    assert "4.2 m" in text


@pytest.mark.parametrize("query", ["hand=Z&task=no", "from=-1&task=putts", "board=x&laser=?"])
def test_an_odd_address_still_opens(pages, full: str, query: str) -> None:
    assert pages.get(f"{full}?{query}").status_code == 200


def test_the_surface_comes_alone(pages, full: str) -> None:
    text = pages.get(f"{full}/surface?hand=B&task=putts&from=3").text

    assert "<html" not in text
    assert len(re.findall(r"data-zero-x=", text)) == 2
    assert text.count("pw-reading") == 6  # three misses, in two widths


def test_another_build_is_added_and_in_hand(
    pages, at: str, opened: Callable[[], OpenFitting]
) -> None:
    form = pages.get(f"{at}/builds/new").text
    assert 'name="build_id" value="C"' in form
    sent = {"build_id": "C", "label": "Long", "length_mm": "36 in", "lie_deg": "72"}
    answer = pages.post(f"{at}/builds", data=sent | {"loft_deg": "3", "toe_hang_deg": "45"})

    assert answer.headers["location"] == f"{at}?hand=C"
    assert opened().fitting.builds[-1].toe_hang_deg == 45


def test_a_build_that_cannot_be_stays_on_the_form(
    pages, at: str, opened: Callable[[], OpenFitting]
) -> None:
    sent = {"build_id": "C", "length_mm": "36", "lie_deg": "72", "loft_deg": "45"}
    answer = pages.post(f"{at}/builds", data=sent)

    assert answer.status_code == 422
    assert "45° lies outside" in answer.text
    assert 'name="length_mm" value="36"' in answer.text
    assert len(opened().fitting.builds) == 2


def test_a_build_under_an_id_that_is_taken_is_told(pages, at: str) -> None:
    sent = {"build_id": "B", "length_mm": "36", "lie_deg": "72", "loft_deg": "3"}

    assert pages.post(f"{at}/builds", data=sent).status_code == 409


def test_a_build_that_was_never_in_hand_is_added_as_decided(
    pages, at: str, shop: Shop, fitting_id: str
) -> None:
    decide = shop.decide

    def beyond(fitting: Fitting) -> Decision:
        made = decide(fitting)
        spec = {"build_id": "B-loft3", "label": "Blade, loft 3.0°", "length_mm": 838.2}
        asked = dataclasses.replace(made.next_trial, build_id="B-loft3")
        return dataclasses.replace(
            made, choice="B-loft3", extrapolated=True, more_putts=None, next_trial=asked,
            spec=spec | {"lie_deg": 71.0, "loft_deg": 3.0},
        )  # fmt: skip

    decide_fitting(shop.store, shop.clock, fitting_id=fitting_id, decide=beyond)

    page = pages.get(at).text
    assert "Blade, loft 3.0° (B-loft3)" in page
    assert f'href="{at}/builds/new?as_decided=yes">It is made: add it' in page
    form = pages.get(f"{at}/builds/new?as_decided=yes").text
    for typed in ('value="B-loft3"', 'value="Blade, loft 3.0°"', 'value="33"', 'value="3"'):
        assert typed in form


def test_left_and_right_mirror_the_words_of_the_board(pages, started: Callable[[str], str]) -> None:
    texts = [pages.get(f"/fittings/{started(hand)}").text for hand in ("right", "left")]

    assert ["right, open" in text for text in texts] == [True, False]
    assert ["right, closed" in text for text in texts] == [False, True]


def test_the_running_order_says_what_to_hand_over_now(pages, full: str) -> None:
    text = pages.get(full).text

    order = text[text.index('class="running-order"') : text.index("Planned anew")]
    first, second = order.split("<li>")[1:]
    assert "Blade, 6 putts" in first
    assert ("now" in first, "now" in second) == (True, False)


def test_the_records_acknowledge_by_the_number_of_the_reading(pages, at: str) -> None:
    first, again = (
        pages.post(f"{at}/take/putts", data=PUTT | {"holed": "yes"}, headers=LIVE) for _ in range(2)
    )
    wrong = pages.post(f"{at}/take/putts", data=PUTT | {"entry_key": "p2"}, headers=LIVE)
    void = pages.post(f"{at}/void", data={"kind": "putts", "seq": "1"}, headers=LIVE)
    setup = pages.post(f"{at}/address", data={"hand": "B", "sole_tilt_deg": "1"}, headers=LIVE)
    why = {"kind": "setups", "seq": "2", "why": "practice"}
    reasoned = pages.post(f"{at}/readings/void", data=why, headers=LIVE)

    answers = (first, again, wrong, void, setup, reasoned)
    kept = [answer.headers.get("entry-kept") for answer in answers]
    assert kept == ["1", "1", None, "1", "2", "2"]


def test_the_ways_lead_to_everything_that_can_be_in_hand(pages, at: str) -> None:
    ways = pages.get(f"{at}/ways").json()

    assert len(ways) == len(set(ways)) == 1 + 2 * (1 + 5 + 1 + 2)
    page = pages.get(f"{at}?hand=B&task=putts&from=3").text
    chips = set(re.findall(rf'class="distance" href="({at}[^"]*)"', page.replace("&amp;", "&")))
    assert len(chips) == 5
    assert chips <= set(ways)


def test_the_keeper_of_pages_may_keep_all_of_them(pages) -> None:
    keeper = pages.get("/keep.js")

    assert keeper.headers["content-type"].startswith("text/javascript")
    assert keeper.headers["cache-control"] == "no-cache"
    assert "No connection" in pages.get("/away").text
