"""The maps a shop has confirmed: which column of a device's table is which, by its header."""

from __future__ import annotations

import dataclasses
from collections.abc import Mapping
from pathlib import Path
from typing import Final

from puttwright.errors import CannotRead
from puttwright.evidence import Fitting
from puttwright.readers.files import Unreadable
from puttwright.readers.tables.header import Layout
from puttwright.readers.tables.open_table import bytes_of
from puttwright.readers.tables.table_map import TableMap, map_from, toml_of
from puttwright.readers.whole import write_file_whole

MAPS: Final = "maps"
"""The folder of the maps, in the shop's own."""
_OF_THE_DEVICE: Final = ("instrument",)
"""What holds for all rows of a device's tables, and not for one fitting alone."""


def map_name(key: str) -> str:
    """The name of the file that holds the map of a header."""
    return f"readings-{key}.map.toml"


def is_of(table_map: TableMap, layout: Layout) -> bool:
    """Whether a map is of just these columns."""
    names = [column.header.strip().lower() for column in table_map.columns]
    return names == [name.strip().lower() for name in layout.names]


def kept_map(folder: Path, *, key: str, layout: Layout) -> TableMap | None:
    """The map that the shop confirmed for this header.

    Raises
    ------
    CannotRead
        It was changed by hand so that it is none any more.
    """
    file = folder / MAPS / map_name(key)
    if not file.is_file():
        return None
    try:
        found = map_from(bytes_of(file))
    except Unreadable as trouble:
        raise CannotRead(path=file, reason=str(trouble)) from trouble
    return found if is_of(found, layout) else None


def keep_map(folder: Path, table_map: TableMap, *, key: str) -> None:
    """Keep a confirmed map for the next such file, without what held for one fitting."""
    fixed = {name: each for name, each in table_map.fixed.items() if name in _OF_THE_DEVICE}
    general = dataclasses.replace(table_map, fixed=fixed)
    write_file_whole(folder / MAPS / map_name(key), toml_of(general).encode("utf-8"))


def with_fixed(
    table_map: TableMap, fitting: Fitting, *, said: Mapping[str, str | None]
) -> TableMap:
    """The map with what holds for every row of this file; the only build is the one meant.

    Parameters
    ----------
    table_map
        As it was confirmed.
    fitting
        The one it is read into.
    said
        What was said besides, by column; it holds before the map's own.
    """
    filled = {column.into for column in table_map.columns}
    fixed = dict(table_map.fixed) | {name: each for name, each in said.items() if each}
    if "build_id" not in filled and len(fitting.builds) == 1:
        fixed.setdefault("build_id", fitting.builds[0].build_id)
    return dataclasses.replace(
        table_map, fixed={name: each for name, each in fixed.items() if name not in filled}
    )
