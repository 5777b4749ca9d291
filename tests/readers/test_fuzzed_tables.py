"""A slice of the hundred thousand malformed files of ``scripts/fuzz_tables.py``."""

from __future__ import annotations

import importlib.util

import pytest


@pytest.fixture
def fuzz(root):
    spec = importlib.util.spec_from_file_location("fuzz", root / "scripts" / "fuzz_tables.py")
    module = importlib.util.module_from_spec(spec)
    spec.loader.exec_module(module)
    return module


@pytest.mark.slow
def test_a_malformed_file_ends_in_readings_or_a_sentence(fuzz, tmp_path, monkeypatch, capsys):
    monkeypatch.chdir(tmp_path)

    assert fuzz.main(200, 11) == 0

    told = capsys.readouterr().out
    assert all(kind in told for kind in ("XLSX", "ODS", "XLS", "JSON", "very wide", "bytes"))
    assert "'readings'" in told
    assert "'a sentence'" in told
    assert "TWO LINES" not in told
