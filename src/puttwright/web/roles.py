"""What a device from the network may ask for, by its role. What is not said is not allowed."""

from __future__ import annotations

import re
from typing import Final
from urllib.parse import parse_qs

from puttwright.deeds.paired_devices import CLIENT, FITTER, WORKSHOP, Device

HOMES: Final = {FITTER: "/", WORKSHOP: "/rack"}
_LOOKS: Final = r"/static/[\w./-]+|/(?:grounds|pages)\.css|/pages\.js|/mark\.svg|/authority\.crt"
_WORKSHOP: Final = re.compile(
    rf"{_LOOKS}|/keep\.js|/away|/ground|/guide(/.*)?|/rack(\.csv|\.xlsx|/.*)?|/orders(/.*)?"
)
_SCREEN: Final = re.compile(_LOOKS)
_NOT_FROM_THE_NETWORK: Final = re.compile(
    r"/devices(/.*)?|/receive(/.*)?|/settings|/backups(/.*)?|/trail|/fittings/[^/]+/tables/watch"
)
"""Pairing, the shop's settings, its folders and programs of this machine stay on this machine."""


def home(device: Device) -> str:
    """Where a device begins."""
    if device.role == CLIENT:
        return f"/fittings/{device.fitting_id}/client"
    return HOMES[device.role]


def may(device: Device, path: str, *, method: str = "GET", query: str = "") -> bool:
    """Whether a device may ask this.

    Examples
    --------
    >>> from datetime import UTC, datetime
    >>> now = datetime(2026, 5, 1, tzinfo=UTC)
    >>> bench = Device(
    ...     device_id="1", name="Bench", role="workshop", key="", paired_at=now, seen_at=now
    ... )
    >>> may(bench, "/rack"), may(bench, "/golfers")
    (True, False)
    """
    if device.role == FITTER:
        return not _NOT_FROM_THE_NETWORK.fullmatch(path)
    if device.role == WORKSHOP:
        return bool(_WORKSHOP.fullmatch(path))
    if device.role != CLIENT or method not in {"GET", "HEAD"}:
        return False
    if path == f"/fittings/{device.fitting_id}/stream":
        return parse_qs(query).get("view") == ["client"]
    return path == home(device) or bool(_SCREEN.fullmatch(path))
