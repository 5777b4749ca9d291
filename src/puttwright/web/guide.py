"""The guide inside the program: the pages of ``docs/``, the very same files."""

from __future__ import annotations

import posixpath
import re
import struct
from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from functools import cache
from importlib import resources
from pathlib import Path
from typing import Final
from urllib.parse import urlsplit

from markdown_it import MarkdownIt
from markdown_it.token import Token
from markupsafe import Markup, escape

from puttwright.errors import NotFound

AT: Final = "/guide"
_BOX: Final = re.compile(r'viewBox="0 0 ([\d.]+) ([\d.]+)"')
PARTS: Final = ("guide", "concepts", "reference")
"""Folders of the docs that are shown, in this order; what stands above them is shown as well."""
_PICTURES: Final = {".svg": "image/svg+xml", ".png": "image/png"}


@dataclass(frozen=True, slots=True, kw_only=True)
class GuidePage:
    """A page of the guide, ready to be shown."""

    title: str
    body: Markup


@dataclass(frozen=True, slots=True, kw_only=True)
class GuideLine:
    """A page in the list of pages: its title and how it begins."""

    address: str
    title: str
    begins: str


@cache
def docs() -> Path:
    """Where the docs lie: in the package, or beside it where it is worked on."""
    package = Path(str(resources.files("puttwright")))
    inside = package / "docs"
    return inside if inside.is_dir() else package.parents[1] / "docs"


def contents() -> dict[str, tuple[GuideLine, ...]]:
    """The pages of each part, the first steps first."""
    return {part: tuple(_lines(part)) for part in (*PARTS, "")}


def guide_page(name: str) -> GuidePage:
    """A page by the rest of its address: ``first-fitting``, ``concepts/putt``.

    Raises
    ------
    NotFound
        There is no such page.
    """
    path = f"{name}.md" if "/" in name or (docs() / f"{name}.md").is_file() else f"guide/{name}.md"
    if path not in _known():
        raise NotFound(what="page of the guide", name=name, known="")
    tokens = _markdown().parse(_text(path))
    title = next(each.content for each in tokens if each.type == "inline")
    _settle(tokens, path=path)
    drawn = _markdown().renderer.render(tokens, _markdown().options, {})
    return GuidePage(title=_plain(title), body=Markup(drawn))  # noqa: S704 - our own docs, no HTML


def picture(name: str) -> tuple[bytes, str]:
    """A picture of the docs and its kind.

    Raises
    ------
    NotFound
        There is no such picture.
    """
    folder = docs() / "pictures"
    found = {each.name: each for each in folder.iterdir() if each.suffix in _PICTURES}
    if name not in found:
        raise NotFound(what="picture of the guide", name=name, known="")
    return found[name].read_bytes(), _PICTURES[found[name].suffix]


@cache
def _known() -> frozenset[str]:
    every = [
        *docs().glob("*.md"),
        *(each for part in PARTS for each in (docs() / part).glob("*.md")),
    ]
    return frozenset(each.relative_to(docs()).as_posix() for each in every) - {"README.md"}


def _text(path: str) -> str:
    """A page as written, less its notes to whoever edits it."""
    return re.sub(r"<!--.*?-->", "", (docs() / path).read_text(encoding="utf-8"), flags=re.DOTALL)


def _lines(part: str) -> Iterator[GuideLine]:
    for path in sorted(_known(), key=lambda each: (each != "guide/first-fitting.md", each)):
        if posixpath.dirname(path) != part:
            continue
        inline = [each.content for each in _markdown().parse(_text(path)) if each.type == "inline"]
        begins = _plain(inline[1]).split(". ")[0].rstrip(".") if len(inline) > 1 else ""
        yield GuideLine(address=_address(path), title=_plain(inline[0]), begins=begins)


def _address(path: str) -> str:
    return f"{AT}/{path.removeprefix('guide/').removesuffix('.md')}"


def _plain(words: str) -> str:
    """Words without the marks of Markdown."""
    linked = re.sub(r"\[([^\]]*)\]\([^)]*\)", r"\1", words)
    return re.sub(r"[*`_]{1,2}(\S(?:.*?\S)?)[*`_]{1,2}", r"\1", linked.replace("\n", " "))


@cache
def _markdown() -> MarkdownIt:
    """Plain CommonMark with tables; HTML in a page would be shown, not obeyed."""
    reader = MarkdownIt("commonmark", {"html": False}).enable("table")
    reader.add_render_rule("table_open", _table_open)
    reader.add_render_rule("table_close", lambda *_rest: "</table></div>\n")
    reader.add_render_rule("fence", _code)
    reader.add_render_rule("code_block", _code)
    return reader


def _table_open(*_rest: object) -> str:
    return '<div class="scroll" tabindex="0" role="group"><table>\n'


def _code(_self: object, tokens: Sequence[Token], place: int, *_rest: object) -> str:
    return f'<pre class="scroll" tabindex="0"><code>{escape(tokens[place].content)}</code></pre>\n'


def _settle(tokens: Sequence[Token], *, path: str) -> None:
    """Give headings their names, and lead links and pictures to where they are served."""
    for place, token in enumerate(tokens):
        if token.type in ("th_open", "td_open"):
            _align(token)
        if token.type == "th_open" and not tokens[place + 1].content:
            token.tag = tokens[place + 2].tag = "td"  # an empty cell heads nothing
        if token.type == "heading_open":
            token.attrSet("id", _slug(tokens[place + 1].content))
        for child in token.children or ():
            if child.type == "link_open":
                _lead(child, path=path)
            elif child.type == "image":
                name = posixpath.basename(str(child.attrGet("src")))
                child.attrSet("src", f"{AT}/pictures/{name}")
                child.attrSet("loading", "lazy")
                _reserve(child, name)
        if token.children:
            _unlink(token.children)


def _reserve(image: Token, name: str, /) -> None:
    """Say how large a picture is, so that nothing moves when it comes."""
    try:
        size = _size(*picture(name))
    except NotFound:
        return
    for each, length in zip(("width", "height"), size, strict=False):
        image.attrSet(each, str(length))


def _size(data: bytes, kind: str) -> tuple[int, ...]:
    """Width and height as the picture's head has them; nothing where it has none."""
    if kind == _PICTURES[".png"]:
        return struct.unpack(">II", data[16:24])
    box = _BOX.search(data[:1000].decode("utf-8", "replace"))
    return (round(float(box[1])), round(float(box[2]))) if box else ()


def _align(cell: Token) -> None:
    """A column's side as a class: no page may carry a style of its own."""
    side = str(cell.attrs.pop("style", "")).removeprefix("text-align:")
    if side:
        cell.attrSet("class", f"to-{side}")


def _lead(link: Token, *, path: str) -> None:
    to = urlsplit(str(link.attrGet("href")))
    if to.scheme or not to.path:
        return
    target = posixpath.normpath(posixpath.join(posixpath.dirname(path), to.path))
    if target in _known():
        link.attrSet("href", _address(target) + (f"#{to.fragment}" if to.fragment else ""))
    else:
        link.attrs.pop("href")  # a file that is not shown here: its name stays, without a link


def _unlink(children: Sequence[Token]) -> None:
    """What leads nowhere is no link."""
    open_: list[Token] = []
    for child in children:
        if child.type == "link_open":
            open_.append(child)
        elif child.type == "link_close":
            begun = open_.pop()
            if "href" not in begun.attrs:
                begun.tag = child.tag = "span"


def _slug(words: str) -> str:
    """A heading's name in an address, as the places that show Markdown make it."""
    return re.sub(r"[^\w\- ]", "", _plain(words).lower()).replace(" ", "-")
