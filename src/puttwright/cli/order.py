"""``puttwright order``: the build order for the workshop as a PDF."""

from __future__ import annotations

from pathlib import Path

import click

from puttwright.cli import options


def _price(text: str) -> tuple[str, float]:
    what, mark, amount = text.rpartition("=")
    if not mark or not what.strip():
        raise click.BadParameter(f"{text!r} is no price; write it as work=40")
    return what.strip(), options.read_number(amount)


@click.command("order", short_help="Print the build order.")
@options.package
@click.option("--build", metavar="ID", help="Order this build, whatever the decision says.")
@options.seed
@options.out_file("Where the order goes; its copy as JSON lies beside it.")
@click.option(
    "--quote", type=options.PATH, metavar="FILE.pdf", help="Print the quote for the client too."
)
@click.option(
    "--price",
    "prices",
    type=_price,
    multiple=True,
    metavar="WHAT=AMOUNT",
    help="One more thing to pay for, such as work=40; may be given again.",
)
@options.number("--tax-pct", "The tax on the quote", between=(0, 100), unit="%", default=0.0)
@click.option("--tax-included", is_flag=True, help="The prices hold the tax already.")
@click.option("--currency", default="", metavar="TEXT", help="Written beside the sums.")
@click.option(
    "--page", default="", metavar="ADDRESS", help="The order's page, for the QR code on the sheet."
)
def command(
    package: Path,
    build: str | None,
    seed: int,
    out: Path,
    quote: Path | None,
    prices: tuple[tuple[str, float], ...],
    tax_pct: float,
    tax_included: bool,
    currency: str,
    page: str,
) -> None:
    """Print the build order: a drawing with dimensions, parts, tolerances, rules and cautions.

    Without --build it orders what the decision says. Beside the sheet lies its
    machine-readable copy, which check-in reads. The same package and seed give
    the same files, byte for byte.
    """
    from puttwright.deeds.make_order import Prices
    from puttwright.deeds.write_order import write_order
    from puttwright.fitting.quote import QuoteLine

    lines = tuple(QuoteLine(what=what, price=price) for what, price in prices)
    asked = Prices(lines=lines, tax_pct=tax_pct, tax_included=tax_included, currency=currency)
    write_order(
        package, out=out, seed=seed, build_id=build, prices=asked, page=page, quote_to=quote
    )
    click.echo(f"The build order is in {out}, its copy as JSON in {out.with_suffix('.json')}")
    if quote:
        click.echo(f"The quote is in {quote}")
