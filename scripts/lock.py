"""Pin everything anew: three lists with hashes for Python, two lock files for npm.

No file names a download address: whoever installs uses the registry they are
set up with, and the hashes say whether they got the same bytes.
"""

from __future__ import annotations

import json
import os
import subprocess
import sys
import tempfile
from pathlib import Path

ROOT = Path(__file__).resolve().parent.parent
sys.path.insert(0, str(ROOT))

import hatch_build  # noqa: E402 (found only once the line above has run)

LOCKS = {
    "requirements.lock": ["--group", "build", "pyproject.toml"],
    "requirements-dev.lock": ["--group", "dev", "pyproject.toml", "-c", "requirements.lock"],
    "requirements-pure.lock": ["--group", "pure", "-c", "requirements-dev.lock"],
}


def lock_python(name: str, sources: list[str]) -> None:
    """One list; ``fewest`` pins one version for all Pythons, the one the tests ran with."""
    subprocess.run(
        [
            Path(sys.executable).with_name("uv"), "pip", "compile", "--quiet", "--universal",
            "--python-version=3.11", "--fork-strategy=fewest", "--generate-hashes",
            "--no-annotate", "--no-emit-index-url", "--no-emit-find-links",
            *sys.argv[1:], *sources, "-o", name,
        ],
        cwd=ROOT,
        check=True,
        env=os.environ | {"UV_CUSTOM_COMPILE_COMMAND": "make lock"},
    )  # fmt: skip


def lock_npm(folder: Path) -> None:
    """One package-lock.json, without the addresses that npm writes into it."""
    node, npm = hatch_build.node_and_npm()
    with tempfile.TemporaryDirectory() as scratch:
        text = (folder / "package.json").read_text(encoding="utf-8")
        Path(scratch, "package.json").write_text(text, encoding="utf-8")
        subprocess.run(
            [
                node, npm, "install", "--package-lock-only", "--ignore-scripts", "--no-audit",
                "--no-fund", "--omit-lockfile-registry-resolved", "--loglevel=error",
            ],
            cwd=scratch,
            check=True,
        )  # fmt: skip
        lock = json.loads(Path(scratch, "package-lock.json").read_text(encoding="utf-8"))
    for package in lock["packages"].values():
        package.pop("funding", None)
    text = json.dumps(lock, indent=2) + "\n"
    (folder / "package-lock.json").write_text(text, encoding="utf-8")


if __name__ == "__main__":
    for lock_name, lock_sources in LOCKS.items():
        lock_python(lock_name, lock_sources)
    lock_npm(ROOT)
    lock_npm(ROOT / "tests")
