"""Does a putter keep within the equipment rules? Clause by clause; the governing bodies decide.

Our verdict is about measurements only. A figure nearer to its limit than it was
measured to, a figure nobody measured, and what no gauge can say are for a
person to look at.
"""

from __future__ import annotations

import itertools
import math
from collections.abc import Mapping
from dataclasses import dataclass
from typing import Final

from puttwright.club.rules_table import BY_EYE, CLAUSES, FROM_MEMORY, MEASURES, SEEN, Clause
from puttwright.errors import UserError
from puttwright.evidence import Build

WITHIN, BEYOND, LOOK = "within", "beyond", "look"
DECIDES: Final = "The governing bodies decide; this is measured against their text, no more."
LONG_MM: Final = 965.2
"""From 38 in a putter reaches a player's body; common practice, no source."""
ANCHORING: Final = (
    "A long putter is allowed, anchoring it is not: neither the club nor a gripping hand may be "
    "held against the body, nor a forearm to make an anchor point (Rule 10.1b). That limits the "
    "stroke, not the club."
)
_HAIR: Final = 1e-9
"""A length given in inches must not fail by the last bit of its conversion."""


class NotMeasurable(UserError):
    """{name} is {value:g}; a putter cannot measure that. Give {ask}, more than 0."""

    code = "not-measurable"


class NothingToMeasure(UserError):
    """There is no measurement called {name!r}; the rules ask for {known}."""

    code = "no-such-measurement"


@dataclass(frozen=True, slots=True, kw_only=True)
class Ruling:
    """The verdict on one clause; ``measured`` is ``None`` where nobody measured."""

    key: str
    clause: str
    rule: str
    measured: float | None
    unit: str
    limit: str
    verdict: str
    note: str
    status: str
    source: str


def rulings(
    measured: Mapping[str, float], *, error: Mapping[str, float] | None = None
) -> tuple[Ruling, ...]:
    """Hold measurements against every clause that touches a putter.

    Parameters
    ----------
    measured
        By the names in :data:`~puttwright.club.rules_table.MEASURES`, in
        mm and degrees; ``shaft_lean_deg`` forward positive, ``insert_proud_mm``
        sunk negative. Others are taken as not measured.
    error
        How far each measurement may be from the truth, by the same names; none means exact.

    Returns
    -------
    tuple of Ruling
        ``within``, ``beyond`` or ``look``; a limit known from memory only is
        never ``beyond``. A clause that does not apply is left out.

    Raises
    ------
    NotMeasurable, NothingToMeasure
        A length that is not positive; a name no clause asks for.

    Examples
    --------
    >>> [each.verdict for each in rulings({"length_mm": 457.1}) if each.rule == "1c"]
    ['beyond']
    """
    _check(measured)
    told = [
        _ruling(clause, measured, error or {}) for clause in CLAUSES if _applies(clause, measured)
    ]
    eyes = [
        Ruling(key=name.lower(), clause=name, rule=rule, measured=None, unit="", limit="by eye",
               verdict=LOOK, note=f"{what[0].upper()}{what[1:]}.", status=SEEN, source=source)
        for name, rule, what, source in BY_EYE
    ]  # fmt: skip
    return (*told, *eyes)


def rulings_of(build: Build, *, error: Mapping[str, float] | None = None) -> tuple[Ruling, ...]:
    """The same for what is known of a build."""
    return rulings(measured_of(build), error=error)


def measured_of(build: Build) -> dict[str, float]:
    """What a build's figures say of the rules' measurements."""
    known = {
        "length_mm": build.length_mm,
        "lie_deg": build.lie_deg,
        "loft_deg": build.loft_deg,
        "grip_width_mm": build.grip_diameter_mm,
    }
    return {name: value for name, value in known.items() if value is not None}


def anchoring(*, length_mm: float | None) -> str | None:
    """What to tell with a putter long enough to be anchored; ``None`` for a shorter one."""
    return ANCHORING if length_mm is not None and length_mm >= LONG_MM else None


def calc_rules(
    measured: Mapping[str, float], *, error: Mapping[str, float] | None = None
) -> dict[str, object]:
    """What ``calc rules`` prints: the clauses, and what goes with them in words.

    Parameters
    ----------
    measured, error
        As :func:`rulings` takes them.

    Returns
    -------
    dict
        ``clauses`` (each with clause, measured, limit, verdict and where it
        stands), ``anchoring`` (words with a long putter, else ``None``) and ``decides``.

    Examples
    --------
    >>> calc_rules({"loft_deg": 10.1})["clauses"][1]["verdict"]
    'beyond'
    """
    return {
        "clauses": [_wire(ruling) for ruling in rulings(measured, error=error)],
        "anchoring": anchoring(length_mm=measured.get("length_mm")),
        "decides": DECIDES,
    }


def _wire(ruling: Ruling) -> dict[str, object]:
    return {
        name: getattr(ruling, name)
        for name in ("clause", "measured", "limit", "verdict", "unit", "note", "rule", "status",
                     "source")
    }  # fmt: skip


def _check(measured: Mapping[str, float]) -> None:
    for name, value in measured.items():
        if name not in MEASURES:
            raise NothingToMeasure(name=name, known=", ".join(MEASURES))
        signed = name.endswith("_deg") or name in {"insert_proud_mm", "straight_above_sole_mm"}
        if not math.isfinite(value) or (value <= 0 and not signed):
            ask = next(clause.ask for clause in CLAUSES if name in clause.needs)
            raise NotMeasurable(name=name, value=value, ask=ask)


def _applies(clause: Clause, measured: Mapping[str, float]) -> bool:
    if clause.only_with and clause.only_with not in measured:
        return False
    if clause.not_with and clause.not_with in measured:
        return False
    return not (clause.spares and clause.spares(measured))


def _ruling(clause: Clause, measured: Mapping[str, float], error: Mapping[str, float]) -> Ruling:
    missing = [name for name in clause.needs if name not in measured]
    if missing:
        return _told(clause, None, LOOK, note=f"Measure {clause.ask}.")
    value = _quantity(clause, [measured[name] for name in clause.needs])
    low, high = _reach(clause, measured, error)
    if _inside(clause, low) and _inside(clause, high):
        return _told(clause, value, WITHIN, note=clause.note)
    if high < clause.low - _hair(clause.low) or low > clause.high + _hair(clause.high):
        return _told(clause, value, clause.beyond, note=_beyond_note(clause))
    if low == high:  # on a limit that may not be touched
        return _told(clause, value, clause.beyond, note=_beyond_note(clause))
    return _told(clause, value, LOOK, note="Nearer to the limit than it was measured to.")


def _beyond_note(clause: Clause) -> str:
    if clause.status == FROM_MEMORY:
        return "The limit is known from memory only: read the text."
    return clause.note


def _told(clause: Clause, value: float | None, verdict: str, *, note: str) -> Ruling:
    return Ruling(
        key=clause.key, clause=clause.name, rule=clause.rule, measured=value, unit=clause.unit,
        limit=clause.limit, verdict=verdict, note=note, status=clause.status,
        source=clause.source,
    )  # fmt: skip


def _quantity(clause: Clause, values: list[float]) -> float:
    return clause.combine(*values) if clause.combine else values[0]


def _reach(
    clause: Clause, measured: Mapping[str, float], error: Mapping[str, float]
) -> tuple[float, float]:
    """The least and the greatest the quantity can be, every measurement anywhere in its error."""
    ends = [
        (measured[name] - error.get(name, 0.0), measured[name] + error.get(name, 0.0))
        for name in clause.needs
    ]
    values = [_quantity(clause, list(corner)) for corner in itertools.product(*ends)]
    return min(values), max(values)


def _inside(clause: Clause, value: float) -> bool:
    if clause.strict:
        return clause.low < value < clause.high
    return clause.low - _hair(clause.low) <= value <= clause.high + _hair(clause.high)


def _hair(limit: float) -> float:
    return _HAIR * max(abs(limit), 1.0) if math.isfinite(limit) else 0.0
