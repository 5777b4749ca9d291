"""The shop's rack: look at it, put parts on it, take one off, take a table in or out."""

from __future__ import annotations

from collections.abc import Sequence

from puttwright.deeds.bootstrap import Clock
from puttwright.errors import PackageFaults
from puttwright.evidence import Part
from puttwright.evidence.sheet import sheet_of
from puttwright.evidence.tables import table_faults
from puttwright.readers.rack_file import rack_csv, rack_from, rack_workbook
from puttwright.store import Store, rack, trail
from puttwright.store.trail import Deed


def look_at_rack(store: Store) -> tuple[Part, ...]:
    """Every part, by kind."""
    with store.reading() as look:
        return rack.load(look)


def put_on_rack(store: Store, clock: Clock, *, parts: Sequence[Part], who: str) -> None:
    """Put parts on the rack; one with a known id takes the place of what stood there.

    Raises
    ------
    PackageFaults
        Everything in them that cannot be; nothing is kept then.
    """
    faults = table_faults({"rack": sheet_of(parts, table="rack", record=Part)})
    if faults:
        raise PackageFaults(faults=faults)
    with store.writing() as transaction:
        rack.put(transaction, parts, now=clock(), who=who)


def take_off_rack(store: Store, clock: Clock, *, part_id: str, who: str) -> None:
    """Take a part off.

    Raises
    ------
    NotFound
        There is none of that id.
    """
    with store.writing() as transaction:
        rack.take_off(transaction, part_id)
        trail.note(transaction, Deed.RACK, now=clock(), who=who, about=part_id)


def take_in_rack(store: Store, clock: Clock, *, data: bytes, name: str, who: str) -> int:
    """Put on what a CSV or spreadsheet holds; how many parts that were.

    Raises
    ------
    PackageFaults
        Everything that is wrong with the file; nothing is kept then.
    """
    parts = rack_from(data, name=name)
    with store.writing() as transaction:
        rack.put(transaction, parts, now=clock(), who=who)
    return len(parts)


def rack_table(store: Store, *, workbook: bool) -> bytes:
    """The rack as CSV or as a spreadsheet."""
    parts = look_at_rack(store)
    return rack_workbook(parts) if workbook else rack_csv(parts)
