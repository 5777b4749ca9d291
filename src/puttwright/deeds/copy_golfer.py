"""Everything that is kept on a golfer as files that anybody can read, to hand over."""

from __future__ import annotations

import io
import json
import zipfile
from collections.abc import Iterator
from datetime import datetime
from typing import Any, Final

from puttwright.deeds.bootstrap import Clock
from puttwright.deeds.export_package import export_package
from puttwright.store import Store, everything, golfers, trail
from puttwright.store.everything import Rows
from puttwright.store.trail import Deed

READ_ME: Final = """\
Everything this shop keeps on you, as of {when} UTC.

everything.txt   all of it, to read: fittings, readings, decisions, orders, checks, what you were
                 told and agreed to, what was corrected, and who did what when
everything.json  the same for a program
fittings/        each fitting as a package of plain tables that other programs read

Photos are not in it: they are not kept. Older backups of the shop hold the same as this copy.
If something is wrong, ask the shop to put it right; ask it to erase all of this if you wish.
What you may ask for is for local law to say; this is not legal advice.
"""
_STAMP: Final = (1980, 1, 1, 0, 0, 0)


def golfer_of(store: Store, fitting_id: str) -> str:
    """Whose fitting this is.

    Raises
    ------
    NotFound
        There is no such fitting.
    """
    with store.reading() as look:
        return golfers.golfer_of(look, fitting_id)


def copy_golfer(store: Store, clock: Clock, *, golfer: str, who: str) -> bytes:
    """A zip of everything that is kept on a golfer; the trail says that it was made.

    Raises
    ------
    NotFound
        There is no such golfer.
    """
    with store.writing() as write:
        now, key = clock(), golfers.newest_key(write, golfer)
        trail.note(write, Deed.COPIED, now=now, who=who, about=golfer, key=key)
        ids = golfers.fittings_of(write, golfer)
        found = everything.of_golfer(write, golfer)
    packed = io.BytesIO()
    with zipfile.ZipFile(packed, "w", zipfile.ZIP_DEFLATED) as copy:
        _add(copy, "read-me.txt", READ_ME.format(when=f"{now:%Y-%m-%d %H:%M}").encode())
        _add(copy, "everything.txt", "\n".join(_readable(found)).encode())
        _add(copy, "everything.json", _json(found))
        for fitting_id in ids:
            _add(copy, f"fittings/{fitting_id}.zip", export_package(store, fitting_id))
    return packed.getvalue()


def _add(copy: zipfile.ZipFile, name: str, data: bytes) -> None:
    copy.writestr(zipfile.ZipInfo(name, date_time=_STAMP), data, zipfile.ZIP_DEFLATED)


def _readable(found: dict[str, Rows]) -> Iterator[str]:
    """Table by table, row by row; what was left empty is left out."""
    for table, rows in found.items():
        yield f"{table.replace('_', ' ').upper()} ({len(rows)})"
        for row in rows:
            said = (f"{name} {_said(value)}" for name, value in row.items() if _filled(value))
            yield "  - " + "; ".join(said)
        yield ""


def _filled(value: Any) -> bool:
    return value is not None and (bool(value) or isinstance(value, bool | int | float))


def _said(value: Any) -> str:
    if isinstance(value, datetime):
        return f"{value:%Y-%m-%d %H:%M:%S} UTC"
    if isinstance(value, bytes):
        return f"({len(value)} bytes by which rows are known again)"
    if isinstance(value, dict | list):
        return json.dumps(value, ensure_ascii=False)
    return str(value)


def _json(found: dict[str, Rows]) -> bytes:
    def plain(value: Any) -> str:
        return value.hex() if isinstance(value, bytes) else str(value)

    return json.dumps(found, default=plain, indent=1, ensure_ascii=False).encode()
