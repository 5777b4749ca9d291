"""What a program on this machine sends: a putt as JSON, a device's file."""

from __future__ import annotations

import asyncio
import json
import re
import secrets
from pathlib import Path
from typing import Any

from fastapi import APIRouter, Request, Response

from puttwright.deeds.bootstrap import Shop
from puttwright.deeds.open_fitting import open_fitting
from puttwright.deeds.take_posted import take_posted
from puttwright.deeds.take_table import Taking, look_at_table
from puttwright.errors import UserError
from puttwright.readers.whole import write_file_whole
from puttwright.web.arrivals import NOBODY, TROUBLE, Arrivals, ArrivalsHere, Outcome
from puttwright.web.contexts.heading import address_of
from puttwright.web.desk import Desk
from puttwright.web.here import DeskHere, ShopHere
from puttwright.web.texts import catalogue

router = APIRouter()

KEY = "Idempotency-Key"
"""The header by which a program's second try is known."""


class NoFittingOpen(UserError):
    """No fitting is open; open one on the green, or name it: ?fitting=ID."""

    code = "no-fitting-open"
    http_status = 409


@router.post("/receive")
async def receive_reading(
    request: Request, shop: ShopHere, desk: DeskHere, arrivals: ArrivalsHere, fitting: str = ""
) -> Response:
    """One reading as a JSON object, or a few as a list; on the disk before this answers."""
    data = await request.body()
    key = request.headers.get(KEY, "").strip()[:100] or secrets.token_hex(8)
    return await asyncio.to_thread(
        _told, _posted, shop, desk, arrivals, data=data, key=key, fitting_id=fitting
    )


@router.put("/receive/{name}")
async def receive_file(
    request: Request, name: str, arrivals: ArrivalsHere, fitting: str = ""
) -> Response:
    """A device's file, of any kind that is read; on the disk before this answers."""
    data = await request.body()
    return await asyncio.to_thread(
        _told, _sent, arrivals, name=_plain(name), data=data, fitting_id=fitting
    )


def _told(deed: Any, *things: Any, **details: Any) -> Response:
    """The answer of a deed; what is wrong is JSON too, a program asked."""
    try:
        answer: Response = deed(*things, **details)
    except UserError as trouble:
        said = {"code": trouble.code, "message": str(trouble), "hint": trouble.hint}
        status = trouble.http_status if trouble.http_status != 400 else 422
        return _json({"error": said}, status=status)
    return answer


def _posted(
    shop: Shop, desk: Desk, arrivals: Arrivals, *, data: bytes, key: str, fitting_id: str
) -> Response:
    whose = fitting_id or arrivals.open_here
    if not whose:
        raise NoFittingOpen
    opened = open_fitting(shop.store, whose)
    name = f"putt-{secrets.token_hex(4)}.json"
    table = look_at_table(data, name=name, fitting=opened.fitting, folder=shop.folder)
    if not table.sure:
        return _sent(arrivals, name=name, data=data, fitting_id=whose)
    taking = Taking(entry_key=key, who=shop.who, said=arrivals.said(opened, arrivals.hand(whose)))
    kept = take_posted(shop.store, shop.clock, fitting_id=whose, table=table, taking=taking)
    desk.changed(whose)
    taken = [{"table": each.kind, "seq": each.seq} for each in kept]
    return _json({"state": "taken", "fitting": whose, "readings": taken}, status=201)


def _sent(arrivals: Arrivals, *, name: str, data: bytes, fitting_id: str) -> Response:
    path = arrivals.received / name
    path.parent.mkdir(parents=True, exist_ok=True)
    write_file_whole(path, data)
    return _answer(arrivals, arrivals.landed(path, fitting_id=fitting_id))


def _answer(arrivals: Arrivals, outcome: Outcome) -> Response:
    waiting, read = outcome.waiting, outcome.read
    if waiting is not None and waiting.why == TROUBLE:
        arrivals.done(waiting.path)  # the program was told; it has the file still
        said = {"code": "cannot-read", "message": waiting.told, "hint": ""}
        return _json({"error": said}, status=422)
    if waiting is not None:
        why = catalogue()("tables.nobody" if waiting.why == NOBODY else "tables.to_confirm")
        page = f"{address_of(outcome.fitting_id)}/tables" if outcome.fitting_id else "/"
        return _json({"state": "waits", "why": why, "page": page}, status=202)
    assert read is not None
    return _json(
        {
            "state": "taken", "fitting": outcome.fitting_id, "table": read.table,
            "added": read.added, "read_before": read.before,
            "aside": [{"row": each.row, "why": each.why} for each in read.aside[:100]],
        },
        status=200,
    )  # fmt: skip


def _json(said: dict[str, Any], *, status: int) -> Response:
    text = json.dumps(said, ensure_ascii=False, indent=1) + "\n"
    return Response(text, status_code=status, media_type="application/json")


def _plain(name: str) -> str:
    """A name of a file that leads nowhere else."""
    plain = re.sub(r"[^\w .()+-]", "_", Path(name.replace("\\", "/")).name).strip(" .")
    return plain[-100:] or "table"
