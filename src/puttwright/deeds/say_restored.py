"""What a restore did, in lines for the terminal."""

from __future__ import annotations

from collections.abc import Iterator

from puttwright.deeds.restore_records import Restored
from puttwright.store.replay import Replayed


def restored_lines(restored: Restored) -> list[str]:
    """What lies where, what was added, and what is gone for good."""
    lines = [_first(restored)]
    if restored.aside is not None:
        lines.append(f"What was there is set aside as {restored.aside}")
    lines += _from_journal(restored.replayed)
    if restored.salvaged is not None:
        lines.append(f"Read out of it and added: {restored.salvaged.readings} readings")
        for fitting_id, count in sorted(restored.salvaged.gone.items()):
            entries = "entry" if count == 1 else "entries"
            lines.append(f"Fitting {fitting_id}: {count} {entries} could not be read back")
    if restored.left_out:
        lines.append(f"Left out: {restored.left_out} fittings that were erased")
    return lines


def _from_journal(replayed: Replayed | None) -> Iterator[str]:
    if replayed is None:
        return
    if replayed.reaches:
        entries = _count(replayed.lines, "entry", "entries")
        readings = _count(replayed.readings, "reading", "readings")
        yield f"Added from the journal: {entries} made since, with {readings}"
    else:
        yield "The journal does not go back to this backup and was not used"
    if replayed.unreadable:
        lines = _count(replayed.unreadable, "line", "lines")
        yield f"{lines} of the journal cannot be read"
    if replayed.torn:
        yield "The last line of the journal was cut off as it was written and is passed over"


def _count(number: int, one: str, many: str) -> str:
    return f"{number} {one if number == 1 else many}"


def _first(restored: Restored) -> str:
    if restored.backup is None:
        return f"{restored.where} is made anew; there was no whole backup"
    return f"{restored.where} is {restored.backup.name} again (SHA-256 {restored.sha256})"
