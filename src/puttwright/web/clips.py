"""Clips on their way to figures: one is read at a time, beside the pages, and is gone then.

A clip lies in a folder of its own until it is read, or until somebody said how many
pictures a second were taken, ten minutes at the longest. What remains are figures, in
memory, until they are entered or others come.
"""

from __future__ import annotations

import shutil
import tempfile
import time
from collections import OrderedDict, deque
from collections.abc import Callable, Sequence
from dataclasses import dataclass, field, replace
from pathlib import Path
from secrets import token_urlsafe
from threading import Condition, Thread, Timer
from typing import IO, Final

from puttwright.deeds.measure_roll import RollAsk, RollReading
from puttwright.deeds.measure_roll_aside import measure_aside
from puttwright.errors import CannotRead, UserError
from puttwright.web.trouble import keep_trace

Measure = Callable[..., RollReading]

WAITS, READING, ASKS, READ, REFUSED = "waits", "reading", "asks", "read", "refused"
"""What may be said of a clip; one that ``asks`` lacks its pictures a second."""
MOST_WAITING: Final = 18
MOST_ROUNDS: Final = 40
"""More than may wait, so that what falls out was read long ago."""
ASKED_S: Final = 600.0
_FOLDER: Final = "puttwright-clip-"
_LEFT_S: Final = 3600.0
_RATE: Final = "--fps"
"""What the reader's sentence names when the file does not say how fast the camera was."""


class ManyClips(UserError):
    """{waiting} clips wait already to be measured; send yours when they are done."""

    code = "many-clips"
    http_status = 409


class _Stopped(Exception):
    """The program ends."""


@dataclass(slots=True, kw_only=True)
class Filmed:
    """One clip: what it is called, how far it is, and what it gave or why it gave nothing."""

    name: str
    ask: RollAsk
    folder: Path
    state: str = WAITS
    done: int = 0
    steps: int = 0
    told: str = ""
    fault: str = ""
    reading: RollReading | None = None

    @property
    def path(self) -> Path:
        """The file, under a name of ours."""
        return self.folder / "clip"

    @property
    def moving(self) -> bool:
        """Whether it goes on by itself."""
        return self.state in {WAITS, READING}

    def forget(self) -> None:
        """Let the clip itself go."""
        shutil.rmtree(self.folder, ignore_errors=True)


@dataclass(frozen=True, slots=True, kw_only=True)
class Round:
    """Clips sent together: of which fitting, which putter, from where."""

    fitting_id: str
    build_id: str
    distance_m: float
    clips: tuple[Filmed, ...] = field(default=())


class Clips:
    """Measures what is sent, one after the other; call :meth:`close` when the program ends.

    Parameters
    ----------
    measure
        Reads one clip; made up in tests.
    """

    def __init__(self, measure: Measure = measure_aside) -> None:
        self.measure = measure
        self._rounds: OrderedDict[str, Round] = OrderedDict()
        self._line: deque[Filmed] = deque()
        self._news = Condition()
        self._working = self._closed = False

    def send(self, sent: Round, files: Sequence[tuple[str, IO[bytes]]], *, ask: RollAsk) -> str:
        """Take clips in; the name under which they are found.

        Raises
        ------
        ManyClips
            Too many wait; nothing is taken then.
        """
        waiting = len(self._line)
        if waiting + len(files) > MOST_WAITING:
            raise ManyClips(waiting=waiting)
        clips = tuple(_landed(name, file, ask=ask) for name, file in files)
        made = token_urlsafe(16)
        with self._news:
            self._rounds[made] = replace(sent, clips=clips)
            while len(self._rounds) > MOST_ROUNDS:
                self._drop(next(iter(self._rounds)))
            self._line.extend(clips)
        self._begin()
        return made

    def find(self, name: str) -> Round | None:
        """The clips sent together, while they are known."""
        return self._rounds.get(name)

    def said(self, clip: Filmed, *, fps: float) -> None:
        """Read a clip again, now that its pictures a second are known."""
        with self._news:
            if clip.state != ASKS:
                return
            clip.ask, clip.state = replace(clip.ask, fps=fps), WAITS
            self._line.append(clip)
        self._begin()

    def settle(self, *, at_most_s: float) -> None:
        """Wait until nothing moves any more, but no longer than that."""
        with self._news:
            self._news.wait_for(lambda: not self._working and not self._line, timeout=at_most_s)

    def close(self) -> None:
        """Stop, and let every clip go."""
        with self._news:
            self._closed = True
            for name in tuple(self._rounds):
                self._drop(name)
        self.settle(at_most_s=2.0)

    def _drop(self, name: str) -> None:
        gone = self._rounds.pop(name, None)
        for clip in gone.clips if gone else ():
            if clip in self._line:
                self._line.remove(clip)
            clip.forget()

    def _begin(self) -> None:
        with self._news:
            if self._working or self._closed:
                return
            self._working = True
        Thread(target=self._work, name="clips", daemon=True).start()

    def _work(self) -> None:
        while True:
            with self._news:
                if not self._line or self._closed:
                    self._working = False
                    self._news.notify_all()
                    return
                clip = self._line.popleft()
            self._read(clip)

    def _read(self, clip: Filmed) -> None:
        def tell(done: int, steps: int) -> None:
            if self._closed:
                raise _Stopped
            clip.done, clip.steps = done, steps

        clip.state, clip.done = READING, 0
        try:
            clip.reading = self.measure(clip.path, clip.ask, tell=tell)
        except CannotRead as trouble:
            clip.told = str(trouble.data["reason"])
            clip.state = ASKS if _RATE in clip.told else REFUSED
        except _Stopped:
            clip.state = REFUSED
        except Exception as error:  # noqa: BLE001 - the clip goes, the fault is known by its id
            clip.fault, clip.state = keep_trace(error), REFUSED
        else:
            clip.state = READ
        if clip.state == ASKS:
            self._wait_for(clip)
        else:
            clip.forget()

    def _wait_for(self, clip: Filmed) -> None:
        """Nobody may answer: then the clip goes all the same."""

        def unanswered() -> None:
            with self._news:
                if clip.state == ASKS:
                    clip.state = REFUSED
                    clip.forget()

        clock = Timer(ASKED_S, unanswered)
        clock.daemon = True
        clock.start()


def _landed(name: str, file: IO[bytes], *, ask: RollAsk) -> Filmed:
    clip = Filmed(name=name, ask=ask, folder=Path(tempfile.mkdtemp(prefix=_FOLDER)))
    try:
        with clip.path.open("wb") as here:
            shutil.copyfileobj(file, here, 1 << 20)
    except OSError:
        clip.forget()
        raise
    return clip


def sweep_clips() -> None:
    """Let go of what a program that was killed may have left behind."""
    for folder in Path(tempfile.gettempdir()).glob(f"{_FOLDER}*"):
        _sweep(folder, before=time.time() - _LEFT_S)


def _sweep(folder: Path, *, before: float) -> None:
    try:
        old = folder.stat().st_mtime < before
    except OSError:
        return
    if old:
        shutil.rmtree(folder, ignore_errors=True)
