"""What the pages carry with them: style, scripts, type and the mark, each under its fingerprint."""

from __future__ import annotations

import hashlib
from functools import cache
from importlib import resources
from pathlib import Path
from typing import Final

from fastapi import APIRouter, Request, Response
from fastapi.responses import FileResponse
from fastapi.staticfiles import StaticFiles
from starlette.types import Scope

from puttwright.pictures.grounds import BAY, PAPER, SUNLIGHT, Ground, css_properties
from puttwright.pictures.mark import mark

STATIC: Final = Path(str(resources.files("puttwright.web").joinpath("static")))
GROUNDS: Final[dict[str, Ground]] = {"paper": PAPER, "sun": SUNLIGHT, "bay": BAY}
SHEETS: Final = (
    "puttwright.css", "top.css", "fields.css", "sheets.css", "bench.css", "hour.css",
    "workshop.css", "waiting.css", "devices.css",
)  # fmt: skip
SCRIPTS: Final = (
    "outbox.js",
    "sending.js",
    "taps.js",
    "entry.js",
    "quick.js",
    "keys.js",
    "waiting.js",
)
"""What every page needs, each in the order it takes effect; a page asks for all of it at once."""
AUTO: Final = "auto"
"""Paper by day, bay where the device is set to dark."""
_FOR_GOOD: Final = "public, max-age=31536000, immutable"
_ASK_AGAIN: Final = "no-cache"

router = APIRouter()


class Fingerprinted(StaticFiles):
    """Files that a browser keeps for good when asked for under their fingerprint."""

    async def get_response(self, path: str, scope: Scope) -> Response:
        """The file, with how long it may be kept."""
        response = await super().get_response(path, scope)
        response.headers["Cache-Control"] = _kept(scope["query_string"])
        return response


def _kept(query: bytes) -> str:
    return _FOR_GOOD if query.startswith(b"v=") else _ASK_AGAIN


@cache
def asset(name: str) -> str:
    """The address of a static file, with its fingerprint.

    Examples
    --------
    >>> asset("puttwright.css").startswith("/static/puttwright.css?v=")
    True
    """
    return f"/static/{name}?v={_fingerprint((STATIC / name).read_bytes())}"


@cache
def generated(name: str) -> str:
    """The address of a generated file, with its fingerprint."""
    return f"/{name}?v={_fingerprint(_GENERATED[name]()[0].encode())}"


def _fingerprint(data: bytes) -> str:
    return hashlib.sha256(data).hexdigest()[:12]


def _grounds() -> tuple[str, str]:
    """The colours and line weights of the drawings, as custom properties of the pages."""
    blocks = []
    for name, ground in GROUNDS.items():
        selector = ":root" if name == "paper" else f':root[data-ground="{name}"]'
        blocks.append(_block(selector, ground))
    dark = _block(f':root[data-ground="{AUTO}"]', BAY)
    blocks.append(f"@media screen and (prefers-color-scheme: dark) {{\n{dark}}}\n")
    return "".join(blocks), "text/css"


def _style() -> tuple[str, str]:
    """All style sheets of the pages as one, so that a first page waits for one answer, not ten."""
    text = "".join((_grounds()[0], *(_text_of(name) for name in SHEETS)))
    return text.replace('url("vendor/', 'url("/static/vendor/'), "text/css"


def _scripts() -> tuple[str, str]:
    return "\n".join(_text_of(name) for name in SCRIPTS), "text/javascript"


def _text_of(name: str) -> str:
    return (STATIC / name).read_text(encoding="utf-8")


def _block(selector: str, ground: Ground) -> str:
    scheme = "dark" if ground is BAY else "light"
    values = {"color-scheme": scheme, **css_properties(ground)}
    lines = "".join(f"  {key}: {value};\n" for key, value in values.items())
    return f"{selector} {{\n{lines}}}\n"


def _mark() -> tuple[str, str]:
    return mark(ground=PAPER, backed=True), "image/svg+xml"


@router.get("/keep.js")
def keeper() -> Response:
    """The script that keeps pages; it may keep those below its own address, so that is the top."""
    kept = {"Cache-Control": _ASK_AGAIN}
    return FileResponse(STATIC / "keep.js", media_type="text/javascript", headers=kept)


_GENERATED: Final = {
    "grounds.css": _grounds, "mark.svg": _mark, "pages.css": _style, "pages.js": _scripts,
}  # fmt: skip


@router.get("/grounds.css")
@router.get("/mark.svg")
@router.get("/pages.css")
@router.get("/pages.js")
def generated_file(request: Request) -> Response:
    """A file put together here: what the drawings share with the pages, what a page asks for."""
    text, kind = _GENERATED[request.url.path.removeprefix("/")]()
    kept = _kept(str(request.url.query).encode())
    return Response(text, media_type=kind, headers={"Cache-Control": kept})
