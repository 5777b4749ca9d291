"""The interview, the gauge and the order: put right, and told when a page is older than that."""

from __future__ import annotations

import html
import re
from collections.abc import Callable

from puttwright.deeds.open_fitting import OpenFitting


def _form(text: str, action: str) -> dict[str, str]:
    """What a form of a page would send as it stands."""
    form = re.search(rf'<form method="post" action="[^"]*{action}".*?</form>', text, re.DOTALL)
    assert form
    sent = {}
    for tag in re.findall(r"<input[^>]*>", form[0]):
        name, value = (re.search(rf'\b{key}="([^"]*)"', tag) for key in ("name", "value"))
        if name and ('type="radio"' not in tag or " checked" in tag):
            sent[name[1]] = html.unescape(value[1]) if value else ""
    for name, body in re.findall(
        r'<select[^>]*name="([^"]+)".*?>(.*?)</select>', form[0], re.DOTALL
    ):
        chosen = re.search(r'value="([^"]*)" selected', body)
        sent[name] = chosen[1] if chosen else ""
    return sent


def test_a_form_sent_as_it_stands_changes_nothing(
    pages, full: str, opened: Callable[[], OpenFitting]
) -> None:
    before = opened().fitting
    for page in ("interview", "gauge"):
        answer = pages.post(f"{full}/{page}", data=_form(pages.get(f"{full}/{page}").text, page))
        assert answer.status_code == 303, page

    assert opened().fitting == before


def test_the_interview_is_put_right(pages, at: str, opened: Callable[[], OpenFitting]) -> None:
    sent = _form(pages.get(f"{at}/interview").text, "interview")
    sent |= {"golfer-handed": "left", "golfer-wrist_height_mm": "85 cm", "green-2-name": "away"}
    half = sent | {"green-1-share": "60", "green-2-speed_ft": "11", "green-2-share": "40"}
    missing = pages.post(f"{at}/interview", data=sent)
    answer = pages.post(f"{at}/interview", data=half)

    assert missing.status_code == 422
    assert "Needed." in missing.text
    assert 'value="85 cm"' in missing.text  # what was typed stays
    assert answer.status_code == 303
    fitting = opened().fitting
    assert (fitting.golfer.handed, fitting.golfer.wrist_height_mm) == ("left", 850)
    assert [green.share for green in fitting.greens] == [0.6, 0.4]


def test_a_plus_handicap_is_better_than_scratch(
    pages, at: str, opened: Callable[[], OpenFitting]
) -> None:
    sent = _form(pages.get(f"{at}/interview").text, "interview")
    found = []
    for typed in ("+2.1", "-2.1", "2.1"):
        answer = pages.post(f"{at}/interview", data=sent | {"golfer-handicap": typed})
        assert answer.status_code == 303
        found.append(opened().fitting.golfer.handicap)
        sent = _form(pages.get(f"{at}/interview").text, "interview")
        found.append(sent["golfer-handicap"])

    assert found == [-2.1, "+2.1", -2.1, "+2.1", 2.1, "2.1"]


def test_a_page_from_yesterday_is_told_what_changed(
    pages, at: str, opened: Callable[[], OpenFitting]
) -> None:
    yesterday = _form(pages.get(f"{at}/gauge").text, "gauge")
    pages.post(f"{at}/gauge", data=yesterday | {"loft_deg": "2.5", "head_mass_g": "355"})
    late = pages.post(f"{at}/gauge", data=yesterday | {"lie_deg": "71.5"})

    assert late.status_code == 409
    assert "Loft was 3 ° when the page was opened; now it is 2.5 °." in late.text
    assert "Head mass was empty when the page was opened; now it is 355 g." in late.text
    assert late.text.count("when the page was opened") == 2
    assert 'name="lie_deg" value="71.5"' in late.text
    own = opened().fitting.builds[0]
    assert (own.lie_deg, own.loft_deg) == (70, 2.5)

    again = _form(late.text, "gauge")
    assert pages.post(f"{at}/gauge", data=again).status_code == 303
    assert opened().fitting.builds[0].lie_deg == 71.5


def test_an_interview_from_yesterday_is_told_what_changed(pages, at: str) -> None:
    yesterday = _form(pages.get(f"{at}/interview").text, "interview")
    pages.post(f"{at}/interview", data=yesterday | {"here-speed_ft": "11"})
    late = pages.post(f"{at}/interview", data=yesterday | {"golfer-alias": "Somebody"})

    assert late.status_code == 409
    assert "Speed was 10 ft when the page was opened; now it is 11 ft." in late.text
    assert "Robin" in pages.get(f"{at}/interview").text


def test_an_order_from_a_page_from_yesterday_is_refused(
    pages, full: str, decide: Callable[[], None]
) -> None:
    yesterday = _form(pages.get(f"{full}/workshop").text, "orders")
    gauge = _form(pages.get(f"{full}/gauge?hand=B").text, "gauge")
    pages.post(f"{full}/gauge", data=gauge | {"loft_deg": "4"})
    late = pages.post(f"{full}/orders", data=yesterday | {"price-1": "120", "what-1": "bending"})
    kept = pages.get(f"{full}/workshop").text

    assert yesterday["build"] == "B"
    assert late.status_code == 409
    assert "Loft was 2 ° when the page was opened; now it is 4 °." in late.text
    assert 'value="bending"' in late.text
    assert "/orders/" not in kept

    for seq in (3, 4, 5, 6):
        sent = {"kind": "putts", "seq": str(seq), "why": "slip"}
        pages.post(f"{full}/readings/void", data=sent)
    decide()
    turned = pages.post(f"{full}/orders", data=_form(late.text, "orders"))
    assert turned.status_code == 409
    assert "The answer was “Change to Blade (B).” Now it is “Too close to call" in turned.text


def test_an_order_is_held_against_figures_not_words(pages, full: str) -> None:
    yesterday = _form(pages.get(f"{full}/workshop").text, "orders")
    spoken = _form(pages.get("/settings").text, "settings")
    pages.post("/settings", data=spoken | {"measures": "imperial", "language": "de"})
    other_words = pages.post(f"{full}/orders", data=yesterday | {"entry_key": "1"})
    gauge = _form(pages.get(f"{full}/gauge?hand=B").text, "gauge")
    pages.post(f"{full}/gauge", data=gauge | {"lie_deg": "71,000001"})
    other_figure = pages.post(f"{full}/orders", data=yesterday | {"entry_key": "2"})

    assert other_words.status_code == 303
    assert other_figure.status_code == 409
    assert "hat sich um weniger geändert, als die Seite zeigt" in other_figure.text


def test_the_hour_says_what_is_known_and_what_is_next(pages, at: str, full: str) -> None:
    text = pages.get(f"{full}/hour").text

    assert text.count('class="hour-step') == 10
    assert text.count('<span class="now-mark">') == 1
    assert re.search(r'hour-now" id="step-pace"', text)
    for said in (
        "A, 2 taken",
        "Nothing yet with B.",
        "Change to Blade (B).",
        "Nothing ordered yet.",
    ):
        assert said in text, said
    phone = re.search(r'<nav class="path".*?</nav>', pages.get(f"{at}?task=aims").text, re.DOTALL)
    assert phone
    assert "4 of 10" in phone[0]
    assert phone[0].index("Address") < phone[0].index("4 of 10")


def test_a_strike_is_tapped_with_its_putt_or_alone(
    pages, at: str, opened: Callable[[], OpenFitting]
) -> None:
    strike = {"via": "tap", "hand": "B", "look": "strike", "from": "3"}
    strike |= {"strike_toe_mm": "6.0", "strike_high_mm": "-2.0"}
    pages.post(f"{at}/take/putts", data=strike | {"stop_past_m": "0.4", "stop_right_m": "0.1"})
    pages.post(f"{at}/take/putts", data=strike | {"holed": "yes"})
    pages.post(f"{at}/take/putts", data=strike | {"only": "strike"})
    text = pages.get(f"{at}/readings").text

    putts = opened().fitting.putts
    assert [putt.strike_toe_mm for putt in putts] == [6.0, 6.0, 6.0]
    assert [putt.holed for putt in putts] == [False, True, None]
    assert text.count("struck 6\u202fmm toward the toe, 2\u202fmm low") == 3


def test_readings_of_every_kind_are_struck_with_their_reason(
    pages, at: str, opened: Callable[[], OpenFitting]
) -> None:
    pages.post(f"{at}/take/aims", data={"hand": "A", "reading_mm": "7"})
    pages.post(f"{at}/take/setups", data={"hand": "A", "eye_inside_mm": "20"})
    for kind, seq, why in (("aims", "1", "instrument"), ("setups", "2", "practice")):
        pages.post(f"{at}/readings/void", data={"kind": kind, "seq": seq, "why": why})
    text = pages.get(f"{at}/readings").text

    assert "taken back: the instrument misread" in text
    assert "taken back: it was only practice" in text
    assert text.count('class="void"') == 2
    assert (opened().fitting.aims, opened().fitting.setups) == ((), ())
