#!/usr/bin/env bash
# Builds the release preset and runs all benchmarks: one table, each figure beside its yardstick, and how it grows.
#   tests/bench/all.sh [--quick]
# With BUILD set, that folder's programs are used as they are.
set -euo pipefail
root=$(cd "$(dirname "${BASH_SOURCE[0]}")/../.." && pwd)
if [[ -z ${BUILD:-} ]]; then
  (cd "$root" && cmake --preset release && cmake --build --preset release --target endband bench_engine growth_bench bench_ledger bench_reprice bare_select)
  BUILD=$root/build/release
fi
exec python3 -B "$root/tests/bench/all.py" "$BUILD" "$@"
