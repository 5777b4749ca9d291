"""An invented golfer from down the line, drawn as a camera of known place would see it."""

from __future__ import annotations

import io
import math

from PIL import Image, ImageDraw

SIZE = (1500, 2000)
FOCAL = 1450.0
AWAY_MM = 3000.0
CAMERA_MM = (200.0, 700.0)
EYES_MM, HANDS_MM, LIE_DEG = 60.0, 721.3, 71.0
CLUB_MM = 864.0
_FOOT = (12.0, -21.3)
_SHAFT = (math.cos(math.radians(LIE_DEG)), math.sin(math.radians(LIE_DEG)))
# From the ball's middle: toward the golfer, up, nearer to the camera [mm].
GOLFER = {
    "eye": (EYES_MM, 1400.0, 50.0),
    "hands": (-_FOOT[0] + 225.0, 700.0, 20.0),
    "grip_end": (-_FOOT[0] + CLUB_MM * _SHAFT[0], _FOOT[1] + CLUB_MM * _SHAFT[1], 20.0),
    "shaft_foot": (-_FOOT[0], _FOOT[1], 20.0),
    "ball_near": (21.3, 0.0, 0.0),
    "ball_far": (-21.3, 0.0, 0.0),
    "plumb_top": (800.0, 1600.0, 0.0),
    "plumb_foot": (800.0, 0.0, 0.0),
}
_BODY = ((330.0, -21.0), (380.0, 480.0), (430.0, 900.0), (180.0, 1290.0))


def points(*, handed: str = "right") -> dict[str, tuple[float, float]]:
    """Where the points are in the picture [px]; a right-hander stands left of the ball."""
    return {name: _seen(*at, handed=handed) for name, at in GOLFER.items()}


def _seen(inside: float, up: float, near: float, *, handed: str) -> tuple[float, float]:
    right = -inside if handed == "right" else inside
    away = AWAY_MM - near
    return (
        (SIZE[0] - 1) / 2 + FOCAL * (right - CAMERA_MM[0]) / away,
        (SIZE[1] - 1) / 2 - FOCAL * (up - CAMERA_MM[1]) / away,
    )


def photo(*, handed: str = "right", turned: bool = False) -> bytes:
    """The picture as a JPEG; ``turned`` lies on its side, as the camera's note then says."""
    image = Image.new("RGB", SIZE, (196, 203, 190))
    pen = ImageDraw.Draw(image)
    at = points(handed=handed)
    pen.rectangle((0, at["shaft_foot"][1] - 60, *SIZE), fill=(110, 142, 96))
    pen.line((at["plumb_top"], at["plumb_foot"]), fill=(250, 250, 250), width=6)
    body = [_seen(*each, 20.0, handed=handed) for each in _BODY]
    pen.line(body, fill=(70, 82, 110), width=70, joint="curve")
    pen.line((body[-1], at["hands"]), fill=(150, 120, 100), width=36)
    x, y = at["eye"]
    pen.ellipse((x - 62, y - 95, x + 62, y + 35), fill=(150, 120, 100))
    pen.line((at["grip_end"], at["shaft_foot"]), fill=(40, 40, 44), width=8)
    ball = (at["ball_near"][0] + at["ball_far"][0]) / 2, at["ball_near"][1]
    pen.ellipse([c - 10.3 for c in ball] + [c + 10.3 for c in ball], fill=(255, 255, 255))
    out = io.BytesIO()
    notes = Image.Exif()
    notes[0x010F] = "An invented maker"
    if turned:
        image = image.transpose(Image.Transpose.ROTATE_90)
        notes[0x0112] = 6
    image.save(out, "JPEG", quality=90, exif=notes)
    return out.getvalue()
