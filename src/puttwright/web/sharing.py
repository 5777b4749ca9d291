"""The shop's network: under which names, with which certificate, and its server."""

from __future__ import annotations

import asyncio
import contextlib
import re
import socket
from collections.abc import Iterator
from dataclasses import dataclass, field
from pathlib import Path
from typing import Final

import uvicorn
from starlette.types import ASGIApp

from puttwright.deeds.bootstrap import Shop
from puttwright.deeds.paired_devices import Devices
from puttwright.errors import UserError
from puttwright.web.bare import Bare
from puttwright.web.certificate import Certificate, given_certificate, own_certificate
from puttwright.web.door import Door
from puttwright.web.pairing import Codes

SHARE_PORT: Final = 8418
LINE_KEPT_S: Final = 75
"""A tablet's next entry comes within so long; it need not meet a line that is just being closed."""
_TLS: Final = "tls"
_NAME: Final = re.compile(r"[a-z0-9]([a-z0-9.-]{0,251}[a-z0-9])?")
_NOWHERE: Final = ("192.0.2.1", 9)
"""An address for documents (RFC 5737): nothing is sent there, only the way out is looked up."""


class NoNetwork(UserError):
    """There is no network to share with; this machine is on none."""

    code = "no-network"
    hint = "Connect it to the shop's network, or say its name there with --share-name."


class ShareNameWrong(UserError):
    """{name!r} is no name of a machine."""

    code = "share-name-wrong"
    hint = "A name is made of letters a-z, digits, dots and hyphens, or is an address."


@dataclass(frozen=True, slots=True, kw_only=True)
class Share:
    """What is wanted: the port, a name for this machine, a certificate that was given."""

    port: int = SHARE_PORT
    name: str = ""
    certificate: Path | None = None
    key: Path | None = None


@dataclass(frozen=True, slots=True, kw_only=True)
class Sharing:
    """What devices come to: ``names`` with port, the ``address`` that the code leads to."""

    address: str
    names: frozenset[str]
    certificate: Certificate
    devices: Devices
    codes: Codes = field(default_factory=Codes)


def share_shop(shop: Shop, wanted: Share, *, port: int) -> Sharing:
    """Get everything ready for the network.

    Parameters
    ----------
    shop
        The shop; what is kept for sharing lies in its folder.
    wanted
        How.
    port
        On which it really is.

    Raises
    ------
    CannotWrite, CertificateUnusable, DevicesDamaged, NoNetwork, ShareNameWrong
        It cannot be shared.
    """
    names = _names(wanted.name)
    if wanted.certificate is not None and wanted.key is not None:
        certificate = given_certificate(wanted.certificate, wanted.key)
    else:
        certificate = own_certificate(shop.folder / _TLS, names=names, now=shop.clock())
    return Sharing(
        address=f"https://{names[0]}:{port}",
        names=frozenset(f"{name}:{port}" for name in names),
        certificate=certificate,
        devices=Devices(shop.folder),
    )


def _names(said: str) -> list[str]:
    """What this machine is called, what people should use first."""
    said = said.strip().lower()
    if said and not _NAME.fullmatch(said):
        raise ShareNameWrong(name=said)
    own = socket.gethostname().lower()
    called = [own, *([] if "." in own else [f"{own}.local"])] if _NAME.fullmatch(own) else []
    address = _address_here()
    first = [name for name in (said, address) if name]
    if not first:
        raise NoNetwork
    return list(dict.fromkeys([*first, *called]))


def _address_here() -> str:
    with socket.socket(socket.AF_INET, socket.SOCK_DGRAM) as way:
        try:
            way.connect(_NOWHERE)
            return str(way.getsockname()[0])
        except OSError:
            return ""


class _Beside(uvicorn.Server):
    """A second server of one program; signals are the first one's business."""

    @contextlib.contextmanager
    def capture_signals(self) -> Iterator[None]:
        """Leave them alone."""
        yield


class WithNetwork(uvicorn.Server):
    """The server of this machine's own pages, and beside it that of the network."""

    def __init__(
        self, config: uvicorn.Config, *, network: uvicorn.Config, door: socket.socket
    ) -> None:
        super().__init__(config)
        self._beside = _Beside(network)
        self._door = door
        self._task: asyncio.Task[None] | None = None

    async def startup(self, sockets: list[socket.socket] | None = None) -> None:
        """Open this machine's pages, then the door to the network."""
        await super().startup(sockets)
        self._task = asyncio.create_task(self._beside.serve(sockets=[self._door]))

    async def shutdown(self, sockets: list[socket.socket] | None = None) -> None:
        """Close the door first."""
        self._beside.should_exit = True
        if self._task is not None:
            await self._task
        await super().shutdown(sockets)


def network_config(app: ASGIApp, sharing: Sharing, *, shop: Shop) -> uvicorn.Config:
    """How the network is served: over TLS, through the door, without a word of what serves it."""
    door = Door(
        app, names=sharing.names, devices=sharing.devices, codes=sharing.codes, clock=shop.clock
    )
    return uvicorn.Config(
        door,
        http=Bare,
        ws="none",
        lifespan="off",
        ssl_certfile=str(sharing.certificate.file),
        ssl_keyfile=str(sharing.certificate.key),
        log_config=None,
        access_log=False,
        server_header=False,
        timeout_keep_alive=LINE_KEPT_S,
        proxy_headers=False,  # who asks is who is connected, whatever they say of themselves
        timeout_graceful_shutdown=1,
    )
