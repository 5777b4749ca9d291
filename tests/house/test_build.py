"""What is fetched when the wheel is built: pinned, licensed, shipped, and fetched only once."""

from __future__ import annotations

import importlib.util
import json
import subprocess
import tomllib
from pathlib import Path

import pytest

ROOT = Path(__file__).resolve().parents[2]


@pytest.fixture(scope="module")
def hook():
    spec = importlib.util.spec_from_file_location("hatch_build", ROOT / "hatch_build.py")
    module = importlib.util.module_from_spec(spec)
    spec.loader.exec_module(module)
    return module


class Npm:
    """Stands in for npm: a folder of ours, and how often it was asked for."""

    def __init__(self, home):
        self.home, self.asked = home, 0

    def __call__(self, root, *, scratch):
        self.asked += 1
        return self.home


@pytest.fixture
def npm(tmp_path, hook, monkeypatch):
    home = tmp_path / "node_modules"
    (home / "thing").mkdir(parents=True)
    facts = {"name": "thing", "version": "2.0.0", "license": "MIT"}
    (home / "thing" / "package.json").write_text(json.dumps(facts))
    (home / "thing" / "thing.js").write_text("let it")
    (tmp_path / "package-lock.json").write_text("{}")
    stand_in = Npm(home)
    monkeypatch.setattr(hook, "_install", stand_in)
    return stand_in


def _package(source):
    return "/".join(source.split("/")[: 1 + source.startswith("@")])


CARRIED = {"carried": {"thing.js": "thing/thing.js"}}


def test_files_are_copied_and_recorded_with_version_and_licence(hook, npm, tmp_path):
    assert hook.fetch(tmp_path, assets=CARRIED)

    assert (tmp_path / "carried" / "thing.js").read_text() == "let it"
    entry = json.loads((tmp_path / "carried" / "fetched.json").read_text())["files"]["thing.js"]
    assert (entry["version"], entry["licence"]) == ("2.0.0", "MIT")


def test_a_second_build_fetches_nothing(hook, npm, tmp_path):
    hook.fetch(tmp_path, assets=CARRIED)

    assert not hook.fetch(tmp_path, assets=CARRIED)
    assert npm.asked == 1


@pytest.mark.parametrize("change", ["file", "lock", "record", "gone"])
def test_what_is_not_as_recorded_is_fetched_again(hook, npm, tmp_path, change):
    hook.fetch(tmp_path, assets=CARRIED)
    if change == "lock":
        (tmp_path / "package-lock.json").write_text('{"other": 1}')
    elif change == "gone":
        (tmp_path / "carried" / "thing.js").unlink()
    else:
        name = "thing.js" if change == "file" else "fetched.json"
        (tmp_path / "carried" / name).write_text("tampered")

    assert hook.fetch(tmp_path, assets=CARRIED)
    assert (tmp_path / "carried" / "thing.js").read_text() == "let it"


def test_a_fetch_that_fails_says_so_in_a_sentence(hook, tmp_path, monkeypatch):
    failed = subprocess.CompletedProcess([], 1, "", "no network")
    monkeypatch.setattr(hook.subprocess, "run", lambda *a, **k: failed)
    for name in ("package.json", "package-lock.json"):
        (tmp_path / name).write_text("{}")

    with pytest.raises(SystemExit, match=r"could not be fetched[^!]*no network"):
        hook.fetch(tmp_path, assets=CARRIED)


def test_node_and_npm_are_found_in_the_wheel(hook):
    assert all(Path(program).is_file() for program in hook.node_and_npm())


@pytest.mark.parametrize("where", ["ASSETS", "TEST_ASSETS"])
def test_every_folder_carries_the_licence_of_every_package_in_it(hook, where):
    for folder, files in getattr(hook, where).items():
        packages = {_package(source) for source in files.values()}
        licences = {_package(source) for name, source in files.items() if "LICENSE" in name}
        assert packages == licences, folder


def test_every_folder_is_ignored_by_git_and_shipped_in_the_wheel(hook, texts):
    wheel = tomllib.loads(texts["pyproject.toml"])["tool"]["hatch"]["build"]["targets"]["wheel"]
    for folder in hook.ASSETS:
        assert f"{folder}/" in texts[".gitignore"].splitlines()
        assert f"{folder}/**" in wheel["artifacts"]


def test_what_is_in_place_is_what_the_lock_pins(hook):
    for folder in hook.ASSETS:
        record = json.loads((ROOT / folder / "fetched.json").read_text())
        packages = json.loads((ROOT / "package-lock.json").read_text())["packages"]
        for entry in record["files"].values():
            assert packages[f"node_modules/{entry['package']}"]["version"] == entry["version"]


def test_the_wheel_brings_the_guide_and_an_editable_install_does_not(hook, npm, monkeypatch):
    monkeypatch.setattr(hook, "fetch", lambda *_args, **_details: False)
    found = {}
    for version in ("standard", "editable"):
        build_data = {"force_include": {}}
        build_hook = hook.FetchAssets(str(ROOT), {}, None, None, "", "wheel")
        build_hook.initialize(version, build_data)
        found[version] = build_data["force_include"]

    assert found["editable"] == {}
    assert all(Path(each).exists() for each in found["standard"])
    assert "puttwright/docs/guide" in found["standard"].values()
