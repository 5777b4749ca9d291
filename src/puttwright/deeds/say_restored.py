"""What a restore did, in lines for the terminal."""

from __future__ import annotations

from puttwright.deeds.restore_records import Restored


def restored_lines(restored: Restored) -> list[str]:
    """What lies where, what was added, and what is gone for good."""
    lines = [_first(restored)]
    if restored.aside is not None:
        lines.append(f"What was there is set aside as {restored.aside}")
    if restored.salvaged is not None:
        lines.append(f"Read out of it and added: {restored.salvaged.readings} readings")
        for fitting_id, count in sorted(restored.salvaged.gone.items()):
            entries = "entry" if count == 1 else "entries"
            lines.append(f"Fitting {fitting_id}: {count} {entries} could not be read back")
    if restored.left_out:
        lines.append(f"Left out: {restored.left_out} fittings that were erased")
    return lines


def _first(restored: Restored) -> str:
    if restored.backup is None:
        return f"{restored.where} is made anew; there was no whole backup"
    return f"{restored.where} is {restored.backup.name} again (SHA-256 {restored.sha256})"
