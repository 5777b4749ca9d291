#!/usr/bin/env bash
# Run one step of the tests and say how long it took: scripts/step.sh NAME COMMAND...
set -uo pipefail
name=$1
shift
started=$(date +%s.%N)
printf '\n== %s\n' "$name"
"$@"
code=$?
printf '== %s: %s in %.1f s\n' "$name" "$([ $code -eq 0 ] && echo done || echo FAILED)" \
  "$(echo "$(date +%s.%N) $started" | awk '{print $1 - $2}')"
exit $code
