"""Start a fitting: who is fitted, their greens, their own putter, the builds to try."""

from __future__ import annotations

import hashlib
from collections.abc import Sequence
from dataclasses import dataclass

from puttwright.deeds.bootstrap import Clock
from puttwright.errors import PackageFaults
from puttwright.evidence import Build, Fitting, FittingGreen, Golfer, Green
from puttwright.evidence.check import check
from puttwright.store import Store, fittings, golfers


@dataclass(frozen=True, slots=True, kw_only=True)
class NewFitting:
    """What is known before the first putt; the own putter is the first of ``builds``."""

    golfer: Golfer
    greens: Sequence[Green]
    fitting_green: FittingGreen
    builds: Sequence[Build]


def start_fitting(
    store: Store, clock: Clock, *, new: NewFitting, entry_key: str, who: str,
    golfer: str | None = None,
) -> str:  # fmt: skip
    """Write a new fitting under today's date.

    Parameters
    ----------
    store, clock
        The shop's.
    new
        What is known.
    entry_key
        The sender's key: the same sent twice starts one fitting.
    who
        Who starts it.
    golfer
        Whose fitting it is, when the golfer was here before.

    Returns
    -------
    str
        The fitting's id, free of the golfer's name.

    Raises
    ------
    PackageFaults
        Everything in it that cannot be; nothing is written then.
    NotFound
        There is no such golfer.
    """
    now = clock()
    date = now.astimezone().date().isoformat()
    fitting = Fitting(
        fitting_id=f"{date}-{_short(entry_key)}",
        date=date,
        golfer=new.golfer,
        greens=tuple(new.greens),
        fitting_green=new.fitting_green,
        own_build=new.builds[0].build_id,
        builds=tuple(new.builds),
    )
    faults = check(fitting)
    if faults:
        raise PackageFaults(faults=faults)
    with store.writing() as transaction:
        if golfer is not None:
            golfers.fittings_of(transaction, golfer)
        return fittings.start(
            transaction, fitting, entry_key=entry_key, now=now, who=who, golfer=golfer
        )


def _short(entry_key: str) -> str:
    return hashlib.sha256(entry_key.encode()).hexdigest()[:8]
