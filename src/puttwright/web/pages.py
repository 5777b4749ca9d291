"""From a page's data to its HTML: every page is a template and one frozen record."""

from __future__ import annotations

import dataclasses
from dataclasses import dataclass
from functools import cache
from typing import Any

from fastapi import Request, Response
from fastapi.responses import HTMLResponse
from jinja2 import Environment, PackageLoader, StrictUndefined
from markupsafe import Markup

from puttwright.deeds.paired_devices import CLIENT, Device
from puttwright.fitting.phrases import joined
from puttwright.pictures.grounds import PAGE
from puttwright.pictures.hand import digits_for, in_spoken, spoken_unit, worded
from puttwright.pictures.mark import mark
from puttwright.web.assets import AUTO, GROUNDS, asset, generated
from puttwright.web.contexts.hand import shown_length
from puttwright.web.manner import manner
from puttwright.web.roles import may
from puttwright.web.sections import Section, help_for, sections
from puttwright.web.texts import catalogue

GROUND_COOKIE = "ground"


@dataclass(frozen=True, slots=True, kw_only=True)
class Shell:
    """What stands around every page."""

    ground: str
    here: str
    language: str
    shop: str
    sections: tuple[Section, ...]
    help: str
    screen: bool = False
    """Whether it is the client's screen, which shows nothing else."""
    grounds: tuple[str, ...] = (AUTO, *GROUNDS)


def _words(key: str, /, **data: object) -> str:
    """The words of a key in the language spoken here."""
    return catalogue()(key, **data)


@cache
def _environment() -> Environment:
    environment = Environment(
        loader=PackageLoader("puttwright.web", "templates"),
        autoescape=True,
        undefined=StrictUndefined,
        trim_blocks=True,
        lstrip_blocks=True,
    )
    environment.filters["said"] = worded
    environment.globals |= {
        "t": _words,
        "manner": manner,
        "spoken_unit": spoken_unit,
        "in_spoken": in_spoken,
        "digits_for": digits_for,
        "shown_length": shown_length,
        "asset": asset,
        "generated": generated,
        "mark": Markup(mark(ground=PAGE, prefix="site-mark")),  # noqa: S704 - our own drawing
    }
    return environment


def get_pages_ready() -> None:
    """Compile every template now, so that nobody's first entry waits for it (most of a second)."""
    environment = _environment()
    for name in environment.list_templates():
        environment.get_template(name)


def render_text(template: str, page: Any, *, shell: Shell | None = None) -> str:
    """The HTML of a template; ``page`` is a frozen dataclass, so that a template finds all of it.

    Parameters
    ----------
    template
        Its name in ``templates``.
    page
        What it shows.
    shell
        What stands around it; a piece of a page needs none.
    """
    if not dataclasses.is_dataclass(page):
        raise TypeError(f"a page is a dataclass, not {type(page).__name__}")
    drawn = _environment().get_template(template).render(page=page, shell=shell)
    return joined(drawn)


def render(request: Request, template: str, *, page: Any, status: int = 200) -> Response:
    """The answer that shows ``page``."""
    return HTMLResponse(render_text(template, page, shell=shell_of(request)), status_code=status)


def shell_of(request: Request) -> Shell:
    """What stands around a page, as this browser wants it."""
    spoken = manner()
    ground = request.cookies.get(GROUND_COOKIE, "")
    path = request.url.path
    device: Device | None = request.scope.get("device")
    return Shell(
        ground=ground if ground in (AUTO, *GROUNDS) else spoken.ground,
        here=path + (f"?{request.url.query}" if request.url.query else ""),
        language=spoken.language,
        shop=spoken.shop,
        sections=tuple(
            each for each in sections(path) if device is None or may(device, each.address)
        ),
        help=help_for(path),
        screen=device is not None and device.role == CLIENT,
    )


def wants_fragment(request: Request) -> bool:
    """Whether a page that is open asks for a piece of itself."""
    return request.headers.get("hx-request") == "true"
