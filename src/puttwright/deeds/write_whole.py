"""Write one file so that it is there whole or not at all: the one way deeds write files."""

from __future__ import annotations

from pathlib import Path

from puttwright.readers.whole import write_file_whole


def write_whole(path: Path, data: bytes) -> None:
    """Write aside, flush to the disk, then rename over what was there.

    Parameters
    ----------
    path
        The file; its folder is made if it is not there.
    data
        All that it shall hold.

    Raises
    ------
    CannotWrite
        A full disk, a folder in the way, no permission; the old file is untouched then.
    """
    write_file_whole(path, data)
