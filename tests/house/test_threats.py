"""Every threat names its tests, and the tests are there."""

from __future__ import annotations

import re
from pathlib import Path

ROOT = Path(__file__).resolve().parents[2]
NAMED = re.compile(r"`(tests/[\w/]+\.py)::(test_\w+)`")


def _threats():
    page = (ROOT / "docs" / "threats.md").read_text(encoding="utf-8")
    rows = [line for line in page.splitlines() if line.startswith("| ")]
    return rows[2:]  # after the head and its rule


def test_every_threat_has_a_test(none_of):
    rows = _threats()
    assert len(rows) >= 20
    none_of([row[:60] for row in rows if not NAMED.search(row.rsplit("|", 2)[1])])


def test_every_test_that_is_named_is_there(texts, none_of):
    named = [match.groups() for row in _threats() for match in NAMED.finditer(row)]
    none_of(
        [f"{path}::{name}" for path, name in named if f"def {name}(" not in texts.get(path, "")]
    )
