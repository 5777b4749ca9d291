"""What every test shares: the same draws every run, and what writes the validation page."""

from __future__ import annotations

from pathlib import Path

import pytest
from hypothesis import HealthCheck, settings

ROOT = Path(__file__).resolve().parent.parent

settings.register_profile(
    "puttwright",
    derandomize=True,
    database=None,
    # The first call of a compiled kernel is slow; a property is not wrong for that.
    deadline=None,
    suppress_health_check=[HealthCheck.too_slow],
)
settings.load_profile("puttwright")


def pytest_addoption(parser: pytest.Parser) -> None:
    """``--write-validation`` makes docs/validation.md from the cases that ran."""
    parser.addoption(
        "--write-validation",
        nargs="?",
        const=str(ROOT / "docs" / "validation.md"),
        default=None,
        help="write the page of outside checks (docs/validation.md unless a path is given)",
    )


@pytest.fixture(scope="session")
def root() -> Path:
    """The top of the project."""
    return ROOT
