"""The program as a whole: quick, helpful, and never a trace."""

from __future__ import annotations

import os
import subprocess
import sys
from pathlib import Path

import pytest

from puttwright import __version__
from puttwright.cli import decide, fault
from puttwright.errors import CannotWrite

COMMANDS = ["demo", "decide", "next", "report", "order", "virtual", "serve", "calc"]


def test_the_version_is_told(run):
    assert run("--version").output == f"puttwright {__version__}\n"


@pytest.mark.parametrize("command", COMMANDS)
def test_every_command_has_help(run, command):
    result = run(command, "--help")

    assert result.exit_code == 0
    assert "Usage:" in result.output
    assert command in run("--help").output


@pytest.mark.parametrize("name", ["impact", "roll", "capture", "green-speed", "holing"])
def test_every_computation_says_its_ranges(run, name):
    text = " ".join(run("calc", name, "--help").output.split())

    assert text.count(" to ") >= text.count("NUMBER") - 1


def test_an_unknown_command_is_told_without_a_trace(run):
    result = run("decid", "x")

    assert (result.exit_code, result.stdout) == (2, "")
    assert "No such command 'decid'" in result.stderr


def test_a_user_error_is_its_sentence_on_stderr(run, monkeypatch, tmp_path):
    def refuse(*_args, **_kwargs):
        raise CannotWrite(path="x.pdf", reason="no space left on device")

    monkeypatch.setattr("puttwright.deeds.decide_package.read_package", refuse)
    result = run("decide", tmp_path)

    assert (result.exit_code, result.stdout) == (2, "")
    assert result.stderr == "x.pdf cannot be written: no space left on device.\n"


def test_a_fault_of_ours_is_one_line_with_an_id_and_a_log(run, monkeypatch, tmp_path):
    def break_down(*_args, **_kwargs):
        raise ZeroDivisionError("secret inner matter")

    monkeypatch.setattr("puttwright.deeds.decide_package.read_package", break_down)
    result = run("decide", tmp_path)

    assert (result.exit_code, result.stdout) == (70, "")
    assert len(result.stderr.splitlines()) == 1
    log = Path(result.stderr.split("; see ")[1].strip())
    name = result.stderr.split("(fault ")[1].split(")")[0]
    (line,) = log.read_text("utf-8").splitlines()
    assert f"ERROR fault {name} ZeroDivisionError at test_program.py:" in line
    assert "deeds/decide_package.py:" in line
    assert "secret" not in line  # what was worked on may be somebody's data
    assert "secret" not in result.stderr


@pytest.mark.faults
def test_a_log_that_cannot_be_written_is_no_second_fault(monkeypatch, tmp_path):
    (tmp_path / "file").write_text("")
    monkeypatch.setattr(fault, "_log_folder", lambda: tmp_path / "file")
    monkeypatch.setattr(fault.tempfile, "gettempdir", lambda: str(tmp_path / "file"))

    assert fault.keep_trace(ValueError()).endswith("; no log could be written")


def test_letters_a_console_lacks_do_not_stop_it(sound):
    code = "import sys; from puttwright.cli import main; sys.argv[0] = 'puttwright'; main()"
    run = subprocess.run(
        [sys.executable, "-X", "utf8=0", "-c", code, "calc", "impact", "--help"],
        env={"PYTHONIOENCODING": "cp1250", "PATH": "", "PYTHONPATH": str(_src())},
        capture_output=True,
        check=False,
    )

    assert (run.returncode, run.stderr) == (0, b"")
    assert b"cm?" in run.stdout


def _src():
    return Path(decide.__file__).parents[2]


def test_the_cores_are_left_to_our_own_threads(run, monkeypatch):
    monkeypatch.delenv("OPENBLAS_NUM_THREADS", raising=False)
    run("calc", "green-speed", "--help")
    assert os.environ.pop("OPENBLAS_NUM_THREADS") == "1"

    monkeypatch.setenv("OPENBLAS_NUM_THREADS", "3")
    run("calc", "green-speed", "--help")
    assert os.environ["OPENBLAS_NUM_THREADS"] == "3"
