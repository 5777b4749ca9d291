"""A form with a photo of a person, read without a byte of it going to the disk."""

from __future__ import annotations

from fastapi import Request
from starlette.datastructures import FormData
from starlette.exceptions import HTTPException
from starlette.formparsers import MultiPartException, MultiPartParser

from puttwright.web.guard import ONE_PHOTO_BYTES


class _InMemory(MultiPartParser):
    """Files are spooled to the disk only above a size that the guard does not let in."""

    spool_max_size = ONE_PHOTO_BYTES + 1


async def form_in_memory(request: Request) -> FormData:
    """What a form with one file sent; close it when it was read."""
    if not request.headers.get("content-type", "").startswith("multipart/form-data"):
        raise HTTPException(400)
    try:
        parser = _InMemory(request.headers, request.stream(), max_files=1, max_fields=20)
        return await parser.parse()
    except MultiPartException as error:
        raise HTTPException(400) from error
