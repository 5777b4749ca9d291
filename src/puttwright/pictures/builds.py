"""How builds are told apart in a drawing: letter first, then line style, colour last."""

from __future__ import annotations

import string
from collections.abc import Sequence
from dataclasses import dataclass
from typing import Final, Literal

from puttwright.pictures.drafting import Sheet, Style
from puttwright.pictures.grounds import Ink, Weight
from puttwright.pictures.svg import Point

Role = Literal["own", "choice", "other"]

_OTHERS: Final[tuple[Style, ...]] = ("centre", "phantom", "dotted")
BALLOON: Final = 10.0
"""Radius of the balloon around a letter [units]."""


@dataclass(frozen=True, slots=True, kw_only=True)
class BuildMark:
    """A build as it is marked in every drawing of a fitting.

    ``letter`` and ``order`` stay with the build throughout; ``guess`` says that it
    was never in hand and its figures are extrapolated.
    """

    letter: str
    name: str
    role: Role = "other"
    order: int = 0
    guess: bool = False

    @property
    def called(self) -> str:
        """Letter and name, or the letter alone where that is the name.

        Examples
        --------
        >>> BuildMark(letter="A", name="own putter").called, BuildMark(letter="B", name="B").called
        ('A, own putter', 'B')
        """
        return self.letter if self.name == self.letter else f"{self.letter}, {self.name}"

    @property
    def ink(self) -> Ink:
        """Colour, the last of the three signs."""
        return {"own": "own", "choice": "accent", "other": "ink"}[self.role]  # type: ignore[return-value]

    @property
    def style(self) -> Style:
        """Line style: dashed for a guess, plain for own and choice, else by order."""
        if self.guess:
            return "hidden"
        return "solid" if self.role != "other" else _OTHERS[self.order % len(_OTHERS)]

    @property
    def weight(self) -> Weight:
        """The choice is drawn heavier."""
        return "bold" if self.role == "choice" else "line"

    @property
    def note(self) -> str:
        """What the build is to the golfer, for the line under its name; often nothing."""
        roles = {"own": "own putter", "choice": "the choice", "other": ""}
        return ", ".join(filter(None, (roles[self.role], "not in hand: a guess" * self.guess)))

    @property
    def said(self) -> str:
        """Letter and name, for descriptions and tables."""
        own = ", own putter" if self.role == "own" else ""
        chosen = ", the choice" if self.role == "choice" else ""
        guessed = ", not in hand" if self.guess else ""
        return f"{self.letter}, {self.name}{own}{chosen}{guessed}"


def letter_for(order: int, /) -> str:
    """The letter of the build at this place: A … Z, then AA, AB and so on.

    Examples
    --------
    >>> letter_for(0), letter_for(27)
    ('A', 'AB')
    """
    first, last = divmod(order, 26)
    return (letter_for(first - 1) if first else "") + string.ascii_uppercase[last]


def balloon(sheet: Sheet, at: Point, *, mark: BuildMark, radius: float = BALLOON) -> None:
    """The letter in its balloon: double for the own putter, filled for the choice."""
    filled = mark.role == "choice" and not mark.guess
    sheet.circle(
        at,
        radius=radius,
        ink=mark.ink,
        weight="line",
        style="hidden" if mark.guess else "solid",
        fill=mark.ink if filled else "paper",
    )
    if mark.role == "own":
        sheet.circle(at, radius=radius - 2.4, ink=mark.ink, weight="hair")
    size = "body" if len(mark.letter) == 1 and radius >= BALLOON else "small"
    drop = 4.6 if size == "body" else 4.0
    sheet.text(
        (at[0], at[1] + drop),
        mark.letter,
        size=size,  # type: ignore[arg-type]
        ink="paper" if filled else mark.ink,
        anchor="middle",
        bold=True,
    )


def marks_in_order(names: Sequence[str], *, own: int, choice: int | None = None) -> list[BuildMark]:
    """Marks for builds in their order; ``own`` and ``choice`` are places in it.

    Examples
    --------
    >>> [mark.role for mark in marks_in_order(["old", "new"], own=0, choice=1)]
    ['own', 'choice']
    """
    return [
        BuildMark(
            letter=letter_for(place),
            name=name,
            role="own" if place == own else "choice" if place == choice else "other",
            order=place,
        )
        for place, name in enumerate(names)
    ]
