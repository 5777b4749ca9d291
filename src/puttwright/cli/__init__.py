"""The commands, one file each: parse, call a deed, print. Nothing heavy at import."""

from puttwright.cli.program import main

__all__ = ["main"]
