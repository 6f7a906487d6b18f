#!/usr/bin/env bash
# What takes too long for every run of the tests, with the release build:
#   tests/long.sh [years]    200 invented past years with planted truths, and 200 without: what is named of them
# With BUILD set, that folder's program is used as it is.
set -euo pipefail
here=$(cd "$(dirname "${BASH_SOURCE[0]}")" && pwd)
cd "$here/.."
# shellcheck source=tests/packages.sh
. tests/packages.sh
if [[ -z ${BUILD:-} ]]; then
  ensure_packages "${build_packages[@]}" python3
  cmake --preset release
  cmake --build --preset release --target endband
  BUILD=$PWD/build/release
fi
case ${1:-years} in
  years) python3 -B tests/long/past_years.py "$BUILD/endband" "${@:2}" ;;
  *) printf 'usage: tests/long.sh [years]\n' >&2; exit 2 ;;
esac
