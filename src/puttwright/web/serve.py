"""Open the pages on this machine."""

from __future__ import annotations

import logging
import sys
from logging.handlers import RotatingFileHandler
from pathlib import Path

import uvicorn

from puttwright.deeds.bootstrap import open_shop
from puttwright.web.app import create_app
from puttwright.web.guard import own_names


def serve(*, port: int, data_dir: Path) -> None:
    """Serve the pages on the loopback address until told to stop.

    Parameters
    ----------
    port
        Of this machine; nobody else on the network can reach it.
    data_dir
        Where the records lie.

    Raises
    ------
    CannotWrite, StoreDamaged, StoreTooNew
        The records cannot be used.
    """
    shop = open_shop(data_dir)
    _keep_a_log(data_dir)
    app = create_app(shop, hosts=own_names(port))
    config = uvicorn.Config(
        app,
        host="127.0.0.1",
        port=port,
        log_config=None,
        access_log=False,
        server_header=False,
        # a page that listens for news never ends its request by itself
        timeout_graceful_shutdown=1,
    )
    _say(f"puttwright is open at http://127.0.0.1:{port}")
    _say(f"The fittings are kept in {data_dir}. Stop with Ctrl+C.")
    try:
        uvicorn.Server(config).run()
    finally:
        shop.close()


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
