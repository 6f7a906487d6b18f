#!/usr/bin/env bash
# Builds the release preset and reprices a workshop of 10,000 and of 100,000 quotes, copies of three of the demo workshop:
#   tests/bench/reprice.sh [QUOTES ...]
# With BUILD set, that folder's programs are used as they are.
set -euo pipefail
root=$(cd "$(dirname "${BASH_SOURCE[0]}")/../.." && pwd)
if [[ -z ${BUILD:-} ]]; then
  (cd "$root" && cmake --preset release && cmake --build --preset release --target endband bench_reprice)
  BUILD=$root/build/release
fi
place=$(mktemp -d)
trap 'rm -rf "$place"' EXIT
workshop=$place/workshop.db
"$BUILD/endband" --workshop "$workshop" --on 2026-01-05 workshop new --sample >"$place/new.txt"
for book in hollow_tides saltmarsh_log quay_ballads; do
  "$BUILD/endband" --workshop "$workshop" --on 2026-03-02 quote make "$root/sample_data/books/$book.toml" >"$place/quote.txt"
done
[[ $# -gt 0 ]] || set -- 10000 100000
missed=0
for quotes in "$@"; do
  "$BUILD/tests/bench/bench_reprice" grow "$workshop" "$quotes"
  "$BUILD/tests/bench/bench_reprice" measure "$workshop" 2026-11-25 || missed=1
done
exit $missed
