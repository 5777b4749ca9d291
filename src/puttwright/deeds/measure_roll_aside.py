"""Measure a clip in a process of its own and with the lowest claim on the machine.

Pages and decisions go on meanwhile, and a clip that was made to harm the decoder brings
down no more than that process.
"""

from __future__ import annotations

import dataclasses
import json
import os
import subprocess
import sys
from collections.abc import Callable
from contextlib import suppress
from pathlib import Path
from threading import Timer
from typing import Any, Final

from puttwright.deeds.measure_roll import (
    STEPS,
    Figure,
    RollAsk,
    RollReading,
    measure_roll,
    pictures_in,
)
from puttwright.errors import CannotRead

LONGEST_S: Final = 600.0
"""A clip that takes longer is given up."""
_USUAL_PICTURES: Final = 240
_BROKE_OFF: Final = "is a damaged video, or of a kind that is not read; export it as MP4"
_TOO_LONG: Final = "takes too long to read; cut it to two seconds around the strike"


def measure_aside(
    clip: Path, ask: RollAsk, *, tell: Callable[[int, int], object] = lambda _done, _all: None,
    longest_s: float = LONGEST_S,
) -> RollReading:  # fmt: skip
    """Read a putt off a clip, beside everything else.

    Parameters
    ----------
    clip
        The file.
    ask
        What is known besides.
    tell
        Called with the steps done and all there are, now and then. What it raises ends the work.
    longest_s
        After so long it is given up.

    Returns
    -------
    RollReading
        As :func:`puttwright.deeds.measure_roll.measure_roll` gives it.

    Raises
    ------
    CannotRead
        The clip cannot carry the figures; the sentence says why and what to do.
    """
    said = json.dumps(dataclasses.asdict(ask))
    with subprocess.Popen(  # noqa: S603 - our own module, by our own interpreter
        [sys.executable, "-m", __name__, str(clip), said],
        stdout=subprocess.PIPE, stdin=subprocess.DEVNULL, stderr=subprocess.DEVNULL, text=True,
    ) as running:  # fmt: skip
        assert running.stdout is not None
        clock = Timer(longest_s, running.kill)
        clock.start()
        try:
            answer = _answer(running.stdout, tell)
        finally:
            late = not clock.is_alive()
            clock.cancel()
            running.kill()
    if "reading" in answer:
        return _reading(answer["reading"])
    raise CannotRead(path=clip, reason=answer.get("told") or (_TOO_LONG if late else _BROKE_OFF))


def _answer(lines: Any, tell: Callable[[int, int], object]) -> dict[str, Any]:
    """The last thing it says; before that, how far it is. Nothing where it broke off."""
    for line in lines:
        with suppress(ValueError):
            said = json.loads(line)
            if isinstance(said, dict):
                return said
            tell(*said)
    return {}


def _reading(said: dict[str, Any]) -> RollReading:
    def back(value: Any) -> Any:
        if isinstance(value, dict):
            return Figure(**value)
        return tuple(value) if isinstance(value, list) else value

    return RollReading(**{name: back(value) for name, value in said.items()})


def _say(said: Any) -> None:
    sys.stdout.write(json.dumps(said) + "\n")
    sys.stdout.flush()


def _work(clip: Path, ask: RollAsk) -> None:
    """The process itself: says how far it is, a line each, and last what it found."""
    total = (pictures_in(clip) or _USUAL_PICTURES) + STEPS
    done = 0

    def tell(more: int) -> None:
        nonlocal done
        done += more
        if done % 10 == 0 or done > total - STEPS:
            _say([min(done, total), total])

    try:
        found = measure_roll(clip, ask, tell=tell)
    except CannotRead as trouble:
        _say({"told": str(trouble.data["reason"])})
        return
    _say({"reading": dataclasses.asdict(found)})


if __name__ == "__main__":
    with suppress(AttributeError, OSError):  # not every machine has it
        os.nice(15)
    _work(Path(sys.argv[1]), RollAsk(**json.loads(sys.argv[2])))
