"""The guide: the docs, read where one works."""

from __future__ import annotations

from dataclasses import dataclass

from fastapi import APIRouter, Request, Response

from puttwright.web import guide
from puttwright.web.guide import GuideLine, GuidePage
from puttwright.web.pages import render

router = APIRouter()


@dataclass(frozen=True, slots=True, kw_only=True)
class GuideContents:
    """The pages, part by part."""

    parts: tuple[tuple[str, tuple[GuideLine, ...]], ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class ShownPage:
    """One page."""

    shown: GuidePage


@router.get(guide.AT)
def show_contents(request: Request) -> Response:
    """The list of pages."""
    parts = tuple((part or "more", lines) for part, lines in guide.contents().items())
    return render(request, "guide.html", page=GuideContents(parts=parts))


@router.get(guide.AT + "/pictures/{name}")
def show_picture(name: str) -> Response:
    """A picture of a page."""
    data, kind = guide.picture(name)
    return Response(data, media_type=kind, headers={"Cache-Control": "max-age=86400"})


@router.get(guide.AT + "/{name:path}")
def show_page(request: Request, name: str) -> Response:
    """One page."""
    return render(request, "guide_page.html", page=ShownPage(shown=guide.guide_page(name)))
