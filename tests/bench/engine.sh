#!/usr/bin/env bash
# Builds the release preset and measures the engine on the fullest book of the demo workshop. What is said is handed to
# Google Benchmark:
#   tests/bench/engine.sh [--benchmark_min_time=2]
# then a price found under many fees, and the budget of ten options. With BUILD set, that folder's programs are used as they are.
set -euo pipefail
root=$(cd "$(dirname "${BASH_SOURCE[0]}")/../.." && pwd)
if [[ -z ${BUILD:-} ]]; then
  (cd "$root" && cmake --preset release && cmake --build --preset release --target bench_engine price_bench budget_bench endband)
  BUILD=$root/build/release
fi
place=$(mktemp -d)
trap 'rm -rf "$place"' EXIT
"$BUILD/endband" --workshop "$place/workshop.db" --on 2026-01-05 workshop new --sample >"$place/new.txt"
"$BUILD/tests/bench/bench_engine" "$place/workshop.db" "$root/sample_data/books/hollow_tides.toml" "$@"
"$BUILD/tests/bench/price_bench" "$@"
"$BUILD/tests/bench/budget_bench" "$place/workshop.db" "$root/sample_data/books/hollow_tides.toml"
