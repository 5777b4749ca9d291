"""Open the shop's records: one file by default, a database server when asked."""

from __future__ import annotations

from collections.abc import Iterator
from contextlib import contextmanager
from pathlib import Path
from typing import Any, Final

from sqlalchemy import URL, Connection, Engine, create_engine, event, make_url

from puttwright.errors import CannotWrite
from puttwright.store.copies import copy_records
from puttwright.store.faults import NoDriver, faults_told
from puttwright.store.journal import folder_of
from puttwright.store.journaling import is_there, keep_journal, refuse_if_gone
from puttwright.store.migrate import migrate
from puttwright.store.replay import catch_up

WAIT_S: Final = 10.0
"""How long an entry waits for another one to be written."""
_PRAGMAS: Final = ("journal_mode=WAL", "synchronous=FULL", "foreign_keys=ON", "secure_delete=ON")


class Store:
    """The records of a shop; every use of them is one transaction."""

    def __init__(
        self, engine: Engine, *, where: str, file: Path | None, journal: Path | None
    ) -> None:
        self._engine = engine
        self.where = where
        self.file = file
        self.journal = journal

    @contextmanager
    def reading(self) -> Iterator[Connection]:
        """A transaction that looks and changes nothing."""
        with faults_told(self.where), self._engine.begin() as connection:
            yield connection

    @contextmanager
    def writing(self) -> Iterator[Connection]:
        """A transaction that writes: on disk when the block is left, or undone as a whole."""
        writer = self._engine.execution_options(writes=True)
        with faults_told(self.where), writer.begin() as connection:
            yield connection

    def copy_to(self, file: Path) -> None:
        """Copy everything as it is at this moment into a new SQLite file; entries go on meanwhile.

        Raises
        ------
        CannotWrite, StoreDamaged
            The copy cannot be made.
        """
        with faults_told(str(file)):
            copy_records(self._engine, file, source=self.file)

    def outside(self, statement: str) -> None:
        """Tell the database something that it takes outside of a transaction only."""
        engine = self._engine
        if self.file is None:
            engine = engine.execution_options(isolation_level="AUTOCOMMIT")
        with faults_told(self.where), engine.connect() as connection:
            driver = connection.connection.dbapi_connection
            assert driver is not None
            cursor = driver.cursor()
            cursor.execute(statement)
            if cursor.description:
                cursor.fetchall()  # SQLite works on while rows are asked for

    def close(self) -> None:
        """Let go of the file."""
        self._engine.dispose()


def open_store(
    where: Path | str, *, wait_s: float = WAIT_S, copies: Path | None = None, journaled: bool = True
) -> Store:
    """Open the records, make them when they are not there, bring them up to date.

    Parameters
    ----------
    where
        A file (a path), or the address of a database (``postgresql://...``).
    wait_s
        How long an entry waits for another one to be written before it gives up.
    copies
        Where a copy of older tables is kept before they are changed; the folder
        ``backups`` beside the file when not given.
    journaled
        Whether a file of records has a journal beside it; not so for a file that
        is looked at, or made to take another one's place.

    Raises
    ------
    CannotWrite, NoDriver, RecordsBehind, RecordsGone, StoreAway, StoreDamaged, StoreTooNew
        The file, its folder or the database cannot be used.

    Examples
    --------
    >>> import tempfile
    >>> with tempfile.TemporaryDirectory() as folder:
    ...     store = open_store(Path(folder) / "records.sqlite")
    ...     store.close()
    """
    url = _address(where)
    file = Path(url.database) if url.drivername.startswith("sqlite") and url.database else None
    name = str(file) if file else url.render_as_string(hide_password=True)
    new = file is not None and not is_there(file)
    if file:
        _make_folder(file.parent)
        if journaled:
            refuse_if_gone(file)
    engine = _engine(url, wait_s=wait_s)
    if file:
        _as_we_want_sqlite(engine)
    with faults_told(name):
        if file and journaled:
            catch_up(file)
        migrate(engine, file=file, where=name, copies=copies or (file and file.parent / "backups"))
        if file and journaled:
            engine.dispose()  # a connection from before would not be journaled
            keep_journal(engine, file, new=new)
    journal = folder_of(file) if file and journaled else None
    return Store(engine, where=name, file=file, journal=journal)


def _address(where: Path | str) -> URL:
    if isinstance(where, str) and "://" in where:
        url = make_url(where)
        return url.set(drivername="postgresql+psycopg") if url.drivername == "postgresql" else url
    return URL.create("sqlite", database=str(where))


def _engine(url: URL, *, wait_s: float) -> Engine:
    # what a row says is other people's data, and errors end up in the log
    options: dict[str, Any] = {"hide_parameters": True}
    if url.drivername.startswith("sqlite"):
        return create_engine(url, connect_args={"timeout": wait_s}, **options)
    limits = f"-c lock_timeout={int(wait_s * 1000)} -c synchronous_commit=on -c timezone=UTC"
    connect = {"connect_timeout": max(2, int(wait_s)), "options": limits}
    try:
        return create_engine(url, pool_pre_ping=True, connect_args=connect, **options)
    except ImportError as error:
        raise NoDriver from error


def _make_folder(folder: Path) -> None:
    """Make the data folder for this account alone; one that is there stays as it is."""
    try:
        folder.mkdir(mode=0o700, parents=True, exist_ok=True)
    except OSError as error:
        raise CannotWrite(path=folder, reason=error.strerror or "no folder there") from error


def _as_we_want_sqlite(engine: Engine) -> None:
    """Every commit reaches the disk, rows keep their relations, what is deleted is wiped.

    With a plain BEGIN two writers that both looked first block each other
    ("database is locked"); BEGIN IMMEDIATE lets the second one wait its turn.
    """

    @event.listens_for(engine, "connect")
    def on_connect(connection: Any, _record: Any) -> None:
        connection.isolation_level = None  # the driver must not begin or commit by itself
        cursor = connection.cursor()
        for pragma in _PRAGMAS:
            cursor.execute(f"PRAGMA {pragma}")
        cursor.close()

    @event.listens_for(engine, "begin")
    def on_begin(connection: Connection) -> None:
        writes = connection.get_execution_options().get("writes", False)
        connection.exec_driver_sql("BEGIN IMMEDIATE" if writes else "BEGIN")
