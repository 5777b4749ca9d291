"""Which devices were let in outlives the program; what cannot be read lets nobody in."""

from __future__ import annotations

from datetime import UTC, datetime, timedelta
from pathlib import Path

import pytest

from puttwright.deeds.paired_devices import (
    FILE,
    FITTER,
    MOST,
    UNUSED,
    WORKSHOP,
    Devices,
    DevicesDamaged,
    TooManyDevices,
)

NOW = datetime(2026, 5, 1, 12, tzinfo=UTC)
OWNER = (
    '{"devices": [{"device_id": "1", "name": "a", "role": "owner", "key": "", '
    '"paired_at": "2026-05-01T12:00:00+00:00", "seen_at": "2026-05-01T12:00:00+00:00"}]}'
)


def test_a_device_is_known_again_after_a_restart(tmp_path: Path) -> None:
    key = Devices(tmp_path).add(name="Bench", role=WORKSHOP, now=NOW)

    found = Devices(tmp_path).find(key, now=NOW + timedelta(days=1))
    assert found is not None
    assert (found.name, found.role) == ("Bench", WORKSHOP)
    assert Devices(tmp_path).find(key, now=NOW + UNUSED + timedelta(hours=23)) is not None


@pytest.mark.parametrize(
    "text",
    [
        "",
        "{}",
        "[]",
        '{"devices": [{}]}',
        '{"devices": [3]}',
        OWNER,
    ],
)
def test_a_list_that_cannot_be_read_is_told(tmp_path: Path, text: str) -> None:
    (tmp_path / FILE).write_text(text)
    with pytest.raises(DevicesDamaged):
        Devices(tmp_path)


def test_there_is_an_end_to_devices_until_old_ones_fall_out(tmp_path: Path) -> None:
    devices = Devices(tmp_path)
    for _ in range(MOST):
        devices.add(name="", role=FITTER, now=NOW)
    with pytest.raises(TooManyDevices):
        devices.add(name="", role=FITTER, now=NOW)
    assert devices.add(name="", role=FITTER, now=NOW + UNUSED)
    assert len(devices.standing(NOW + UNUSED)) == 1


def test_a_clock_that_went_back_keeps_the_last_use(tmp_path: Path) -> None:
    devices = Devices(tmp_path)
    key = devices.add(name="", role=FITTER, now=NOW)
    earlier = devices.find(key, now=NOW - timedelta(days=3))
    assert earlier is not None
    assert earlier.seen_at == NOW
