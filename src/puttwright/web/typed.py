"""What a form sent, read once, before the deed."""

from __future__ import annotations

import secrets
from collections.abc import Mapping
from typing import Annotated

from fastapi import Depends, Request
from starlette.exceptions import HTTPException
from starlette.formparsers import MultiPartException

ENTRY_KEY = "entry_key"
ENTRY_KEPT = "Entry-Kept"
"""The header by which the records acknowledge an entry: the number of the reading it is about."""
MOST_FIELDS = 400


async def _typed(request: Request) -> Mapping[str, str]:
    try:
        async with request.form(max_fields=MOST_FIELDS, max_files=1) as form:
            return {name: value for name, value in form.items() if isinstance(value, str)}
    except MultiPartException as error:
        raise HTTPException(400) from error


TypedForm = Annotated[Mapping[str, str], Depends(_typed)]
"""The text fields of the form that was sent."""


def entry_key_of(typed: Mapping[str, str]) -> str:
    """The sender's key of an entry; one without a key is a new entry of its own."""
    return typed.get(ENTRY_KEY, "").strip()[:100] or new_key()


def new_key() -> str:
    """A key for the next entry of a form."""
    return secrets.token_hex(16)
