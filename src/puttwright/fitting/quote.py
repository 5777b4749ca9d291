"""What a putter costs: the shop's prices, its own tax, rounded as money is."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from decimal import ROUND_HALF_UP, Decimal
from typing import Final

from puttwright.errors import OutOfRange

CENT: Final = Decimal("0.01")
MOST_TAX_PCT: Final = 100.0
DEAREST: Final = 1e7


@dataclass(frozen=True, slots=True, kw_only=True)
class QuoteLine:
    """One thing to pay for."""

    what: str
    price: float


@dataclass(frozen=True, slots=True, kw_only=True)
class Quote:
    """A quote: ``net`` and ``tax`` make ``total``, each rounded once to the cent."""

    lines: tuple[QuoteLine, ...]
    currency: str
    tax_pct: float
    tax_included: bool
    net: float
    tax: float
    total: float


def quote(
    lines: Sequence[QuoteLine], *, tax_pct: float, currency: str = "", tax_included: bool = False
) -> Quote | None:
    """Add up a quote; nothing to pay for is no quote.

    Parameters
    ----------
    lines
        Prices as the shop says them.
    tax_pct
        The shop's rate, 0 to 100.
    currency
        Written beside the sums.
    tax_included
        Whether the prices hold the tax already.

    Raises
    ------
    OutOfRange
        A negative price or an impossible rate.

    Examples
    --------
    >>> told = quote([QuoteLine(what="work", price=10.0)], tax_pct=19)
    >>> told.net, told.tax, told.total
    (10.0, 1.9, 11.9)
    """
    if not 0.0 <= tax_pct <= MOST_TAX_PCT:
        raise OutOfRange(name="the tax", value=tax_pct, low=0, high=MOST_TAX_PCT, unit="%")
    for line in lines:
        if not 0.0 <= line.price <= DEAREST:
            name = f"the price of {line.what}"
            raise OutOfRange(name=name, value=line.price, low=0, high=DEAREST)
    if not lines:
        return None
    said = sum((Decimal(str(line.price)) for line in lines), Decimal(0))
    rate = Decimal(str(tax_pct)) / 100
    total = _cents(said if tax_included else said * (1 + rate))
    net = _cents(said / (1 + rate)) if tax_included else _cents(said)
    return Quote(
        lines=tuple(lines), currency=currency, tax_pct=tax_pct, tax_included=tax_included,
        net=float(net), tax=float(total - net), total=float(total),
    )  # fmt: skip


def _cents(amount: Decimal) -> Decimal:
    return amount.quantize(CENT, rounding=ROUND_HALF_UP)
