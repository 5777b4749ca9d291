"""Take in a fitting package: chosen as a file, judged whole, kept or told what is wrong."""

from __future__ import annotations

import asyncio
import shutil
import tempfile
from dataclasses import dataclass
from pathlib import Path

from fastapi import APIRouter, Request, Response
from fastapi.responses import RedirectResponse
from starlette.datastructures import UploadFile
from starlette.exceptions import HTTPException
from starlette.formparsers import MultiPartException

from puttwright.deeds.bootstrap import Shop
from puttwright.deeds.import_package import import_package
from puttwright.errors import PackageFaults
from puttwright.web.contexts.heading import address_of
from puttwright.web.here import DeskHere, ShopHere
from puttwright.web.pages import render
from puttwright.web.sentences import fault_words
from puttwright.web.texts import catalogue

router = APIRouter()


@dataclass(frozen=True, slots=True, kw_only=True)
class ImportPage:
    """The form, and what is wrong with the package that was sent."""

    message: str = ""
    faults: tuple[str, ...] = ()


@router.get("/import")
def show_import(request: Request) -> Response:
    """The form."""
    return render(request, "import.html", page=ImportPage())


@router.post("/import")
async def take_in(request: Request, shop: ShopHere, desk: DeskHere) -> Response:
    """Judge the package and keep it."""
    try:
        async with request.form(max_files=1, max_fields=10) as form:
            package = form.get("package")
            if not isinstance(package, UploadFile) or not package.filename:
                page = ImportPage(message=catalogue()("import.no_file"))
                return render(request, "import.html", page=page, status=422)
            fitting_id = await asyncio.to_thread(_taken, shop, package)
    except MultiPartException as error:
        raise HTTPException(400) from error
    except PackageFaults as error:
        return render(request, "import.html", page=_wrong(error), status=422)
    desk.changed(fitting_id)
    return RedirectResponse(address_of(fitting_id), status_code=303)


def _taken(shop: Shop, package: UploadFile) -> str:
    """Read it from a file of our own naming: what the browser calls it is never a path."""
    with tempfile.TemporaryDirectory(prefix="puttwright-") as folder:
        path = Path(folder) / "package.zip"
        with path.open("wb") as file:
            shutil.copyfileobj(package.file, file)
        return import_package(shop.store, shop.clock, package=path, who=shop.who)


def _wrong(error: PackageFaults) -> ImportPage:
    text = catalogue()
    faults = tuple(map(fault_words, error.faults))
    one = len(faults) == 1
    message = text("import.fault_one") if one else text("import.faults", count=len(faults))
    return ImportPage(message=message, faults=faults)
