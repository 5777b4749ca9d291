"""Whose fitting is whose and what was noted of golfers, for a shop that is carried away."""

from __future__ import annotations

import json
from collections.abc import Mapping, Sequence
from datetime import datetime
from typing import Any

from sqlalchemy import Connection

from puttwright.store import Store, golfer_notes, golfers
from puttwright.store.golfer_notes import GolferNote


def carried_golfers(store: Store, ids: Sequence[str]) -> bytes:
    """Each golfer with fittings, in the order of their ids, and notes; practice has none."""
    with store.reading() as look:
        names = dict.fromkeys(golfers.golfer_of(look, each) for each in ids)
        told = [_golfer(look, each) for each in names if golfers.lines_of(look, [each])]
    told.sort(key=lambda each: str(each["fittings"][0]))
    return json.dumps(told, indent=2, sort_keys=True, ensure_ascii=False).encode()


def take_in_golfers(store: Store, told: Sequence[Mapping[str, Any]]) -> None:
    """Join the fittings of each golfer again, and add the notes that are not there yet."""
    with store.writing() as write:
        for each in told:
            first, *others = [golfers.golfer_of(write, fitting) for fitting in each["fittings"]]
            for other in others:
                if other != first:
                    golfers.join(write, first, other=other)
                    golfer_notes.move(write, other, to=first)
            there = set(golfer_notes.of_golfer(write, first))
            for said in each["notes"]:
                note = GolferNote(**{**said, "when": datetime.fromisoformat(said["when"])})
                if note not in there:
                    golfer_notes.add(write, note, golfer=first)


def _golfer(look: Connection, golfer: str) -> dict[str, Any]:
    notes = golfer_notes.of_golfer(look, golfer)
    return {
        "fittings": sorted(golfers.fittings_of(look, golfer)),
        "notes": [
            {
                "kind": each.kind, "answer": each.answer, "told": each.told,
                "when": each.when.isoformat(), "who": each.who,
            }
            for each in notes
        ],
    }  # fmt: skip
