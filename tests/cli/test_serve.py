"""serve hands the port and the data folder on, and nothing else."""

from __future__ import annotations

import pytest


@pytest.fixture
def served(monkeypatch):
    """What the pages were started with."""
    calls = []

    def note(*, port, data_dir, database, **_):
        calls.append((port, data_dir, database))

    monkeypatch.setattr("puttwright.web.serve.serve", note)
    return calls


def test_port_and_folder_are_handed_on(run, served, tmp_path):
    assert run("serve", "--port", 49123, "--data", tmp_path / "data").exit_code == 0
    assert served == [(49123, tmp_path / "data", None)]


def test_without_a_folder_the_users_own_is_taken(run, served, monkeypatch, tmp_path):
    monkeypatch.setenv("XDG_DATA_HOME", str(tmp_path))
    monkeypatch.setenv("LOCALAPPDATA", str(tmp_path))

    assert run("serve", "--port", 49124).exit_code == 0
    assert served[0][1].name == "puttwright"


def test_a_database_is_handed_on(run, served):
    assert run("serve", "--database", "postgresql://host/shop").exit_code == 0
    assert served[0][2] == "postgresql://host/shop"


@pytest.mark.parametrize("port", ["80", "70000", "web"])
def test_a_port_that_is_none_is_told(run, served, port):
    assert run("serve", "--port", port).exit_code == 2
    assert served == []
