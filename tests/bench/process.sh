#!/usr/bin/env bash
# Builds the release preset and holds whole processes against a bare C program on a workshop of 10,000 materials and
# 10,000 quotes:
#   tests/bench/process.sh [--runs 30] [--materials 10000] [--quotes 10000]
# With BUILD set, that folder's endband and bare_select are used as they are.
set -euo pipefail
root=$(cd "$(dirname "${BASH_SOURCE[0]}")/../.." && pwd)
if [[ -z ${BUILD:-} ]]; then
  (cd "$root" && cmake --preset release && cmake --build --preset release --target endband bare_select)
  BUILD=$root/build/release
fi
exec python3 -B "$root/tests/bench/process.py" "$BUILD/endband" "$BUILD/tests/bench/bare_select" "$@"
