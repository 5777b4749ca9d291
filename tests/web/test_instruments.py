"""A gauge study on a page: what the instrument can tell apart, and the belief that rests on it."""

from __future__ import annotations

import re

import numpy as np
import pytest

from puttwright.evidence import AimReading
from puttwright.fitting.readings import gather


def study_table(*, sd=3.0):
    rng = np.random.default_rng(1)
    rows = [
        f"{who},{part},{50 * part + rng.normal(0, sd):.2f}"
        for part in range(1, 7) for who in ("Ann", "Bo") for _ in range(3)
    ]  # fmt: skip
    return "\n".join(["operator,part,reading (mm)", *rows]).encode()


def study(pages, at, data, **typed):
    return pages.post(
        f"{at}/instruments", files={"study": ("laser.csv", data)},
        data={"quantity": "reading_mm", "name": "wall laser", "board": "3000"} | typed,
    )  # fmt: skip


def test_what_was_studied_counts_in_the_belief(pages, at, record, opened):
    record(AimReading(seq=0, build_id="A", board_distance_mm=2000, reading_mm=7,
                      instrument="wall laser"))  # fmt: skip
    before = gather(opened().fitting).rows["aim"][0].instrument_sd

    said = study(pages, at, study_table(), board="2000")
    assert "wall laser can tell" in said.text
    assert opened().fitting.instruments == ()
    number = re.search(r'name="instrument" value="([^"]+)"', said.text)[1]
    kept = pages.post(f"{at}/instruments/keep", data={"instrument": number})

    assert "repeats to" in pages.get(kept.headers["location"]).text
    (entry,) = opened().fitting.instruments
    assert entry.repeatability_sd == pytest.approx(3.0, rel=0.4)
    after = gather(opened().fitting).rows["aim"][0].instrument_sd
    assert after / before == pytest.approx(entry.repeatability_sd / 1.5)


def test_what_was_studied_before_serves_the_next_fitting(pages, at, started):
    said = study(pages, at, study_table())
    number = re.search(r'name="instrument" value="([^"]+)"', said.text)[1]
    pages.post(f"{at}/instruments/keep", data={"instrument": number})
    other = f"/fittings/{started('left')}"

    page = pages.get(f"{other}/instruments").text
    assert "Studied before" in page
    number = re.search(r'name="instrument" value="([^"]+)"', page)[1]
    pages.post(f"{other}/instruments/keep", data={"instrument": number})

    assert "Studied before" not in pages.get(f"{other}/instruments").text


@pytest.mark.parametrize(
    ("data", "why"),
    [(b"", "is empty"), (b"part,reading\n1,2\n2,3\n3,4\n", "read twice"), (b"\x89PNG", "picture")],
)
def test_what_is_no_study_is_a_sentence(pages, at, opened, data, why):
    said = study(pages, at, data)

    assert said.status_code == 422
    assert why in said.text
    assert opened().fitting.instruments == ()
