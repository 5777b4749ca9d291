from __future__ import annotations

import dataclasses

import pytest

from puttwright.deeds.make_order import Prices
from puttwright.fitting.quote import QuoteLine
from puttwright.paper.quote import NothingToQuote, render_quote


def test_the_quote_adds_up_with_the_shops_tax(samples, make, read):
    prices = Prices(lines=(QuoteLine(what="work", price=40),), tax_pct=19, currency="EUR")
    text = read(render_quote(make(samples.FITTING, samples.DECISION, prices=prices))).text
    for words in ("putter 310.00 EUR", "work 40.00 EUR", "before tax 350.00 EUR",
                  "tax, 19 % 66.50 EUR", "to pay 416.50 EUR"):  # fmt: skip
        assert words in text


def test_a_putter_without_a_price_of_its_own_costs_its_parts(samples, make, read):
    builds = tuple(dataclasses.replace(each, price=None) for each in samples.FITTING.builds)
    fitting = dataclasses.replace(samples.FITTING, builds=builds)
    text = read(render_quote(make(fitting, samples.DECISION))).text
    for words in ("Mallet, three lines 190.00", "Slant, short 35.00", "to pay 253.00"):
        assert words in text


@pytest.mark.parametrize("sheet", ["a4", "us-letter"])
def test_a_long_quote_stays_on_its_page(samples, make, read, sheet):
    lines = tuple(QuoteLine(what="work " * 30, price=1) for _ in range(200))
    order = make(samples.FITTING, samples.DECISION, prices=Prices(lines=lines, tax_included=True))
    sheets = read(render_quote(order, sheet=sheet))
    assert len(sheets.pages) == 1
    assert "181 more" in sheets.text


def test_an_order_without_prices_has_no_quote(samples, make):
    order = dataclasses.replace(make(samples.FITTING, samples.DECISION), quote=None)
    with pytest.raises(NothingToQuote, match="--price work=40"):
        render_quote(order)
