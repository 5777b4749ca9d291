"""Print the aim board."""

from __future__ import annotations

from pathlib import Path

from puttwright.deeds.write_whole import write_whole


def write_board(paper: str, *, out: Path) -> None:
    """Write the aim board for a size of paper.

    Parameters
    ----------
    paper
        ``A4``, ``A3``, ``letter`` or ``tabloid``.
    out
        The PDF.

    Raises
    ------
    NotFound, CannotWrite
        No board for that paper, or no room for the file; nothing is written then.
    """
    from puttwright.paper.board import render_board  # noqa: PLC0415 - the typesetter is heavy

    write_whole(out, render_board(paper))
