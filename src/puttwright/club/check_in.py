"""Is the putter on the bench the one that was ordered? Pass, measure again, rework or refuse.

The decision rule is that of ISO 14253-1, second hand: the error of the gauge counts
against whoever claims conformity. A figure passes when it lies within its tolerance
less a guard band as wide as the error, and is out when it lies beyond the tolerance
by as much; between the two nobody can tell, and it is measured again.
"""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from typing import Final

from puttwright.club.alloys import ASK as ASK_FIRST
from puttwright.club.alloys import REFUSE as NOT_DONE
from puttwright.club.metal import UNKNOWN_METAL, Metal
from puttwright.club.targets import BEND_ASK_DEG, BEND_REFUSE_DEG, BY_FIELD, NEEDED, Target
from puttwright.errors import OutOfRange, UserError
from puttwright.evidence import Build, columns_of

PASS, AGAIN, REWORK, REFUSE = "pass", "again", "rework", "refuse"
_WORST_LAST: Final = (PASS, AGAIN, REWORK, REFUSE)
BEND, CUT, WEIGHT, REGRIP, RESHAFT, RENECK = "bend", "cut", "weight", "regrip", "reshaft", "reneck"
_WORK: Final = {
    "offset_mm": RENECK,
    "toe_hang_deg": RENECK,
    "head_mass_g": WEIGHT,
    "total_mass_g": WEIGHT,
    "balance_from_butt_mm": WEIGHT,
    "grip_diameter_mm": REGRIP,
}
_CANNOT: Final = frozenset({RENECK, RESHAFT})
ASK, UNKNOWN, TOO_FAR, OUTSIDE, NEVER = "ask", "unknown", "too far", "outside", "never"
_STOPS: Final = frozenset({TOO_FAR, OUTSIDE, NEVER})


class NothingMeasured(UserError):
    """Nothing was measured; give at least one of {known}."""

    code = "nothing-measured"


class NotOnThisOrder(UserError):
    """The order says nothing of {name}; it has {known}."""

    code = "not-on-this-order"


class HeavierThanTheWhole(UserError):
    """The head ({head_g:g} g) weighs no less than the whole putter ({total_g:g} g); weigh both again."""  # noqa: E501

    code = "heavier-than-the-whole"


class BalanceOffThePutter(UserError):
    """A balance {balance_mm:g} mm from the butt is beyond the end of a putter of {length_mm:g} mm; measure from the butt."""  # noqa: E501

    code = "balance-off-the-putter"


@dataclass(frozen=True, slots=True, kw_only=True)
class Ordered:
    """One figure of an order, its tolerance either way."""

    field: str
    ordered: float
    tolerance: float


@dataclass(frozen=True, slots=True, kw_only=True)
class Bendable:
    """An angle as the head came, what it may be bent to, and its metal, as far as anyone knows."""

    field: str
    supplied_deg: float | None = None
    low_deg: float | None = None
    high_deg: float | None = None
    metal: Metal = UNKNOWN_METAL


@dataclass(frozen=True, slots=True, kw_only=True)
class Work:
    """What would put a figure right: ``by`` is the change wanted, in the figure's unit.

    ``why`` is what the metal says, ``possible`` the angles that could be had by bending.
    """

    kind: str
    by: float
    mind: tuple[str, ...] = ()
    why: str = ""
    possible: tuple[float, float] | None = None


@dataclass(frozen=True, slots=True, kw_only=True)
class Finding:
    """One figure measured against the order."""

    target: Target
    ordered: float
    tolerance: float
    error: float
    measured: float
    verdict: str
    work: Work | None = None

    @property
    def off(self) -> float:
        """Measured less ordered."""
        return self.measured - self.ordered

    @property
    def passes_within(self) -> float:
        """The tolerance less the guard band; what is not positive can never pass."""
        return self.tolerance - self.error


@dataclass(frozen=True, slots=True, kw_only=True)
class CheckIn:
    """The verdict on a putter, figure by figure, and what the order asks for that nobody measured.

    ``missing`` is the part of those without which nothing passes.
    """

    verdict: str
    findings: tuple[Finding, ...]
    not_measured: tuple[str, ...]
    missing: tuple[str, ...]


def check_in(
    ordered: Sequence[Ordered],
    measured: Mapping[str, float],
    *,
    bendable: Sequence[Bendable] = (),
    error: Mapping[str, float] | None = None,
) -> CheckIn:
    """Hold what was measured against what was ordered.

    Parameters
    ----------
    ordered
        The figures of the order.
    measured
        By the column of a build, in its unit: ``loft_deg``, ``length_mm`` and so on.
    bendable
        What is known of bending this head.
    error
        Expanded uncertainty (k = 2) of a reading by column; the bench's usual where absent.

    Returns
    -------
    CheckIn
        ``pass``, ``again``, ``rework`` or ``refuse``: the worst of its figures.

    Raises
    ------
    NothingMeasured, NotOnThisOrder, OutOfRange
        Nothing to judge; a figure the order does not have; one no putter can have.
    HeavierThanTheWhole, BalanceOffThePutter
        Two figures that cannot both be true.

    Examples
    --------
    >>> loft = Ordered(field="loft_deg", ordered=2.5, tolerance=0.5)
    >>> found = check_in([loft], {"loft_deg": 3.5}).findings[0]
    >>> found.verdict, found.work.kind, found.work.by
    ('rework', 'bend', -1.0)
    """
    _possible(ordered, measured)
    known = {each.field: each for each in bendable}
    findings = tuple(
        _finding(each, measured[each.field], known.get(each.field), error or {})
        for each in ordered
        if each.field in measured
    )
    not_measured = tuple(each.field for each in ordered if each.field not in measured)
    missing = tuple(name for name in not_measured if name in NEEDED)
    verdicts = [finding.verdict for finding in findings] + [AGAIN] * bool(missing)
    return CheckIn(
        verdict=max(verdicts, key=_WORST_LAST.index),
        findings=findings,
        not_measured=not_measured,
        missing=missing,
    )


def _possible(ordered: Sequence[Ordered], measured: Mapping[str, float]) -> None:
    known = [each.field for each in ordered]
    if not measured:
        raise NothingMeasured(known=", ".join(known))
    ranges = {column.name: column for column in columns_of(Build)}
    for name, value in measured.items():
        if name not in known:
            raise NotOnThisOrder(name=name, known=", ".join(known))
        low, high = ranges[name].low, ranges[name].high
        assert low is not None
        assert high is not None
        if not low <= value <= high:
            raise OutOfRange(name=name, value=value, low=low, high=high, unit=ranges[name].unit)
    head, total = measured.get("head_mass_g"), measured.get("total_mass_g")
    if head is not None and total is not None and head >= total:
        raise HeavierThanTheWhole(head_g=head, total_g=total)
    length, balance = measured.get("length_mm"), measured.get("balance_from_butt_mm")
    if length is not None and balance is not None and balance >= length:
        raise BalanceOffThePutter(balance_mm=balance, length_mm=length)


def _finding(
    asked: Ordered, value: float, bendable: Bendable | None, errors: Mapping[str, float]
) -> Finding:
    target = BY_FIELD[asked.field]
    error = errors.get(asked.field, target.error)
    off = abs(value - asked.ordered)
    verdict, work = AGAIN, None
    if off <= asked.tolerance - error + 1e-9:
        verdict = PASS
    elif off >= asked.tolerance + error - 1e-9:
        verdict, work = _put_right(asked, asked.ordered - value, bendable)
    return Finding(
        target=target, ordered=asked.ordered, tolerance=asked.tolerance, error=error,
        measured=value, verdict=verdict, work=work,
    )  # fmt: skip


def _put_right(asked: Ordered, by: float, bendable: Bendable | None) -> tuple[str, Work]:
    """What would put it right, and whether the bench can."""
    if asked.field in {"loft_deg", "lie_deg"}:
        mind, why = _mind(asked.ordered, by, bendable)
        refused = bool(_STOPS & set(mind))
        possible = _possible_deg(bendable) if refused else None
        work = Work(kind=BEND, by=by, mind=mind, why=why, possible=possible)
        return (REFUSE if refused else REWORK), work
    length = CUT if by < 0 else RESHAFT
    kind = _WORK.get(asked.field, length)
    return (REFUSE if kind in _CANNOT else REWORK), Work(kind=kind, by=by)


def _possible_deg(bendable: Bendable | None) -> tuple[float, float] | None:
    if bendable is None or bendable.low_deg is None or bendable.high_deg is None:
        return None
    return bendable.low_deg, bendable.high_deg


def _mind(
    ordered_deg: float, by_deg: float, bendable: Bendable | None
) -> tuple[tuple[str, ...], str]:
    """What stands against a bend, and why. Metal remembers: the way from as supplied counts too."""
    known = bendable or Bendable(field="")
    supplied = known.supplied_deg
    whole = max(abs(by_deg), 0.0 if supplied is None else abs(ordered_deg - supplied))
    if known.metal.known:
        far, why = _of_the_metal(known.metal, whole)
    else:
        far, why = _usual(whole), ""
    possible = _possible_deg(bendable)
    mind = [far] if far else []
    if NEVER in mind:
        return tuple(mind), why
    if possible is None:
        mind += [] if known.metal.known else [UNKNOWN]
    elif not possible[0] - _HAIR_DEG <= ordered_deg <= possible[1] + _HAIR_DEG:
        mind.append(OUTSIDE)
    return tuple(mind), why


_HAIR_DEG: Final = 0.05


def _usual(bend_deg: float) -> str:
    if bend_deg > BEND_REFUSE_DEG + _HAIR_DEG:
        return TOO_FAR
    return ASK if bend_deg > BEND_ASK_DEG + _HAIR_DEG else ""


def _of_the_metal(metal: Metal, bend_deg: float) -> tuple[str, str]:
    found = metal.judge(bend_deg=max(bend_deg - _HAIR_DEG, 0.0))
    if found.verdict == NOT_DONE:
        return (TOO_FAR if found.most_deg else NEVER), found.why
    return (ASK, found.why) if found.verdict == ASK_FIRST else ("", "")
