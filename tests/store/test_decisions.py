from __future__ import annotations

import dataclasses
from collections.abc import Iterator
from datetime import datetime

import pytest
from sqlalchemy import Connection, func, select

from puttwright.evidence import Fitting
from puttwright.store import Store, decisions, fittings, revisions, tables
from puttwright.store.decisions import KeptDecision


@pytest.fixture
def connection(store: Store, fitting: Fitting, now: datetime) -> Iterator[Connection]:
    with store.writing() as opened:
        fittings.start(opened, fitting, entry_key="k", now=now, who="fitter")
        yield opened


@pytest.fixture
def decided(now: datetime) -> KeptDecision:
    return KeptDecision(
        version="0.1.0",
        seed=1,
        inputs_sha256="a",
        decision={"choice": "keep", "builds": {"own": {"mean": 0.25}}},
        revision=1,
        when=now,
    )


def _key(connection: Connection) -> int:
    return revisions.key_of(connection, "F1")


def _count(connection: Connection) -> int:
    return connection.execute(select(func.count()).select_from(tables.decision_made)).scalar_one()


def test_there_is_none_at_first(connection: Connection) -> None:
    assert decisions.latest(connection, key=_key(connection)) is None


def test_a_decision_comes_back(connection: Connection, decided: KeptDecision) -> None:
    decisions.keep(connection, decided, key=_key(connection))

    assert decisions.latest(connection, key=_key(connection)) == decided


def test_a_newer_one_takes_the_place(connection: Connection, decided: KeptDecision) -> None:
    newer = dataclasses.replace(decided, inputs_sha256="b", revision=2)
    for each in (decided, newer):
        decisions.keep(connection, each, key=_key(connection))

    assert decisions.latest(connection, key=_key(connection)) == newer
    assert _count(connection) == 1


def test_one_that_was_handed_out_stays(
    connection: Connection, decided: KeptDecision, now: datetime
) -> None:
    newer = dataclasses.replace(decided, inputs_sha256="b", revision=2)
    key = _key(connection)
    decisions.keep(connection, decided, key=key)
    decisions.issue(connection, decided, key=key, now=now)
    decisions.keep(connection, newer, key=key)

    assert _count(connection) == 2
    assert decisions.latest(connection, key=key) == newer


def test_back_at_earlier_readings_the_earlier_decision_is_the_latest_again(
    connection: Connection, decided: KeptDecision, now: datetime
) -> None:
    key = _key(connection)
    decisions.keep(connection, decided, key=key)
    decisions.issue(connection, decided, key=key, now=now)
    decisions.keep(connection, dataclasses.replace(decided, inputs_sha256="b", revision=2), key=key)
    undone = dataclasses.replace(decided, revision=3)
    decisions.keep(connection, undone, key=key)

    latest = decisions.latest(connection, key=key)

    assert latest == dataclasses.replace(undone, issued=now)
    assert _count(connection) == 1
