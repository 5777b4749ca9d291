"""A million rows of a sensor's log read, matched and stored, beside pandas into SQLite.

Both read the same file and keep all ten columns on the disk, in what each stores in: ours the
package's own table, flushed to the disk before it takes the old one's place, with a fingerprint
of every row; the peer a database file, committed as SQLite does unless told otherwise. The peer
converts no unit and checks no value.
"""

from __future__ import annotations

import shutil
import sqlite3
import subprocess
import sys
import tempfile
from collections.abc import Iterator
from pathlib import Path

import numpy as np

from puttwright.evidence import Build, Fitting, FittingGreen, Golfer, Green
from puttwright.readers.package import write_package

ROWS = 1_000_000
PEER = "pandas read_csv + to_sql"
HEADER = (
    "No,Distance (ft),Ball speed (mph),Start (deg; right +),Launch angle (deg),Made,"
    "Spin (rpm; forward +),Face (deg; right +),Path (deg; right +),Head speed (mph)"
)
_OURS = """
from pathlib import Path
import polars
from puttwright.deeds.read_tables import Ask, read_tables
started = time.perf_counter()
read_tables([Path("log.csv")], package=Path("fitting"), ask=Ask())
"""
_PEER = """
import sqlite3, pandas
started = time.perf_counter()
pandas.read_csv("log.csv").to_sql("putts", sqlite3.connect("peer.sqlite"), index=False)
"""
_TOLD = """
print(time.perf_counter() - started, resource.getrusage(resource.RUSAGE_SELF).ru_maxrss / 1024)
"""


def _log(folder: Path) -> None:
    rng = np.random.default_rng(1)
    cells = np.column_stack(
        [
            np.arange(1, ROWS + 1), rng.integers(6, 30, ROWS), rng.normal(4, 0.5, ROWS).clip(1, 9),
            rng.normal(0, 1, ROWS), rng.normal(2, 1, ROWS), rng.integers(0, 2, ROWS),
            rng.normal(60, 20, ROWS), rng.normal(0, 1, ROWS), rng.normal(0, 2, ROWS),
            rng.normal(3, 0.5, ROWS).clip(1, 9),
        ]
    )  # fmt: skip
    np.savetxt(
        folder / "log.csv",
        cells,
        fmt="%d,%d,%.2f,%.2f,%.2f,%d,%.0f,%.2f,%.2f,%.2f",
        header=HEADER,
        comments="",
    )
    fitting = Fitting(
        fitting_id="F", date="2026-05-01", golfer=Golfer(alias="A", handed="right"),
        greens=(Green(name="home", speed_ft=10, share=1),), own_build="own",
        fitting_green=FittingGreen(speed_ft=10),
        builds=(Build(build_id="own", length_mm=864, lie_deg=70, loft_deg=3),),
    )  # fmt: skip
    write_package(fitting, folder / "fitting")


def _seconds(code: str, folder: Path) -> tuple[float, float]:
    """Seconds in a process of its own, imports not counted, and the most memory it had [MB]."""
    program = f"import resource, time\n{code}{_TOLD}"
    run = subprocess.run(
        [sys.executable, "-c", program], cwd=folder, check=True, capture_output=True, text=True
    )
    seconds, megabytes = map(float, run.stdout.split())
    return seconds, megabytes


def rows() -> Iterator[tuple[str, float, str, float]]:
    """One row: both from the file on the disk to the file on the disk."""
    folder = Path(tempfile.mkdtemp())
    try:
        _log(folder)
        ours_s, ours_mb = _seconds(_OURS, folder)
        peer_s, peer_mb = _seconds(_PEER, folder)
        with (folder / "fitting/putts.csv").open("rb") as file:
            assert sum(1 for _ in file) == ROWS + 1
        counted = sqlite3.connect(folder / "peer.sqlite").execute("select count(*) from putts")
        assert counted.fetchone() == (ROWS,)
        what = f"10⁶ rows read, matched, stored ({ours_mb:.0f} MB; peer {peer_mb:.0f} MB)"
        yield what, ours_s, PEER, peer_s
    finally:
        shutil.rmtree(folder)
