"""How much there is of a fitting, counted in words."""

from __future__ import annotations

from puttwright.web.texts import catalogue


def counted(**much: int) -> str:
    """Each kind with its number: builds, aims, putts, setups.

    Examples
    --------
    >>> counted(builds=3, aims=1, putts=0)
    '3 builds, 1 aim, 0 putts'
    """
    text = catalogue()
    return ", ".join(
        text(f"tables.{kind}_{'one' if count == 1 else 'many'}", count=count)
        for kind, count in much.items()
    )
