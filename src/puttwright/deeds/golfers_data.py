"""A golfer's data: what they were told and agreed to, their age, their name put right.

What a shop must tell, ask, keep and erase is for local law; this is no legal advice.
"""

from __future__ import annotations

import dataclasses
from collections.abc import Mapping
from dataclasses import dataclass
from datetime import date, timedelta
from typing import Any, Final

from puttwright.deeds.bootstrap import Clock
from puttwright.deeds.keep_settings import look_at_settings
from puttwright.errors import NotFound, PackageFaults, UserError
from puttwright.evidence.check import check
from puttwright.store import Store, corrections, fittings, golfer_notes, golfers, trail
from puttwright.store.corrections import Correction
from puttwright.store.golfer_notes import (
    GUARDIAN,
    NO,
    NOTED,
    PHOTOS,
    TOLD,
    YES,
    GolferNote,
    LongKept,
)
from puttwright.store.revisions import key_of
from puttwright.store.trail import Deed

_DAYS_A_YEAR: Final = 365.25


class PhotosNeedGuardian(UserError):
    """The golfer is under age; no photo is taken until a guardian's consent to photos is noted."""

    code = "photos-need-guardian"
    http_status = 403
    hint = "It is noted on the golfer's page, under what is kept of them."


@dataclass(frozen=True, slots=True, kw_only=True)
class GolfersData:
    """What was noted and put right, the first first.

    ``name`` and ``minor`` are what the ``newest`` fitting says; ``minor`` is None when nobody said
    whether they are under age.
    """

    golfer: str
    newest: str
    name: str
    minor: bool | None
    notes: tuple[GolferNote, ...]
    corrected: tuple[Correction, ...]

    @property
    def standing(self) -> Mapping[str, GolferNote]:
        """The last note of each kind, which is the one that holds."""
        return {each.kind: each for each in self.notes}

    @property
    def agreed(self) -> bool:
        """Whether they, and for a minor a guardian, agree to what is kept."""
        theirs = _says(self.standing, TOLD, YES)
        return theirs and (not self.minor or _says(self.standing, GUARDIAN, YES))

    @property
    def photos(self) -> bool:
        """Whether photos may be taken."""
        return not self.minor or _says(self.standing, PHOTOS, YES)


def golfers_data(store: Store, golfer: str) -> GolfersData:
    """What was noted of a golfer.

    Raises
    ------
    NotFound
        There is no such golfer.
    """
    with store.reading() as look:
        fitting_id = golfers.fittings_of(look, golfer)[0]
        newest = fittings.load(look, fitting_id).golfer
        return GolfersData(
            golfer=golfer,
            newest=fitting_id,
            name=newest.alias,
            minor=newest.minor,
            notes=tuple(golfer_notes.of_golfer(look, golfer)),
            corrected=tuple(corrections.of_golfer(look, golfer)),
        )


def note_on_golfer(
    store: Store, clock: Clock, *, golfer: str, kind: str, answer: str, told: str = "", who: str
) -> None:
    """Note an answer; ``told`` are the very words it was given to.

    Raises
    ------
    NotFound
        There is no such golfer, or no such thing to note.
    """
    if kind not in NOTED or answer not in {YES, NO}:
        raise NotFound(what="note", name=f"{kind[:20]} {answer[:20]}", known="")
    with store.writing() as write:
        now, key = clock(), golfers.newest_key(write, golfer)
        said = GolferNote(kind=kind, answer=answer, told=told, when=now, who=who)
        golfer_notes.add(write, said, golfer=golfer)
        trail.note(write, Deed.NOTED, now=now, who=who, about=f"{kind} {answer}", key=key)


def correct_golfer(
    store: Store, clock: Clock, *, golfer: str, who: str, name: str | None = None,
    minor: bool | None = None,
) -> None:  # fmt: skip
    """Put a golfer's name, or whether they are under age, right in every fitting of theirs.

    What stood there stays in the history; what is not given stays as it is.

    Raises
    ------
    NotFound
        There is no such golfer.
    PackageFaults
        It cannot be a name.
    """
    said = {"alias": name, "minor": minor}
    changes: dict[str, Any] = {each: value for each, value in said.items() if value is not None}
    with store.writing() as write:
        for fitting_id in golfers.fittings_of(write, golfer):
            fitting = fittings.load(write, fitting_id)
            better = dataclasses.replace(fitting.golfer, **changes)
            if better == fitting.golfer:
                continue
            faults = check(dataclasses.replace(fitting, golfer=better))
            if faults:
                raise PackageFaults(faults=faults)
            fittings.change_details(
                write, fitting_id=fitting_id, golfer=better, greens=fitting.greens,
                fitting_green=fitting.fitting_green,
            )  # fmt: skip
            key = key_of(write, fitting_id)
            corrections.note(write, fitting.golfer, now_known=better, key=key, now=clock(), who=who)


def refuse_photos(store: Store, fitting_id: str) -> None:
    """Refuse photos of a minor as long as no guardian agreed to them.

    Raises
    ------
    PhotosNeedGuardian
        No photo may be taken.
    NotFound
        There is no such fitting.
    """
    with store.reading() as look:
        minor = fittings.load(look, fitting_id).golfer.minor
        notes = golfer_notes.of_golfer(look, golfers.golfer_of(look, fitting_id))
    if minor and not _says({each.kind: each for each in notes}, PHOTOS, YES):
        raise PhotosNeedGuardian


def kept_long(store: Store, clock: Clock) -> tuple[int, list[LongKept]]:
    """The years the shop wants to keep golfers for, and those it has kept for longer.

    Nothing is ever erased by this; 0 years when the shop has set none.
    """
    years = look_at_settings(store).keep_years
    if not years:
        return 0, []
    with store.reading() as look:
        return int(years), golfer_notes.not_here_since(look, day_before(clock().date(), int(years)))


def day_before(today: date, years: int) -> str:
    """The day so many years ago, as the records write it.

    Examples
    --------
    >>> day_before(date(2026, 5, 1), 2)
    '2024-05-01'
    """
    return (today - timedelta(days=round(years * _DAYS_A_YEAR))).isoformat()


def _says(standing: Mapping[str, GolferNote], kind: str, answer: str) -> bool:
    return kind in standing and standing[kind].answer == answer
