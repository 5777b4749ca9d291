"""What is wrong with an installation: the program's parts, its folders, the records, the clock."""

from __future__ import annotations

import os
import shutil
import sys
from collections.abc import Iterator
from dataclasses import dataclass
from datetime import UTC, datetime, timedelta
from importlib.metadata import PackageNotFoundError, requires, version
from pathlib import Path
from typing import Final

from packaging.requirements import Requirement

from puttwright import __version__
from puttwright.deeds.bootstrap import RECORDS, Clock
from puttwright.deeds.cache_folder import CACHE, settle_cache, writable
from puttwright.deeds.check_records import check_records
from puttwright.deeds.shop_settings import backup_settings
from puttwright.errors import UserError
from puttwright.store import backups

_PYTHON: Final = (3, 11)
_ROOM_MB: Final = 500
_FILES: Final = {
    "the pages' scripts": "web/static/vendor",
    "the sheets' type": "paper/fonts",
}
_EARLIEST: Final = datetime(2026, 1, 1, tzinfo=UTC)
"""No clock that goes right shows less."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Finding:
    """One thing looked at: whether it is well, what was seen, what to do about it."""

    what: str
    well: bool
    seen: str
    cure: str = ""


def examine_installation(folder: Path, *, database: str | None, clock: Clock) -> list[Finding]:
    """Look at everything the program needs; nothing of the shop is changed.

    Parameters
    ----------
    folder
        The data folder.
    database
        The address of the database, if the records are not a file in the folder.
    clock
        What tells the time.
    """
    return [
        _python(),
        *_libraries(),
        *_shipped(),
        _cache(),
        _folder(folder),
        _room(folder),
        *_records(folder, database=database, clock=clock),
        _time(clock()),
    ]


def doctor_lines(findings: list[Finding]) -> list[str]:
    """A line a finding, and below each that is not well what to do."""
    lines = []
    for each in findings:
        lines.append(f"{'ok   ' if each.well else 'WRONG'}  {each.what}: {each.seen}")
        if not each.well:
            lines.append(f"       {each.cure}")
    wrong = sum(not each.well for each in findings)
    return [*lines, f"{wrong} of {len(findings)} are wrong." if wrong else "All is well."]


def _python() -> Finding:
    seen = ".".join(map(str, sys.version_info[:3]))
    wanted = ".".join(map(str, _PYTHON))
    return Finding(what="Python", well=sys.version_info >= _PYTHON, seen=seen,
                   cure=f"Install Python {wanted} or newer.")  # fmt: skip


def _libraries() -> Iterator[Finding]:
    cure = "Install the program again: pip install --force-reinstall puttwright"
    try:
        needed = [Requirement(each) for each in requires("puttwright") or []]
    except PackageNotFoundError:
        yield Finding(what="puttwright", well=False, seen="not installed, only lying here",
                      cure="Install it: pip install .")  # fmt: skip
        return
    wrong = []
    for each in needed:
        if each.marker is not None and not each.marker.evaluate({"extra": ""}):
            continue
        try:
            there = version(each.name)
        except PackageNotFoundError:
            wrong.append(f"{each.name} is missing")
            continue
        if not each.specifier.contains(there, prereleases=True):
            wrong.append(f"{each.name} is {there}, wanted {each.specifier}")
    seen = "; ".join(wrong) or f"puttwright {__version__} and all {len(needed)} it needs"
    yield Finding(what="Libraries", well=not wrong, seen=seen, cure=cure)


def _shipped() -> Iterator[Finding]:
    program = Path(__file__).resolve().parents[1]
    for what, place in _FILES.items():
        there = program / place
        files = [each for each in there.rglob("*") if each.is_file()] if there.is_dir() else []
        yield Finding(
            what=f"Files, {what}", well=bool(files), seen=f"{len(files)} files",
            cure="Install the program again; they come with it.",
        )  # fmt: skip


def _cache() -> Finding:
    trouble = settle_cache()
    kept = os.environ.get(CACHE) or "where the compiler keeps it by itself"
    return Finding(what="Compiled arithmetic", well=trouble is None, seen=str(kept),
                   cure=trouble or "")  # fmt: skip


def _folder(folder: Path) -> Finding:
    there = next(each for each in (folder, *folder.parents) if each.exists())
    well = writable(folder) if there == folder else os.access(there, os.W_OK)
    seen = str(folder) if there == folder else f"{folder}, not there yet"
    return Finding(what="Data folder", well=well, seen=seen,
                   cure="It cannot be written: give yourself the right to, or take another "
                   "with --data.")  # fmt: skip


def _room(folder: Path) -> Finding:
    there = next(each for each in (folder, *folder.parents) if each.exists())
    free_mb = shutil.disk_usage(there).free / 1e6
    return Finding(what="Room on its disk", well=free_mb >= _ROOM_MB, seen=f"{free_mb:,.0f} MB",
                   cure=f"Make room; {_ROOM_MB} MB is little already.")  # fmt: skip


def _records(folder: Path, *, database: str | None, clock: Clock) -> Iterator[Finding]:
    if database is None and not (folder / RECORDS).exists():
        yield Finding(what="Records", well=True, seen="none yet")
        return
    try:
        kept = backup_settings(folder).folder
        checked = check_records(folder, database=database, backup_folder=kept, clock=clock)
    except UserError as trouble:
        yield Finding(what="Records", well=False, seen=str(trouble), cure=trouble.hint)
        return
    seen = checked.damage[0] if checked.damage else f"{checked.records.fittings} fittings, whole"
    yield Finding(what="Records", well=not checked.damage, seen=seen,
                  cure="Stop the pages, then: puttwright restore")  # fmt: skip
    there = backups.listed(kept) if kept.is_dir() else []
    yield Finding(what="Backups", well=bool(there), seen=f"{len(there)} in {kept}",
                  cure="Take one: puttwright backup")  # fmt: skip
    if there:
        newest = datetime.strptime(there[-1].day, "%Y%m%d").replace(tzinfo=UTC)
        ahead = newest - clock() > timedelta(days=1)
        yield Finding(what="Time since the newest", well=not ahead, seen=there[-1].day,
                      cure="It is from the future: the clock goes wrong, or did.")  # fmt: skip


def _time(now: datetime) -> Finding:
    return Finding(what="Clock", well=now >= _EARLIEST, seen=f"{now:%Y-%m-%d %H:%M} UTC",
                   cure="Set this machine's clock; readings are dated by it.")  # fmt: skip
