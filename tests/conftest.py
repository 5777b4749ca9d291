"""What every test shares: the same draws every run, a sealed browser, the validation option."""

from __future__ import annotations

import os
import shutil
import sys
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


# Quiet, and unable to ask anybody but this machine: a page that reaches out fails its test.
_SEALED = (
    "--no-sandbox",
    "--disable-gpu",
    "--disable-quic",
    "--no-first-run",
    "--disable-background-networking",
    "--disable-component-update",
    "--disable-sync",
    "--host-resolver-rules=MAP * ~NOTFOUND , EXCLUDE 127.0.0.1",
)
_PROGRAMS = (
    "chromium",
    "chromium-browser",
    "google-chrome",
    "/Applications/Chromium.app/Contents/MacOS/Chromium",
)


@pytest.fixture(scope="session")
def chromium():
    """A Chromium, driven by Playwright, that can reach this machine only."""
    from playwright.sync_api import sync_playwright

    named = os.environ.get("PUTTWRIGHT_CHROMIUM")
    found = named or next(filter(None, map(shutil.which, _PROGRAMS)), None)
    assert found, "no Chromium: install it, or set PUTTWRIGHT_CHROMIUM (see scripts/browser.sh)"
    with sync_playwright() as playwright:
        browser = playwright.chromium.launch(executable_path=found, args=list(_SEALED))
        yield browser
        browser.close()


@pytest.fixture(scope="session")
def axe(root: Path) -> str:
    """The accessibility rules, to be injected into a page: ``page.evaluate(axe)``."""
    return (root / "tests" / "vendor" / "axe.min.js").read_text(encoding="utf-8")


@pytest.fixture(scope="session")
def postgres():
    """A PostgreSQL server that the tests started."""
    sys.path.insert(0, str(ROOT / "tests"))
    from postgres import Postgres

    server = Postgres.made()
    yield server
    server.end()
