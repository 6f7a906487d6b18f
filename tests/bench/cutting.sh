#!/usr/bin/env bash
# Builds the release preset and measures the cutting solvers on a folder of instances with known answers; what follows is
# handed on:
#   tests/bench/cutting.sh FOLDER [--ms 100] [--threads 2] [--family NAME] [--limit N] [--work N] [--summary]
# With BUILD set, that folder's cutting_bench is used as it is.
set -euo pipefail
root=$(cd "$(dirname "${BASH_SOURCE[0]}")/../.." && pwd)
if [[ -z ${BUILD:-} ]]; then
  (cd "$root" && cmake --preset release && cmake --build --preset release --target cutting_bench) >&2
  BUILD=$root/build/release
fi
exec "$BUILD/tests/bench/cutting/cutting_bench" "$@"
