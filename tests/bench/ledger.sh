#!/usr/bin/env bash
# Builds the release preset and measures a ledger of a million movements against bare SQLite:
#   tests/bench/ledger.sh [MOVEMENTS]
# With BUILD set, that folder's bench_ledger is used as it is.
set -euo pipefail
root=$(cd "$(dirname "${BASH_SOURCE[0]}")/../.." && pwd)
if [[ -z ${BUILD:-} ]]; then
  (cd "$root" && cmake --preset release && cmake --build --preset release --target bench_ledger)
  BUILD=$root/build/release
fi
place=$(mktemp -d)
trap 'rm -rf "$place"' EXIT
"$BUILD/tests/bench/bench_ledger" "$place" "$@"
