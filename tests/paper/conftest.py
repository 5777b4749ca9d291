"""The invented fitting, and a way to read a sheet."""

from __future__ import annotations

import importlib.util
import io
from pathlib import Path

import pypdf
import pytest


def _load_samples():
    path = Path(__file__).resolve().parent.parent / "samples.py"
    spec = importlib.util.spec_from_file_location("samples", path)
    module = importlib.util.module_from_spec(spec)
    spec.loader.exec_module(module)
    return module


@pytest.fixture(scope="session")
def samples():
    return _load_samples()


class Sheets:
    """A PDF as its reader meets it."""

    def __init__(self, pdf):
        self.reader = pypdf.PdfReader(io.BytesIO(pdf))
        self.pages = [page.extract_text() for page in self.reader.pages]

    @property
    def text(self):
        """All words, with spaces and line ends evened out."""
        return " ".join(" ".join(self.pages).split())


@pytest.fixture
def read():
    return Sheets


@pytest.fixture(scope="session")
def make():
    """The order of a fitting."""
    from puttwright.deeds.make_order import make_order

    return make_order
