"""The pictures of docs/concepts/putt.md are those the models draw today."""

import importlib.util
import re

import pytest


@pytest.fixture(scope="module")
def drawings(root):
    spec = importlib.util.spec_from_file_location("draw_putt", root / "scripts" / "draw_putt.py")
    module = importlib.util.module_from_spec(spec)
    spec.loader.exec_module(module)
    return module


def _told(svg):
    """Words and element order, without coordinates that another machine rounds otherwise."""
    return re.sub(r"-?\d+(\.\d+)?", "0", svg)


@pytest.mark.parametrize("name", ["stages", "strike", "loft", "break", "hole", "rim"])
def test_the_committed_drawing_is_current(drawings, root, name):
    committed = (root / "docs" / "pictures" / f"putt-{name}.svg").read_text(encoding="utf-8")
    assert _told(committed)[:2000] == _told(drawings.drawn(name))[:2000], (
        "run scripts/draw_putt.py"
    )


def test_every_drawing_stands_in_the_page(drawings, root):
    page = (root / "docs" / "concepts" / "putt.md").read_text(encoding="utf-8")
    assert [name for name in drawings.DRAWINGS if f"putt-{name}.svg" not in page] == []
