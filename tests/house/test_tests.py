"""The tests' own habits: none is skipped, sleeps or reads the clock, and each can fail."""

from __future__ import annotations

import ast

SKIPS = {"skip", "skipif", "importorskip", "xfail"}
WAITS = {"time.sleep", "asyncio.sleep", "page.wait_for_timeout", "wait_for_timeout"}
CLOCK = {"time.time", "datetime.now", "date.today", "datetime.utcnow", "datetime.datetime.now",
         "datetime.date.today"}  # fmt: skip
# Places beside the rooms that tests may stand in.
BESIDE_THE_ROOMS = {"reference", "simulated", "browser", "faults", "house"}
CAN_FAIL = ("raises", "warns", "validate", "expect", "none_of", "suppress")


def _calls(tree):
    return [node for node in ast.walk(tree) if isinstance(node, ast.Call)]


def _for_another_system(call):
    """``skipif(os.name != "posix", ...)``: what the system cannot do cannot be tested there."""
    return bool(call.args) and ast.unparse(call.args[0]).startswith(("os.name ", "sys.platform "))


def test_no_test_is_skipped(test_trees, none_of):
    skipped = []
    for path, tree in test_trees.items():
        excused = {id(call.func) for call in _calls(tree) if _for_another_system(call)}
        skipped += [
            f"{path}:{node.lineno}"
            for node in ast.walk(tree)
            if isinstance(node, ast.Attribute)
            and node.attr in SKIPS
            and ast.unparse(node).startswith("pytest.")
            and id(node) not in excused
        ]
    none_of(skipped)


def test_no_test_sleeps_or_reads_the_clock(test_trees, none_of):
    found = [
        f"{path}:{call.lineno}"
        for path, tree in test_trees.items()
        for call in _calls(tree)
        if ast.unparse(call.func) in WAITS | CLOCK
        or ast.unparse(call.func).endswith("wait_for_timeout")
    ]
    none_of(found)


def _can_fail(function):
    for node in ast.walk(function):
        if isinstance(node, ast.Assert | ast.Raise):
            return True
        if isinstance(node, ast.Call):
            name = ast.unparse(node.func).split(".")[-1].lstrip("_")
            if name in CAN_FAIL or name.startswith(("assert", "check", "expect")):
                return True
    return False


def test_every_test_can_fail(test_trees, none_of):
    idle = [
        f"{path}:{node.name}"
        for path, tree in test_trees.items()
        for node in ast.walk(tree)
        if isinstance(node, ast.FunctionDef | ast.AsyncFunctionDef)
        and node.name.startswith("test_")
        and not any("fixture" in ast.unparse(item) for item in node.decorator_list)
        and not _can_fail(node)
    ]
    none_of(idle)


def test_tests_stand_where_the_code_stands(test_trees, trees, none_of):
    rooms = {path.split("/")[0] for path in trees if "/" in path}
    strays = [
        path
        for path in test_trees
        if "/" in path and path.split("/")[0] not in rooms | BESIDE_THE_ROOMS
    ]
    none_of(strays)
