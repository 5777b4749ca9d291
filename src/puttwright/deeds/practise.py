"""Practise a fitting with an invented golfer who putts when asked, and see the truth at the end."""

from __future__ import annotations

import dataclasses
import hashlib
from collections.abc import Mapping
from dataclasses import dataclass
from typing import Any, Final

import numpy as np

from puttwright.deeds.bootstrap import Clock
from puttwright.deeds.open_fitting import OpenFitting, open_fitting
from puttwright.deeds.record_reading import record_reading
from puttwright.errors import NotAllowed, NotFound
from puttwright.evidence import LEFT
from puttwright.store import Store, fittings, practice
from puttwright.store.practice import KeptPractice
from puttwright.store.readings import AIMS, PUTTS, Kept
from puttwright.virtual.golfers import VirtualGolfer, invent_one
from puttwright.virtual.wire import golfer_json, session_from
from puttwright.virtual.worlds import WORLDS

BUILDS: Final = 4
"""So many putters are handed to a golfer of practice, their own among them."""
PUTTS_MEANT: Final = 48
"""A drift of theirs is spread over so many putts."""
NAMES: Final = ("Bracken", "Linnet", "Plover", "Sorrel", "Teasel", "Wren")


@dataclass(frozen=True, slots=True, kw_only=True)
class Practice:
    """A practice fitting and the golfer behind it."""

    opened: OpenFitting
    kept: KeptPractice

    @property
    def truth(self) -> Mapping[str, Mapping[str, float]]:
        """What is so, by build."""
        written: Mapping[str, Any] = self.kept.golfer["truth"]["builds"]
        known = {build.build_id for build in self.opened.fitting.builds}
        return {name: facts for name, facts in written.items() if name in known}

    @property
    def world(self) -> str:
        """What kind of golfer it was."""
        return str(self.kept.golfer["truth"]["world"])


def start_practice(store: Store, clock: Clock, *, handed: str, entry_key: str, who: str) -> str:
    """Invent a golfer of that hand and start a fitting; the same key twice starts one.

    Returns
    -------
    str
        The fitting's id. The fitting says in its ``extra`` that it is practice.
    """
    now = clock()
    seed = int.from_bytes(hashlib.sha256(entry_key.encode()).digest()[:4], "big")
    golfer = _invented(seed, handed=handed)
    fitting = dataclasses.replace(
        golfer.fitting,
        fitting_id=f"practice-{seed:08x}",
        date=now.astimezone().date().isoformat(),
        builds=golfer.fitting.builds[:BUILDS],
        golfer=dataclasses.replace(golfer.fitting.golfer, alias=NAMES[seed % len(NAMES)]),
        extra={fittings.PRACTICE: True},
    )
    with store.writing() as write:
        started = fittings.start(write, fitting, entry_key=entry_key, now=now, who=who)
        practice.keep(write, started, golfer=golfer_json(golfer, seed=seed))
    return started


def practise(
    store: Store, clock: Clock, *, fitting_id: str, kind: str, build_id: str, distance_m: float,
    entry_key: str, who: str,
) -> Kept:  # fmt: skip
    """Let the golfer putt or aim once with what is in hand, and record what was seen.

    Raises
    ------
    NotFound
        There is no such fitting or build, or nobody invented putts in it.
    NotAllowed
        Anything but a putt or an aim; the truth was shown already.
    """
    opened = open_practice(store, fitting_id)
    if opened.kept.shown:
        raise NotAllowed(what="The truth of this practice was shown; nobody putts in it any more")
    if kind not in (PUTTS, AIMS):
        raise NotAllowed(what="An invented golfer putts and aims, and that is all they do")
    session = session_from(opened.kept.golfer)
    if build_id not in session.build_ids:
        raise NotFound(what="putter of this golfer", name=build_id, known="")
    seq = 1 + len(opened.opened.history)
    chance = np.random.default_rng([int(opened.kept.golfer["seed"]), seq])
    build = session.build_ids.index(build_id)
    reading = (
        session.putt(seq=seq, build=build, distance_m=distance_m, rng=chance)
        if kind == PUTTS
        else session.aim(seq=seq, build=build, rng=chance)
    )
    return record_reading(
        store, clock, fitting_id=fitting_id, reading=reading, entry_key=entry_key, who=who
    )


def open_practice(store: Store, fitting_id: str) -> Practice:
    """A practice fitting as it stands.

    Raises
    ------
    NotFound
        There is no such fitting, or it is one of a person.
    """
    opened = open_fitting(store, fitting_id)
    with store.reading() as look:
        kept = practice.find(look, fitting_id)
    if kept is None:
        raise NotFound(what="practice", name=fitting_id, known="")
    return Practice(opened=opened, kept=kept)


def show_truth(store: Store, clock: Clock, *, fitting_id: str) -> Practice:
    """The practice with its truth, and the end of it.

    Raises
    ------
    NotFound
        There is no such practice.
    """
    found = open_practice(store, fitting_id)
    with store.writing() as write:
        practice.show(write, fitting_id, now=clock())
    return found


def _invented(seed: int, *, handed: str) -> VirtualGolfer:
    chance = np.random.default_rng(seed)
    world = WORLDS[int(chance.integers(len(WORLDS)))]
    number = 2 if handed == LEFT else 0  # every third is left-handed
    golfer = invent_one(number, world=world, rng=chance, putts=0, aims=0)
    session = dataclasses.replace(golfer.session, expected_putts=PUTTS_MEANT)
    return dataclasses.replace(golfer, session=session)
