#!/usr/bin/env bash
# Builds the release preset and measures what papers cost:
#   tests/bench/papers.sh [--quotes 100]
# With BUILD set, that folder's endband is used as it is.
set -euo pipefail
root=$(cd "$(dirname "${BASH_SOURCE[0]}")/../.." && pwd)
if [[ -z ${BUILD:-} ]]; then
  (cd "$root" && cmake --preset release && cmake --build --preset release --target endband)
  BUILD=$root/build/release
fi
exec python3 -B "$root/tests/bench/papers.py" "$BUILD/endband" "$@"
