#!/usr/bin/env bash
# From nothing to quotes on a fresh Debian 12: installs what is missing, builds the program, makes a throw-away workshop
# filled with the demo's materials, quotes its books and keeps a month of stock and jobs. Stops at the first failure.
set -euo pipefail
root=$(cd "$(dirname "${BASH_SOURCE[0]}")/.." && pwd)
# shellcheck source=tests/packages.sh
. "$root/tests/packages.sh"

heading() { printf '\n=== %s\n' "$*"; }
run() {
  printf '\n$ endband %s\n' "$*"
  "$endband" "$@"
}
# One sentence, then the book measured and quoted without a word: the list that follows shows what came of it.
book() {
  local name=$1 customer=(--customer ida-quill)
  grep -q '^customer = ' "$books/$name.toml" && customer=()
  printf '%s\n' "$2"
  "$endband" --on $autumn book measure "$books/$name.toml" >/dev/null
  "$endband" --on $autumn quote make "$books/$name.toml" "${customer[@]}" --yes >/dev/null
}

# Every command of a file in its order, those that match what is to be seen with their answers. BOOKS, OUTLETS and CARRIAGE are
# where those are.
replay() {
  local file=$1 seen=$2 line line_here
  local -a words
  while IFS= read -r line; do
    [[ -z $line || $line == '#'* ]] && continue
    line_here=${line//BOOKS/\"\$books\"}
    line_here=${line_here//OUTLETS/\"\$root/sample_data/outlets\"}
    eval "words=(${line_here//CARRIAGE/\"\$root/sample_data/carriage\"})" # the file quotes its words as a shell does
    if [[ $line =~ $seen ]]; then
      printf '\n$ endband %s\n' "$line"
      "$endband" "${words[@]}"
    else
      "$endband" "${words[@]}" >/dev/null
    fi
  done <"$file"
}

heading 'Build (build/demo)'
ensure_packages "${build_packages[@]}" python3 fonts-ebgaramond
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

heading 'Every binding, and its box: each book measured and quoted'
book moor_flora 'Recessed cords: a flora with a smooth back, a hollow and false bands, sewn two on.'
book band_minutes 'Tapes: a minute book in quarter leather, between split boards, its endbands on two cores.'
book chess_endings 'A case in full cloth, lettered with a die that is cut for it.'
book bell_methods 'A case in half leather: cloth sides, sprinkled edges, lettered line by line from set type.'
book mill_poems 'Five copies in quarter cloth with marbled sides, made together.'
book rigger_sketches 'A link stitch: drawing paper between two covered boards, the spine bare.'
book moth_notes 'A long stitch: through limp calf, with a flap and a tie.'
book forty_loaves 'One section, sewn through its fold into a card wrapper.'
book orchard_album 'An album: guards make up at the spine for the photographs to come.'
book school_atlas 'A rebinding: pulled, cleaned, guarded, mended and bound anew; what the customer left is written down.'
book glass_letters 'A set of two volumes, their covers from one batch of skins.'
book tower_clock 'A fine one: gilt head, leather joints, an onlay and a panel let in, and a slipcase.'
book lace_box 'A box alone, for a book that is there already.'
run quote list

heading 'One of them, drawn: the section, the spine and the covering laid flat'
run --on $autumn book measure "$books/bell_methods.toml" --svg "$place/drawings" | sed -n '2p; /^Drawings/,$p'

heading 'A month at the bench: what came, four books, and a count at its end'
export ENDBAND_WORKSHOP=$place/month.db
"$endband" --on 2026-01-05 workshop new --sample >/dev/null
replay "$root/sample_data/month.commands" \
  'receive "calf|receive "cloth|accept 26-002|use 26-002 --as-quoted|--offcut|job finish|job vary|job cancel|count paste-starch 240'
month_end=2026-03-31
run --on $month_end stock list
run --on $month_end stock to-buy
run --on $month_end job list --ended
run --on $month_end job show 26-002
run --on $month_end stock offcuts
run --on $month_end workshop undo --dry-run
run --on $month_end workshop check

heading 'Cut by plan: a measured skin, a book cut from it, and a smaller one from what is left'
replay "$root/sample_data/cutting.commands" 'receive "goat|job cut'
run --on 2026-04-14 stock list goat-moss-08 --lots
run --on 2026-04-14 job cut 26-006 --svg "$place/cuts" | tail -1
run --on 2026-04-14 workshop check

heading 'Which day to name: two books and a box are ordered, and a fourth is asked for by a day'
export ENDBAND_WORKSHOP=$place/bench.db
"$endband" --on 2026-01-05 workshop new --sample >/dev/null
run --on 2026-11-30 bench show
replay "$root/sample_data/bench.commands" 'chess_endings'
run --on 2026-11-30 bench week --days 21 --with 26-004
run --on 2026-11-30 bench week --days 21 --with 26-004 --svg "$place/bench" | tail -1
run --on 2026-11-30 quote odds 26-004
run --on 2026-12-01 job time 26-001 fold-sheets --finished
run --on 2026-12-01 job show 26-001

heading 'Papers: the quotation as pages and as an open form, what lies on the bench, the whole workshop as text'
run --on 2026-12-01 quote print 26-004 -o "$place/quotation.pdf"
run --on 2026-12-01 quote print 26-004 --as ubl -o "$place/quotation.xml"
run --on 2026-12-01 job print 26-001 -o "$place/confirmation.pdf"
run --on 2026-12-01 job sheet 26-001 -o "$place/job-sheet.pdf"
run --on 2026-12-01 material export --kind leather -o "$place/leather.csv"
sed -n 1,3p "$place/leather.csv"
run --on 2026-12-01 workshop export -o "$place/workshop.jsonl"
run --on 2026-12-01 workshop new --from-text "$place/workshop.jsonl" --workshop "$place/again.db"

heading 'Selling: what one book leaves here and there, a sale, a quote with options for a budget'
export ENDBAND_WORKSHOP=$place/selling.db
"$endband" --on 2026-01-05 workshop new --sample >/dev/null
replay "$root/sample_data/selling.commands" 'add mothwing|add gallery'
run --on 2026-09-10 rates list
run --on 2026-09-10 listing price "$books/chess_endings.toml" --through mothwing
run --on 2026-09-10 listing price "$books/chess_endings.toml" --through post,gallery,fathom --sale '15 %'
run --on 2026-09-10 listing price "$books/chess_endings.toml" --through post,fair,gallery --one-price
run --on 2026-09-10 quote make "$books/quay_ballads.toml" --budget 900 --yes
run --on 2026-09-10 quote send 26-001
run --on 2026-09-10 quote show 26-001
run --on 2026-09-10 quote weigh 26-001
run --on 2026-09-10 listing post "$books/chess_endings.toml" --through mothwing --yes
run --on 2026-11-20 listing change 1 --at-price 790 --words 'winter sale'
run --on 2027-09-10 listing list
run --on 2027-09-10 workshop check

heading 'Was it worth it: a year of commissions out of a notebook, and what it teaches'
export ENDBAND_WORKSHOP=$place/year.db
looking_back=2027-04-02
"$endband" --on 2026-01-05 workshop new --sample >/dev/null
for outlet in post gallery fair; do
  "$endband" --on 2026-01-06 outlet add "$outlet" "$root/sample_data/outlets/$outlet.toml" >/dev/null
done
ln -s "$books" "$place/books"
python3 -B "$root/sample_data/past_year.py" 7 --from 2026-02 --out "$place/notebook.toml"
printf '\n$ endband --on %s workshop import notebook.toml\n' $looking_back
"$endband" --on $looking_back workshop import "$place/notebook.toml" | sed -n '1,6p; $p'
printf '\nWhich kind of book should I make more of, and where sell it?\n'
run --on $looking_back margins list --by binding
run --on $looking_back margins worth
printf '\nWhich step do I misjudge?\n'
run --on $looking_back steps learn
run --on $looking_back steps learn --accept sew-sections --from 2027-04-05 | tail -1
printf '\nWhat must I reprice?\n'
run --on 2027-04-05 margins reprice
run --on 2027-04-05 margins reprice --if goat-oxblood-09=+12% --if rate=+2.00 | sed -n 1,12p
printf '\nAnd that one book?\n'
fell_furthest=$("$endband" --on $looking_back --jsonl margins list --sort gap | sed -n '1s/.*"job":"\([^"]*\)".*/\1/p')
run --on $looking_back margins show "$fell_furthest" --svg "$place/figures"
run --on $looking_back margins year
run --on $looking_back margins report -o "$place/looking-back.pdf"
run --on $looking_back workshop check
export ENDBAND_WORKSHOP=$place/workshop.db

heading 'Is all of it sound?'
run workshop check
run workshop log --last 3
heading 'Done'
