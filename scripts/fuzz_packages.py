"""Let coverage lead malformed files into the readers: each ends in a record or in one sentence.

    pip install atheris
    python scripts/fuzz_packages.py [SECONDS]     ten minutes unless told otherwise

Fitting packages (their files changed one by one, and the zip around them), racks, orders, gauge
studies and tables as text. Spreadsheets are those of ``fuzz_tables.py``. What ends in anything
else is written to ``fuzz-found`` beside the working folder, and the run goes on.
"""

from __future__ import annotations

import io
import sys
import tempfile
import traceback
import zipfile
from collections import Counter
from collections.abc import Callable
from pathlib import Path
from typing import Final

import atheris  # type: ignore[import-not-found] - for this script alone

with atheris.instrument_imports(include=["puttwright.readers", "puttwright.evidence"]):
    from puttwright.readers import gauge_file, order_file, package, rack_file
    from puttwright.readers.files import Unreadable
    from puttwright.readers.tables import header, open_table, propose, table_map

from puttwright.errors import UserError
from puttwright.evidence import AimReading, Build, Fitting, FittingGreen, Golfer, Green, Putt

BETWEEN: Final = b"\xfe\xfe"
"""Stands between the files of a package in what is mutated."""
FOUND: Final = Path("fuzz-found")
SOUND: Final = Fitting(
    fitting_id="F1",
    date="2026-05-01",
    golfer=Golfer(alias="Robin", handed="left"),
    greens=(Green(name="home", speed_ft=9.5, share=1.0),),
    fitting_green=FittingGreen(speed_ft=10),
    own_build="own",
    builds=(Build(build_id="own", length_mm=864, lie_deg=70, loft_deg=3),),
    aims=(AimReading(seq=1, build_id="own", board_distance_mm=2000, reading_mm=-14.5),),
    putts=(Putt(seq=2, build_id="own", distance_m=3, holed=True),),
)


class Readers:
    """What is fuzzed; the first byte of the bytes says which of them gets the rest."""

    def __init__(self, folder: Path) -> None:
        self._folder = folder
        package.write_package(SOUND, folder / "sound")
        files = sorted(each for each in (folder / "sound").rglob("*") if each.is_file())
        self._names = [each.name for each in files]
        self.seeds = [
            b"\0" + BETWEEN.join(each.read_bytes() for each in files),
            b"\1\0\1ab" + BETWEEN.join(each.read_bytes() for each in files),
            b"\2part_id,kind,label\nH1,head,x\n",
            b'\3{"order_id": "x", "build": {}}',
            b"\4part,appraiser,reading\n1,a,1.0\n1,b,1.1\n",
            *(b"\5" + each.read_bytes() for each in files if each.suffix == ".csv"),
        ]
        self._all: list[Callable[[bytes], object]] = [
            lambda data: package.read_package(self._put("p.zip", self._zipped(data))),
            lambda data: package.read_package(self._put("p.zip", self._spoilt(data))),
            lambda data: rack_file.read_rack(self._put("rack.csv", data)),
            lambda data: order_file.read_order(self._put("order.json", data)),
            lambda data: gauge_file.read_gauge(self._put("gauge.csv", data)),
            _read_table,
        ]
        self.ended: Counter[str] = Counter()

    def take(self, data: bytes) -> None:
        """Read one file; anything but a sentence is written down."""
        kind = data[0] % len(self._all) if data else 0
        try:
            self._all[kind](data[1:])
        except (UserError, Unreadable):
            self.ended["refused in a sentence"] += 1
        except Exception as error:  # noqa: BLE001 - whatever it is, it is what is looked for
            self.ended["FAULT"] += 1
            FOUND.mkdir(exist_ok=True)
            name = f"{type(error).__name__}-{self.ended['FAULT']}"
            (FOUND / f"{name}.bin").write_bytes(data)
            (FOUND / f"{name}.txt").write_text(traceback.format_exc(), encoding="utf-8")
        else:
            self.ended["read"] += 1
        if self.ended.total() % 2000 == 0:
            sys.stdout.write(f"{dict(self.ended)}\n")

    def _put(self, name: str, data: bytes) -> Path:
        (self._folder / name).write_bytes(data)
        return self._folder / name

    def _zipped(self, data: bytes) -> bytes:
        stream = io.BytesIO()
        with zipfile.ZipFile(stream, "w") as archive:
            for name, content in zip(self._names, data.split(BETWEEN), strict=False):
                archive.writestr(name, content)
        return stream.getvalue()

    def _spoilt(self, data: bytes) -> bytes:
        whole = self._zipped(data[4:])
        place = int.from_bytes(data[:2], "big") % len(whole)
        return whole[:place] + data[2:4] + whole[place + 2 :]


def _read_table(data: bytes) -> None:
    if data.startswith((b"PK", b"\xd0\xcf\x11\xe0")):
        return
    opened = open_table.open_table(data)
    layout = header.layout_of(opened)
    found = propose.propose(propose.seen_columns(layout, opened.head), builds={"own": ""})
    table_map.map_from(table_map.toml_of(found).encode("utf-8"))


def main(seconds: str = "600") -> None:
    """Fuzz for so many seconds."""
    with tempfile.TemporaryDirectory() as name:
        corpus = Path(name) / "corpus"
        corpus.mkdir()
        readers = Readers(Path(name))
        for number, seed in enumerate(readers.seeds):
            (corpus / str(number)).write_bytes(seed)
        limits = (f"-max_total_time={seconds}", "-max_len=40000", "-rss_limit_mb=3000")
        atheris.Setup([sys.argv[0], str(corpus), *limits, "-timeout=300"], readers.take)
        atheris.Fuzz()


if __name__ == "__main__":
    main(*sys.argv[1:])
