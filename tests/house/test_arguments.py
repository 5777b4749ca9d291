"""Numbers cannot be swapped: at most two arguments by position, floats by name and with a unit."""

from __future__ import annotations

import ast
import re

MOST_POSITIONAL = 2
# Within a file, where caller and callee are seen together, a few records may go by position.
MOST_POSITIONAL_IN_FILE = 4

# Place -> why it may take more by position.
MAY_TAKE_MORE = {"cli/options.py:Number.convert": "click calls it so"}


def _compiled(found):
    """Kernels: numba calls by position, and only their own room calls them."""
    return "kernel" in found.path or "jit" in found.decorators


def _is_float(annotation):
    return annotation is not None and ast.unparse(annotation) in {"float", "float | None"}


def _framework_calls_it(found):
    """Routes and commands: the framework passes every argument by name."""
    return bool(re.search(r"\b(router|app|click|\w*command|group)\b", found.decorators))


def test_at_most_two_arguments_by_position(functions, none_of):
    many = {
        found.place: len(found.positional)
        for found in functions
        if len(found.positional) > (MOST_POSITIONAL if found.public else MOST_POSITIONAL_IN_FILE)
        and not _compiled(found)
        and not _framework_calls_it(found)
        and found.place not in MAY_TAKE_MORE
    }
    none_of(many)


def test_floats_that_could_be_swapped_are_given_by_name(functions, none_of):
    loose = [
        f"{found.place}({argument.arg})"
        for found in functions
        if found.public and not _compiled(found) and not _framework_calls_it(found)
        if sum(_is_float(argument.annotation) for argument in found.positional) > 1
        for argument in found.positional
    ]
    none_of(loose)


def test_public_floats_carry_a_unit_or_are_listed_without_one(functions, root, none_of):
    page = (root / "docs" / "reference" / "nomenclature.md").read_text(encoding="utf-8")
    suffixes, plain = _listed(page, "Units"), _listed(page, "Without unit")
    # Pictures are drawn in the sheet's own unit, which no name needs to repeat.
    unnamed = [
        f"{found.place}({argument.arg})"
        for found in functions
        if found.public and not found.path.startswith(("pictures/", "web/drawings/"))
        for argument in found.arguments
        if _is_float(argument.annotation)
        and argument.arg not in plain
        and not any(argument.arg.endswith(suffix) for suffix in suffixes)
    ]
    none_of(unnamed, "give it a unit, or list it in docs/reference/nomenclature.md")


def _listed(page, section):
    """The names in backticks in the first column of a section's table."""
    text = page.split(f"\n## {section}\n")[1].split("\n## ")[0]
    rows = [line for line in text.splitlines() if line.startswith("| `")]
    return {name for row in rows for name in re.findall(r"`([^`]+)`", row.split("|")[1])}


def test_the_nomenclature_lists_no_name_that_is_gone(functions, root):
    page = (root / "docs" / "reference" / "nomenclature.md").read_text(encoding="utf-8")
    used = {
        argument.arg
        for found in functions
        for argument in found.arguments
        if _is_float(argument.annotation)
    }
    assert _listed(page, "Without unit") <= used
