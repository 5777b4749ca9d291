"""Devices' tables on the pages: asked once, then taken by themselves, from wherever they come."""

from __future__ import annotations

import re

import pytest

from puttwright.readers.landing import DOUBTFUL_S, QUIET_S, Landing
from puttwright.web.app import create_app
from puttwright.web.arrivals import Arrivals

LOG = b"Time,Putter,Distance (m),Made,Start\n10:00:01,A,3,yes,-0.8\n10:00:31,B,3,no,0.4\n"
MORE = LOG + b"10:01:02,B,3,no,1.2\n10:01:31,Z,3,no,1.2\n"


def upload(pages, at, data, *, name="log.csv", **typed):
    return pages.post(f"{at}/tables", files={"table": (name, data)}, data=typed)


def answer(pages, where, **typed):
    return pages.post(where, data={"said": "yes", "table": "putts", "do": "take"} | typed)


@pytest.fixture
def confirmed(pages, at):
    """A kind of table that was confirmed: left is positive in it."""
    asked = upload(pages, at, LOG).headers["location"]
    done = answer(pages, asked, **{"positive-4": "left"})
    assert done.status_code == 303
    return done.headers["location"]


def test_a_new_kind_is_asked_about_with_an_example(pages, at, opened):
    sent = upload(pages, at, LOG)

    asked = pages.get(sent.headers["location"]).text
    assert "“Start” says -0.8 in row 2. That was" in asked
    ways = re.findall(r'name="positive-4" value="(\w+)"(?: checked)?> (\w+)', asked)
    assert ways == [("right", "left"), ("left", "right")]
    assert 'name="positive-4" value="right" checked' not in asked
    assert "<table" not in asked  # nothing can be shown before the side is said
    assert opened().fitting.putts == ()


def test_a_side_not_said_is_asked_for_again(pages, at, opened):
    where = upload(pages, at, LOG).headers["location"]

    refused = answer(pages, where)

    assert refused.status_code == 422
    assert "Say which side it was" in refused.text
    assert opened().fitting.putts == ()


@pytest.mark.parametrize(("positive", "start"), [("left", 0.8), ("right", -0.8)])
def test_what_comes_of_it_is_shown_before_it_is_read(pages, at, opened, positive, start):
    where = upload(pages, at, LOG).headers["location"]

    shown = answer(pages, where, do="show", **{"positive-4": positive})
    assert f"<td>{start:.4g}</td>".replace("-", "\N{MINUS SIGN}") in shown.text
    assert opened().fitting.putts == ()

    answer(pages, where, **{"positive-4": positive})
    assert [putt.start_deg for putt in opened().fitting.putts] == [start, -start / 2]


def test_the_next_of_its_kind_is_read_by_itself(pages, at, opened, confirmed):
    done = upload(pages, at, MORE, name="next.csv")

    page = pages.get(done.headers["location"]).text
    assert "1 putt added. 2 were read before. 1 did not fit" in page
    assert "next.csv, row 5" in page
    assert [putt.start_deg for putt in opened().fitting.putts] == [0.8, -0.4, -1.2]


def test_a_file_taken_back_is_read_anew(pages, at, opened, confirmed):
    page = pages.get(f"{at}/tables").text
    key = re.search(r'name="file" value="([^"]+)"', page)[1]

    said = pages.post(f"{at}/tables/take-back", data={"file": key})

    assert "Taken back: 2 readings" in said.text
    assert all(putt.void for putt in opened().fitting.putts)
    assert "1 putt added" not in upload(pages, at, LOG).text


def test_columns_may_be_said_otherwise(pages, at, opened):
    data = b"Speed of ball;Room;Made\n3,5;1,5;yes\n3,1;1,6;no\n"
    where = upload(pages, at, data, hand="B").headers["location"]
    typed = {"unit-0": "mph", "into-1": "skid_m", "unit-1": "ft", "from": "2", "hand": "B"}

    done = answer(pages, where, instrument="mat", **typed)

    assert done.status_code == 303, done.text
    putt = opened().fitting.putts[0]
    assert (putt.build_id, putt.distance_m, putt.instrument) == ("B", 2.0, "mat")
    assert putt.ball_speed_mps == pytest.approx(3.5 * 0.44704)
    assert putt.skid_m == pytest.approx(1.5 * 0.3048)


@pytest.mark.parametrize("data", [b"", b"\x89PNG\r\n\x1a\n123", b"no table here", b"PK\x03\x04x"])
def test_what_is_no_table_is_a_sentence(pages, at, opened, data):
    said = upload(pages, at, data)

    assert said.status_code == 422
    assert 'role="alert"' in said.text
    assert "log.csv" in said.text or "Choose a file" in said.text
    assert opened().fitting.putts == ()


# Files that land


@pytest.fixture
def landed(tmp_path):
    folder = tmp_path / "landed"
    folder.mkdir()
    return folder


def test_a_file_is_waited_for_until_it_is_whole(landed):
    (landed / "old.csv").write_bytes(LOG)
    landing = Landing(landed)
    assert landing.whole(0.0) == []

    file = landed / "log.csv"
    file.write_bytes(LOG[:-7])
    assert landing.whole(1.0) == []
    assert landing.whole(1.0 + 1.01 * QUIET_S) == []  # it ends in the middle of a row
    file.write_bytes(LOG)
    assert landing.whole(2.0) == []
    assert landing.whole(2.0 + 1.01 * QUIET_S) == [file]
    assert landing.whole(9.0) == []
    file.write_bytes(MORE)
    landing.whole(10.0)
    assert landing.whole(10.0 + 1.01 * QUIET_S) == [file]


def test_a_last_row_without_an_end_is_taken_after_a_while(landed):
    landing = Landing(landed)
    (landed / "log.csv").write_bytes(LOG.strip())
    (landed / "half.part").write_bytes(LOG)
    landing.whole(1.0)

    assert landing.whole(1.0 + DOUBTFUL_S - 0.01) == []
    assert landing.whole(1.01 + DOUBTFUL_S) == [landed / "log.csv"]


def test_a_half_written_spreadsheet_is_waited_for(landed):
    landing = Landing(landed)
    (landed / "log.xlsx").write_bytes(b"PK\x03\x04" + b"\n" * 50)
    landing.whole(1.0)

    assert landing.whole(1.0 + 1.01 * QUIET_S) == []


@pytest.fixture
def arrivals(pages) -> Arrivals:
    return pages.app.state.arrivals


def land(arrivals, folder, data, name="log.csv"):
    arrivals.watch(folder)
    (folder / name).write_bytes(data)
    for _ in range(2):
        arrivals._landing.whole(0.0)
    return arrivals.landed(folder / name)


def test_what_lands_is_read_into_the_fitting_that_is_open(
    pages, at, opened, confirmed, arrivals, landed
):
    pages.get(f"{at}?hand=B&task=putts&from=2")

    land(arrivals, landed, MORE)

    assert [putt.start_deg for putt in opened().fitting.putts] == [0.8, -0.4, -1.2]
    assert arrivals.waiting() == ()


def test_what_lands_while_nothing_is_open_waits(pages, at, opened, confirmed, arrivals, landed):
    outcome = land(arrivals, landed, MORE)

    assert outcome.read is None
    page = pages.get(f"{at}/tables").text
    assert "It came while no fitting was open" in page
    where = re.search(r'href="([^"]+)">Look at it', page)[1]
    assert answer(pages, where, **{"positive-4": "left"}).status_code == 303
    assert len(opened().fitting.putts) == 3
    assert arrivals.waiting() == ()
    assert (landed / "log.csv").exists()


def test_a_new_kind_that_lands_waits_and_is_shown(pages, at, opened, arrivals, landed):
    pages.get(at)
    land(arrivals, landed, LOG)
    land(arrivals, landed, MORE, name="more.csv")

    assert "2 files wait" in pages.get(f"{at}/arrived").text
    where = re.search(r'href="([^"]+)">Look at it', pages.get(f"{at}/tables").text)[1]
    answer(pages, where, **{"positive-4": "left"})

    assert len(opened().fitting.putts) == 3  # the other one of its kind was read with it
    assert pages.get(f"{at}/arrived").text.strip() == ""


def test_no_table_that_lands_is_told_and_left_alone(pages, at, arrivals, landed):
    pages.get(at)
    land(arrivals, landed, b"\x89PNG\r\n\x1a\n1234", name="shot.png")

    page = pages.get(f"{at}/tables").text
    assert "is a picture, not a table" in page
    where = re.search(r'href="([^"]+)">Look at it', page)[1]
    pages.post(where, data={"do": "leave"})
    assert "is a picture" not in pages.get(f"{at}/tables").text
    assert (landed / "shot.png").exists()


def test_the_folder_is_set_on_the_page_and_remembered(pages, at, shop, landed):
    wrong = pages.post(f"{at}/tables/watch", data={"folder": "nowhere"})
    assert wrong.status_code == 422
    assert "there is no such folder" in wrong.text

    pages.post(f"{at}/tables/watch", data={"folder": str(landed)})

    again = create_app(shop, hosts={"testserver"})
    assert again.state.arrivals.folder == landed


# What a program sends


def test_a_putt_that_is_posted_is_taken_with_what_is_in_hand(pages, at, opened):
    pages.get(f"{at}?hand=B&task=putts&from=2.5")

    said = pages.post("/receive", json={"holed": False, "start_deg": -0.8})

    assert said.status_code == 201, said.text
    assert said.json()["readings"] == [{"table": "putts", "seq": 1}]
    (putt,) = opened().fitting.putts
    assert (putt.build_id, putt.distance_m, putt.start_deg) == ("B", 2.5, -0.8)


def test_a_putt_posted_twice_under_one_key_is_kept_once(pages, at, fitting_id, opened):
    putt = {"holed": True, "distance_m": 3, "build_id": "A", "ball_speed_mps": 1.5}
    for key in ("k1", "k1", "k2"):
        said = pages.post(
            f"/receive?fitting={fitting_id}", json=putt, headers={"Idempotency-Key": key}
        )
        assert said.status_code == 201
    for _ in range(2):
        pages.post(f"/receive?fitting={fitting_id}", json=putt | {"at": "2026-05-01T10:00:00"})

    assert [each.seq for each in opened().fitting.putts] == [1, 2, 3]


@pytest.mark.parametrize(
    ("putt", "why"),
    [
        ({"start_deg": 99}, "99"),
        ({"build_id": "Z", "holed": True}, "'Z'"),
        ({"start_deg": "2026-05-01"}, "is a date"),
        ({"note": "nothing"}, "nothing that was measured"),
    ],
)
def test_a_putt_that_cannot_be_is_refused_with_why(pages, at, opened, putt, why):
    pages.get(at)

    said = pages.post("/receive", json={"distance_m": 3, "holed": None} | putt)

    assert said.status_code == 422
    assert why in said.json()["error"]["message"]
    assert opened().fitting.putts == ()


def test_nothing_is_guessed_when_no_fitting_is_open(pages, fitting_id):
    assert pages.get("/fittings/none").status_code == 404
    said = pages.post("/receive", json={"holed": True, "distance_m": 3})

    assert said.status_code == 409
    assert "?fitting=" in said.json()["error"]["message"]


def test_a_file_that_is_sent_is_read_or_waits_on_the_disk(pages, at, shop, opened):
    pages.get(at)

    waits = pages.request("PUT", "/receive/..%2Flog.csv", content=LOG)
    assert waits.status_code in (202, 404)
    waits = pages.request("PUT", "/receive/log.csv", content=LOG)

    assert waits.status_code == 202
    assert waits.json()["page"] == f"{at}/tables"
    assert (shop.folder / "received" / "log.csv").read_bytes() == LOG
    again = create_app(shop, hosts={"testserver"})  # the program was begun anew
    assert [each.path.name for each in again.state.arrivals.waiting()] == ["log.csv"]

    where = re.search(r'href="([^"]+)">Look at it', pages.get(f"{at}/tables").text)[1]
    answer(pages, where, **{"positive-4": "right"})
    assert not (shop.folder / "received" / "log.csv").exists()
    taken = pages.request("PUT", "/receive/log.csv", content=MORE)
    assert taken.status_code == 200
    assert (taken.json()["added"], taken.json()["read_before"]) == (1, 2)
    assert "'Z'" in taken.json()["aside"][0]["why"]
    assert len(opened().fitting.putts) == 3


@pytest.mark.parametrize(
    "headers",
    [{"Host": "elsewhere"}, {"Origin": "http://elsewhere"}, {"Sec-Fetch-Site": "cross-site"}],
)
def test_a_page_elsewhere_cannot_send_anything(pages, at, opened, headers):
    pages.get(at)

    for method, where in (("POST", "/receive"), ("PUT", "/receive/log.csv")):
        assert pages.request(method, where, content=LOG, headers=headers).status_code == 403
    assert opened().fitting.putts == ()
