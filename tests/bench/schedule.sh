#!/usr/bin/env bash
# Builds the release preset and runs the project scheduler on a folder of PSPLIB instances (.sm, and optimum.csv where the
# optima are known); what follows is handed on:
#   tests/bench/schedule.sh FOLDER [--schedules N] [--seed N]
# With BUILD set, that folder's schedule_bench is used as it is.
set -euo pipefail
root=$(cd "$(dirname "${BASH_SOURCE[0]}")/../.." && pwd)
if [[ -z ${BUILD:-} ]]; then
  (cd "$root" && cmake --preset release && cmake --build --preset release --target schedule_bench) >&2
  BUILD=$root/build/release
fi
exec "$BUILD/tests/bench/schedule/schedule_bench" "$@"
