"""The devices that were let in from the shop's network, and what each may do.

They belong to this machine, not to the records: a backup that is brought back
must not bring back a device that was turned away. Of its key only the hash is
kept.
"""

from __future__ import annotations

import dataclasses
import hashlib
import json
import secrets
from collections.abc import Iterable
from dataclasses import dataclass
from datetime import datetime, timedelta
from pathlib import Path
from threading import Lock
from typing import Any, Final

from puttwright.errors import UserError
from puttwright.readers.whole import write_file_whole

FILE: Final = "devices.json"
FITTER, WORKSHOP, CLIENT = "fitter", "workshop", "client"
ROLES: Final = (FITTER, WORKSHOP, CLIENT)
UNUSED: Final = timedelta(days=30)
"""A device that was not used for so long is let in no more."""
SCREEN: Final = timedelta(hours=12)
"""A client's screen is for the day it was paired on."""
MOST: Final = 100
_NOTED: Final = timedelta(hours=1)
"""How old the last use on the disk may be."""


class DevicesDamaged(UserError):
    """{file} cannot be read, so nobody knows which devices may come in."""

    code = "devices-damaged"
    hint = "Delete the file and pair the devices again."


class TooManyDevices(UserError):
    """{most} devices are paired already; turn one away first."""

    code = "too-many-devices"
    http_status = 409


@dataclass(frozen=True, slots=True, kw_only=True)
class Device:
    """A device: its name for people, its role, a client's fitting; ``key`` is a hash."""

    device_id: str
    name: str
    role: str
    key: str
    paired_at: datetime
    seen_at: datetime
    fitting_id: str = ""

    def stands(self, now: datetime) -> bool:
        """Whether it is let in still."""
        if self.role == CLIENT:
            return now < self.paired_at + SCREEN
        return now < self.seen_at + UNUSED


class Devices:
    """Those of one data folder; any thread may ask.

    Raises
    ------
    DevicesDamaged
        The list is there and cannot be read.
    """

    def __init__(self, folder: Path) -> None:
        self._file = folder / FILE
        self._lock = Lock()
        self._noted: dict[str, datetime] = {}
        self._known = {each.device_id: each for each in _read(self._file)}

    def standing(self, now: datetime) -> list[Device]:
        """Those that are let in, the last one paired first."""
        with self._lock:
            known = [each for each in self._known.values() if each.stands(now)]
        return sorted(known, key=lambda each: (each.paired_at, each.device_id), reverse=True)

    def add(self, *, name: str, role: str, fitting_id: str = "", now: datetime) -> str:
        """Let a device in; the key it shows from now on, which is told this once.

        Raises
        ------
        CannotWrite, TooManyDevices
            It is not let in.
        """
        key = secrets.token_urlsafe(32)
        device = Device(
            device_id=secrets.token_hex(8), name=name, role=role, key=_hash(key),
            paired_at=now, seen_at=now, fitting_id=fitting_id,
        )  # fmt: skip
        with self._lock:
            known = {name: each for name, each in self._known.items() if each.stands(now)}
            if len(known) >= MOST:
                raise TooManyDevices(most=MOST)
            self._keep(known | {device.device_id: device})
        return key

    def find(self, key: str, *, now: datetime) -> Device | None:
        """The device that shows this key, if it is let in; its use is noted."""
        hashed = _hash(key)
        with self._lock:
            # equal hashes say nothing of how near a guess was
            found = next((each for each in self._known.values() if each.key == hashed), None)
            if found is None or not found.stands(now):
                return None
            used = dataclasses.replace(found, seen_at=max(now, found.seen_at))
            self._known[found.device_id] = used
            if now - self._noted.get(found.device_id, found.paired_at) >= _NOTED:
                self._noted[found.device_id] = now
                self._keep(self._known)
            return used

    def turn_away(self, device_id: str) -> str | None:
        """Let a device in no more, from its next request on; its name, if it was known."""
        with self._lock:
            gone = self._known.get(device_id)
            if gone is None:
                return None
            self._keep({name: each for name, each in self._known.items() if name != device_id})
            return gone.name

    def _keep(self, known: dict[str, Device]) -> None:
        said = [dataclasses.asdict(each) for each in known.values()]
        text = json.dumps({"devices": said}, default=datetime.isoformat, indent=1)
        write_file_whole(self._file, text.encode())
        self._known = known


def _hash(key: str) -> str:
    return hashlib.sha256(key.encode()).hexdigest()


def _read(file: Path) -> Iterable[Device]:
    try:
        said = json.loads(file.read_text(encoding="utf-8"))["devices"] if file.exists() else []
        return [_device(each) for each in said]
    except (OSError, ValueError, KeyError, TypeError, AttributeError) as error:
        raise DevicesDamaged(file=file) from error


def _device(said: dict[str, Any]) -> Device:
    times = {name: datetime.fromisoformat(said[name]) for name in ("paired_at", "seen_at")}
    device = Device(**said | times)
    if device.role not in ROLES or any(each.tzinfo is None for each in times.values()):
        raise ValueError(device.role)
    return device
