#!/usr/bin/env bash
# The quick check before a commit: format and shell scripts, the dev build, all tests but those of the whole program.
#   --format       only the format of C++ and the shell scripts
#   --cppcheck     cppcheck over all sources (some minutes); .cppcheck has what it is wrong about
#   --tidy [BASE]  clang-tidy on the sources changed since BASE (default: origin/main if there is one, else HEAD), or on `all`
set -euo pipefail
here=$(cd "$(dirname "${BASH_SOURCE[0]}")" && pwd)
cd "$here/.."
# shellcheck source=tests/packages.sh
. tests/packages.sh

format() {
  ensure_packages git clang-format-14 shellcheck
  git ls-files -z --cached --others --exclude-standard -- '*.cpp' '*.h' |
    xargs -0 --no-run-if-empty clang-format-14 --dry-run -Werror
  git ls-files -z --cached --others --exclude-standard -- '*.sh' .ci/run | xargs -0 --no-run-if-empty shellcheck -x
  printf 'format: ok\n'
}

# sources_since BASE: those changed since BASE, or all
sources_since() {
  if [[ $1 == all ]]; then
    git ls-files --cached --others --exclude-standard -- '*.cpp'
  else
    git diff --name-only --diff-filter=d "$1" -- '*.cpp'
    git ls-files --others --exclude-standard -- '*.cpp'
  fi | sort -u
}

# the compile commands, and the sources that a build makes
clang_tree() {
  ensure_packages "${build_packages[@]}" "${test_packages[@]}" "${check_packages[@]}"
  cmake --preset clang
  cmake --build --preset clang --target generated
}

run_cppcheck() {
  clang_tree
  cppcheck --project=build/clang/compile_commands.json --enable=warning,performance,portability --suppressions-list=.cppcheck \
    --error-exitcode=1 --quiet -j "$(nproc)"
  printf 'cppcheck: ok\n'
}

tidy() {
  clang_tree
  local base=${1:-}
  if [[ -z $base ]]; then
    base=$(git rev-parse --verify --quiet origin/main || git rev-parse HEAD)
  fi
  local sources  # the benchmarks and the fuzz targets are not of this preset
  sources=$(comm -12 <(sources_since "$base") <(sed -n "s|^ *\"file\": \"$PWD/\(.*\)\",\{0,1\}$|\1|p" build/clang/compile_commands.json | sort -u))
  if [[ -z $sources ]]; then
    printf 'tidy: no source changed since %s\n' "$base"
    return
  fi
  printf '%s\n' "$sources" | xargs -d '\n' -n 1 -P "$(nproc)" clang-tidy-14 -p build/clang --quiet
  printf 'tidy: ok, %s sources\n' "$(wc -l <<<"$sources")"
}

quick() {
  format
  ensure_packages "${build_packages[@]}" "${test_packages[@]}"
  export LC_ALL=C.UTF-8 TZ=UTC PATH=/usr/bin:$PATH  # Debian's own python, whatever else is installed
  cmake --preset dev
  cmake --build --preset dev
  ctest --preset dev --label-exclude '^whole$'
}

case ${1:-} in
  '') quick ;;
  --format) format ;;
  --cppcheck) run_cppcheck ;;
  --tidy) tidy "${2:-}" ;;
  *) printf 'usage: tests/check.sh [--format | --cppcheck | --tidy [BASE]]\n' >&2; exit 2 ;;
esac
