"""Commands as a person calls them, on a package that is made once."""

from __future__ import annotations

import pytest
from click.testing import CliRunner

from puttwright.cli import main
from puttwright.readers.package import read_package, write_package


@pytest.fixture
def run(monkeypatch, tmp_path):
    """Call a command; faults of ours are logged into the test's own folder."""
    monkeypatch.setenv("XDG_STATE_HOME", str(tmp_path / "state"))
    monkeypatch.setenv("LOCALAPPDATA", str(tmp_path / "state"))

    def call(*arguments):
        return CliRunner().invoke(main, [str(each) for each in arguments])

    return call


@pytest.fixture(scope="session")
def sound(tmp_path_factory):
    """The package of an invented golfer; not to be changed."""
    from puttwright.virtual.golfers import invent

    path = tmp_path_factory.mktemp("sound") / "fitting"
    write_package(invent(1, seed=5)[0].fitting, path)
    return path


@pytest.fixture
def package(sound, tmp_path):
    """A copy of the package to do harm to."""
    path = tmp_path / "fitting"
    write_package(read_package(sound), path)
    return path
