"""A group whose commands are imported when they are called for, so that starting is instant."""

from __future__ import annotations

import importlib
from collections.abc import Mapping
from typing import Any

import click


class LazyGroup(click.Group):
    """A group told which module holds each command; the module calls it ``command``."""

    def __init__(self, *args: Any, modules: Mapping[str, str], **settings: Any) -> None:
        super().__init__(*args, **settings)
        self.modules = modules

    def list_commands(self, ctx: click.Context) -> list[str]:  # noqa: ARG002
        """The names in the order in which they are told, which is the order of the work."""
        return list(self.modules)

    def get_command(self, ctx: click.Context, cmd_name: str) -> click.Command | None:  # noqa: ARG002
        """The command of that name, imported now."""
        if cmd_name not in self.modules:
            return None
        command: click.Command = importlib.import_module(self.modules[cmd_name]).command
        return command
