#!/usr/bin/env bash
# See that the tests have a Chromium and a PDF renderer; on Debian as root, install what is missing.
set -euo pipefail

have_chromium() {
  [ -n "${PUTTWRIGHT_CHROMIUM:-}" ] || command -v chromium || command -v chromium-browser ||
    command -v google-chrome || [ -x "/Applications/Chromium.app/Contents/MacOS/Chromium" ]
} >/dev/null

missing=()
have_chromium || missing+=(chromium)
command -v pdftoppm >/dev/null || missing+=(poppler-utils)
[ ${#missing[@]} -eq 0 ] && exit 0

if [ "$(id -u)" = 0 ] && command -v apt-get >/dev/null; then
  export DEBIAN_FRONTEND=noninteractive
  apt-get update -q >/dev/null
  apt-get install -q -y --no-install-recommends "${missing[@]}" >/dev/null
  exit 0
fi

echo "The tests drive a real Chromium and look at real PDF pages, and here is no: ${missing[*]}." >&2
echo "Install it (Debian, Ubuntu: sudo apt-get install ${missing[*]}), or set PUTTWRIGHT_CHROMIUM" >&2
echo "to the program's path if Chromium is somewhere else. 'make fast' needs neither." >&2
exit 1
