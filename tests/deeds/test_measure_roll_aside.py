"""A clip measured in a process of its own: the same figures, and no harm when it breaks."""

from __future__ import annotations

import dataclasses
from pathlib import Path

import cv2
import numpy as np
import pytest

from puttwright.deeds import measure_roll_aside
from puttwright.deeds.measure_roll import Figure, RollAsk, RollReading
from puttwright.deeds.measure_roll_aside import measure_aside
from puttwright.errors import CannotRead


@pytest.fixture
def wall(tmp_path: Path) -> Path:
    """Forty pictures of a wall."""
    path = tmp_path / "wall.mp4"
    writer = cv2.VideoWriter(str(path), cv2.VideoWriter.fourcc(*"mp4v"), 240.0, (320, 256))
    for _ in range(40):
        writer.write(np.full((256, 320, 3), 90, np.uint8))
    writer.release()
    return path


@pytest.mark.slow
def test_a_refusal_comes_back_as_it_was_said_and_progress_on_the_way(wall: Path) -> None:
    told: list[tuple[int, int]] = []
    with pytest.raises(CannotRead, match="shows nothing that moves"):
        measure_aside(wall, RollAsk(), tell=lambda done, steps: told.append((done, steps)))
    assert told[0] == (10, 47)
    assert [done for done, _ in told] == sorted(done for done, _ in told)


@pytest.mark.slow
def test_what_the_teller_raises_ends_the_work(wall: Path) -> None:
    def enough(_done: int, _steps: int) -> None:
        raise InterruptedError

    with pytest.raises(InterruptedError):
        measure_aside(wall, RollAsk(), tell=enough)


@pytest.mark.slow
def test_a_process_that_breaks_off_or_takes_too_long_is_one_sentence(
    wall: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    with pytest.raises(CannotRead, match="takes too long to read"):
        measure_aside(wall, RollAsk(), longest_s=0.0)
    monkeypatch.setattr(measure_roll_aside, "__name__", "puttwright.deeds.no_such")
    with pytest.raises(CannotRead, match="is a damaged video"):
        measure_aside(wall, RollAsk())


def test_a_reading_goes_between_processes_as_it_is() -> None:
    numbers = {"fps": 240.0, "pictures": 200, "ball_px": 46.0, "meets_m": None, "fits": True}
    words = {"video": "a.mov", "sha256": "00", "notes": ("one", "two")}
    figure = Figure(value=None, low=-1.0, high=2.0)
    known = numbers | words
    names = [each.name for each in dataclasses.fields(RollReading) if each.name not in known]
    curves = {name: (0.1, 0.2) for name in names if name.startswith(("seen_", "fitted_"))}
    rest = {name: figure for name in names if name not in curves}
    reading = RollReading(**known, **curves, **rest)

    assert measure_roll_aside._reading(dataclasses.asdict(reading)) == reading
