"""What a shop may set in ``settings.toml`` of its data folder."""

from __future__ import annotations

import tomllib
from dataclasses import dataclass, field
from pathlib import Path
from typing import Any, Final

from puttwright.errors import UserError
from puttwright.store.backups import Keep

SETTINGS: Final = "settings.toml"
EVERY_MINUTES: Final = 15
_MOST: Final = {"every_minutes": 10_080, "newest": 1000, "days": 3660, "months": 1200}


class SettingsWrong(UserError):
    """{file}: {what}."""

    code = "settings-wrong"
    hint = "Put it right, or delete the file to have everything as it comes."


@dataclass(frozen=True, slots=True, kw_only=True)
class BackupSettings:
    """How often, where to, and what is kept.

    ``every_minutes`` of 0 turns them off. A backup is taken only when something changed.
    """

    folder: Path
    every_minutes: int = EVERY_MINUTES
    keep: Keep = field(default_factory=Keep)


def backup_settings(folder: Path) -> BackupSettings:
    """What the data folder's settings say of backups, or what goes without saying.

    Raises
    ------
    SettingsWrong
        The file cannot be read, or says something that cannot be.
    """
    file = folder / SETTINGS
    said = _table(file, "backups")
    counts = {name: _count(file, said, name=name) for name in _MOST if name in said}
    every = counts.pop("every_minutes", EVERY_MINUTES)
    elsewhere = said.get("folder", "backups")
    if not isinstance(elsewhere, str):
        raise SettingsWrong(file=file, what="the folder in [backups] is no text")
    if counts.get("newest", 1) == 0:
        raise SettingsWrong(file=file, what="newest in [backups] is 0; the newest is always kept")
    return BackupSettings(
        folder=folder / Path(elsewhere).expanduser(), every_minutes=every, keep=Keep(**counts)
    )


def _table(file: Path, name: str) -> dict[str, Any]:
    try:
        said = tomllib.loads(file.read_text(encoding="utf-8")) if file.exists() else {}
    except (OSError, UnicodeDecodeError, tomllib.TOMLDecodeError) as error:
        reason = f"it cannot be read ({error})"
        raise SettingsWrong(file=file, what=reason) from error
    table = said.get(name, {})
    if not isinstance(table, dict):
        raise SettingsWrong(file=file, what=f"{name} is no table")
    unknown = sorted(set(table) - {*_MOST, "folder"})
    if unknown:
        known = ", ".join(["folder", *_MOST])
        what = f"[{name}] does not know {unknown[0]}; it knows {known}"
        raise SettingsWrong(file=file, what=what)
    return table


def _count(file: Path, said: dict[str, Any], *, name: str) -> int:
    value = said[name]
    if isinstance(value, bool) or not isinstance(value, int) or not 0 <= value <= _MOST[name]:
        what = f"{name} in [backups] is {value!r}; it is a whole number from 0 to {_MOST[name]}"
        raise SettingsWrong(file=file, what=what)
    return value
