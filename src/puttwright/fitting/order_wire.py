"""An order as JSON: the machine-readable copy of the sheet, and the way back.

The shape is ours, described in ``docs/reference/order.md``. Keys stand in a fixed
order; a reader ignores keys it does not know.
"""

from __future__ import annotations

import dataclasses
from collections.abc import Callable, Mapping, Sequence
from typing import Any, Final

from puttwright.club.check_in import Ordered
from puttwright.club.metal import UNKNOWN_METAL, Metal
from puttwright.club.rules import anchoring, calc_rules, measured_of
from puttwright.club.targets import BY_FIELD
from puttwright.errors import UserError
from puttwright.evidence import LEFT, RIGHT, Build, columns_of
from puttwright.evidence.ranges import outside, unfit
from puttwright.fitting.order import Bend, Order, OrderPart, Promise
from puttwright.fitting.putter_figures import figures_json
from puttwright.fitting.quote import Quote, QuoteLine
from puttwright.fitting.wire import rounded

SCHEMA: Final = "puttwright-order/1"
MOST_BENT_DEG: Final = 20.0
_TEXTS: Final = ("order_id", "fitting_id", "date", "alias", "letter", "because")


class NotAnOrder(UserError):
    """{place} of the order {trouble}."""

    code = "not-an-order"


def order_json(order: Order) -> dict[str, Any]:
    """The order as plain data, keys in their order; what is not known is left out."""
    build = order.build
    return {
        "schema": SCHEMA,
        **{name: getattr(order, name) for name in _TEXTS},
        "handed": order.handed,
        "guess": order.guess,
        "build": _filled(build, without=("extra",)),
        "ordered": [
            {"column": each.field, "ordered": each.ordered, "tolerance": each.tolerance}
            for each in order.ordered
        ],
        "bends": [_filled(each) for each in order.bends],
        "parts": [_filled(each) for each in order.parts],
        "weights": order.weights,
        "metal": {**dataclasses.asdict(order.metal), **_judged(order)},
        "lean": None if order.lean is None else _promise_json(order.lean),
        "figures": figures_json(order.figures),
        "promised": {name: _promise_json(each) for name, each in order.promised.items()},
        "quote": None if order.quote is None else dataclasses.asdict(order.quote),
        "rules": calc_rules(measured_of(build), error=_as_made(order))["clauses"],
        "anchoring": anchoring(length_mm=build.length_mm),
        "model": {
            "version": order.version,
            "seed": order.seed,
            "inputs_sha256": order.inputs_sha256,
        },
    }


def _promise_json(promise: Promise) -> dict[str, float | None]:
    return {"mean": rounded(promise.mean), "sd": rounded(promise.sd)}


def _judged(order: Order) -> dict[str, str]:
    verdict = order.bend_verdict
    return {"verdict": verdict.verdict, "why": verdict.why}


def _as_made(order: Order) -> dict[str, float]:
    """The putter is not made yet: it may come out anywhere in its tolerance."""
    made = {each.field: each.tolerance for each in order.ordered}
    widest = made.get("grip_diameter_mm")
    return made if widest is None else made | {"grip_width_mm": widest}


def _filled(record: Any, *, without: Sequence[str] = ()) -> dict[str, Any]:
    found = dataclasses.asdict(record)
    return {n: v for n, v in found.items() if n not in without and v is not None}


def order_from(document: Any) -> Order:
    """The order a document holds.

    Parameters
    ----------
    document
        Parsed JSON of any origin; it is judged, not trusted.

    Raises
    ------
    NotAnOrder
        With where and what, in one sentence.
    """
    read = _Reader(document, place="the whole")
    if read.get("schema") != SCHEMA:
        raise NotAnOrder(place="the schema", trouble=f"is not {SCHEMA!r}")
    handed = read.text("handed")
    if handed not in (RIGHT, LEFT):
        raise NotAnOrder(place="handed", trouble="is neither right nor left")
    model = read.object("model")
    return Order(
        **{name: read.text(name) for name in _TEXTS},
        handed=handed,
        guess=read.get("guess") is True,
        build=_build(read.object("build")),
        ordered=tuple(map(_ordered, read.objects("ordered"))),
        bends=tuple(map(_bend, read.objects("bends"))),
        parts=tuple(map(_part, read.objects("parts"))),
        weights=read.get("weights") is not False,
        metal=UNKNOWN_METAL if read.get("metal") is None else _metal(read.object("metal")),
        lean=None if read.get("lean") is None else _promise(read.object("lean")),
        promised=_promised(read.object("promised")),
        quote=None if read.get("quote") is None else _quote(read.object("quote")),
        version=model.text("version"),
        seed=int(model.number("seed")),
        inputs_sha256=model.text("inputs_sha256"),
    )


class _Reader:
    """One object of the document, asked for what it must hold."""

    def __init__(self, document: Any, *, place: str) -> None:
        if not isinstance(document, Mapping):
            raise NotAnOrder(place=place, trouble="is not a JSON object")
        self.document = document
        self.place = place

    def get(self, name: str) -> Any:
        return self.document.get(name)

    def text(self, name: str) -> str:
        value = self.get(name)
        if not isinstance(value, str):
            raise NotAnOrder(place=f"{name!r}", trouble="is missing or is no text")
        return value

    def number(self, name: str) -> float:
        value = self.number_or_none(name)
        if value is None:
            raise NotAnOrder(place=f"{name!r}", trouble="is missing")
        return value

    def number_or_none(self, name: str) -> float | None:
        value = self.get(name)
        if value is None:
            return None
        good = isinstance(value, int | float) and not isinstance(value, bool)
        if not good or not abs(value) < 1e12:
            raise NotAnOrder(place=f"{name!r}", trouble="is no number")
        return float(value)

    def object(self, name: str) -> _Reader:
        return _Reader(self.get(name), place=f"{name!r}")

    def objects(self, name: str) -> list[_Reader]:
        value = self.get(name)
        if not isinstance(value, Sequence) or isinstance(value, str):
            raise NotAnOrder(place=f"{name!r}", trouble="is missing or is no list")
        return [_Reader(each, place=f"an entry of {name!r}") for each in value]


def _build(read: _Reader) -> Build:
    values: dict[str, Any] = {}
    for column in columns_of(Build):
        value: Any
        ask: Callable[[str], Any] = read.number_or_none
        if column.kind == "text":
            ask = read.get
        value = ask(column.name)
        if value is None:
            if column.required:
                raise NotAnOrder(place=f"'build', {column.name}", trouble="is missing")
            continue
        wrong = unfit(str(value), column) if column.kind == "text" else outside(value, column)
        if wrong:
            raise NotAnOrder(place=f"'build', {column.name}", trouble=f"cannot be: {wrong}")
        values[column.name] = str(value) if column.kind == "text" else value
    return Build(**values)


def _ordered(read: _Reader) -> Ordered:
    column = read.text("column")
    if column not in BY_FIELD:
        raise NotAnOrder(place=read.place, trouble=f"asks for {column!r}, which is no target")
    tolerance = read.number("tolerance")
    if tolerance <= 0:
        raise NotAnOrder(place=read.place, trouble=f"has a tolerance of {tolerance:g}")
    return Ordered(field=column, ordered=read.number("ordered"), tolerance=tolerance)


def _bend(read: _Reader) -> Bend:
    return Bend(
        name=read.text("name"),
        field=read.text("field"),
        supplied_deg=read.number("supplied_deg"),
        wanted_deg=read.number("wanted_deg"),
        low_deg=read.number_or_none("low_deg"),
        high_deg=read.number_or_none("high_deg"),
    )


def _metal(read: _Reader) -> Metal:
    before = read.number_or_none("before_deg") or 0.0
    if not 0.0 <= before <= MOST_BENT_DEG:
        raise NotAnOrder(place="'before_deg'", trouble=f"is {before:g}°, which no neck was bent")
    return Metal(alloy=read.text("alloy"), joint=read.text("joint"), before_deg=before)


def _part(read: _Reader) -> OrderPart:
    texts = {name: str(read.get(name) or "") for name in ("part_id", "label", "note")}
    return OrderPart(kind=read.text("kind"), price=read.number_or_none("price"), **texts)


def _promised(read: _Reader) -> dict[str, Promise]:
    return {name: _promise(read.object(name)) for name in read.document}


def _promise(read: _Reader) -> Promise:
    return Promise(mean=read.number("mean"), sd=read.number("sd"))


def _quote(read: _Reader) -> Quote:
    return Quote(
        lines=tuple(
            QuoteLine(what=line.text("what"), price=line.number("price"))
            for line in read.objects("lines")
        ),
        currency=read.text("currency"),
        tax_included=read.get("tax_included") is True,
        **{name: read.number(name) for name in ("tax_pct", "net", "tax", "total")},
    )
