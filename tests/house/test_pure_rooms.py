"""The rooms from `fitting` down compute: no files, no clock, no log, no database, no framework.

What they import from outside Python is held by the import contract in pyproject.toml; this holds
what they import from Python itself, and the few calls that reach outside without an import.
"""

from __future__ import annotations

import ast

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
# Place -> why.
ALLOWED = {("worth/holing.py", "os"): "counts the cores to share work among"}


def _pure(trees):
    return {path: tree for path, tree in trees.items() if path.startswith(PURE)}


def _imports(tree):
    for node in ast.walk(tree):
        if isinstance(node, ast.Import):
            yield from (alias.name.split(".")[0] for alias in node.names)
        elif isinstance(node, ast.ImportFrom) and node.module:
            yield node.module.split(".")[0]


def test_pure_rooms_import_nothing_that_reaches_outside(trees):
    found = {
        (path, name)
        for path, tree in _pure(trees).items()
        for name in set(_imports(tree)) & REACHES_OUTSIDE
    }
    assert not found - set(ALLOWED)


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
        and ast.unparse(node.func).startswith(("np.random.", "numpy.random."))
        and not (ast.unparse(node.func).split(".")[-1][0].isupper())
        and not (ast.unparse(node.func).endswith("default_rng") and node.args)
    ]
    none_of(unseeded)
