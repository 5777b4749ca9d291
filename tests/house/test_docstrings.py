"""Whatever others call says what it means, and says so of the arguments it really has."""

from __future__ import annotations

import ast
import re

SECTION = re.compile(r"^(?P<name>[A-Z][A-Za-z ]+)\n-{3,}$", re.MULTILINE)
PHYSICS = ("ball/", "club/", "address/", "worth/", "units.py")


def _sections(text):
    """Section name -> its text."""
    parts = SECTION.split(text)
    return dict(zip(parts[1::2], parts[2::2], strict=True))


def _documented_names(section):
    # A name, or several with commas, at the margin; what it means is indented below.
    lines = [line for line in section.splitlines() if line and not line.startswith(" ")]
    names = (name for line in lines for name in line.split(":")[0].split(","))
    return [name.strip().lstrip("*") for name in names]


def _is_property(found):
    return "property" in found.decorators


def test_every_public_function_has_a_docstring(functions, none_of):
    silent = [
        found.place for found in functions if found.public and not ast.get_docstring(found.node)
    ]
    none_of(silent)


def test_every_module_says_what_it_is(trees, none_of):
    silent = [
        path
        for path, tree in trees.items()
        if not ast.get_docstring(tree) and "migrations/versions" not in path
    ]
    none_of(silent)


def test_documented_arguments_are_the_arguments(functions, none_of):
    drifted = {}
    for found in functions:
        section = _sections(ast.get_docstring(found.node) or "").get("Parameters")
        if section is None:
            continue
        extra = [found.node.args.vararg, found.node.args.kwarg]
        have = [argument.arg for argument in [*found.arguments, *filter(None, extra)]]
        documented = _documented_names(section)
        if sorted(documented) != sorted(have):
            drifted[found.place] = (documented, have)
    none_of(drifted)


def test_physics_says_arguments_result_and_an_example(functions, none_of):
    thin = {}
    for found in functions:
        if not found.public or found.method or _is_property(found) or "jit" in found.decorators:
            continue
        floats = [
            argument
            for argument in found.arguments
            if argument.annotation and "float" in ast.unparse(argument.annotation)
        ]
        if not found.path.startswith(PHYSICS) or "kernel" in found.path or len(floats) < 2:
            continue
        have = _sections(ast.get_docstring(found.node) or "")
        lacking = {"Parameters", "Returns", "Examples"} - set(have)
        if lacking:
            thin[found.place] = sorted(lacking)
    none_of(thin)
