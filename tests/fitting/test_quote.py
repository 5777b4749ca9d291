from __future__ import annotations

import pytest
from hypothesis import given
from hypothesis import strategies as st

from puttwright.errors import OutOfRange
from puttwright.fitting.quote import QuoteLine, quote


def lines(*prices):
    return [QuoteLine(what=str(n), price=price) for n, price in enumerate(prices)]


@pytest.mark.parametrize(
    ("prices", "tax_pct", "included", "net", "tax", "total"),
    [
        ((100.0,), 20, False, 100, 20, 120),
        ((119.0,), 19, True, 100, 19, 119),
        ((0.1, 0.2), 0, False, 0.3, 0, 0.3),
        ((0.125,), 100, False, 0.13, 0.12, 0.25),
    ],
)
def test_tax_is_added_to_or_taken_out_of_the_prices(prices, tax_pct, included, net, tax, total):
    told = quote(lines(*prices), tax_pct=tax_pct, tax_included=included)
    assert (told.net, told.tax, told.total) == (net, tax, total)


@given(
    prices=st.lists(st.decimals(0, 5000, places=2), min_size=1, max_size=8),
    tax_pct=st.decimals(0, 100, places=1),
    included=st.booleans(),
)
def test_net_and_tax_make_the_total_to_the_cent(prices, tax_pct, included):
    told = quote(lines(*map(float, prices)), tax_pct=float(tax_pct), tax_included=included)
    assert round(told.net + told.tax, 2) == told.total
    if included:
        assert told.total == round(float(sum(prices)), 2)


def test_nothing_to_pay_is_no_quote():
    assert quote([], tax_pct=20) is None


@pytest.mark.parametrize(
    ("price", "tax_pct"), [(-1.0, 20), (float("nan"), 20), (1.0, -1), (1.0, 101)]
)
def test_what_no_shop_asks_is_told(price, tax_pct):
    with pytest.raises(OutOfRange):
        quote(lines(price), tax_pct=tax_pct)
