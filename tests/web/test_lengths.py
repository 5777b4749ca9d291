"""How long a putt is and where the board stands, typed and read in the shop's measures."""

from __future__ import annotations

import re

import pytest

SETTINGS = {
    "language": "en", "measures": "imperial", "ground": "auto", "handed": "right",
    "tax_included": "no",
}  # fmt: skip


def _field(page: str, name: str) -> str:
    found = re.search(rf'<input id="{name}"[^>]*value="([^"]*)"', page)
    assert found
    return found[1]


@pytest.fixture
def in_feet(pages):
    """The pages of a shop that speaks of inches and feet."""
    assert pages.post("/settings", data=SETTINGS).status_code == 303
    return pages


def test_a_length_is_typed_in_feet_and_stays_the_same_when_it_is_taken_again(
    in_feet, full: str
) -> None:
    text = in_feet.get(full, params={"task": "putts", "from": "3", "hand": "A"}).text
    assert _field(text, "distance") == "9.843"

    again = in_feet.get(full, params={"task": "putts", "distance": "9.843", "hand": "A"}).text
    assert 'name="from" value="3"' in again


def test_a_board_is_typed_in_inches_and_any_unit_may_be_written(in_feet, full: str) -> None:
    text = in_feet.get(full, params={"task": "aims", "board-distance": "2.5 m", "hand": "A"}).text

    assert 'name="board" value="2500"' in text
    assert _field(text, "board-distance") == "98.425"


@pytest.mark.parametrize(
    ("typed", "told"), [("far", "is not a number"), ("900", "lies outside"), ("3 kg", "use")]
)
def test_what_cannot_be_a_length_is_told_beside_it_and_stays(
    in_feet, full: str, typed: str, told: str
) -> None:
    answer = in_feet.get(full, params={"task": "putts", "distance": typed, "hand": "A"})

    assert answer.status_code == 422
    assert _field(answer.text, "distance") == typed
    assert told in re.search(r'<p class="wrong" id="distance-wrong">([^<]*)', answer.text)[1]


def test_lengths_to_choose_and_what_was_tapped_are_in_feet(in_feet, full: str) -> None:
    text = in_feet.get(full, params={"task": "putts", "hand": "A", "from": "3"}).text

    assert "10 ft<small>3 m</small>" in text
    assert re.search(r'name="stop_past_m" data-tapped data-times="3\.28\d+"', text)
    assert re.search(r">from 9\.8\sft<", text)


def _told(answer, name: str) -> str:
    """The sentence beside a field, with what was typed still in it."""
    assert answer.status_code == 422
    found = re.search(rf'<p class="wrong" id="{name}-wrong">([^<]*)', answer.text)
    assert found
    described = rf'<input id="{name}"[^>]*aria-invalid="true"[^>]*describedby="{name}-wrong'
    assert re.search(described, answer.text)
    return found[1]


@pytest.mark.parametrize("name", ["board-distance", "bar"])
@pytest.mark.parametrize("typed", ["far", "3 kg", "9 mm"])
def test_a_length_beside_photos_that_cannot_be_read_is_told_and_nothing_is_read(
    pages, at: str, name: str, typed: str
) -> None:
    files = [("photos", ("a.jpg", b"no photo at all", "image/jpeg"))]
    answer = pages.post(f"{at}/board-photos", files=files, data={"hand": "B", name: typed})

    assert typed.split(maxsplit=1)[0] in _told(answer, name)
    assert _field(answer.text, name) == typed
    assert "a.jpg" not in answer.text


def test_what_can_be_read_stays_beside_what_cannot(pages, at: str) -> None:
    files = [("photos", ("a.jpg", b"no photo at all", "image/jpeg"))]
    typed = {"hand": "B", "board-distance": "3 m", "bar": "wide"}
    answer = pages.post(f"{at}/board-photos", files=files, data=typed)

    assert _field(answer.text, "board-distance") == "3 m"
    assert "board-distance-wrong" not in answer.text
    _told(answer, "bar")


@pytest.mark.parametrize("typed", ["far", "3 kg", "9 mm"])
def test_a_boards_distance_that_cannot_be_read_is_told_before_a_study(
    pages, at: str, typed: str
) -> None:
    study = {"study": ("laser.csv", b"operator,part,reading (mm)\nAnn,1,3\n")}
    form = {"quantity": "reading_mm", "name": "wall laser", "board-distance": typed}
    answer = pages.post(f"{at}/instruments", files=study, data=form)

    assert typed.split(maxsplit=1)[0] in _told(answer, "board-distance")
    assert _field(answer.text, "board-distance") == typed
    assert 'value="wall laser"' in answer.text


@pytest.mark.parametrize("do", ["take", "show"])
@pytest.mark.parametrize(
    ("table", "name"),
    [
        (b"Time,Putter,Start\n10:00,B,-0.8\n", "distance"),
        (b"Time,Putter,Dot (mm)\n10:00,B,-3.5\n", "board-distance"),
    ],
)
def test_a_tables_length_that_cannot_be_read_is_told_and_no_row_is_taken(
    pages, at: str, opened, do: str, table: bytes, name: str
) -> None:
    where = pages.post(f"{at}/tables", files={"table": ("log.csv", table)}).headers["location"]
    kind = "putts" if name == "distance" else "aims"
    form = {"said": "yes", "table": kind, "do": do, "positive-2": "right", name: "far"}
    form |= {"into-2": "reading_mm"} if kind == "aims" else {}
    answer = pages.post(where, data=form)

    assert "is not a number" in _told(answer, name)
    assert _field(answer.text, name) == "far"
    assert opened().fitting.putts == opened().fitting.aims == ()

    assert pages.post(where, data=form | {name: "2 m", "do": "take"}).status_code == 303
    length = [putt.distance_m * 1000 for putt in opened().fitting.putts]
    length += [aim.board_distance_mm for aim in opened().fitting.aims]
    assert length == [2000.0]
