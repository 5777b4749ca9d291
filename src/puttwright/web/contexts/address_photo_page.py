"""The photo page: what is tapped, how it is scaled, and what the points said."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from typing import Final

from puttwright.address.posture import PLUMB, SCALE_ENDS, TAPPED, PointMissing, PointsTogether
from puttwright.deeds.measure_address import PostureAsked
from puttwright.deeds.open_fitting import OpenFitting
from puttwright.errors import UserError
from puttwright.evidence import Fitting, SetupReading
from puttwright.evidence.columns import Column
from puttwright.fitting.address_words import COMFORT
from puttwright.readers.posture_photo import points_of
from puttwright.readers.shown_photo import ShownPhoto
from puttwright.web.contexts.address_page import HandChoice, hand_choices
from puttwright.web.contexts.heading import Heading, heading
from puttwright.web.contexts.measured_photo import MeasuredPhoto
from puttwright.web.forms.asking import Answers, Field, Question, Typed, fields, question, read
from puttwright.web.sentences import sentence_of
from puttwright.web.texts import catalogue
from puttwright.web.typed import new_key

SCALES: Final = ("club", "ball", "card")
POINT: Final = "point-"
_CAMERA: Final = Column("camera_m", "number", "", unit="m", low=0.5, high=20)
_LEAST_TAP_SD_PX: Final = 2.0
_TAP_SD_SHOWN_PX: Final = 1.0
"""With the loupe a finger or mouse hits within a dot of the screen; a guess."""


@dataclass(frozen=True, slots=True, kw_only=True)
class HeldPhoto:
    """A photo that is shown: whose it is, and whether a guardian allowed it."""

    fitting_id: str
    shown: ShownPhoto
    guardian_agrees: bool


@dataclass(frozen=True, slots=True, kw_only=True)
class PointRow:
    """A point to tap: its name, how it is said, where it was tapped ("x,y" or empty)."""

    name: str
    label: str
    hint: str
    value: str
    kind: str


@dataclass(frozen=True, slots=True, kw_only=True)
class ScaleRow:
    """A known length one may choose."""

    value: str
    words: str
    here: bool


@dataclass(frozen=True, slots=True, kw_only=True)
class TapForm:
    """The photo and everything asked about it."""

    name: str
    address: str
    width: int
    height: int
    points: tuple[PointRow, ...]
    scales: tuple[ScaleRow, ...]
    hands: tuple[HandChoice, ...]
    level: bool
    fields: tuple[Field, ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class AddressPhotoPage:
    """Choose a photo, tap on it, read what it says."""

    heading: Heading
    minor: bool
    told: str
    comfort: str
    taps: TapForm | None
    found: MeasuredPhoto | None
    entry_key: str


def photo_questions() -> tuple[Question, ...]:
    """What a tape may tell of how the photo was taken."""
    text = catalogue()
    return (
        Question(
            name="camera_m", column=_CAMERA, label=text("shot.camera"),
            hint=text("shot.camera_hint"),
        ),
        question(
            SetupReading, "eye_behind_mm", label="bench.eye_behind", hint="shot.eye_behind_hint"
        ),
    )  # fmt: skip


def read_given(typed: Typed) -> Answers:
    """What the form says beside the points."""
    return read(photo_questions(), typed)


def asked_of(fitting: Fitting, held: HeldPhoto, *, typed: Typed, given: Answers) -> PostureAsked:
    """What the form asks of the photo; an odd scale is the club's."""
    build = fitting.build(in_hand(fitting, typed))
    scale = _scale(typed)
    named = (*TAPPED, *PLUMB, *(SCALE_ENDS if scale == "card" else ()))
    tapped = {name: typed.get(POINT + name, "").strip() for name in named}
    return PostureAsked(
        handed=fitting.golfer.handed,
        scale=f"club={build.length_mm:g}" if scale == "club" else scale,
        points=[f"{name}={place}" for name, place in tapped.items() if place],
        distance_m=given.values["camera_m"],
        eye_behind_mm=given.values["eye_behind_mm"],
        lie_deg=build.lie_deg,
        level=typed.get("level") == "yes",
        minor_agreed=held.guardian_agrees,
        tap_sd_px=_tap_sd_px(typed, width=held.shown.size[0]),
    )


def points_in(asked: PostureAsked) -> dict[str, tuple[float, float]]:
    """Where the points were tapped, by name."""
    return points_of(list(asked.points), known=(*TAPPED, *PLUMB, *SCALE_ENDS))


def photo_trouble(trouble: UserError) -> str:
    """Why nothing can be said, the points named as the page names them."""
    text = catalogue()
    if isinstance(trouble, PointMissing):
        return text("shot.missing", point=_label(str(trouble.data["name"])))
    if isinstance(trouble, PointsTogether):
        first, second = (_label(str(trouble.data[each])) for each in ("first", "second"))
        return text("shot.together", first=first, second=second)
    return sentence_of(trouble)


def address_photo_page(
    opened: OpenFitting, *, held: HeldPhoto | None = None, name: str = "",
    typed: Typed | None = None, given: Answers | None = None,
    found: MeasuredPhoto | None = None, told: str = "",
) -> AddressPhotoPage:  # fmt: skip
    """The page as it stands.

    Parameters
    ----------
    opened
        The fitting.
    held, name
        The photo that is shown and its name; without one the page asks for it.
    typed, given
        What was tapped and typed, and what of it could not be read.
    found
        What the points said.
    told
        What is wrong, in a sentence.
    """
    fitting = opened.fitting
    return AddressPhotoPage(
        heading=heading(fitting, here="address"),
        minor=bool(fitting.golfer.minor),
        told=told,
        comfort=COMFORT,
        taps=None if held is None else _tap_form(fitting, held, name=name, typed=typed or {},
                                                 wrong=given.messages if given else {}),
        found=found,
        entry_key=new_key(),
    )  # fmt: skip


def _tap_form(
    fitting: Fitting, held: HeldPhoto, *, name: str, typed: Typed, wrong: Mapping[str, str]
) -> TapForm:
    text = catalogue()
    here = heading(fitting).address
    return TapForm(
        name=name,
        address=f"{here}/address-photo/{name}",
        width=held.shown.size[0],
        height=held.shown.size[1],
        points=tuple(_points(typed)),
        scales=tuple(
            ScaleRow(value=each, words=text(f"shot.scale_{each}"), here=each == _scale(typed))
            for each in SCALES
        ),
        hands=hand_choices(fitting, in_hand(fitting, typed)),
        level=typed.get("level") == "yes",
        fields=fields(photo_questions(), typed=typed, told=wrong),
    )


def _points(typed: Typed) -> list[PointRow]:
    text = catalogue()
    kinds = dict.fromkeys(TAPPED, "needed")
    kinds |= dict.fromkeys(PLUMB, "spare") | dict.fromkeys(SCALE_ENDS, "card")
    return [
        PointRow(
            name=name, label=_label(name), hint=text(f"shot.where_{name}"),
            value=typed.get(POINT + name, ""), kind=kind,
        )
        for name, kind in kinds.items()
    ]  # fmt: skip


def _label(name: str) -> str:
    return catalogue()(f"shot.point_{name}")


def _scale(typed: Typed) -> str:
    scale = typed.get("scale", "")
    return scale if scale in SCALES else SCALES[0]


def in_hand(fitting: Fitting, typed: Typed) -> str:
    """The putter chosen on the form, else the golfer's own."""
    hand = typed.get("hand", "")
    known = {build.build_id for build in fitting.builds}
    return hand if hand in known else fitting.own_build


def _tap_sd_px(typed: Typed, *, width: int) -> float:
    """Nobody taps finer than the screen shows; one that says nothing of itself is a narrow one."""
    try:
        shown = float(typed.get("shown_px", ""))
    except ValueError:
        shown = 0.0
    shown = shown if 200.0 <= shown <= 10_000.0 else 360.0
    return max(_LEAST_TAP_SD_PX, _TAP_SD_SHOWN_PX * width / shown)
