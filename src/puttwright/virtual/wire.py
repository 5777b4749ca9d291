"""An invented golfer written down, so that they putt on later just as they would have today."""

from __future__ import annotations

import dataclasses
from collections.abc import Mapping
from typing import Any

import numpy as np

from puttwright.virtual.golfers import VirtualGolfer
from puttwright.virtual.putting import Device, Session
from puttwright.virtual.truth import TrueStroke
from puttwright.virtual.worlds import World


def golfer_json(golfer: VirtualGolfer, *, seed: int) -> dict[str, Any]:
    """Stroke, world and truth as plain JSON; ``seed`` is that of the putts to come.

    Examples
    --------
    >>> from puttwright.virtual.golfers import invent
    >>> (one,) = invent(1, seed=1, putts=1, aims=1)
    >>> session_from(golfer_json(one, seed=3)).build_ids == one.session.build_ids
    True
    """
    session = golfer.session
    stroke = dataclasses.asdict(session.stroke)
    return {
        "seed": seed,
        "stroke": {name: [float(each) for each in values] for name, values in stroke.items()},
        "world": dataclasses.asdict(session.world),
        "device": dataclasses.asdict(session.device),
        "green_ft": session.green_ft,
        "build_ids": list(session.build_ids),
        "expected_putts": session.expected_putts,
        "truth": golfer.truth,
    }


def session_from(written: Mapping[str, Any]) -> Session:
    """The golfer on the green again."""
    stroke = {name: np.array(values) for name, values in written["stroke"].items()}
    return Session(
        stroke=TrueStroke(**stroke),
        world=World(**written["world"]),
        device=Device(**written["device"]),
        green_ft=written["green_ft"],
        build_ids=tuple(written["build_ids"]),
        expected_putts=written["expected_putts"],
    )
