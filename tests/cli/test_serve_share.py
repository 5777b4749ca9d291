"""serve --share says how the network is let in; half a certificate is told."""

from __future__ import annotations

from pathlib import Path

import pytest

from puttwright.web.sharing import Share


@pytest.fixture
def shared(monkeypatch):
    """How the pages were shared."""
    calls = []
    monkeypatch.setattr("puttwright.web.serve.serve", lambda *, share, **_: calls.append(share))
    return calls


def test_nothing_is_shared_unless_asked_for(run, shared):
    assert run("serve").exit_code == 0
    assert shared == [None]


def test_how_it_is_shared_is_handed_on(run, shared):
    given = ("--tls-cert", "c.pem", "--tls-key", "k.pem")
    assert (
        run("serve", "--share", "--share-port", 9000, "--share-name", "bay", *given).exit_code == 0
    )
    assert shared == [Share(port=9000, name="bay", certificate=Path("c.pem"), key=Path("k.pem"))]


@pytest.mark.parametrize(
    "wrong",
    [
        ("--share", "--tls-cert", "c.pem"),
        ("--share", "--tls-key", "k.pem"),
        ("--share-name", "bay"),
    ],
)
def test_half_of_it_is_told(run, shared, wrong):
    assert run("serve", *wrong).exit_code == 2
    assert shared == []
