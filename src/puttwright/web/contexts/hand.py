"""What is in hand on the green: the build, the kind of reading, its setting."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, replace
from typing import Final
from urllib.parse import urlencode

from puttwright.deeds.open_fitting import OpenFitting
from puttwright.evidence import AimReading, Column, Fitting, Putt, columns_of
from puttwright.store.readings import AIMS, PUTTS, SETUPS
from puttwright.web.contexts.hour import ADDRESS, AIM, LOOKS, PACE
from puttwright.web.forms.spoken import Wrong, shown_number, spoken_number
from puttwright.web.measures import spoken_unit

TASKS: Final = (AIMS, PUTTS, SETUPS)
DISTANCES_M: Final = (1.0, 2.0, 3.0, 5.0, 8.0)
USUAL_M: Final = 3.0
USUAL_BOARD_MM: Final = 2000.0
DISTANCE, BOARD, BAR = "distance", "board-distance", "bar"
"""Names of the fields for a length that people type, in the unit that is spoken here."""
HELD: Final = ("hand", "from", "board", DISTANCE, BOARD)
"""Names of all that says what is in hand."""


def _column_of(record: type, name: str, /) -> Column:
    return next(each for each in columns_of(record) if each.name == name)


_LENGTHS: Final[Mapping[str, tuple[Column, int]]] = {
    DISTANCE: (_column_of(Putt, "distance_m"), 3),
    BOARD: (_column_of(AimReading, "board_distance_mm"), 0),
    BAR: (Column("bar_mm", "number", "the bar of 100 mm", unit="mm", low=60, high=150), 2),
}
"""What each fills, and to how many decimals it is kept: three metres said in feet stay three."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Hand:
    """What is being taken: the build in hand, the kind of reading, and its setting.

    ``look`` is what a putt is looked at for, one of :data:`puttwright.web.contexts.hour.LOOKS`.
    """

    build_id: str
    task: str
    distance_m: float
    board_mm: float
    mirror: bool
    look: str = PACE

    @property
    def step(self) -> str:
        """The step of the hour it belongs to."""
        return {AIMS: AIM, SETUPS: ADDRESS}.get(self.task, self.look)

    def query(self, **changes: object) -> str:
        """The same with changes, as the query of an address."""
        held = replace(self, **changes)  # type: ignore[arg-type]
        words = {"hand": held.build_id, "task": held.task}
        if held.task == PUTTS:
            words["from"] = f"{held.distance_m:g}"
            words |= {} if held.look == PACE else {"look": held.look}
        if held.task == AIMS:
            words |= {"board": f"{held.board_mm:g}", "laser": "mirror" if held.mirror else "face"}
        return urlencode(words)


def hand_of(opened: OpenFitting, query: Mapping[str, str]) -> Hand:
    """What is in hand: as the address says, else as it was at the last reading."""
    fitting = opened.fitting
    known = [build.build_id for build in fitting.builds]
    last = opened.last
    build_id = query.get("hand", "")
    if build_id not in known:
        build_id = last.reading.build_id if last else fitting.own_build
    task = query.get("task", "")
    if task not in TASKS:
        task = last.kind if last else AIMS
    aim = max(fitting.aims, key=lambda each: each.seq, default=None)
    mirror = aim.mirror if aim else False
    return Hand(
        build_id=build_id,
        task=task,
        distance_m=typed_length(query, DISTANCE).value
        or _number(query.get("from"), low=0.2, high=40)
        or _last_distance(fitting),
        board_mm=typed_length(query, BOARD).value
        or _number(query.get("board"), low=200, high=20000)
        or (aim.board_distance_mm if aim else USUAL_BOARD_MM),
        mirror=query["laser"] == "mirror" if "laser" in query else mirror,
        look=query["look"] if query.get("look") in LOOKS else PACE,
    )


@dataclass(frozen=True, slots=True, kw_only=True)
class Length:
    """A length as it stands in its field, in the unit spoken here, and what is wrong with it."""

    value: float | None = None
    text: str = ""
    message: str = ""


UNTYPED: Final = Length()


def typed_length(query: Mapping[str, str], name: str) -> Length:
    """What was typed into one of the fields for a length; nothing where it is not there."""
    text = query.get(name, "").strip()
    if not text:
        return Length()
    column, digits = _LENGTHS[name]
    try:
        value = spoken_number(text, column, said_in=spoken_unit(column.unit))
    except Wrong as wrong:
        return Length(text=text, message=wrong.sentence)
    return Length(value=round(value, digits), text=text)


def shown_length(value: float | None, name: str) -> str:
    """A length as its field holds it."""
    column, _ = _LENGTHS[name]
    return shown_number(value, column, said_in=spoken_unit(column.unit))


def _number(text: str | None, *, low: float, high: float) -> float | None:
    try:
        value = float((text or "").replace(",", "."))
    except ValueError:
        return None
    return value if low <= value <= high else None


def _last_distance(fitting: Fitting) -> float:
    last = max(fitting.putts, key=lambda putt: putt.seq, default=None)
    return last.distance_m if last else USUAL_M
