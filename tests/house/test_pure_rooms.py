"""The rooms from `fitting` down compute: no files, no clock, no log, no database, no framework.

What they import from outside Python is held by the import contract in pyproject.toml; this holds
what they import from Python itself, and the few calls that reach outside without an import.
"""

from __future__ import annotations

import ast
import re

PURE = (
    "errors.py", "units.py", "evidence/", "club/", "ball/", "address/", "belief/", "worth/",
    "virtual/", "fitting/", "pictures/",
)  # fmt: skip
# importlib.resources is allowed: it reads tables that are part of the package.
REACHES_OUTSIDE = {
    "glob", "http", "io", "logging", "multiprocessing", "os", "pathlib", "shutil", "socket",
    "sqlite3", "subprocess", "sys", "tempfile", "threading", "time", "urllib", "random", "secrets",
}  # fmt: skip
READS_THE_CLOCK = {"now", "today", "utcnow", "perf_counter", "monotonic"}
# What may be taken from a module that otherwise reaches outside: counting cores touches nothing.
HARMLESS = {("os", "cpu_count")}


def _pure(trees):
    return {path: tree for path, tree in trees.items() if path.startswith(PURE)}


def _imports(tree):
    """The modules a file takes something from, but for what is harmless."""
    for node in ast.walk(tree):
        if isinstance(node, ast.ImportFrom) and node.module:
            top = node.module.split(".")[0]
            yield from (top for alias in node.names if (top, alias.name) not in HARMLESS)
        elif isinstance(node, ast.Attribute) and isinstance(node.value, ast.Name):
            if (node.value.id, node.attr) not in HARMLESS:
                yield node.value.id
        elif isinstance(node, ast.Import):
            # ``import os`` alone does nothing; an attribute used shows above, unless renamed.
            yield from (alias.name.split(".")[0] for alias in node.names if alias.asname)


def test_pure_rooms_take_nothing_from_what_reaches_outside(trees, none_of):
    found = {
        (path, name)
        for path, tree in _pure(trees).items()
        for name in set(_imports(tree)) & REACHES_OUTSIDE & _named(tree)
    }
    none_of(found)


def _named(tree):
    """The modules a file names in its imports; a local variable may be called ``time`` too."""
    for_all = [node for node in ast.walk(tree) if isinstance(node, ast.Import | ast.ImportFrom)]
    plain = {a.name.split(".")[0] for n in for_all if isinstance(n, ast.Import) for a in n.names}
    return plain | {
        (n.module or "").split(".")[0] for n in for_all if isinstance(n, ast.ImportFrom)
    }


def test_pure_rooms_open_no_file_and_read_no_clock(trees, none_of):
    calls = [
        f"{path}:{node.lineno}"
        for path, tree in _pure(trees).items()
        for node in ast.walk(tree)
        if isinstance(node, ast.Call)
        and (
            getattr(node.func, "id", "") in {"open", "print", "input"}
            or getattr(node.func, "attr", "") in READS_THE_CLOCK
        )
    ]
    none_of(calls)


def test_pure_rooms_draw_from_a_seed(trees, none_of):
    # numpy's own global generator: the same call gives other numbers the second time.
    unseeded = [
        f"{path}:{node.lineno}"
        for path, tree in trees.items()
        for node in ast.walk(tree)
        if isinstance(node, ast.Call)
        and re.fullmatch(r"(np|numpy)\.random\.[a-z_]+", ast.unparse(node.func))
        and not (ast.unparse(node.func).endswith("default_rng") and node.args)
    ]
    none_of(unseeded)
