"""The sheet, the order and the demo end as files that are there whole."""

from __future__ import annotations

import json

import pytest

from puttwright.readers.package import read_package

pytestmark = pytest.mark.slow


def is_pdf(path):
    data = path.read_bytes()
    return data.startswith(b"%PDF-") and b"%%EOF" in data[-20:]


@pytest.mark.parametrize("command", ["report", "order"])
def test_a_sheet_is_a_pdf_and_the_same_again(run, sound, tmp_path, command):
    for name in ("a.pdf", "b.pdf"):
        result = run(command, sound, "--out", tmp_path / "new" / name)
        assert (result.exit_code, result.stderr) == (0, "")

    assert is_pdf(tmp_path / "new" / "a.pdf")
    assert (tmp_path / "new" / "a.pdf").read_bytes() == (tmp_path / "new" / "b.pdf").read_bytes()


def test_a_build_may_be_ordered_by_name(run, sound, tmp_path):
    result = run("order", sound, "--build", "B", "--out", tmp_path / "order.pdf")

    assert result.exit_code == 0
    assert is_pdf(tmp_path / "order.pdf")


def test_an_order_of_a_build_that_is_not_there_is_told(run, sound, tmp_path):
    result = run("order", sound, "--build", "ZZ", "--out", tmp_path / "order.pdf")

    assert (result.exit_code, result.stdout) == (2, "")
    assert "There is no build called 'ZZ'; there are A, B" in result.stderr
    assert not (tmp_path / "order.pdf").exists()


def test_the_demo_does_the_whole_job_and_says_where(run, tmp_path):
    out = tmp_path / "demo"
    result = run("demo", "--out", out)

    assert result.exit_code == 0
    assert len(result.stderr.splitlines()) == 4
    assert len(result.stdout.split("\n\n")[0].splitlines()) == 5
    for name in ("decision.json", "report.pdf", "order.pdf", "right-hander", "left-hander"):
        assert str(out / name) in result.stdout
    assert "puttwright serve" in result.stdout
    assert is_pdf(out / "report.pdf")
    assert is_pdf(out / "order.pdf")
    hands = [read_package(out / name).golfer.handed for name in ("right-hander", "left-hander")]
    assert hands == ["right", "left"]
    decision = (out / "decision.json").read_bytes()
    assert json.loads(decision)["choice"]
    assert run("demo", "--out", out).exit_code == 0
    assert (out / "decision.json").read_bytes() == decision
