"""What is shown while a device is let in, and of those that were."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass
from datetime import datetime

from fastapi.responses import HTMLResponse
from markupsafe import Markup

from puttwright.deeds.paired_devices import CLIENT, FITTER, WORKSHOP, Device
from puttwright.paper.qr import qr_svg
from puttwright.store.fittings import FittingLine
from puttwright.web.dates import iso_words, moment_words
from puttwright.web.pages import render_text
from puttwright.web.pairing import Invitation, spelled
from puttwright.web.texts import catalogue


@dataclass(frozen=True, slots=True, kw_only=True)
class Choice:
    """Something to choose: its value, its words, what it means, whether it is chosen."""

    value: str
    words: str
    means: str = ""
    chosen: bool = False


@dataclass(frozen=True, slots=True, kw_only=True)
class Row:
    """A device that is let in."""

    device_id: str
    name: str
    role: str
    seen: str


@dataclass(frozen=True, slots=True, kw_only=True)
class DevicesPage:
    """The devices and the form for another one; without an ``address`` nothing is shared."""

    address: str = ""
    fingerprint: str = ""
    own_authority: bool = False
    guessed: bool = False
    rows: tuple[Row, ...] = ()
    roles: tuple[Choice, ...] = ()
    fittings: tuple[Choice, ...] = ()
    name: str = ""
    wrong: str = ""


@dataclass(frozen=True, slots=True, kw_only=True)
class PairingPage:
    """A code to be read by a device's camera, or typed."""

    at: str
    square: Markup
    address: str
    code: str
    name: str
    role: str
    until: str


@dataclass(frozen=True, slots=True, kw_only=True)
class PairHere:
    """What the device shows that read the code."""

    at: str
    name: str
    role: str
    means: str


def role_choices(chosen: str = WORKSHOP) -> tuple[Choice, ...]:
    """The roles, in words."""
    text = catalogue()
    said = {
        FITTER: (text("devices.fitter"), text("devices.fitter_may")),
        WORKSHOP: (text("devices.workshop"), text("devices.workshop_may")),
        CLIENT: (text("devices.client"), text("devices.client_may")),
    }
    return tuple(
        Choice(value=role, words=words, means=means, chosen=role == chosen)
        for role, (words, means) in said.items()
    )


def _role(role: str) -> Choice:
    return next(each for each in role_choices() if each.value == role)


def fitting_choices(found: Iterable[FittingLine], *, chosen: str = "") -> tuple[Choice, ...]:
    """The fittings whose screen may be shown."""
    return tuple(
        Choice(
            value=line.fitting_id,
            words=f"{line.alias} · {iso_words(line.date)}",
            chosen=line.fitting_id == chosen,
        )
        for line in found
    )


def device_rows(devices: Iterable[Device]) -> tuple[Row, ...]:
    """The devices as the list shows them."""
    return tuple(
        Row(
            device_id=each.device_id,
            name=each.name,
            role=_role(each.role).words,
            seen=catalogue()("devices.seen", when=moment_words(each.seen_at)),
        )
        for each in devices
    )


def pairing_page(invitation: Invitation, *, address: str) -> PairingPage:
    """The page with the square code."""
    leads_to = f"{address}/pair/{invitation.code}"
    return PairingPage(
        at=f"/devices/pairing/{invitation.ticket}",
        square=Markup(qr_svg(leads_to)),  # noqa: S704 - our own drawing
        address=f"{address}/pair/",
        code=spelled(invitation.code),
        name=invitation.name,
        role=_role(invitation.role).words,
        until=_clock(invitation.until),
    )


def _clock(moment: datetime) -> str:
    return f"{moment.astimezone():%H:%M}"


def pair_here(invitation: Invitation, *, at: str) -> HTMLResponse:
    """The page on the device itself; it is let in by a press, not by looking."""
    role = _role(invitation.role)
    page = PairHere(at=at, name=invitation.name, role=role.words, means=role.means)
    return HTMLResponse(render_text("pair_here.html", page))
