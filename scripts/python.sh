#!/usr/bin/env bash
# Make the virtual environment with the given Python, or say in a sentence why that cannot be.
# Usage: scripts/python.sh PYTHON FOLDER
set -euo pipefail
python=$1
folder=$2
if [ -x "$folder/bin/python" ]; then
  exit 0
fi
if ! command -v "$python" >/dev/null; then
  echo "puttwright needs Python 3.11 or newer, and there is no '$python' here." >&2
  echo "Install it, or name another: make setup PYTHON=/path/to/python3.12" >&2
  exit 1
fi
if ! "$python" -c 'import sys; sys.exit(sys.version_info < (3, 11))'; then
  echo "puttwright needs Python 3.11 or newer; '$python' is $("$python" -V 2>&1)." >&2
  echo "Name another: make setup PYTHON=/path/to/python3.12" >&2
  exit 1
fi
if ! "$python" -m venv "$folder"; then
  echo "'$python' cannot make a virtual environment (Debian, Ubuntu: apt-get install python3-venv)." >&2
  exit 1
fi
