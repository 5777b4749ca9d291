"""The pages say what the code does: generated ones are current, links lead somewhere."""

from __future__ import annotations

import importlib.util
import re
from pathlib import Path

import pytest

ROOT = Path(__file__).resolve().parents[2]
LINK = re.compile(r"\[[^\]]*\]\(([^)#\s]+)(#[^)]*)?\)|<img[^>]*src=\"([^\"]+)\"")


def _reference():
    spec = importlib.util.spec_from_file_location("reference", ROOT / "scripts" / "reference.py")
    module = importlib.util.module_from_spec(spec)
    spec.loader.exec_module(module)
    return module


@pytest.mark.parametrize("name", ["commands.md", "package.md", "errors.md", "priors.md"])
def test_generated_pages_are_current(name):
    page = ROOT / "docs" / "reference" / name
    assert page.is_file(), "run `make docs`"
    assert page.read_text(encoding="utf-8") == _reference().PAGES[name](), "run `make docs`"


def test_every_command_has_a_heading():
    from puttwright.cli import main

    page = (ROOT / "docs" / "reference" / "commands.md").read_text(encoding="utf-8")
    headings = set(re.findall(r"^## puttwright ([\w-]+)$", page, re.MULTILINE))
    assert set(main.list_commands(None)) <= headings


def test_the_readme_names_every_command():
    from puttwright.cli import main

    readme = (ROOT / "README.md").read_text(encoding="utf-8")
    assert not [name for name in main.list_commands(None) if f"puttwright {name}" not in readme]


def test_errors_have_codes_of_their_own():
    codes = [error.code for error in _reference().user_errors()]
    assert len(codes) == len(set(codes))


def test_the_architecture_places_every_room(trees):
    page = (ROOT / "ARCHITECTURE.md").read_text(encoding="utf-8")
    rooms = {path.split("/")[0].removesuffix(".py") for path in trees} - {"__init__", "__main__"}
    assert not [room for room in rooms if f"`{room}`" not in page and f"`{room}/`" not in page]


def test_links_lead_somewhere(texts, none_of):
    broken = [
        f"{path}: {target}"
        for path, text in texts.items()
        if path.endswith(".md")
        for match in LINK.finditer(text)
        if (target := match[1] or match[3]) and not target.startswith(("http", "mailto:"))
        if not (ROOT / path).parent.joinpath(target).exists()
    ]
    none_of(broken)


def test_make_targets_in_the_docs_exist(texts, none_of):
    targets = set(re.findall(r"^([a-z]+):", texts["Makefile"], re.MULTILINE))
    unknown = [
        f"{path}: make {target}"
        for path, text in texts.items()
        if path.endswith(".md")
        for target in re.findall(r"`make ([a-z]+)", text)
        if target not in targets
    ]
    none_of(unknown)
