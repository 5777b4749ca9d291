"""The workshop's pages of a fitting: what could be ordered, and one order with its bench."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from typing import Any

from puttwright.club.rules import BEYOND, DECIDES, LOOK, WITHIN, anchoring, rulings_of
from puttwright.deeds.keep_order import OpenOrder
from puttwright.deeds.open_fitting import OpenFitting
from puttwright.deeds.say_check_in import GUARD
from puttwright.deeds.say_rack import distance_words, price_words, spec_words
from puttwright.deeds.search_rack import parts_said
from puttwright.evidence import Build, Fitting
from puttwright.fitting.order import Order
from puttwright.fitting.rack import Found
from puttwright.paper.order_context import OrderContext, RulesSaid, order_context, rules_said
from puttwright.pictures.grounds import PAGE
from puttwright.pictures.of_fitting import chosen_build, marks
from puttwright.pictures.putter import putter_drawing, putter_table
from puttwright.store.orders import CHECKED_IN, KeptCheck, KeptOrder
from puttwright.web.contexts.heading import Heading, heading, quoted
from puttwright.web.contexts.order_rests_on import as_it_stands
from puttwright.web.contexts.putter_page import builds_to_look_at, putter_address
from puttwright.web.dates import day_words
from puttwright.web.drawings.drawing import Drawing, drawing
from puttwright.web.forms.asking import Field, fields
from puttwright.web.forms.part_forms import again_questions, bench_questions
from puttwright.web.measures import measure
from puttwright.web.texts import catalogue


@dataclass(frozen=True, slots=True, kw_only=True)
class RuleLine:
    """One clause of the equipment rules for a build."""

    clause: str
    measured: str
    limit: str
    verdict: str
    note: str


@dataclass(frozen=True, slots=True, kw_only=True)
class BuildRules:
    """A build that could be ordered, and what the rules say of it."""

    build_id: str
    letter: str
    role: str
    name: str
    address: str
    counts: str
    lines: tuple[RuleLine, ...]
    anchoring: str


@dataclass(frozen=True, slots=True, kw_only=True)
class OrderLine:
    """An order in the list."""

    address: str
    name: str
    when: str
    state: str


@dataclass(frozen=True, slots=True, kw_only=True)
class RackLine:
    """A combination of the rack's parts."""

    parts: str
    near: str
    price: str
    spec: str


@dataclass(frozen=True, slots=True, kw_only=True)
class FromRack:
    """What the rack makes nearest to a build, or why it makes nothing."""

    words: str
    lines: tuple[RackLine, ...] = ()


@dataclass(frozen=True, slots=True, kw_only=True)
class WorkshopPage:
    """What could be ordered from this fitting, and what was."""

    heading: Heading
    builds: tuple[BuildRules, ...]
    chosen: str
    decides: str
    orders: tuple[OrderLine, ...]
    entry_key: str
    was: tuple[tuple[str, str], ...]
    typed: Mapping[str, str]
    from_rack: FromRack | None = None
    message: str = ""
    stale: tuple[str, ...] = ()


@dataclass(frozen=True, slots=True, kw_only=True)
class CheckLine:
    """One figure of a check: what was measured, and what follows."""

    name: str
    measured: str
    says: str
    verdict: str


@dataclass(frozen=True, slots=True, kw_only=True)
class CheckSaid:
    """One check at the bench."""

    when: str
    headline: str
    verdict: str
    lines: tuple[CheckLine, ...]
    words: tuple[str, ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class OrderPage:
    """One order: the drawing, what to build to, the bench."""

    heading: Heading
    address: str
    order: OrderContext
    rules: RulesSaid
    drawing: Drawing
    fields: tuple[Field, ...]
    again: tuple[Field, ...]
    checks: tuple[CheckSaid, ...]
    state: str
    passed: bool
    priced: bool
    wrong: bool
    guard: str
    entry_key: str
    again_key: str


def workshop_page(
    opened: OpenFitting, orders: Sequence[tuple[KeptOrder, str]], *, entry_key: str,
    from_rack: FromRack | None, message: str = "", stale: tuple[str, ...] = (),
    typed: Mapping[str, str] | None = None,
) -> WorkshopPage:  # fmt: skip
    """The page over a fitting and its orders, each with its last verdict.

    Parameters
    ----------
    opened, orders
        The fitting, and its orders with how far each is.
    entry_key
        For the next order.
    from_rack
        What the rack makes.
    message, stale
        Why no order was made, and what changed since the page was opened.
    typed
        What was typed, when no order was made of it.
    """
    fitting = opened.fitting
    chosen = chosen_build(fitting, opened.decision) if opened.decision else None
    wanted = (typed or {}).get("build") or (chosen.build_id if chosen else "")
    return WorkshopPage(
        heading=heading(fitting, here="order"),
        builds=tuple(_build_rules(build, opened) for build in builds_to_look_at(opened)),
        chosen=wanted,
        decides=DECIDES,
        orders=tuple(_order_line(kept, state) for kept, state in orders),
        entry_key=entry_key,
        was=tuple(as_it_stands(opened).items()),
        typed=typed or {},
        from_rack=from_rack,
        message=message,
        stale=stale,
    )


def from_rack(found: Found, wanted: Build) -> FromRack:
    """The nearest combinations in words."""
    return FromRack(
        words=catalogue()("workshop.nearest", count=f"{found.combinations:,}", name=wanted.name),
        lines=tuple(
            RackLine(
                parts=parts_said(made.parts),
                near=distance_words(made),
                price=price_words(made),
                spec=spec_words(made),
            )
            for made in found.made
        ),
    )


def _build_rules(build: Build, opened: OpenFitting) -> BuildRules:
    text = catalogue()
    mark = marks(opened.fitting, opened.decision)[build.build_id]
    found = rulings_of(build)
    counts = {verdict: sum(each.verdict == verdict for each in found) for verdict in _VERDICTS}
    return BuildRules(
        build_id=build.build_id,
        letter=mark.letter,
        role=mark.role,
        name=build.name,
        address=putter_address(opened.fitting.fitting_id, build.build_id),
        counts=text("workshop.rules_counts", **counts),
        lines=tuple(
            RuleLine(
                clause=each.clause,
                measured="" if each.measured is None else _figure(each.measured, each.unit),
                limit=each.limit if each.status == "seen" else f"{each.limit} ({each.status})",
                verdict=text(f"workshop.{each.verdict}"),
                note=each.note,
            )
            for each in found
        ),
        anchoring=anchoring(length_mm=build.length_mm) or "",
    )


_VERDICTS = (WITHIN, BEYOND, LOOK)


def _figure(value: float, unit: str) -> str:
    return measure(value, "°" if unit == "deg" else unit, digits=1 if unit == "deg" else 0)


def _order_line(kept: KeptOrder, state: str) -> OrderLine:
    build = kept.document["build"]
    return OrderLine(
        address=order_address(kept.order_id),
        name=str(build.get("label") or build["build_id"]),
        when=day_words(kept.when.date()),
        state=state,
    )


def order_address(order_id: str) -> str:
    """The address of an order's page."""
    return f"/orders/{quoted(order_id)}"


def state_words(checks: Sequence[KeptCheck]) -> str:
    """How far an order is, in a few words."""
    text = catalogue()
    checked_in = [each for each in checks if each.kind == CHECKED_IN]
    if not checked_in:
        return text("workshop.open")
    return text(f"workshop.state_{checked_in[-1].verdict}")


def order_page(
    opened: OpenOrder,
    fitting: Fitting,
    *,
    entry_keys: tuple[str, str],
    typed: Mapping[str, str] | None = None,
    messages: Mapping[str, str] | None = None,
) -> OrderPage:
    """The page of an order at this moment."""
    order = opened.order
    told = messages or {}
    checked_in = [each for each in opened.checks if each.kind == CHECKED_IN]
    return OrderPage(
        heading=heading(fitting, here="order"),
        address=order_address(opened.kept.order_id),
        order=order_context(order),
        rules=rules_said(order),
        drawing=_drawing(order),
        fields=fields(bench_questions(order.ordered), typed=typed, told=told),
        again=fields(again_questions(), typed=typed, told=told),
        checks=tuple(_check(each) for each in reversed(opened.checks)),
        state=_last_check(checked_in),
        passed=bool(checked_in) and checked_in[-1].verdict == "pass",
        priced=order.quote is not None,
        wrong=bool(told),
        guard=GUARD,
        entry_key=entry_keys[0],
        again_key=entry_keys[1],
    )


def _last_check(checks: Sequence[KeptCheck]) -> str:
    """How the putter was found when it was last checked in; empty before."""
    if not checks:
        return ""
    when = day_words(checks[-1].when.date())
    return catalogue()("check.state", when=when, state=state_words(checks))


def _drawing(order: Order) -> Drawing:
    return drawing(
        lambda width, prefix: putter_drawing(
            order.build, handed=order.handed, ground=PAGE, prefix=prefix, width=width,
            changed=order.changed,
        ),
        prefix="order",
        table=putter_table(order.build, handed=order.handed),
    )  # fmt: skip


def _check(kept: KeptCheck) -> CheckSaid:
    when = f"{day_words(kept.when.date())}, {kept.when:%H:%M}"
    result: Any = kept.result
    if kept.kind != CHECKED_IN:
        return CheckSaid(
            when=when, headline=str(result["says"]), verdict="", lines=(),
            words=tuple(result.get("lines", ())),
        )  # fmt: skip
    return CheckSaid(
        when=when,
        headline=str(result["says"]),
        verdict=kept.verdict,
        lines=tuple(
            CheckLine(
                name=each["name"], measured=each["measured_words"], says=each["says"],
                verdict=each["verdict"],
            )
            for each in result["figures"]
        ),
        words=(),
    )  # fmt: skip
