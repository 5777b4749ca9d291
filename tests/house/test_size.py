"""Files and functions stay short enough to read in one go."""

from __future__ import annotations

import statistics

LONGEST_FILE = 500
LONGEST_FUNCTION = 60
MEDIAN_FILE = 150
MEDIAN_FUNCTION = 8
NAMES_THAT_SAY_NOTHING = {"utils", "util", "helpers", "helper", "misc", "common", "manager"}
CODE = (".py", ".js", ".css", ".html", ".typ", ".sh")


def _lengths(texts):
    return {
        path: text.count("\n")
        for path, text in texts.items()
        if path.endswith(CODE) and path.startswith(("src/", "tests/", "scripts/", "hatch_build"))
    }


def test_no_file_is_longer_than_the_limit(texts, none_of):
    long = {path: n for path, n in _lengths(texts).items() if n > LONGEST_FILE}
    none_of(long)


def test_the_median_file_is_a_sitting(texts):
    lengths = [n for path, n in _lengths(texts).items() if path.startswith("src/") and n > 5]
    assert statistics.median(lengths) <= MEDIAN_FILE


def test_no_function_is_longer_than_the_limit(functions, none_of):
    long = {f.place: f.body_lines for f in functions if f.body_lines > LONGEST_FUNCTION}
    none_of(long)


def test_the_median_function_says_one_thing(functions):
    # Without the line of the `def` itself and its arguments.
    bodies = [
        f.node.end_lineno - (f.node.body[1] if _documented(f) else f.node.body[0]).lineno + 1
        for f in functions
        if len(f.node.body) > _documented(f)
    ]
    assert statistics.median(bodies) <= MEDIAN_FUNCTION


def _documented(found):
    first = found.node.body[0]
    value = getattr(first, "value", None)
    return isinstance(getattr(value, "value", None), str)


def test_every_file_is_named_for_what_is_in_it(texts, none_of):
    vague = [
        path
        for path in texts
        if path.startswith("src/") and NAMES_THAT_SAY_NOTHING & set(path.split(".")[0].split("/"))
    ]
    none_of(vague)
