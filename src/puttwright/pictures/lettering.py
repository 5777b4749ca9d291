"""The three sizes of lettering, and how wide words come out in them."""

from __future__ import annotations

from typing import Final, Literal

Size = Literal["small", "body", "large"]

SIZES: Final[dict[Size, float]] = {"small": 11.0, "body": 13.0, "large": 18.0}

_NARROW: Final = frozenset("iljI|.,:;'!1 ft()[]/-")
_WIDE: Final = frozenset("mwMW%@")


def _advance(letter: str) -> float:
    """Width of one letter in ems: the mean of its class in the type we use (Inter 4)."""
    if letter in _NARROW:
        return 0.34
    if letter in _WIDE:
        return 0.92
    if letter.isdigit():
        return 0.62
    return 0.71 if letter.isupper() else 0.58


def width_of(words: str, /, *, size: Size) -> float:
    """About how wide ``words`` come out [units]; within a tenth for ordinary words.

    Examples
    --------
    >>> 30 < width_of("mallet", size="body") < 50
    True
    """
    return SIZES[size] * sum(_advance(letter) for letter in words)


def shortened(words: str, /, *, size: Size, room: float) -> str:
    """``words``, cut with an ellipsis where they would not fit into ``room``.

    Examples
    --------
    >>> shortened("a very long label indeed", size="body", room=88)
    'a very long…'
    """
    if width_of(words, size=size) <= room:
        return words
    kept = words
    while kept and width_of(kept + "…", size=size) > room:
        kept = kept[:-1]
    return kept.rstrip() + "…"


def wrapped(words: str, /, *, size: Size, room: float, lines: int = 3) -> list[str]:
    """``words`` broken at spaces into at most ``lines`` lines that fit into ``room``.

    Examples
    --------
    >>> wrapped("the golfer's own putter", size="body", room=90)
    ["the golfer's", 'own putter']
    """
    rows: list[str] = []
    for word in words.split():
        if rows and width_of(f"{rows[-1]} {word}", size=size) <= room:
            rows[-1] = f"{rows[-1]} {word}"
        elif len(rows) < lines:
            rows.append(word)
        else:
            rows[-1] = f"{rows[-1]} {word}"
    return [shortened(row, size=size, room=room) for row in rows]
