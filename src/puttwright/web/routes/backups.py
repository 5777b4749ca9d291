"""Backups: which there are, one more now, one taken out; only from this machine."""

from __future__ import annotations

from shlex import quote

from fastapi import APIRouter, Request, Response
from fastapi.responses import FileResponse, RedirectResponse

from puttwright.deeds.back_up import back_up, find_backup, known_backups
from puttwright.deeds.bootstrap import Shop
from puttwright.deeds.look_at_trail import note_on_trail
from puttwright.deeds.shop_settings import backup_settings
from puttwright.errors import UserError
from puttwright.store.trail import Deed
from puttwright.web.contexts.backups_page import AT, BackupsPage, backup_rows
from puttwright.web.here import ShopHere
from puttwright.web.pages import render
from puttwright.web.sentences import sentence_of
from puttwright.web.texts import catalogue

router = APIRouter()


@router.get(AT)
def show_backups(request: Request, shop: ShopHere, done: str = "") -> Response:
    """The list."""
    said = catalogue()(f"backups.{done}") if done in {"taken", "unchanged"} else ""
    return render(request, "backups.html", page=_page(shop, done=said))


@router.post(AT)
def take_one(request: Request, shop: ShopHere) -> Response:
    """Take one now."""
    try:
        done = back_up(shop.store, shop.clock, settings=backup_settings(shop.folder))
    except UserError as trouble:
        page = _page(shop, told=sentence_of(trouble))
        return render(request, "backups.html", page=page, status=trouble.http_status)
    what = "taken" if done.new else "unchanged"
    return RedirectResponse(f"{AT}?done={what}", status_code=303)


@router.get(AT + "/{number}")
def take_out(number: str, shop: ShopHere) -> Response:
    """One of them as a file; the trail says that it was taken out."""
    backup = find_backup(backup_settings(shop.folder).folder, number)
    note_on_trail(
        shop.store, shop.clock, deed=Deed.BACKUP_OUT, who=shop.who, about=str(backup.number)
    )
    return FileResponse(
        backup.file, filename=backup.file.name, media_type="application/vnd.sqlite3"
    )


def _page(shop: Shop, *, done: str = "", told: str = "") -> BackupsPage:
    settings = backup_settings(shop.folder)
    every, text = settings.every_minutes, catalogue()
    return BackupsPage(
        folder=str(settings.folder),
        every=text("backups.every", minutes=every) if every else text("backups.never"),
        rows=backup_rows(known_backups(settings.folder)),
        restore=f"puttwright restore --data {quote(str(shop.folder))}",
        database=shop.store.file is None,
        done=done,
        told=told,
    )
