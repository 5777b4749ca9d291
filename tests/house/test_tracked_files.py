"""What is committed names no machine, no registry, and carries nothing that is fetched."""

from __future__ import annotations

import json
import re
import tomllib

# Split, so that this file does not hold what it looks for.
MACHINE_PATH = re.compile(r"(?<![\w.-])/(work|farm|root|home/\w+)" + "/")
REGISTRIES = re.compile(
    "|".join(["pypi" + r"\.org", "pythonhosted" + r"\.org", "npmjs" + r"\.(org|com)"]),
    re.IGNORECASE,
)
WORDS = re.compile("trans" + "cript", re.IGNORECASE)
FETCHED = ("src/puttwright/web/static/vendor/", "src/puttwright/paper/fonts/", "tests/vendor/")


def _holding(texts, pattern):
    return [
        f"{path}: {match[0]}" for path, text in texts.items() for match in pattern.finditer(text)
    ]


def test_no_file_holds_a_path_of_a_machine(texts):
    assert not _holding(texts, MACHINE_PATH)


def test_no_file_names_a_registry(texts):
    assert not _holding(texts, REGISTRIES)


def test_no_file_holds_a_word_that_does_not_belong(texts):
    assert not _holding(texts, WORDS)


def test_nothing_fetched_is_committed(texts):
    assert not [path for path in texts if path.startswith(FETCHED)]


def test_every_file_is_utf8_and_ends_with_one_newline(texts):
    ragged = [
        path
        for path, text in texts.items()
        if text and (not text.endswith("\n") or text.endswith("\n\n") or "\ufffd" in text)
    ]
    # Files that are wrong on purpose: the tests' bad input.
    assert not [path for path in ragged if "/bad/" not in path and "/data/" not in path]


def _pins(text):
    return dict(re.findall(r"^([A-Za-z0-9._-]+)==([^ ;\\]+)", text, re.MULTILINE))


def test_locks_hold_no_address_and_every_pin_has_a_hash(texts):
    locks = {path: text for path, text in texts.items() if path.endswith((".lock", "lock.json"))}
    assert len(locks) >= 5
    for path, text in locks.items():
        assert "://" not in text, path
        if path.endswith(".lock"):
            assert not re.search(r"^--?(index|extra|find|trusted)", text, re.MULTILINE)
            blocks = re.split(r"\n(?=\S)", text)
            pinned = [block for block in blocks if "==" in block.split("\n")[0]]
            assert pinned
            assert all("--hash=sha256:" in block for block in pinned), path
        else:
            packages = json.loads(text)["packages"]
            assert all("integrity" in entry for name, entry in packages.items() if name), path


def test_what_the_tests_ran_with_is_what_users_get(texts):
    runtime, dev, pure = (
        _pins(texts[name])
        for name in ("requirements.lock", "requirements-dev.lock", "requirements-pure.lock")
    )
    assert runtime.items() <= dev.items()
    assert pure.items() <= dev.items()


def test_locks_cover_what_pyproject_asks_for(texts):
    project = tomllib.loads(texts["pyproject.toml"])
    wanted = project["project"]["dependencies"] + project["build-system"]["requires"]
    names = {re.split(r"[<>=\[; ]", line)[0].lower() for line in wanted}
    pinned = {name.lower() for name in _pins(texts["requirements.lock"])}
    assert names <= pinned


def test_npm_locks_pin_what_package_json_names(texts):
    for folder in ("", "tests/"):
        wanted = json.loads(texts[f"{folder}package.json"])["dependencies"]
        packages = json.loads(texts[f"{folder}package-lock.json"])["packages"]
        for name, version in wanted.items():
            assert packages[f"node_modules/{name}"]["version"] == version
