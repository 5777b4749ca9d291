"""Throw malformed files at the reader of tables: each ends in readings or in one sentence.

    python scripts/fuzz_tables.py [COUNT] [SEED]     100 000 files unless told otherwise

Prints how they ended; a file that ends in anything else is written beside it and the run goes on.
What is taken of a file is written as a package's table and must read back without a fault.
Spreadsheets are opened each in a process with bounds, as the reader does, but forked from one that
is ready; every two hundredth file goes through ``puttwright read`` itself.
"""

from __future__ import annotations

import dataclasses
import os
import random
import select
import signal
import struct
import subprocess
import sys
import tempfile
import time
import traceback
from collections import Counter, defaultdict
from pathlib import Path
from typing import IO, Final

sys.path.append(str(Path(__file__).resolve().parent))

from odd_files import malformed

from puttwright.deeds.take_table import readings_of
from puttwright.errors import UserError
from puttwright.evidence import Build, Fitting, FittingGreen, Golfer, Green
from puttwright.evidence.tables import table_faults
from puttwright.readers.files import Unreadable
from puttwright.readers.package import write_package
from puttwright.readers.table import read_table
from puttwright.readers.tables import workbook
from puttwright.readers.tables.append import Appended, rows_of
from puttwright.readers.tables.header import layout_of
from puttwright.readers.tables.open_table import open_table
from puttwright.readers.tables.propose import propose, seen_columns
from puttwright.readers.tables.readings import FileReader
from puttwright.readers.tables.table_map import RECORDS, map_from, toml_of
from puttwright.readers.tables.take import Shop, Taker

BUILDS: Final = {"own": ""}
SAID: Final = {
    "putts": {"build_id": "own", "distance_m": "3"},
    "aims": {"build_id": "own", "board_distance_mm": "2000"},
    "setups": {"build_id": "own"},
}
AT_MOST_S: Final = 20.0
"""Of the processor; a file that takes longer is found like one that ends in a trace."""
BY_COMMAND: Final = 200
"""Every so many files one goes through the command."""
NAMES: Final = ("a.csv", "a.xlsx", "a.json", "a", "ä b.txt")
_TEMPLATE: Final = "--open"


class Opener:
    """Opens spreadsheets in processes forked from one that has loaded what it needs."""

    def __init__(self) -> None:
        self._before = workbook.answered
        self._ready = subprocess.Popen(
            [sys.executable, __file__, _TEMPLATE], stdin=subprocess.PIPE, stdout=subprocess.PIPE
        )

    def __enter__(self) -> None:
        workbook.answered = self.answered

    def __exit__(self, *_: object) -> None:
        workbook.answered = self._before
        self._ready.communicate()

    def answered(self, data: bytes) -> bytes:
        """As ``workbook.answered``."""
        assert self._ready.stdin
        assert self._ready.stdout
        _send(self._ready.stdin, data)
        return _received(self._ready.stdout) or b""


def _send(pipe: IO[bytes], data: bytes) -> None:
    pipe.write(struct.pack("<Q", len(data)) + data)
    pipe.flush()


def _received(pipe: IO[bytes]) -> bytes | None:
    head = pipe.read(8)
    return pipe.read(*struct.unpack("<Q", head)) if len(head) == 8 else None


def open_forked() -> None:
    """Answer one spreadsheet after the other, each from a process of its own."""
    import python_calamine  # noqa: F401 - loaded once, for every process that is forked

    from puttwright.readers.tables.workbook_process import answer_to, bound

    while (data := _received(sys.stdin.buffer)) is not None:
        mine, other = os.pipe()
        child = os.fork()
        if not child:
            os.dup2(os.open(os.devnull, os.O_WRONLY), 2)
            bound()
            with os.fdopen(other, "wb") as out:
                out.write(answer_to(data))
            os._exit(0)
        os.close(other)
        _send(sys.stdout.buffer, _heard(mine, until_s=time.monotonic() + workbook.SECONDS))
        os.close(mine)
        os.kill(child, signal.SIGKILL)
        os.waitpid(child, 0)


def _heard(pipe: int, *, until_s: float) -> bytes:
    said = b""
    while select.select([pipe], [], [], max(0.0, until_s - time.monotonic()))[0]:
        piece = os.read(pipe, 1 << 20)
        if not piece:
            return said
        said += piece
    return b""


def ended(data: bytes) -> str:
    """How reading it ends: so many readings, or the kind of sentence."""
    if not data.strip():
        return "empty"
    try:
        opened = open_table(data)
        layout = layout_of(opened)
        found = propose(seen_columns(layout, opened.head), builds=BUILDS)
        again = map_from(toml_of(found).encode("utf-8"))
        into = {each.into for each in again.columns}
        fixed = {n: v for n, v in SAID[again.table].items() if n not in into}
        taker = Taker(dataclasses.replace(again, fixed=fixed), Shop(handed="left", builds=BUILDS))
        reader = FileReader(opened, layout, file="f", header="h", taker=taker)
        count = _taken(reader, taker)
    except (Unreadable, UserError) as sentence:
        return "TWO LINES" if "\n" in str(sentence) else "a sentence"
    assert count == reader.read.added
    assert all(each.why for each in reader.read.aside)
    return "readings" if count else "all kept aside"


def _taken(reader: FileReader, taker: Taker) -> int:
    """How many readings; written as a table they read back, all of them and without a fault."""
    frames = list(reader.frames((), ()))
    readings = readings_of(frames, taker)
    columns = ("seq", *taker.columns(), *taker.extras().values())
    table = Appended(None, columns=columns)
    for frame in frames:
        table.add(rows_of(frame, first_seq=1))
    record = RECORDS[reader.read.table]
    data = table.whole()
    assert isinstance(data, bytes)
    back = read_table(data.decode("utf-8"), table=reader.read.table, record=record)
    faults = [*back.faults, *table_faults({reader.read.table: back.sheet})]
    assert not faults, faults[:3]
    assert len(back.records()) == len(readings)
    return len(readings)


class Shopfront:
    """The command itself, at a fitting of its own."""

    def __init__(self, folder: Path) -> None:
        self.folder = folder
        self.shop = {"PUTTWRIGHT_DATA": str(folder / "home")}
        fitting = Fitting(
            fitting_id="F", date="2026-05-01", golfer=Golfer(alias="A", handed="right"),
            greens=(Green(name="home", speed_ft=10, share=1),), own_build="own",
            fitting_green=FittingGreen(speed_ft=10),
            builds=(Build(build_id="own", length_mm=864, lie_deg=70, loft_deg=3),),
        )  # fmt: skip
        write_package(fitting, folder / "fitting")

    def check(self, data: bytes, *, name: str) -> None:
        """Read it under this name: it is read, or one sentence says why it is not."""
        from click.testing import CliRunner

        from puttwright.cli import main

        file = self.folder / name
        file.write_bytes(data)
        asked = ["read", str(file), "--into", str(self.folder / "fitting")]
        said = CliRunner(env=self.shop).invoke(main, asked)
        file.unlink()
        file.with_name(f"{file.stem}.map.toml").unlink(missing_ok=True)
        if said.exception and not isinstance(said.exception, SystemExit):
            raise said.exception
        assert said.exit_code in (0, 2), said.output
        assert "Traceback" not in said.output, said.output


def main(count: int, seed: int) -> int:
    """Throw so many; how many ended in a trace."""
    rng = random.Random(seed)  # noqa: S311 - no secret
    how: dict[str, Counter[str]] = defaultdict(Counter)
    started_s, traces = time.monotonic(), 0
    signal.signal(signal.SIGPROF, _too_slow)
    with Opener(), tempfile.TemporaryDirectory() as folder:
        shopfront = Shopfront(Path(folder))
        for number in range(count):
            kind, data = malformed(rng)
            signal.setitimer(signal.ITIMER_PROF, AT_MOST_S)
            try:
                how[kind][ended(data)] += 1
                if number % BY_COMMAND == 0:
                    shopfront.check(data, name=rng.choice(NAMES))
            except Exception:  # noqa: BLE001 - that is what is looked for
                traces += 1
                Path(f"fuzz-{seed}-{number}.bin").write_bytes(data)
                traceback.print_exc(limit=-3)
            signal.setitimer(signal.ITIMER_PROF, 0)
            if number % 5000 == 4999:
                _tell(f"{number + 1} in {time.monotonic() - started_s:.0f} s, traces: {traces}")
    for kind, ends in how.items():
        print(f"{kind}: {dict(ends)}")
    print(f"{count} files, {traces} traces")
    return traces


def _too_slow(*_: object) -> None:
    raise TimeoutError(f"more than {AT_MOST_S:g} s")


def _tell(line: str) -> None:
    print(line, file=sys.stderr, flush=True)


if __name__ == "__main__":
    if sys.argv[1:] == [_TEMPLATE]:
        open_forked()
        sys.exit()
    said = [int(each) for each in sys.argv[1:]]
    sys.exit(bool(main(*(said + [100_000, 1][len(said) :]))))
