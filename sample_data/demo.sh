#!/usr/bin/env bash
# From nothing to quotes on a fresh Debian 12: installs what is missing, builds the program, makes a throw-away workshop
# filled with the demo's materials, and runs the main job on its four books. Stops at the first failure.
set -euo pipefail
root=$(cd "$(dirname "${BASH_SOURCE[0]}")/.." && pwd)
# shellcheck source=tests/packages.sh
. "$root/tests/packages.sh"

heading() { printf '\n=== %s\n' "$*"; }
run() {
  printf '\n$ endband %s\n' "$*"
  "$endband" "$@"
}

heading 'Build (build/demo)'
ensure_packages "${build_packages[@]}"
mkdir -p "$root/build"
cmake -S "$root" -B "$root/build/demo" -G Ninja -DCMAKE_BUILD_TYPE=Release -DCMAKE_CXX_FLAGS_RELEASE=-O2 \
  -DBUILD_TESTING=OFF -DENDBAND_WERROR=OFF -DCMAKE_CXX_COMPILER_LAUNCHER=ccache >"$root/build/demo-configure.log" ||
  { cat "$root/build/demo-configure.log"; exit 1; }
cmake --build "$root/build/demo"
endband=$root/build/demo/endband

place=$(mktemp -d)
trap 'rm -rf "$place"' EXIT
export ENDBAND_WORKSHOP=$place/workshop.db
books=$root/sample_data/books
spring=2026-02-02 autumn=2026-11-25

heading 'An invented workshop'
run --on 2026-01-05 workshop new --sample
run --on $spring workshop show
run --on $spring material list --kind leather
run --on $spring customer list
run --on $spring steps list set-stone

heading 'The book that six lines describe'
cat "$books/ferry_songs.toml"
run --on $spring book measure "$books/ferry_songs.toml"
run --on $spring quote make "$books/ferry_songs.toml" --customer ida-quill --yes

heading 'A pocket herbal, a customer'\''s own log, a grimoire'
for book in pocket_herbal saltmarsh_log hollow_tides; do
  run --on $spring quote make "$books/$book.toml" --yes
done
run --on $spring quote list

heading 'What the company reads, and what the binder reads'
run quote show 26-004
run quote explain 26-004
run quote explain 26-004 arc

heading 'Dearer skins: the same two books on another day, the old quote as it was'
run --on $autumn material price goat-moss-08 --pack '0.60 m2' --price 69.50 --carriage 3.20 --tax '19 %' \
  --supplier 'Osterholt Hides' --from 2026-11-25
run --on $autumn material show goat-midnight-10
run --on $autumn quote make "$books/ferry_songs.toml" --customer ida-quill --yes
run --on $autumn quote make "$books/hollow_tides.toml" --yes
run quote list
run quote show 26-004

heading 'Is all of it sound?'
run workshop check
run workshop log --last 3
heading 'Done'
