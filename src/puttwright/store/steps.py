"""The steps of the tables, run by Alembic on a connection and in its transaction."""

from __future__ import annotations

from typing import TYPE_CHECKING

from sqlalchemy import Connection

if TYPE_CHECKING:
    from alembic.config import Config


def known_revisions() -> frozenset[str]:
    """Every revision this version of the program knows."""
    from alembic.script import ScriptDirectory  # noqa: PLC0415 - slow to import, rarely needed

    scripts = ScriptDirectory.from_config(_config())
    return frozenset(script.revision for script in scripts.walk_revisions())


def upgrade(connection: Connection, *, to: str) -> None:
    """Run the steps up to a revision, ``head`` for all of them."""
    from alembic import command  # noqa: PLC0415 - slow to import, rarely needed

    config = _config()
    config.attributes["connection"] = connection
    command.upgrade(config, to)


def _config() -> Config:
    from alembic.config import Config  # noqa: PLC0415 - slow to import, rarely needed

    config = Config()
    config.set_main_option("script_location", "puttwright.store:migrations")
    return config
