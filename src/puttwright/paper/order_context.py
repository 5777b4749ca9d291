"""What the build order says, as plain data."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Final

from puttwright.errors import NotAllowed, NotFound
from puttwright.evidence import Build, Fitting, Part
from puttwright.fitting.decision import KEEP, UNDECIDED, Decision
from puttwright.fitting.phrases import figure, measure, more_putts_phrase
from puttwright.paper.figures import day_words, shortened
from puttwright.paper.typesetting import day_of
from puttwright.paper.workshop import (
    TARGETS,
    Bend,
    Target,
    bend_warnings,
    bends_of,
    cautions_of,
    parts_of,
)
from puttwright.pictures.of_fitting import chosen_build, marks

_GUESS: Final = "Never in the golfer's hand: extrapolated from the builds tried."
_HEAD_SHAPES: Final = {"blade": "blade", "half_mallet": "half mallet", "mallet": "mallet"}


@dataclass(frozen=True, slots=True, kw_only=True)
class TargetRow:
    """One figure to build to; the workshop writes the measured one beside it."""

    name: str
    target: str
    tolerance: str
    work: str


@dataclass(frozen=True, slots=True, kw_only=True)
class PartRow:
    """One part to take."""

    kind: str
    part_id: str
    label: str
    note: str


@dataclass(frozen=True, slots=True, kw_only=True)
class OrderContext:
    """The order, figure by figure."""

    alias: str
    handed: str
    day: str
    fitting_id: str
    letter: str
    name: str
    build_id: str
    because: str
    guess: str
    targets: tuple[TargetRow, ...]
    parts: tuple[PartRow, ...]
    warnings: tuple[str, ...]
    cautions: tuple[tuple[str, str], ...]
    model: str


def ordered_build(fitting: Fitting, decision: Decision, *, build_id: str | None) -> Build:
    """The build to make: the one asked for, else the one decided.

    Raises
    ------
    NotFound
        There is no build of the id asked for.
    NotAllowed
        The decision asks for no build and none was named.
    """
    if build_id is None or build_id == decision.choice:
        chosen = chosen_build(fitting, decision)
        if chosen is None:
            raise _nothing_to_build(decision)
        return chosen
    known = {build.build_id: build for build in fitting.builds}
    if build_id not in known:
        raise NotFound(what="build", name=build_id, known=f"; there are {', '.join(known)}")
    return known[build_id]


class NothingToBuild(NotAllowed):
    """{what} Name a build to order one all the same (--build ID)."""

    code = "nothing-to-build"
    hint = "--build ID orders a build whatever the decision says."


def _nothing_to_build(decision: Decision) -> NothingToBuild:
    if decision.choice == KEEP:
        return NothingToBuild(
            what="The golfer keeps their own putter, so there is nothing to build."
        )
    settled = more_putts_phrase(decision.more_putts)
    return NothingToBuild(what=f"There is no decision to build by yet. {settled}")


def order_context(fitting: Fitting, decision: Decision, *, build: Build) -> OrderContext:
    """Everything the order says of a build."""
    parts = parts_of(build, rack=fitting.rack)
    bends = bends_of(build, head=parts.get("head"))
    mark = marks(fitting, decision).get(build.build_id)
    return OrderContext(
        alias=fitting.golfer.alias,
        handed=fitting.golfer.handed,
        day=day_words(day_of(fitting.date)),
        fitting_id=fitting.fitting_id,
        letter=mark.letter if mark else "–",
        name=shortened(build.name, most=36),
        build_id=build.build_id,
        because=_because(decision, build=build),
        guess=_GUESS if _guess(decision, build) else "",
        targets=tuple(
            _target_row(target, build=build, bends=bends)
            for target in TARGETS
            if getattr(build, target.field) is not None
        ),
        parts=_part_rows(build, parts=parts),
        warnings=bend_warnings(bends),
        cautions=cautions_of(fitting, bends=bends),
        model=f"model {decision.model.version}, seed {decision.model.seed}, "
        f"readings {decision.inputs_sha256[:12]}",
    )  # fmt: skip


def _guess(decision: Decision, build: Build) -> bool:
    return decision.extrapolated and build.build_id == decision.choice


def _because(decision: Decision, *, build: Build) -> str:
    if build.build_id == decision.choice:
        return "the fitting's choice"
    said = {KEEP: "to keep the own putter", UNDECIDED: "that it is too close to call"}
    other = said.get(decision.choice, f"for {decision.choice}")
    return f"ordered by the fitter; the fitting says {other}"


def changed_fields(build: Build, *, fitting: Fitting) -> frozenset[str]:
    """The figures that need work at the bench: what is bent, and the length that is cut."""
    bends = bends_of(build, head=parts_of(build, rack=fitting.rack).get("head"))
    return frozenset(bend.field for bend in bends if abs(bend.by_deg) >= 0.05) | {"length_mm"}


def _target_row(target: Target, *, build: Build, bends: tuple[Bend, ...]) -> TargetRow:
    value: float = getattr(build, target.field)
    work = next((bend.words for bend in bends if bend.field == target.field), "")
    return TargetRow(
        name=target.name,
        target=measure(value, target.unit, digits=target.digits),
        tolerance=f"± {figure(target.tolerance, digits=0 if target.tolerance >= 1 else 1)}",
        work="cut" if target.field == "length_mm" else work,
    )


def _part_rows(build: Build, *, parts: dict[str, Part | None]) -> tuple[PartRow, ...]:
    ids = {"head": build.head_id, "neck": build.neck_id, "grip": build.grip_id}
    plain = {
        "head": _said(_HEAD_SHAPES.get(build.head_shape or ""), _sight(build)),
        "neck": _said(build.neck_style),
        "shaft": _said(build.shaft_mass_g and measure(build.shaft_mass_g, "g")),
        "grip": _said(build.grip_mass_g and measure(build.grip_mass_g, "g")),
    }
    return tuple(
        PartRow(
            kind=kind,
            part_id=ids.get(kind) or "",
            label=_label(parts.get(kind)) or words or "shop's choice",
            note=_note(parts.get(kind), named=bool(ids.get(kind))),
        )
        for kind, words in plain.items()
    )


def _said(*words: object) -> str:
    return ", ".join(str(word) for word in words if word)


def _sight(build: Build) -> str:
    marks_said = {
        "none": "no sight line",
        "dot": "dot",
        "line": "one line",
        "multi": "several lines",
    }
    return marks_said.get(build.sight_line or "", "")


def _label(part: Part | None) -> str:
    return (part.label or "") if part else ""


def _note(part: Part | None, *, named: bool) -> str:
    if part is None:
        return "not on the rack list" if named else ""
    if part.stock is None:
        return ""
    return f"{part.stock} in stock" if part.stock else "none in stock: order in"
