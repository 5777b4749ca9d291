"""The first fitting of the guide works as it is printed."""

from __future__ import annotations

import json
import re

import pytest

from puttwright.readers.package import read_package

PRINTED_FILE = re.compile(
    r"^`([\w.]+)` [^\n]*\n\n```(?:json|csv)\n(.*?)```", re.MULTILINE | re.DOTALL
)


@pytest.fixture
def printed(root, tmp_path):
    """The guide's own files, written as a reader would."""
    text = (root / "docs" / "guide" / "first-fitting.md").read_text(encoding="utf-8")
    folder = tmp_path / "my-fitting"
    folder.mkdir()
    for name, block in PRINTED_FILE.findall(text):
        (folder / name).write_text(block, encoding="utf-8")
    return folder


def test_the_printed_files_are_a_package(printed):
    fitting = read_package(printed)

    assert (fitting.golfer.handed, len(fitting.builds), len(fitting.putts)) == ("left", 2, 4)


@pytest.mark.slow
def test_the_printed_package_is_decided(run, printed):
    result = run("decide", printed, "--json")

    assert result.exit_code == 0
    assert json.loads(result.stdout)["choice"] in ("keep", "undecided")


def test_the_printed_faults_are_the_faults(root, run, printed):
    guide = (root / "docs" / "guide" / "first-fitting.md").read_text(encoding="utf-8")
    table = printed / "putts.csv"
    rows = table.read_text("utf-8").splitlines()
    rows += ["5,B,3,,,,,", "6,B,3,,,,,40", "7,B,3,,,,,", '8,B,"2,4",,,,,']
    table.write_text("\n".join(rows))

    assert run("decide", printed).stderr in guide
