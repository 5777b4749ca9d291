"""Starting is quick because nothing heavy is imported before it is needed."""

from __future__ import annotations

import json
import subprocess
import sys

import pytest

HEAVY = {
    "alembic", "cv2", "fastapi", "jinja2", "llvmlite", "numba", "numpy", "PIL", "polars",
    "pydantic", "scipy", "sqlalchemy", "starlette", "typst", "uvicorn",
}  # fmt: skip

ONLY_THE_PACKAGE = "import puttwright"
THE_PROGRAM = """
from puttwright.cli import main
sys.argv = ["puttwright", {argument!r}]
try:
    main()
except SystemExit:
    pass
"""


def _imported_by(code):
    program = f"import sys, json\n{code}\nprint()\nprint(json.dumps(sorted(sys.modules)))"
    run = subprocess.run(
        [sys.executable, "-c", program], capture_output=True, text=True, check=True
    )
    return {name.split(".")[0] for name in json.loads(run.stdout.splitlines()[-1])}


@pytest.mark.parametrize(
    "code",
    [ONLY_THE_PACKAGE, *(THE_PROGRAM.format(argument=a) for a in ("--version", "--help"))],
    ids=["import", "version", "help"],
)
def test_nothing_heavy_is_imported_at_the_start(code):
    assert not _imported_by(code) & HEAVY
