#!/usr/bin/env bash
# What takes too long for every run of the tests:
#   tests/long.sh years          200 invented past years with planted truths, and 200 without: what is named of them
#   tests/long.sh kills [2000]   so many processes killed while they write; how many fell inside a transaction
#   tests/long.sh walk           every step of every writing command over a failing disk, those of an import of years too
#   tests/long.sh together [60]  8 that write and 8 that read for so many seconds, backups meanwhile; then every page damaged
#   tests/long.sh fuzz [600]     each fuzz target for so many seconds, under the sanitizers
#   tests/long.sh properties [1000000]  every property of pure functions, in so many cases each (10,000: a minute on two cores)
#   tests/long.sh threads        what runs in threads, under the thread sanitizer
#   tests/long.sh lint [BASE]    cppcheck over all sources; clang-tidy over all, or those changed since BASE
#   tests/long.sh coverage       lines and branches of the engine that its own tests reach
#   tests/long.sh bench          all benchmarks in one table
# With BUILD set, that folder's programs are used as they are.
set -euo pipefail
here=$(cd "$(dirname "${BASH_SOURCE[0]}")" && pwd)
cd "$here/.."
# shellcheck source=tests/packages.sh
. tests/packages.sh
export LC_ALL=C.UTF-8 TZ=UTC PATH=/usr/bin:$PATH  # Debian's own python, whatever else is installed

# built PRESET TARGET...: sets BUILD, unless it is set
built() {
  local preset=$1
  shift
  [[ -z ${BUILD:-} ]] || return 0
  ensure_packages "${build_packages[@]}" "${test_packages[@]}"
  cmake --preset "$preset"
  cmake --build --preset "$preset" --target "$@"
  BUILD=$PWD/build/$preset
}

# with a sample workshop of the tests beside the program
sample() {
  [[ -f $BUILD/tests/cli/sample.db ]] || python3 -B tests/cli/make_sample.py "$BUILD/endband" "$BUILD/tests/cli/sample.db"
}

fuzz() {
  built asan fuzz_measures fuzz_csv fuzz_description fuzz_import fuzz_line
  local name keep
  for name in measures csv description import line; do
    keep=$BUILD/fuzz/$name
    mkdir -p "$keep"
    printf '\n== %s\n' "$name"
    bash tests/fuzz/run.sh "$BUILD/tests/fuzz/fuzz_$name" "$name" "${1:-600}" "$keep"
  done
}

# property PROGRAM CASE: one case of a test program, and the seconds that it took; all that it says if it fails, or is not found
property() {
  local began=$SECONDS said
  if said=$("$1" --no-version --test-case="${2//,/\\,}" 2>&1) && grep -qE 'test cases: +[1-9]' <<<"$said"; then  # "," parts two names
    printf '%6d s  %s: %s\n' $((SECONDS - began)) "${1##*/}" "$2"
  else
    printf 'failed    %s: %s\n%s\n' "${1##*/}" "$2" "$said"
    return 1
  fi
}

# Every case of the engine's test programs that have properties, each property in so many trials; goes on after one that fails.
properties() {
  local modules=(tests/engine/*) program
  built release "${modules[@]/%//all}"
  export RC_PARAMS="max_success=${1:-1000000}"
  export -f property
  find "$BUILD/tests/engine" -name 'test_*' -type f -executable | sort | while read -r program; do
    grep -q RC_PARAMS "$program" || continue  # no property in it
    "$program" --no-version --list-test-cases | grep -v '^[=[]' | while read -r name; do printf '%s\0%s\0' "$program" "$name"; done
  done | xargs -0 -n 2 -P "$(nproc)" bash -ec 'property "$@"' property
}

threads() {
  built tsan test_threads
  TSAN_OPTIONS=halt_on_error=1 "$BUILD/tests/cli/test_threads" --no-version
}

coverage() {
  ensure_packages "${build_packages[@]}" "${test_packages[@]}" "${check_packages[@]}"
  local modules=(tests/engine/* tests/outside) module
  cmake --preset coverage
  cmake --build --preset coverage --target "${modules[@]/%//all}"
  find build/coverage -name '*.gcda' -delete
  for module in "${modules[@]}"; do
    ctest --test-dir "build/coverage/$module" -j "$(nproc)" --quiet
  done
  gcovr --root . --filter 'engine/' --exclude-throw-branches --exclude-unreachable-branches --json build/coverage/reached.json \
    -j "$(nproc)" build/coverage
  gcovr --root . -a build/coverage/reached.json --exclude-throw-branches --txt build/coverage/lines.txt
  gcovr --root . -a build/coverage/reached.json --exclude-throw-branches --branches --txt build/coverage/branches.txt \
    --print-summary
}

lint() {
  bash tests/check.sh --cppcheck
  bash tests/check.sh --tidy "${1:-all}"
}

case ${1:-} in
  years) built release endband && python3 -B tests/long/past_years.py "$BUILD/endband" "${@:2}" ;;
  kills) built release endband && sample && KILLS=${2:-2000} python3 -B tests/faults/whole.py "$BUILD/endband" "$BUILD/tests/cli/sample.db" Killed ;;
  walk) built release endband walk_command && sample && python3 -B tests/faults/commands.py "$BUILD/endband" "$BUILD/tests/cli/sample.db" "$BUILD/tests/faults/walk_command" ;;
  together) built release endband && sample && python3 -B tests/faults/together.py "$BUILD/endband" "$BUILD/tests/cli/sample.db" --seconds "${2:-60}" --every-page ;;
  fuzz) fuzz "${2:-600}" ;;
  properties) properties "${2:-1000000}" ;;
  threads) threads ;;
  lint) lint "${@:2}" ;;
  coverage) coverage ;;
  bench) ensure_packages "${bench_packages[@]}" && bash tests/bench/all.sh "${@:2}" ;;
  *) printf 'usage: tests/long.sh years | kills | walk | together | fuzz | properties | threads | lint | coverage | bench\n' >&2; exit 2 ;;
esac
