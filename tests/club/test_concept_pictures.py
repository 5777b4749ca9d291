"""The pictures of docs/concepts/putter.md are those the models draw today."""

import importlib.util
import re

import pytest


@pytest.fixture(scope="module")
def drawings(root):
    spec = importlib.util.spec_from_file_location(
        "draw_putter", root / "scripts" / "draw_putter.py"
    )
    module = importlib.util.module_from_spec(spec)
    spec.loader.exec_module(module)
    return module


NUMBER = re.compile(r"-?\d+(?:\.\d+)?")


def _read(svg):
    """What is drawn, and where: the text without its numbers, and the numbers."""
    return NUMBER.sub("#", svg), [float(number) for number in NUMBER.findall(svg)]


@pytest.mark.parametrize("name", ["axes", "hang", "bend"])
def test_the_committed_drawing_is_current(drawings, root, name):
    committed = (root / "docs" / "pictures" / f"putter-{name}.svg").read_text(encoding="utf-8")
    words, places = _read(committed)
    words_now, places_now = _read(drawings.drawn(name))
    assert words == words_now, "run scripts/draw_putter.py"
    # Half a unit on the sheet: other machines round otherwise.
    assert places == pytest.approx(places_now, abs=0.5), "run scripts/draw_putter.py"


def test_every_drawing_stands_in_the_page(drawings, root):
    page = (root / "docs" / "concepts" / "putter.md").read_text(encoding="utf-8")
    assert [name for name in drawings.DRAWINGS if f"putter-{name}.svg" not in page] == []
