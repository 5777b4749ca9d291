"""One line an event, nobody's data, and the file does not grow without end."""

from __future__ import annotations

import logging
from pathlib import Path

import pytest

from puttwright.deeds.keep_log import LOG, OneLine, fault_line, log_file
from puttwright.deeds.open_fitting import open_fitting
from puttwright.errors import NotFound


@pytest.fixture
def logger(tmp_path: Path):
    handler = log_file(tmp_path)
    logger = logging.getLogger("puttwright.alone")
    logger.addHandler(handler)
    yield logger
    logger.removeHandler(handler)
    handler.close()


def test_a_trace_is_a_part_of_the_line(logger, tmp_path: Path) -> None:
    try:
        {}["Robin Golfer"]
    except KeyError:
        logger.exception("while\nworking:")

    (line,) = (tmp_path / LOG).read_text("utf-8").splitlines()
    assert "ERROR while | working: | KeyError at test_keep_log.py:" in line
    assert "Robin" not in line


def test_where_it_went_wrong_is_said_without_what_it_was_about(shop) -> None:
    with pytest.raises(NotFound) as raised:
        open_fitting(shop.store, "Robin")
    line = fault_line(raised.value)
    assert line.startswith("NotFound at store/revisions.py:")
    assert " < deeds/open_fitting.py:" in line
    assert "Robin" not in line


def test_what_the_database_says_of_itself_is_kept_and_its_values_are_not(shop) -> None:
    from sqlalchemy.exc import IntegrityError

    with pytest.raises(IntegrityError) as raised, shop.store.writing() as connection:
        connection.exec_driver_sql("INSERT INTO shop_part (part_id, kind) VALUES ('Robin', NULL)")
    assert "IntegrityError (NOT NULL constraint failed: shop_part.kind) at " in fault_line(
        raised.value
    )


def test_the_log_does_not_grow_without_end(logger, tmp_path: Path) -> None:
    for _ in range(60):
        logger.warning("x" * 100_000)

    sizes = [file.stat().st_size for file in tmp_path.glob(f"{LOG}*")]
    assert len(sizes) == 4
    assert max(sizes) <= 1_000_000


@pytest.mark.faults
def test_a_log_that_cannot_be_written_does_not_stop_the_work(capsys, tmp_path: Path) -> None:
    (tmp_path / LOG).mkdir()
    handler = log_file(tmp_path)

    handler.handle(logging.makeLogRecord({"msg": "hello", "levelname": "INFO"}))

    assert capsys.readouterr().err == ""
    assert OneLine().format(logging.makeLogRecord({"msg": "a\rb"})).endswith("a b")
