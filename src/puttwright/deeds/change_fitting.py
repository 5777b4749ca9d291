"""Put right what was written down of a golfer, their greens or a putter, unless it changed.

Readings are never changed; what stands around them may be. A form says what it was
filled in from. Where that is no longer so, nothing is written: somebody else, or
the same person on another page, was faster.
"""

from __future__ import annotations

import dataclasses
import hashlib
from collections.abc import Sequence
from dataclasses import dataclass

from puttwright.deeds.bootstrap import Clock
from puttwright.errors import NotAllowed, PackageFaults
from puttwright.evidence import Build, Fitting, FittingGreen, Golfer, Green
from puttwright.evidence.check import check
from puttwright.store import Store, corrections, fittings, trail
from puttwright.store.revisions import key_of
from puttwright.store.trail import Deed


class ChangedMeanwhile(NotAllowed):
    """It was changed since the page was opened; nothing was stored, look at it anew."""

    code = "changed-meanwhile"


@dataclass(frozen=True, slots=True, kw_only=True)
class Details:
    """What the interview tells: the golfer, the greens they play, the green here."""

    golfer: Golfer
    greens: tuple[Green, ...]
    fitting_green: FittingGreen


def details_of(fitting: Fitting) -> Details:
    """The details of a fitting as it stands."""
    return Details(
        golfer=fitting.golfer, greens=fitting.greens, fitting_green=fitting.fitting_green
    )


def state_mark(record: object) -> str:
    """A short word for what a record says; it is another one as soon as anything in it is.

    Examples
    --------
    >>> green = Green(name="home", speed_ft=9.0, share=1.0)
    >>> state_mark(green) == state_mark(Green(name="home", speed_ft=9.0, share=1.0))
    True
    >>> state_mark(green) == state_mark(Green(name="home", speed_ft=9.5, share=1.0))
    False
    """
    return hashlib.sha256(repr(record).encode()).hexdigest()[:20]


def change_details(
    store: Store, clock: Clock, *, fitting_id: str, details: Details, seen: str, who: str
) -> None:
    """Write other details.

    Parameters
    ----------
    store, clock, fitting_id
        The shop's, and which fitting.
    details
        What it is to say.
    seen
        The :func:`state_mark` of the details the form was filled in from.
    who
        Who changes them; what stood there of the golfer stays in the history.

    Raises
    ------
    ChangedMeanwhile
        They are no longer what was seen; the same sent twice is not such a case.
    PackageFaults
        Everything in them that cannot be.
    NotFound
        There is no such fitting.
    """
    with store.writing() as transaction:
        fitting = fittings.load(transaction, fitting_id)
        if details_of(fitting) == details:
            return
        _refuse_stale(details_of(fitting), seen=seen)
        _refuse_faults(
            dataclasses.replace(
                fitting,
                golfer=details.golfer,
                greens=details.greens,
                fitting_green=details.fitting_green,
            )
        )
        fittings.change_details(
            transaction,
            fitting_id=fitting_id,
            golfer=details.golfer,
            greens=details.greens,
            fitting_green=details.fitting_green,
        )
        corrections.note(
            transaction, fitting.golfer, now_known=details.golfer,
            key=key_of(transaction, fitting_id), now=clock(), who=who,
        )  # fmt: skip


def change_build(
    store: Store, clock: Clock, *, fitting_id: str, build: Build, seen: str, who: str
) -> None:
    """Write other figures of a build; ``seen`` as in :func:`change_details`.

    Raises
    ------
    ChangedMeanwhile, PackageFaults, NotFound
        As :func:`change_details`.
    """
    with store.writing() as transaction:
        fitting = fittings.load(transaction, fitting_id)
        known = {each.build_id: each for each in fitting.builds}
        if known.get(build.build_id) == build:
            return
        _refuse_stale(known.get(build.build_id), seen=seen)
        builds = _with(fitting.builds, build)
        _refuse_faults(dataclasses.replace(fitting, builds=builds))
        fittings.change_build(transaction, build, fitting_id=fitting_id)
        trail.note(
            transaction, Deed.BUILD_CHANGED, now=clock(), who=who, about=build.build_id,
            key=key_of(transaction, fitting_id),
        )  # fmt: skip


def _with(builds: Sequence[Build], changed: Build) -> tuple[Build, ...]:
    return tuple(changed if each.build_id == changed.build_id else each for each in builds)


def _refuse_stale(now: object, *, seen: str) -> None:
    if state_mark(now) != seen:
        raise ChangedMeanwhile(what="")


def _refuse_faults(fitting: Fitting) -> None:
    faults = check(fitting)
    if faults:
        raise PackageFaults(faults=faults)
