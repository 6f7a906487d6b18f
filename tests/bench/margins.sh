#!/usr/bin/env bash
# Builds the release preset and lists the margins of 100,000 past jobs, beside a bare C program that reads the same rows:
#   tests/bench/margins.sh [--jobs 100000] [--runs 5]
# With BUILD set, that folder's endband and bare_select are used as they are.
set -euo pipefail
root=$(cd "$(dirname "${BASH_SOURCE[0]}")/../.." && pwd)
if [[ -z ${BUILD:-} ]]; then
  (cd "$root" && cmake --preset release && cmake --build --preset release --target endband bare_select)
  BUILD=$root/build/release
fi
exec python3 -B "$root/tests/bench/margins.py" "$BUILD/endband" "$BUILD/tests/bench/bare_select" "$@"
