"""A set-up photo on the page: made ready to be tapped on, then measured; minors are off.

In between the page holds it in memory. Nothing of it is written anywhere.
"""

from __future__ import annotations

from dataclasses import replace
from typing import TYPE_CHECKING

from puttwright.deeds.measure_address import MinorsOff, PostureAsked, asked_points, measured
from puttwright.errors import NotAllowed
from puttwright.evidence import Fitting
from puttwright.readers.files import Unreadable
from puttwright.store import Store, fittings

if TYPE_CHECKING:
    from puttwright.address.posture import Posture
    from puttwright.readers.shown_photo import ShownPhoto


def show_address_photo(
    store: Store, fitting_id: str, *, data: bytes, guardian_agrees: bool
) -> ShownPhoto:
    """Make a fitting's photo ready to be tapped on.

    Parameters
    ----------
    store, fitting_id
        Whose photo it is.
    data
        The photo's bytes.
    guardian_agrees
        That the guardian of a minor allowed it; of no account for others.

    Raises
    ------
    MinorsOff
        The golfer is a minor and nobody said that the guardian allowed it.
    NotAllowed
        The bytes are no photo we take; the sentence says why.
    """
    _check_age(_fitting(store, fitting_id), guardian_agrees=guardian_agrees)
    from puttwright.readers.photo import photo_of  # noqa: PLC0415 - starts numpy
    from puttwright.readers.shown_photo import shown_photo  # noqa: PLC0415 - as above

    try:
        return shown_photo(photo_of(data))
    except Unreadable as trouble:
        raise NotAllowed(what=_sentence(f"the photo {trouble}")) from trouble


def measure_shown(
    store: Store, fitting_id: str, *, shown: ShownPhoto, asked: PostureAsked
) -> Posture:
    """Work out eyes, hands and shaft of a fitting's golfer from points tapped in the shown photo.

    Parameters
    ----------
    store, fitting_id
        Whose set-up it is; hand and age are the golfer's, whatever ``asked`` says of them.
    shown
        The photo; only its size and focal length are looked at.
    asked
        Points in its pixels, the scale, what else was measured.

    Raises
    ------
    MinorsOff, NotAllowed, PointMissing, PointsTogether
        Nothing can be said, and why.
    """
    fitting = _fitting(store, fitting_id)
    _check_age(fitting, guardian_agrees=asked.minor_agreed)
    ours = replace(asked, handed=fitting.golfer.handed)
    try:
        return measured(asked_points(ours), ours, size=shown.size, focal_px=shown.focal_px)
    except Unreadable as trouble:
        raise NotAllowed(what=_sentence(str(trouble))) from trouble


def _fitting(store: Store, fitting_id: str) -> Fitting:
    with store.reading() as look:
        return fittings.load(look, fitting_id)


def _check_age(fitting: Fitting, *, guardian_agrees: bool) -> None:
    if fitting.golfer.minor and not guardian_agrees:
        raise MinorsOff(say_so="tick the box that says so")


def _sentence(words: str) -> str:
    return f"{words[0].upper()}{words[1:]}{'' if words.endswith('?') else '.'}"
