"""How the shop wants its pages."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass

from fastapi import APIRouter, Request, Response
from fastapi.responses import RedirectResponse

from puttwright.deeds.keep_settings import PageSettings, change_settings, look_at_settings
from puttwright.web.forms.asking import Field, Typed, fields, read
from puttwright.web.forms.setting_forms import setting_groups, setting_questions, typed_of
from puttwright.web.here import ShopHere
from puttwright.web.pages import GROUND_COOKIE, render
from puttwright.web.texts import catalogue
from puttwright.web.typed import TypedForm

router = APIRouter()


@dataclass(frozen=True, slots=True, kw_only=True)
class Group:
    """Fields under a title."""

    title: str
    fields: tuple[Field, ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class SettingsPage:
    """The form; ``saved`` right after something was kept."""

    groups: tuple[Group, ...]
    saved: bool = False
    wrong: bool = False


@router.get("/settings")
def show_settings(request: Request, shop: ShopHere, saved: str = "") -> Response:
    """The page."""
    page = _page(typed_of(look_at_settings(shop.store)), saved=saved == "yes")
    return render(request, "settings.html", page=page)


@router.post("/settings")
def keep_settings(request: Request, typed: TypedForm, shop: ShopHere) -> Response:
    """Keep them; from the next page on the shop speaks so."""
    answers = read(setting_questions(), typed)
    if not answers.good:
        page = _page(typed, messages=answers.messages)
        return render(request, "settings.html", page=page, status=422)
    tax = answers.values["tax_pct"]
    said = {name: str(value or "").strip() for name, value in answers.values.items()}
    wanted = PageSettings(**said | {"tax_pct": "" if tax is None else f"{tax:g}"})
    request.app.state.manner = change_settings(shop.store, shop.clock, wanted=wanted, who=shop.who)
    response = RedirectResponse("/settings?saved=yes", status_code=303)
    response.delete_cookie(GROUND_COOKIE)  # this device shows what was just chosen
    return response


def _page(
    typed: Typed, *, messages: Mapping[str, str] | None = None, saved: bool = False
) -> SettingsPage:
    text = catalogue()
    return SettingsPage(
        groups=tuple(
            Group(title=text(title), fields=fields(asked, typed=typed, told=messages))
            for title, asked in setting_groups().items()
        ),
        saved=saved,
        wrong=bool(messages),
    )
