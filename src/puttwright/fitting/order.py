"""The order: what the workshop is asked to make, one record for paper, pages and bench."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass, field
from typing import Final

from puttwright.club.alloys import Verdict
from puttwright.club.check_in import Bendable, Ordered
from puttwright.club.metal import UNKNOWN_METAL, Metal, bend_limits, metal_of, neck_bend_deg
from puttwright.club.targets import TARGETS
from puttwright.club.uncertainty import Quantity
from puttwright.evidence import Build, Fitting, Part
from puttwright.fitting.phrases import measure
from puttwright.fitting.putter_figures import PutterFigures, putter_figures
from puttwright.fitting.quote import Quote

_UNBENT_DEG: Final = 0.05


@dataclass(frozen=True, slots=True, kw_only=True)
class Bend:
    """Loft or lie as supplied against as wanted, and what the head allows."""

    name: str
    field: str
    supplied_deg: float
    wanted_deg: float
    low_deg: float | None
    high_deg: float | None

    @property
    def by_deg(self) -> float:
        """How far to bend; positive adds loft or makes the lie more upright."""
        return self.wanted_deg - self.supplied_deg

    @property
    def outside(self) -> bool:
        """Whether the wanted angle lies outside what the head may be bent to."""
        low = self.low_deg if self.low_deg is not None else self.wanted_deg
        high = self.high_deg if self.high_deg is not None else self.wanted_deg
        return not low - 0.05 <= self.wanted_deg <= high + 0.05

    @property
    def words(self) -> str:
        """The work: "bend 1.0° weaker, from 3.5°"."""
        if abs(self.by_deg) < _UNBENT_DEG:
            return "as supplied"
        more, less = ("weaker", "stronger") if self.name == "loft" else ("upright", "flat")
        way = more if self.by_deg > 0 else less
        by = measure(abs(self.by_deg), "°", digits=1)
        return f"bend {by} {way}, from {measure(self.supplied_deg, '°', digits=1)}"


def parts_of(build: Build, *, rack: Sequence[Part]) -> dict[str, Part | None]:
    """The parts a build names, by kind; ``None`` where the rack does not hold it."""
    on_rack = {part.part_id: part for part in rack}
    named = {"head": build.head_id, "neck": build.neck_id, "grip": build.grip_id}
    return {kind: on_rack.get(part_id) for kind, part_id in named.items() if part_id}


def bends_of(build: Build, *, head: Part | None) -> tuple[Bend, ...]:
    """What has to be bent, as far as the rack tells how the head is supplied."""
    if head is None:
        return ()
    return tuple(
        _bend(head, name, supplied_deg=supplied, wanted_deg=getattr(build, f"{name}_deg"))
        for name in ("loft", "lie")
        if (supplied := getattr(head, f"{name}_deg")) is not None
    )


def _bend(head: Part, name: str, *, supplied_deg: float, wanted_deg: float) -> Bend:
    limits = bend_limits(head, name)
    low, high = limits or (getattr(head, f"{name}_min_deg"), getattr(head, f"{name}_max_deg"))
    return Bend(
        name=name, field=f"{name}_deg", supplied_deg=supplied_deg, wanted_deg=wanted_deg,
        low_deg=low, high_deg=high,
    )  # fmt: skip


@dataclass(frozen=True, slots=True, kw_only=True)
class OrderPart:
    """One part to take; ``part_id`` is empty where the shop chooses."""

    kind: str
    part_id: str = ""
    label: str = ""
    note: str = ""
    price: float | None = None


@dataclass(frozen=True, slots=True, kw_only=True)
class Promise:
    """What the fitting found of one quantity with this build: its mean and how sure that is."""

    mean: float
    sd: float


@dataclass(frozen=True, slots=True, kw_only=True)
class Order:
    """One putter to make, whole enough to be read without its fitting.

    ``guess`` says that nobody had this build in hand; ``promised`` holds the
    fitting's own figures of it, by the names of ``decision.json``, to check
    again by after weeks; ``weights`` that weights may be fitted; ``lean`` how far
    this golfer leans the handle toward the target [deg], where it was read.
    """

    order_id: str
    fitting_id: str
    date: str
    alias: str
    handed: str
    letter: str
    build: Build
    because: str
    guess: bool = False
    ordered: tuple[Ordered, ...] = ()
    parts: tuple[OrderPart, ...] = ()
    bends: tuple[Bend, ...] = ()
    weights: bool = True
    metal: Metal = UNKNOWN_METAL
    lean: Promise | None = None
    promised: Mapping[str, Promise] = field(default_factory=dict, hash=False)
    quote: Quote | None = None
    version: str = ""
    seed: int = 0
    inputs_sha256: str = ""

    @property
    def changed(self) -> frozenset[str]:
        """The figures that need work at the bench: what is bent, and the length that is cut."""
        bent = (bend.field for bend in self.bends if abs(bend.by_deg) >= _UNBENT_DEG)
        return frozenset(bent) | {"length_mm"}

    @property
    def bendable(self) -> tuple[Bendable, ...]:
        """What is known of bending this head."""
        return tuple(
            Bendable(
                field=bend.field,
                supplied_deg=bend.supplied_deg,
                low_deg=bend.low_deg,
                high_deg=bend.high_deg,
                metal=self.metal,
            )
            for bend in self.bends
        )

    @property
    def bend_verdict(self) -> Verdict:
        """Whether this head may be bent so far, loft and lie together."""
        by_name = {bend.name: bend for bend in self.bends}
        loft, lie = by_name.get("loft"), by_name.get("lie")
        return self.metal.judge(
            bend_deg=neck_bend_deg(
                loft_deg=loft.supplied_deg if loft else self.build.loft_deg,
                lie_deg=lie.supplied_deg if lie else self.build.lie_deg,
                add_loft_deg=loft.by_deg if loft else 0.0,
                add_lie_deg=lie.by_deg if lie else 0.0,
            )
        )

    @property
    def figures(self) -> PutterFigures:
        """What it comes out at, at the golfer's lean."""
        lean = None if self.lean is None else Quantity(value=self.lean.mean, sd=self.lean.sd)
        return putter_figures(self.build, lean=lean)


def metal_for(parts: Mapping[str, Part | None], /) -> Metal:
    """The metal of an order's head, as the rack has it."""
    return metal_of(parts.get("head"))


def ordered_of(build: Build) -> tuple[Ordered, ...]:
    """The figures a build is made to, with the workshop's usual tolerances."""
    return tuple(
        Ordered(field=target.field, ordered=value, tolerance=target.tolerance)
        for target in TARGETS
        if (value := getattr(build, target.field)) is not None
    )


def weights_may_be_used(fitting: Fitting) -> bool:
    """Whether this order may mean working with weights: the rack has some, or nobody says."""
    return not fitting.rack or any(part.kind == "weight" for part in fitting.rack)
