"""The log says what happened and nothing about whom."""

from __future__ import annotations

import logging

import pytest


@pytest.fixture
def lines(caplog: pytest.LogCaptureFixture):
    """What was written to the log."""
    caplog.set_level(logging.INFO, logger="puttwright.web")
    return lambda: [record.getMessage() for record in caplog.records]


def test_a_request_is_one_line_without_names_or_ids(pages, at: str, lines) -> None:
    pages.get(f"{at}/readings?words=Robin")
    pages.get("/nobody/called/Robin")
    pages.get("/static/none.css")

    assert [line.rsplit(" ", 2)[0] for line in lines()] == [
        "asked GET /fittings/{fitting_id}/readings 200",
        "asked GET (no such page) 404",
    ]


def test_an_entry_leaves_nothing_of_it_in_the_log(pages, at: str, lines) -> None:
    form = {"entry_key": "k1", "hand": "B", "distance_m": "3", "note": "Robin limps"}
    pages.post(f"{at}/take/putts", data=form)

    (line,) = lines()
    assert line.startswith("asked POST /fittings/{fitting_id}/take/{kind} ")
