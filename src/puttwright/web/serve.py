"""Open the pages on this machine."""

from __future__ import annotations

import logging
import signal
import socket
import sys
import threading
from contextlib import ExitStack, closing, suppress
from pathlib import Path
from typing import Final

import uvicorn

from puttwright import __version__
from puttwright.deeds.back_up import BackedUp, BackupRound, back_up
from puttwright.deeds.bootstrap import Shop, open_shop
from puttwright.deeds.decide_beside import DecideBeside
from puttwright.deeds.keep_log import log_file
from puttwright.deeds.shop_settings import BackupSettings, backup_settings
from puttwright.errors import UserError
from puttwright.web.app import create_app
from puttwright.web.guard import own_names
from puttwright.web.pages import get_pages_ready
from puttwright.web.sharing import LINE_KEPT_S, Share, WithNetwork, network_config, share_shop

LOOPBACK: Final = "127.0.0.1"
_EVERYWHERE: Final = "0.0.0.0"  # noqa: S104 - asked for with --share, and behind the door


class PortTaken(UserError):
    """Another program on this machine uses port {port}."""

    code = "port-taken"
    hint = "Close it, or choose another port with --port, or --share-port for the network."


log = logging.getLogger("puttwright.web")


def serve(
    *,
    port: int,
    data_dir: Path,
    database: str | None = None,
    watch: Path | None = None,
    share: Share | None = None,
) -> None:
    """Serve the pages on the loopback address, and shared if wanted, until told to stop.

    Parameters
    ----------
    port
        Of this machine; nobody else on the network can reach it. 0 takes a free one.
    data_dir
        Where the records lie, and what else the shop keeps.
    database
        The address of a database that holds the records instead.
    share
        How devices of the shop's network are let in; they are not when not given.
    watch
        The folder in which devices' files land; the one set on a page when not given.

    Raises
    ------
    PortTaken
        The port is in use.
    CannotWrite, NoDriver, SettingsWrong, StoreAway, StoreDamaged, StoreTooNew
        The records cannot be used.
    CertificateUnusable, DevicesDamaged, NoNetwork, ShareNameWrong
        They cannot be shared.
    """
    with (
        closing(DecideBeside()) as beside,
        closing(open_shop(data_dir, database=database, decide=beside, early=beside.early)) as shop,
    ):
        beside.get_ready()
        serve_shop(shop, port=port, watch=watch, share=share)


def serve_shop(
    shop: Shop, *, port: int, watch: Path | None = None, share: Share | None = None
) -> None:
    """Serve the pages of a shop that is open; says the address when it can be asked for."""
    settings = backup_settings(shop.folder)
    with ExitStack() as doors:
        door = doors.enter_context(_listening(port))
        port = door.getsockname()[1]
        network = doors.enter_context(_listening(share.port, _EVERYWHERE)) if share else None
        sharing = share and network and share_shop(shop, share, port=network.getsockname()[1])
        names = own_names(port) | (sharing.names if sharing else frozenset())
        app = create_app(shop, hosts=names, watch=watch)
        app.state.sharing = sharing
        config = uvicorn.Config(
            app,
            log_config=None,
            access_log=False,
            server_header=False,
            timeout_keep_alive=LINE_KEPT_S,
            # a page that listens for news never ends its request by itself
            timeout_graceful_shutdown=1,
        )
        server = uvicorn.Server(config)
        if sharing and network:
            beside = network_config(app, sharing, shop=shop)
            server = WithNetwork(config, network=beside, door=network)
        _keep_a_log(shop.folder)
        rounds = _backups(shop, settings)
        _say(f"puttwright is open at http://{LOOPBACK}:{port}")
        if sharing:
            _say(f"Shared at {sharing.address}; let devices in at /devices of the address above.")
        _say(f"The fittings are kept in {shop.folder}. Stop with Ctrl+C.")
        log.info("opened, version %s", __version__)
        rounds.start()
        threading.Thread(target=get_pages_ready, name="pages", daemon=True).start()
        with suppress(KeyboardInterrupt):  # raised again once everything is closed in order
            _end_as_if_interrupted()
            server.run(sockets=[door])
        rounds.end()
        log.info("closed")


def _end_as_if_interrupted() -> None:
    """A machine that shuts down asks to end, and gets the same orderly end as Ctrl+C."""
    if threading.current_thread() is threading.main_thread():
        signal.signal(signal.SIGTERM, signal.default_int_handler)


def _listening(port: int, host: str = LOOPBACK) -> socket.socket:
    try:
        return socket.create_server((host, port))
    except OSError as error:
        raise PortTaken(port=port) from error


def _say(line: str) -> None:
    sys.stdout.write(line + "\n")
    sys.stdout.flush()


def _keep_a_log(folder: Path) -> None:
    handler = log_file(folder)
    for name in ("puttwright", "uvicorn.error"):
        logging.getLogger(name).addHandler(handler)
    logging.getLogger("puttwright").setLevel(logging.INFO)


def _backups(shop: Shop, settings: BackupSettings) -> BackupRound:
    return BackupRound(
        lambda: back_up(shop.store, shop.clock, settings=settings),
        every_minutes=settings.every_minutes,
        tell=_tell_of_backup,
    )


def _tell_of_backup(done: BackedUp | UserError) -> None:
    """To the log; trouble also to whoever looks at the terminal."""
    if isinstance(done, UserError):
        log.error("backup failed: %s", done.code)
        _say(f"No backup could be taken: {done}")
    elif done.new is not None:
        log.info("backup %d taken, %d old ones let go", done.new.number, done.gone)
