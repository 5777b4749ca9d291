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
ASK, UNKNOWN, TOO_FAR, OUTSIDE = "ask", "unknown", "too far", "outside"


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
    """An angle as the head came, and how far it may be bent; ``None`` where nobody knows."""

    field: str
    supplied_deg: float | None = None
    low_deg: float | None = None
    high_deg: float | None = None


@dataclass(frozen=True, slots=True, kw_only=True)
class Work:
    """What would put a figure right: ``by`` is the change wanted, in the figure's unit."""

    kind: str
    by: float
    mind: tuple[str, ...] = ()


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
        mind = _mind(asked.ordered, by, bendable)
        refused = {TOO_FAR, OUTSIDE} & set(mind)
        return (REFUSE if refused else REWORK), Work(kind=BEND, by=by, mind=mind)
    length = CUT if by < 0 else RESHAFT
    kind = _WORK.get(asked.field, length)
    return (REFUSE if kind in _CANNOT else REWORK), Work(kind=kind, by=by)


def _mind(ordered_deg: float, by_deg: float, bendable: Bendable | None) -> tuple[str, ...]:
    """What stands against a bend. Metal remembers: the way from as supplied counts too."""
    supplied = bendable.supplied_deg if bendable else None
    whole = max(abs(by_deg), 0.0 if supplied is None else abs(ordered_deg - supplied))
    mind = []
    if whole > BEND_REFUSE_DEG + 0.05:
        mind.append(TOO_FAR)
    elif whole > BEND_ASK_DEG + 0.05:
        mind.append(ASK)
    if bendable is None or bendable.low_deg is None or bendable.high_deg is None:
        mind.append(UNKNOWN)
    elif not bendable.low_deg - 0.05 <= ordered_deg <= bendable.high_deg + 0.05:
        mind.append(OUTSIDE)
    return tuple(mind)
