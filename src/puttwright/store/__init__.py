"""The shop's records: tables, migrations, and what a deed does with them."""

from puttwright.store.open_store import Store, open_store

__all__ = ["Store", "open_store"]
