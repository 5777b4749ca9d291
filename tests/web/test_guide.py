"""The guide on the pages: the docs, with every link leading somewhere."""

from __future__ import annotations

import re
from pathlib import Path
from xml.etree import ElementTree

import pytest
from PIL import Image

from puttwright.web import guide
from puttwright.web.sections import _HELP, help_for

DOCS = Path(__file__).resolve().parents[2] / "docs"


def test_every_page_of_the_docs_is_listed_and_opens(pages) -> None:
    listed = re.findall(r'href="(/guide/[^"]+)"', pages.get("/guide").text)
    written = [*DOCS.glob("guide/*.md"), *DOCS.glob("concepts/*.md"), *DOCS.glob("reference/*.md")]

    assert len(set(listed) - {help_for("/guide")}) >= len(written)
    for address in listed:
        assert pages.get(address).status_code == 200, address


def test_no_link_or_picture_of_the_guide_leads_nowhere(pages) -> None:
    asked = set()
    for lines in guide.contents().values():
        for line in lines:
            body = str(guide.guide_page(line.address.removeprefix("/guide/")).body)
            asked |= {each.split("#")[0] for each in re.findall(r'(?:href|src)="([^"]+)"', body)}

    inside = {each for each in asked if each.startswith("/")}
    assert len(inside) > 10
    assert not {each for each in asked - inside if not each.startswith("http") and each}
    for address in inside:
        assert pages.get(address).status_code == 200, address


def test_a_page_says_what_its_file_says_and_obeys_no_html(pages, tmp_path, monkeypatch) -> None:
    (tmp_path / "guide").mkdir()
    text = (
        "<!-- a note -->\n# A *title*\n\nBegins so. [Out](../../x.py) <script>alert(1)</script>\n"
    )
    (tmp_path / "guide" / "new.md").write_text(text)
    monkeypatch.setattr(guide, "docs", lambda: tmp_path)
    guide._known.cache_clear()
    try:
        shown = guide.guide_page("new")
    finally:
        guide._known.cache_clear()

    assert shown.title == "A title"
    assert "<script>" not in shown.body
    assert "<span>Out</span>" in shown.body
    assert "a note" not in shown.body


@pytest.mark.parametrize("name", ["nope", "../README", "README", "pictures/nope.svg", "guide/x"])
def test_what_is_not_there_is_told(pages, name: str) -> None:
    assert pages.get(f"/guide/{name}").status_code == 404


def test_the_help_of_every_page_is_there(pages) -> None:
    for _, page in _HELP:
        assert pages.get(f"/guide/{page}").status_code == 200, page


def test_no_page_carries_a_style_of_its_own() -> None:
    """The browser would block it, and the column would stand on the wrong side."""
    bodies = [
        str(guide.guide_page(line.address.removeprefix("/guide/")).body)
        for lines in guide.contents().values()
        for line in lines
    ]

    assert not [found for each in bodies if (found := re.search(r"<[^>]*\sstyle=.{40}", each))]
    assert any('<td class="to-right">' in each for each in bodies)


def test_an_empty_cell_heads_no_column(tmp_path, monkeypatch) -> None:
    (tmp_path / "guide").mkdir()
    (tmp_path / "guide" / "new.md").write_text(
        "# A\n\nBegins.\n\n| a | |\n| --- | --- |\n| 1 | 2 |\n"
    )
    monkeypatch.setattr(guide, "docs", lambda: tmp_path)
    guide._known.cache_clear()
    try:
        body = guide.guide_page("new").body
    finally:
        guide._known.cache_clear()

    assert body.count("<th>") == 1
    assert "<td></td>" in body


def test_every_picture_says_how_large_it_is() -> None:
    """Else the page jumps when it comes."""
    bodies = [
        str(guide.guide_page(line.address.removeprefix("/guide/")).body)
        for lines in guide.contents().values()
        for line in lines
    ]
    images = [each for body in bodies for each in re.findall(r"<img [^>]*>", body)]

    assert len(images) > 15
    for image in images:
        said = dict(re.findall(r'(\w+)="([^"]*)"', image))
        file = DOCS / "pictures" / Path(said["src"]).name
        assert (int(said["width"]), int(said["height"])) == _own_size(file), file.name


def _own_size(file: Path) -> tuple[int, int]:
    if file.suffix == ".png":
        with Image.open(file) as picture:
            return picture.size
    root = ElementTree.parse(file).getroot()
    _, _, width, height = (round(float(each)) for each in root.attrib["viewBox"].split())
    return width, height
