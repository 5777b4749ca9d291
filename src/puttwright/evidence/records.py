"""What was seen at a fitting, as frozen records.

Field names are the column names of the fitting package and end in their unit.
Directions are seen by the golfer standing behind the ball and looking at the
target: right is positive, for right- and left-handers alike. Toe, high, up,
topspin and handle-forward are positive. ``None`` means not measured.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field

from puttwright.evidence.columns import column

RIGHT, LEFT = "right", "left"
GRIP_STYLES = ("conventional", "cross_handed", "claw", "split", "arm_lock")


@dataclass(frozen=True, slots=True, kw_only=True)
class Golfer:
    """Who is being fitted, as little as the job needs."""

    alias: str = column("what to call the golfer on pages and paper", required=True)
    handed: str = column("side the golfer plays from", choices=(RIGHT, LEFT), required=True)
    stature_mm: float | None = column("standing height in shoes", unit="mm", low=900, high=2400)
    stature_told: bool | None = column(
        "the height is what the golfer says, without shoes, not what a tape says"
    )
    wrist_height_mm: float | None = column(
        "floor to wrist crease, arm hanging", unit="mm", low=400, high=1300
    )
    shoulder_height_mm: float | None = column(
        "floor to top of shoulder", unit="mm", low=700, high=2100
    )
    hip_height_mm: float | None = column("floor to hip joint", unit="mm", low=400, high=1400)
    eye_dominant: str | None = column("the dominant eye", choices=(RIGHT, LEFT))
    handicap: float | None = column("handicap index", low=-10, high=54)
    minor: bool | None = column("under the age of consent")
    extra: Mapping[str, object] = field(default_factory=dict, hash=False)


@dataclass(frozen=True, slots=True, kw_only=True)
class Green:
    """A green this golfer plays, with the share of their rounds on it."""

    name: str = column("name of the green or course", required=True)
    speed_ft: float = column("green speed", unit="ft", low=3, high=16, required=True)
    grass_mm: float | None = column("height of cut", unit="mm", low=1, high=15)
    share: float = column("share of rounds", low=0, high=1, required=True)
    extra: Mapping[str, object] = field(default_factory=dict, hash=False)


@dataclass(frozen=True, slots=True, kw_only=True)
class FittingGreen:
    """The green or mat on which the readings were taken."""

    speed_ft: float = column("green speed", unit="ft", low=3, high=16, required=True)
    slope_pct: float | None = column("steepness of the slope", unit="%", low=0, high=10)
    slope_towards_deg: float | None = column(
        "where downhill points, from the target line, right positive",
        unit="deg",
        low=-360,
        high=360,
    )
    extra: Mapping[str, object] = field(default_factory=dict, hash=False)


@dataclass(frozen=True, slots=True, kw_only=True)
class FirstPutt:
    """How many first putts of about this length the golfer has in a round."""

    distance_m: float = column("length of the putt", unit="m", low=0.1, high=40, required=True)
    per_round: float = column("how many a round", low=0, high=18, required=True)
    extra: Mapping[str, object] = field(default_factory=dict, hash=False)


@dataclass(frozen=True, slots=True, kw_only=True)
class Instrument:
    """How well an instrument repeats itself, from a gauge study."""

    name: str = column("name used in the tables", required=True)
    quantity: str = column("the column it reads", required=True)
    repeatability_sd: float = column(
        "standard deviation of repeated readings, in the column's unit", low=0, required=True
    )
    resolution: float | None = column("smallest step it shows, in the column's unit", low=0)
    bias: float | None = column("reading minus truth, in the column's unit")
    extra: Mapping[str, object] = field(default_factory=dict, hash=False)


@dataclass(frozen=True, slots=True, kw_only=True)
class Build:
    """One concrete putter as handed to the golfer."""

    build_id: str = column("identifier, unique in the fitting", required=True)
    label: str | None = column("name the fitter knows it by")
    head_id: str | None = column("head")
    head_shape: str | None = column("shape of head", choices=("blade", "half_mallet", "mallet"))
    sight_line: str | None = column("aiming mark", choices=("none", "dot", "line", "multi"))
    neck_id: str | None = column("neck")
    neck_style: str | None = column("style of neck")
    offset_mm: float | None = column("shaft axis ahead of face", unit="mm", low=-20, high=60)
    length_mm: float = column(
        "butt to sole along the shaft axis", unit="mm", low=457.2, high=1600, required=True
    )
    lie_deg: float = column("shaft to ground", unit="deg", low=50, high=90, required=True)
    loft_deg: float = column("face to vertical", unit="deg", low=-15, high=15, required=True)
    head_mass_g: float | None = column("mass of head", unit="g", low=200, high=700)
    cg_from_axis_mm: float | None = column(
        "centre of gravity from the shaft axis, toe positive", unit="mm", low=-60, high=100
    )
    cg_depth_mm: float | None = column(
        "centre of gravity behind the face", unit="mm", low=0, high=100
    )
    moi_vertical_axis_g_cm2: float | None = column(
        "inertia of the head about its vertical axis", unit="g cm²", low=1000, high=20000
    )
    toe_hang_deg: float | None = column(
        "0 the face looks at the sky, 90 the toe at the ground", unit="deg", low=-90, high=180
    )
    grip_id: str | None = column("grip")
    grip_diameter_mm: float | None = column("diameter of grip", unit="mm", low=10, high=60)
    grip_mass_g: float | None = column("mass of grip", unit="g", low=20, high=300)
    shaft_mass_g: float | None = column("mass of shaft", unit="g", low=30, high=300)
    total_mass_g: float | None = column("mass of the putter", unit="g", low=300, high=1500)
    balance_from_butt_mm: float | None = column("balance point", unit="mm", low=100, high=1500)
    price: float | None = column("price, in the shop's currency", low=0)
    extra: Mapping[str, str] = field(default_factory=dict, hash=False)

    @property
    def name(self) -> str:
        """What to call it on pages and paper."""
        return self.label or self.build_id


@dataclass(frozen=True, slots=True, kw_only=True)
class SetupReading:
    """One address position, measured."""

    seq: int = column("order in the fitting", low=0, high=1e9, required=True)
    build_id: str = column("putter in hand", required=True)
    eye_inside_mm: float | None = column(
        "eyes from the ball-target line toward the golfer", unit="mm", low=-400, high=600
    )
    eye_behind_mm: float | None = column(
        "eyes behind the ball, away from the target", unit="mm", low=-600, high=600
    )
    hands_height_mm: float | None = column(
        "middle of the hands above ground", unit="mm", low=200, high=1500
    )
    shaft_lean_deg: float | None = column("handle toward the target", unit="deg", low=-25, high=25)
    sole_tilt_deg: float | None = column("toe up", unit="deg", low=-25, high=25)
    grip_style: str | None = column("how the putter is held", choices=GRIP_STYLES)
    ball_forward_mm: float | None = column(
        "ball toward the target from stance centre", unit="mm", low=-500, high=500
    )
    posture_note: str | None = column("what the fitter saw")
    extra: Mapping[str, str] = field(default_factory=dict, hash=False)


@dataclass(frozen=True, slots=True, kw_only=True)
class AimReading:
    """One laser reading on the board."""

    seq: int = column("order in the fitting", low=0, high=1e9, required=True)
    block: int | None = column("block of the running order", low=0, high=1e9)
    build_id: str = column("putter in hand", required=True)
    board_distance_mm: float = column(
        "laser or face to board", unit="mm", low=200, high=20000, required=True
    )
    reading_mm: float = column(
        "dot from the zero line, right positive", unit="mm", low=-3000, high=3000, required=True
    )
    mirror: bool = column("the beam is reflected by the face", default=False)
    instrument: str | None = column("which laser")
    extra: Mapping[str, str] = field(default_factory=dict, hash=False)


@dataclass(frozen=True, slots=True, kw_only=True)
class Putt:
    """One putt, with whatever was measured of it."""

    seq: int = column("order in the fitting", low=0, high=1e9, required=True)
    block: int | None = column("block of the running order", low=0, high=1e9)
    build_id: str = column("putter in hand", required=True)
    distance_m: float = column("ball to hole", unit="m", low=0.2, high=40, required=True)
    holed: bool | None = column("it went in")
    stop_past_m: float | None = column(
        "where it stopped, past the hole along the line", unit="m", low=-40, high=40
    )
    stop_right_m: float | None = column(
        "where it stopped, right of the line", unit="m", low=-20, high=20
    )
    ball_speed_mps: float | None = column("ball speed off the face", unit="m/s", low=0.05, high=12)
    launch_deg: float | None = column("launch above horizontal", unit="deg", low=-15, high=20)
    start_deg: float | None = column(
        "start line from the target line", unit="deg", low=-45, high=45
    )
    spin_rpm: float | None = column(
        "spin off the face, topspin positive", unit="rpm", low=-2000, high=2000
    )
    skid_m: float | None = column("distance until true roll", unit="m", low=0, high=20)
    roll_share_pct: float | None = column(
        "share of the putt in true roll", unit="%", low=0, high=100
    )
    head_speed_mps: float | None = column("head speed at impact", unit="m/s", low=0.05, high=10)
    face_deg: float | None = column("face from the target line", unit="deg", low=-30, high=30)
    path_deg: float | None = column("path from the target line", unit="deg", low=-45, high=45)
    attack_deg: float | None = column("head rising at impact", unit="deg", low=-20, high=20)
    dynamic_loft_deg: float | None = column("loft as delivered", unit="deg", low=-15, high=20)
    shaft_lean_deg: float | None = column("handle toward the target", unit="deg", low=-25, high=25)
    closure_deg_s: float | None = column(
        "face turning at impact, right positive", unit="deg/s", low=-1000, high=1000
    )
    strike_toe_mm: float | None = column(
        "strike from the sweet spot, toe positive", unit="mm", low=-80, high=80
    )
    strike_high_mm: float | None = column(
        "strike from the sweet spot, high positive", unit="mm", low=-40, high=40
    )
    backswing_s: float | None = column("time of backswing", unit="s", low=0.05, high=5)
    downswing_s: float | None = column("time from top to impact", unit="s", low=0.05, high=3)
    instrument: str | None = column("which sensor")
    void: bool = column("kept, but not used", default=False)
    note: str | None = column("what the fitter saw")
    extra: Mapping[str, str] = field(default_factory=dict, hash=False)


@dataclass(frozen=True, slots=True, kw_only=True)
class Part:
    """Something on the shop's rack."""

    part_id: str = column("identifier", required=True)
    kind: str = column(
        "what it is; a putter is a built one, to be tried",
        choices=("head", "neck", "shaft", "grip", "weight", "putter"),
        required=True,
    )
    label: str | None = column("name the shop knows it by")
    head_shape: str | None = column("shape of head", choices=("blade", "half_mallet", "mallet"))
    sight_line: str | None = column("aiming mark", choices=("none", "dot", "line", "multi"))
    neck_style: str | None = column("style of neck")
    offset_mm: float | None = column("shaft axis ahead of face", unit="mm", low=-20, high=60)
    length_mm: float | None = column("length as supplied", unit="mm", low=50, high=1600)
    lie_deg: float | None = column("lie as supplied", unit="deg", low=50, high=90)
    loft_deg: float | None = column("loft as supplied", unit="deg", low=-15, high=15)
    mass_g: float | None = column("mass of the part", unit="g", low=0.1, high=1500)
    cg_from_axis_mm: float | None = column(
        "centre of gravity from the shaft axis", unit="mm", low=-60, high=100
    )
    cg_depth_mm: float | None = column(
        "centre of gravity behind the face", unit="mm", low=0, high=100
    )
    moi_vertical_axis_g_cm2: float | None = column(
        "inertia about the vertical axis", unit="g cm²", low=1000, high=20000
    )
    toe_hang_deg: float | None = column("hang", unit="deg", low=-90, high=180)
    grip_diameter_mm: float | None = column("diameter of grip", unit="mm", low=10, high=60)
    stock: int | None = column("how many are in the shop", low=0, high=100000)
    price: float | None = column("price, in the shop's currency", low=0)
    loft_min_deg: float | None = column(
        "least loft it may be bent to", unit="deg", low=-15, high=15
    )
    loft_max_deg: float | None = column("most loft it may be bent to", unit="deg", low=-15, high=15)
    lie_min_deg: float | None = column(
        "flattest lie it may be bent to", unit="deg", low=50, high=90
    )
    lie_max_deg: float | None = column(
        "most upright lie it may be bent to", unit="deg", low=50, high=90
    )
    fits: str | None = column("part ids it goes with, separated by spaces")
    balance_from_butt_mm: float | None = column(
        "balance point of a built putter", unit="mm", low=100, high=1500
    )
    alloy: str | None = column("what a head is made of, as in carbon_steel or zinc")
    neck_joint: str | None = column("how its neck is joined, as in one_piece, welded or glued")
    bent_before_deg: float | None = column(
        "all its neck was bent before, there and back", unit="deg", low=0, high=20
    )
    extra: Mapping[str, str] = field(default_factory=dict, hash=False)


@dataclass(frozen=True, slots=True, kw_only=True)
class Fitting:
    """A fitting in memory: everything a decision rests on."""

    fitting_id: str
    date: str
    golfer: Golfer
    greens: tuple[Green, ...]
    fitting_green: FittingGreen
    own_build: str
    builds: tuple[Build, ...]
    first_putts: tuple[FirstPutt, ...] = ()
    instruments: tuple[Instrument, ...] = ()
    setups: tuple[SetupReading, ...] = ()
    aims: tuple[AimReading, ...] = ()
    putts: tuple[Putt, ...] = ()
    rack: tuple[Part, ...] = ()
    extra: Mapping[str, object] = field(default_factory=dict, hash=False)

    def build(self, build_id: str) -> Build:
        """The build of that id."""
        return next(build for build in self.builds if build.build_id == build_id)

    @property
    def used_putts(self) -> tuple[Putt, ...]:
        """The putts that were not voided."""
        return tuple(putt for putt in self.putts if not putt.void)
