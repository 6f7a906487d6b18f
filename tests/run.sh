#!/usr/bin/env bash
# Builds everything with warnings as errors and runs every test; then, with clang and the address and undefined-behaviour
# sanitizers, all but the tests of whole processes once more, and the fuzz targets. The last line is "N passed, N failed, N skipped".
#   --all            a skipped test fails the run
#   --no-sanitizers  leaves the second pass out
set -euo pipefail
here=$(cd "$(dirname "${BASH_SOURCE[0]}")" && pwd)
cd "$here/.."
# shellcheck source=tests/packages.sh
. tests/packages.sh

all=no sanitizers=yes
for word in "$@"; do
  case $word in
    --all) all=yes ;;
    --no-sanitizers) sanitizers=no ;;
    *) printf 'usage: tests/run.sh [--all] [--no-sanitizers]\n' >&2; exit 2 ;;
  esac
done

ensure_packages "${build_packages[@]}" "${test_packages[@]}"
export LC_ALL=C.UTF-8 TZ=UTC PATH=/usr/bin:$PATH  # Debian's own python, whatever else is installed

shares=()
# suite PRESET ARGS...: builds and tests a preset. A failed test is counted below, not here.
suite() {
  local preset=$1 results="$PWD/build/$1/results.xml"
  shift
  local began=$SECONDS
  cmake --preset "$preset"
  cmake --build --preset "$preset"
  if [[ $preset == dev ]]; then
    cmake --build --preset dev --target all_verify_interface_header_sets
  fi
  shares+=("build-of-$preset=$((SECONDS - began))")
  rm -f "$results"
  began=$SECONDS
  ctest --preset "$preset" --output-junit "$results" "$@" || true
  shares+=("tests-of-$preset,-by-the-clock=$((SECONDS - began))")
}

suite dev
reports=(build/dev/results.xml)
if [[ $sanitizers == yes ]]; then
  suite asan --label-exclude '^(whole|walk)$'
  reports+=(build/asan/results.xml)
fi
python3 tests/summary.py "--skips-fail=$all" "${shares[@]}" "${reports[@]}"
