"""An example of what an hour on the green comes to, for a list with nothing in it yet."""

from __future__ import annotations

from typing import Final

from puttwright.fitting.decision import Estimate
from puttwright.pictures.builds import BuildMark
from puttwright.pictures.grounds import PAGE
from puttwright.pictures.strokes import SavedRow, strokes_saved
from puttwright.web.drawings.drawing import Drawing, drawing

_Z_90: Final = 1.645


def _row(letter: str, name: str, *, saved: float, half: float, chosen: bool = False) -> SavedRow:
    mark = BuildMark(letter=letter, name=name, role="choice" if chosen else "other", order=1)
    return SavedRow(
        mark=mark,
        saved=Estimate(mean=saved, sd=half / _Z_90, interval_90=(saved - half, saved + half)),
    )


def example_drawing() -> Drawing:
    """An invented golfer's strokes saved: one build clearly better, one not to be told apart."""
    own = BuildMark(letter="A", name="the putter they came with", role="own")
    rows = [
        SavedRow(mark=own, saved=None),
        _row("B", "an inch shorter", saved=0.1, half=0.5),
        _row("C", "shorter, more loft", saved=0.7, half=0.4, chosen=True),
    ]
    return drawing(
        lambda width, prefix: strokes_saved(rows, ground=PAGE, prefix=prefix, width=width),
        prefix="example",
    )
