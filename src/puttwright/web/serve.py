"""Open the pages on this machine."""

from __future__ import annotations

import logging
import socket
import sys
import threading
from contextlib import suppress
from logging.handlers import RotatingFileHandler
from pathlib import Path
from typing import Final

import uvicorn

from puttwright.deeds.bootstrap import Shop, open_shop
from puttwright.deeds.warm_up import warm_up
from puttwright.errors import UserError
from puttwright.web.app import create_app
from puttwright.web.guard import own_names

LOOPBACK: Final = "127.0.0.1"


class PortTaken(UserError):
    """Another program on this machine uses port {port}."""

    code = "port-taken"
    hint = "Close it, or choose another port with --port."


def serve(*, port: int, data_dir: Path) -> None:
    """Serve the pages on the loopback address until told to stop.

    Parameters
    ----------
    port
        Of this machine; nobody else on the network can reach it. 0 takes a free one.
    data_dir
        Where the records lie.

    Raises
    ------
    PortTaken
        The port is in use.
    CannotWrite, StoreDamaged, StoreTooNew
        The records cannot be used.
    """
    shop = open_shop(data_dir)
    # The first decision of the day should not wait for the compiler.
    threading.Thread(target=warm_up, name="warm-up", daemon=True).start()
    try:
        serve_shop(shop, port=port)
    finally:
        shop.close()


def serve_shop(shop: Shop, *, port: int) -> None:
    """Serve the pages of a shop that is open; says the address when it can be asked for."""
    with _listening(port) as door:
        port = door.getsockname()[1]
        config = uvicorn.Config(
            create_app(shop, hosts=own_names(port)),
            log_config=None,
            access_log=False,
            server_header=False,
            # a page that listens for news never ends its request by itself
            timeout_graceful_shutdown=1,
        )
        _keep_a_log(shop.folder)
        _say(f"puttwright is open at http://{LOOPBACK}:{port}")
        _say(f"The fittings are kept in {shop.folder}. Stop with Ctrl+C.")
        with suppress(KeyboardInterrupt):  # raised again once everything is closed in order
            uvicorn.Server(config).run(sockets=[door])


def _listening(port: int) -> socket.socket:
    try:
        return socket.create_server((LOOPBACK, port))
    except OSError as error:
        raise PortTaken(port=port) from error


def _say(line: str) -> None:
    sys.stdout.write(line + "\n")
    sys.stdout.flush()


def _keep_a_log(folder: Path) -> None:
    """Faults with their traces, in a file that does not grow without end."""
    handler = RotatingFileHandler(
        folder / "puttwright.log", maxBytes=1_000_000, backupCount=3, encoding="utf-8", delay=True
    )
    handler.setFormatter(logging.Formatter("%(asctime)s %(levelname)s %(name)s %(message)s"))
    logging.getLogger("puttwright").addHandler(handler)
    logging.getLogger("uvicorn.error").addHandler(handler)
