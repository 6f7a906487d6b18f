#!/usr/bin/env bash
# The quick check before a commit: format and shell scripts, the dev build, all tests but those of the whole program.
#   --format       only the format of C++ and the shell scripts
#   --tidy [BASE]  clang-tidy on the files changed since BASE (default: origin/main if there is one, else HEAD)
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

tidy() {
  ensure_packages "${build_packages[@]}" "${test_packages[@]}" "${check_packages[@]}"
  local base=${1:-}
  if [[ -z $base ]]; then
    base=$(git rev-parse --verify --quiet origin/main || git rev-parse HEAD)
  fi
  # the build makes the sources that are generated
  cmake --preset clang
  cmake --build --preset clang
  local changed
  changed=$({
    git diff --name-only --diff-filter=d "$base" -- '*.cpp'
    git ls-files --others --exclude-standard -- '*.cpp'
  } | sort -u)
  if [[ -z $changed ]]; then
    printf 'tidy: no source changed since %s\n' "$base"
    return
  fi
  printf '%s\n' "$changed" | xargs -d '\n' -n 1 -P "$(nproc)" clang-tidy-14 -p build/clang --quiet --warnings-as-errors='*'
  printf 'tidy: ok\n'
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
  --tidy) tidy "${2:-}" ;;
  *) printf 'usage: tests/check.sh [--format | --tidy [BASE]]\n' >&2; exit 2 ;;
esac
