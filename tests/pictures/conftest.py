"""The invented fitting, and a way to look into a drawing."""

from __future__ import annotations

import importlib.util
from pathlib import Path
from xml.etree import ElementTree

import pytest

SVG = "{http://www.w3.org/2000/svg}"


def _load_samples():
    path = Path(__file__).resolve().parent.parent / "samples.py"
    spec = importlib.util.spec_from_file_location("samples", path)
    module = importlib.util.module_from_spec(spec)
    spec.loader.exec_module(module)
    return module


@pytest.fixture(scope="session")
def samples():
    return _load_samples()


class Drawing:
    """A parsed drawing."""

    def __init__(self, svg):
        self.svg = svg
        self.root = ElementTree.fromstring(svg)

    def all(self, tag):
        return list(self.root.iter(SVG + tag))

    def kind(self, name):
        return [item for item in self.root.iter() if item.get("class") == name]

    @property
    def words(self):
        return [item.text for item in self.all("text")]

    @property
    def ids(self):
        return [item.get("id") for item in self.root.iter() if item.get("id")]


@pytest.fixture
def parsed():
    return Drawing
