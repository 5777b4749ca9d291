"""The drawing board: a sheet on which lines, hatching and lettering are put in order.

Lengths are drawing units (one unit is one CSS pixel, 1/96 in on paper), ``x`` to
the right and ``y`` down. A :class:`Sheet` collects the strokes; :meth:`Sheet.svg`
hands over the finished drawing with its title and description.
"""

from __future__ import annotations

import math
from collections.abc import Sequence
from typing import Final, Literal

from puttwright.pictures.grounds import Ground, Ink, Weight
from puttwright.pictures.hand import worded
from puttwright.pictures.lettering import SIZES, Size, shortened, width_of
from puttwright.pictures.svg import Point, clean, element, path_data, safe_id

Style = Literal["solid", "hidden", "centre", "dotted", "phantom"]
Anchor = Literal["start", "middle", "end"]

DASHES: Final[dict[Style, str | None]] = {
    "solid": None,
    "hidden": "5 3.5",
    "centre": "14 3 3 3",
    "dotted": "1.2 3",
    "phantom": "14 3 3 3 3 3",
}
"""Line styles as drafted: ``hidden`` is an edge behind the paper, here an extrapolation."""

_OTHER_END: Final[dict[Anchor, Anchor]] = {"start": "end", "middle": "middle", "end": "start"}
FONT: Final = "Inter, 'Inter Variable', system-ui, sans-serif"
UNIT_MM: Final = 25.4 / 96


class Sheet:
    """A sheet of ``width`` by ``height`` units on a ground.

    ``prefix`` starts every id, so that several drawings may stand on one page. On a
    ``mirrored`` sheet left and right change places, lettering stays readable: a
    left-hander's putter is drawn as a right-hander's.
    """

    def __init__(
        self, *, width: float, height: float, ground: Ground, prefix: str, mirrored: bool = False
    ) -> None:
        self.width = width
        self.height = height
        self.ground = ground
        self.prefix = safe_id(prefix)
        self.mirrored = mirrored
        self._strokes: list[str] = []

    def add(self, markup: str, /) -> None:
        """Put finished SVG on the sheet."""
        self._strokes.append(markup)

    def _put(self, at: Point) -> Point:
        return (self.width - at[0], at[1]) if self.mirrored else at

    def _stroke(self, *, ink: Ink, weight: Weight, style: Style) -> dict[str, str | None]:
        return {
            "stroke": self.ground.colour(ink),
            "stroke_width": self.ground.width(weight),
            "stroke_dasharray": DASHES[style],
        }

    def line(
        self, start: Point, end: Point, *,
        ink: Ink = "ink", weight: Weight = "line", style: Style = "solid",
    ) -> None:  # fmt: skip
        """A straight line."""
        (x1, y1), (x2, y2) = self._put(start), self._put(end)
        ends = {"x1": x1, "y1": y1, "x2": x2, "y2": y2}
        self.add(element("line", **ends, **self._stroke(ink=ink, weight=weight, style=style)))

    def path(
        self, points: Sequence[Point], *,
        ink: Ink = "ink", weight: Weight = "line", style: Style = "solid", closed: bool = False,
        fill: Ink | None = None, fade: float | None = None,
    ) -> None:  # fmt: skip
        """A line through points, or an outline, maybe filled; ``fade`` is the fill's opacity."""
        self.add(
            element(
                "path",
                d=path_data([self._put(at) for at in points], closed=closed),
                fill=self.ground.colour(fill) if fill else "none",
                fill_opacity=fade,
                stroke_linejoin="round",
                **self._stroke(ink=ink, weight=weight, style=style),
            )
        )

    def solid(self, points: Sequence[Point], *, ink: Ink = "ink") -> None:
        """A filled shape without an outline."""
        data = path_data([self._put(at) for at in points], closed=True)
        self.add(element("path", d=data, fill=self.ground.colour(ink)))

    def circle(
        self, centre: Point, *, radius: float,
        ink: Ink = "ink", weight: Weight = "line", style: Style = "solid", fill: Ink | None = None,
        kind: str | None = None,
    ) -> None:  # fmt: skip
        """A circle; ``kind`` names what it stands for (a CSS class), a reading for instance."""
        x, y = self._put(centre)
        self.add(
            element(
                "circle",
                class_=kind,
                cx=x,
                cy=y,
                r=radius,
                fill=self.ground.colour(fill) if fill else "none",
                **self._stroke(ink=ink, weight=weight, style=style),
            )
        )

    def ellipse(
        self, centre: Point, *, radii: Point, turn_deg: float = 0.0,
        ink: Ink = "ink", weight: Weight = "line", style: Style = "solid", kind: str | None = None,
    ) -> None:  # fmt: skip
        """An open ellipse, turned clockwise by ``turn_deg``."""
        x, y = self._put(centre)
        angle = -turn_deg if self.mirrored else turn_deg
        turn = f"rotate({angle:.2f} {x:.2f} {y:.2f})" if turn_deg else None
        self.add(
            element(
                "ellipse",
                class_=kind,
                cx=x,
                cy=y,
                rx=radii[0],
                ry=radii[1],
                transform=turn,
                fill="none",
                **self._stroke(ink=ink, weight=weight, style=style),
            )
        )

    def text(
        self, at: Point, words: str, *,
        size: Size = "body", ink: Ink = "ink", anchor: Anchor = "start", bold: bool = False,
        turn_deg: float = 0.0, room: float | None = None, halo: bool = False,
    ) -> None:  # fmt: skip
        """Lettering on a baseline; ``room`` shortens it, ``halo`` clears the paper behind it."""
        words = worded(words)
        shown = shortened(words, size=size, room=room) if room is not None else words
        x, y = self._put(at)
        if self.mirrored:
            turn_deg = -turn_deg if turn_deg > -89.0 else -180.0 - turn_deg
            anchor = _OTHER_END[anchor]
        turn = f"rotate({turn_deg:.2f} {x:.2f} {y:.2f})" if turn_deg else None
        common: dict[str, str | float | None] = {
            "x": x,
            "y": y,
            "font_size": SIZES[size],
            "font_weight": "600" if bold else None,
            "text_anchor": None if anchor == "start" else anchor,
            "transform": turn,
        }
        if halo:
            self._patch((x, y), shown, size=size, anchor=anchor, transform=turn)
        self.add(element("text", clean(shown), **common, fill=self.ground.colour(ink)))

    def _patch(
        self, at: Point, words: str, *, size: Size, anchor: Anchor, transform: str | None
    ) -> None:
        """Clear paper behind lettering, so that a line under it does not strike it out."""
        width, height = width_of(words, size=size) + 3.0, SIZES[size]
        left = at[0] - {"start": 1.5, "middle": width / 2, "end": width - 1.5}[anchor]
        self.add(
            element(
                "rect",
                x=left,
                y=at[1] - 0.82 * height,
                width=width,
                height=1.06 * height,
                transform=transform,
                fill=self.ground.colour("paper"),
            )
        )

    def hatch(
        self, outline: Sequence[Point], *,
        ink: Ink = "faint", gap: float = 5.0, turn_deg: float = 45.0,
    ) -> None:  # fmt: skip
        """Hatch a closed outline with lines ``gap`` apart, rising to the right by ``turn_deg``."""
        lines = hatch_lines([self._put(at) for at in outline], gap=gap, turn_deg=turn_deg)
        if lines:
            data = "".join(path_data(line) for line in lines)
            self.add(
                element(
                    "path",
                    d=data,
                    fill="none",
                    **self._stroke(ink=ink, weight="hair", style="solid"),
                )
            )

    def svg(self, *, title: str, description: str, backed: bool = False) -> str:
        """The finished drawing; ``backed`` lays the ground's own paper under it."""
        titled, told = f"{self.prefix}-title", f"{self.prefix}-desc"
        back = ""
        if backed:
            back = element(
                "rect", width=self.width, height=self.height, fill=self.ground.colour("paper")
            )
        head = element("title", clean(worded(title)), id=titled) + element(
            "desc", clean(worded(description)), id=told
        )
        return element(
            "svg",
            head + back + "".join(self._strokes),
            xmlns="http://www.w3.org/2000/svg",
            viewBox=f"0 0 {self.width:g} {self.height:g}",
            width=self.width,
            height=self.height,
            role="img",
            aria_labelledby=f"{titled} {told}",
            class_="pw-drawing",
            font_family=FONT,
            stroke_linecap="butt",
        )


def hatch_lines(
    outline: Sequence[Point], /, *, gap: float, turn_deg: float
) -> list[tuple[Point, Point]]:
    """Where parallel lines cross a closed outline, by scan lines in a turned frame.

    Examples
    --------
    >>> hatch_lines([(0, 0), (4, 0), (4, 2), (0, 2)], gap=2, turn_deg=0)
    [((0.0, 1.0), (4.0, 1.0))]
    """
    turn = math.radians(-turn_deg)
    cos, sin = math.cos(turn), math.sin(turn)
    turned = [(x * cos + y * sin, -x * sin + y * cos) for x, y in outline]
    lowest, highest = min(y for _, y in turned), max(y for _, y in turned)
    lines = []
    for row in range(int((highest - lowest) / gap + 0.5)):
        level = lowest + (row + 0.5) * gap
        crossings = _crossings(turned, level)
        for left, right in zip(crossings[::2], crossings[1::2], strict=False):
            lines.append(
                (
                    (left * cos - level * sin, left * sin + level * cos),
                    (right * cos - level * sin, right * sin + level * cos),
                )
            )
    return lines


def _crossings(outline: Sequence[Point], level: float) -> list[float]:
    ends = zip(outline, [*outline[1:], outline[0]], strict=True)
    return sorted(
        a[0] + (level - a[1]) * (b[0] - a[0]) / (b[1] - a[1])
        for a, b in ends
        if (a[1] <= level) != (b[1] <= level)
    )


def ellipse_points(
    centre: Point, *, radii: Point, turn_deg: float = 0.0, count: int = 72
) -> list[Point]:
    """Points on an ellipse, for hatching and for finding how far a drawing reaches."""
    cos, sin = math.cos(math.radians(turn_deg)), math.sin(math.radians(turn_deg))
    angles = (2.0 * math.pi * step / count for step in range(count))
    local = [(radii[0] * math.cos(angle), radii[1] * math.sin(angle)) for angle in angles]
    return [(centre[0] + x * cos - y * sin, centre[1] + x * sin + y * cos) for x, y in local]
