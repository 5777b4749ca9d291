"""What the house tests look at: the tracked files and the source, parsed once."""

from __future__ import annotations

import ast
import subprocess
from collections.abc import Iterator
from dataclasses import dataclass
from pathlib import Path

import pytest

ROOT = Path(__file__).resolve().parents[2]
SRC = ROOT / "src" / "puttwright"

Function = ast.FunctionDef | ast.AsyncFunctionDef


@dataclass(frozen=True, slots=True)
class Found:
    """A function and where it stands."""

    path: str
    name: str
    node: Function
    method: bool
    public: bool

    @property
    def place(self) -> str:
        """``room/file.py:name``."""
        return f"{self.path}:{self.name}"

    @property
    def positional(self) -> list[ast.arg]:
        """Arguments that may be given by position, without self and cls."""
        own = [*self.node.args.posonlyargs, *self.node.args.args]
        static = any(getattr(d, "id", "") == "staticmethod" for d in self.node.decorator_list)
        return own[1:] if self.method and not static else own

    @property
    def arguments(self) -> list[ast.arg]:
        """All arguments, without self and cls."""
        return [*self.positional, *self.node.args.kwonlyargs]

    @property
    def decorators(self) -> str:
        """The decorators as text."""
        return " ".join(ast.unparse(item) for item in self.node.decorator_list)

    @property
    def body_lines(self) -> int:
        """Lines from ``def`` to the end, without the docstring and without decorators."""
        lines = self.node.end_lineno - self.node.lineno + 1
        first = self.node.body[0]
        if ast.get_docstring(self.node) is not None:
            lines -= first.end_lineno - first.lineno + 1
        return lines


def _functions(path: str, tree: ast.Module) -> Iterator[Found]:
    def walk(node: ast.AST, prefix: str, *, method: bool, public: bool) -> Iterator[Found]:
        for child in ast.iter_child_nodes(node):
            if isinstance(child, Function):
                name = prefix + child.name
                open_to_all = public and not child.name.startswith("_")
                yield Found(path, name, child, method, open_to_all)
                yield from walk(child, f"{name}.", method=False, public=False)
            elif isinstance(child, ast.ClassDef):
                seen = public and not child.name.startswith("_")
                yield from walk(child, f"{prefix}{child.name}.", method=True, public=seen)
            else:
                yield from walk(child, prefix, method=method, public=public)

    shown = not Path(path).name.startswith("_") or path.endswith("__init__.py")
    yield from walk(tree, "", method=False, public=shown)


def _tracked() -> list[Path]:
    # Untracked files count too, so that a fault is seen before it is committed.
    listing = subprocess.run(
        ["git", "ls-files", "--cached", "--others", "--exclude-standard", "-z"],
        cwd=ROOT,
        capture_output=True,
        check=True,
        text=True,
    ).stdout
    return sorted(path for name in listing.split("\0") if name and (path := ROOT / name).is_file())


@pytest.fixture(scope="session")
def tracked() -> list[Path]:
    """Every file of the project that is, or would be, committed."""
    return _tracked()


@pytest.fixture(scope="session")
def texts(tracked) -> dict[str, str]:
    """The tracked files that are text, by path from the top."""
    found = {}
    for path in tracked:
        raw = path.read_bytes()
        if b"\0" not in raw:
            found[path.relative_to(ROOT).as_posix()] = raw.decode("utf-8", errors="replace")
    return found


@pytest.fixture(scope="session")
def trees() -> dict[str, ast.Module]:
    """The source files, parsed, by path from ``src/puttwright``."""
    return {
        path.relative_to(SRC).as_posix(): ast.parse(path.read_text(encoding="utf-8"))
        for path in sorted(SRC.rglob("*.py"))
    }


@pytest.fixture(scope="session")
def functions(trees) -> list[Found]:
    """Every function and method of the source."""
    return [found for path, tree in trees.items() for found in _functions(path, tree)]


@pytest.fixture(scope="session")
def test_trees() -> dict[str, ast.Module]:
    """The test files, parsed, by path from ``tests``."""
    tests = ROOT / "tests"
    return {
        path.relative_to(tests).as_posix(): ast.parse(path.read_text(encoding="utf-8"))
        for path in sorted(tests.rglob("*.py"))
    }


@pytest.fixture(scope="session")
def none_of():
    """Assert that nothing was found, and print all of what was."""

    def check(found: object, advice: str = "") -> None:
        items = [f"{k}: {v}" for k, v in found.items()] if isinstance(found, dict) else list(found)
        listing = "\n  ".join(str(item) for item in items)
        assert not items, f"{advice or 'found'}:\n  {listing}"

    return check
