"""Give a fitting out of the records as a package."""

from __future__ import annotations

from puttwright.readers.writing import package_files, zip_bytes
from puttwright.store import Store, fittings


def export_package(store: Store, fitting_id: str) -> bytes:
    """The fitting package as a zip, the same bytes for the same fitting.

    Raises
    ------
    NotFound
        There is no such fitting.
    """
    with store.reading() as look:
        fitting = fittings.load(look, fitting_id)
    return zip_bytes(package_files(fitting))
