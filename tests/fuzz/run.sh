#!/usr/bin/env bash
# Gives a fuzz target its corpus and then so many seconds of its own ideas:
#   tests/fuzz/run.sh PROGRAM NAME SECONDS [FOLDER]
# What it finds new is kept in FOLDER, else thrown away. An input that fails is left there, or under /tmp.
set -euo pipefail
here=$(cd "$(dirname "${BASH_SOURCE[0]}")" && pwd)
program=$1 name=$2 seconds=$3 keep=${4:-}
place=$(mktemp -d)
trap 'rm -rf "$place"' EXIT
words=()
[[ -f $here/$name.dict ]] && words=("-dict=$here/$name.dict")
# With its weights by rare features libFuzzer spends two thirds of the time on its own books: a command line has many.
"$program" -entropic=0 -max_total_time="$seconds" -seed=20261127 -timeout=60 -rss_limit_mb=4096 -print_final_stats=1 \
  -artifact_prefix="${keep:-/tmp}/failing-$name-" "${words[@]}" "${keep:-$place}" "$here/corpus/$name" 2>&1 |
  grep -vE '^[[:space:]]*(#[0-9]+[[:space:]]|"|###|NEW_FUNC|INFO)' | tail -60
