#!/usr/bin/python3
"""A large workshop as text and back, as whole processes: rows a second each way, and what of the way back is the check.

  whole.py ENDBAND [--commands 250000]
"""

import argparse
import pathlib
import sqlite3
import subprocess
import sys
import tempfile
import time

BOOK = pathlib.Path(__file__).resolve().parents[2] / "sample_data" / "books" / "ferry_songs.toml"


def grow(db, wanted):
    """So many days on which a setting was said anew: an entry in the log and a version each."""
    entry, = db.execute("SELECT max(seq) FROM entry").fetchone()
    db.executemany("INSERT INTO entry (seq, at_utc, on_date, command, program) VALUES (?, '2026-06-01T08:00:00Z', '2026-06-01', "
                   "'workshop set maker.email=bench@example.org', 'endband 0.1.0')", ((entry + n,) for n in range(1, wanted + 1)))
    db.executemany("INSERT INTO setting_version (name, value, valid_from, entry) VALUES ('maker.email', 'bench@example.org', '2026-06-01', ?)",
                   ((entry + n,) for n in range(1, wanted + 1)))


def timed(line):
    began = time.perf_counter()
    done = subprocess.run(line, check=False, stdout=subprocess.DEVNULL)
    if done.returncode != 0:
        sys.exit(f"{' '.join(map(str, line))} ended with {done.returncode}")
    return time.perf_counter() - began


def main():
    parser = argparse.ArgumentParser(description="A large workshop as text and back.")
    parser.add_argument("endband")
    parser.add_argument("--commands", type=int, default=250_000)
    asked = parser.parse_args()
    with tempfile.TemporaryDirectory(prefix="endband-whole-") as place:
        at = [pathlib.Path(place) / name for name in ("workshop.db", "workshop.jsonl", "anew.db", "anew.jsonl")]
        workshop, text, anew, again = map(str, at)
        timed([asked.endband, "--workshop", workshop, "--on", "2026-06-01", "workshop", "new", "--sample"])
        timed([asked.endband, "--workshop", workshop, "--on", "2026-06-01", "quote", "make", str(BOOK)])
        db = sqlite3.connect(workshop, isolation_level=None)
        db.execute("PRAGMA synchronous = OFF")
        db.execute("BEGIN")
        grow(db, asked.commands)
        db.execute("COMMIT")
        db.execute("PRAGMA wal_checkpoint(TRUNCATE)")
        db.close()
        out = timed([asked.endband, "--workshop", workshop, "workshop", "export", "-o", text])
        back = timed([asked.endband, "--workshop", anew, "workshop", "new", "--from-text", text])
        check = timed([asked.endband, "--workshop", anew, "workshop", "check"])
        timed([asked.endband, "--workshop", anew, "workshop", "export", "-o", again])
        if at[1].read_bytes() != at[3].read_bytes():
            sys.exit("the text of what was made anew differs")
        with open(text, "rb") as file:
            rows = sum(1 for _ in file) - 2
        size = at[1].stat().st_size / 1e6
        print(f"{asked.commands} commands, {rows} rows, {size:.0f} MB of text")
        print(f"out  {out:7.2f} s  {rows / out:10,.0f} rows/s")
        print(f"back {back:7.2f} s  {rows / back:10,.0f} rows/s, of it the check {check:.2f} s")


if __name__ == "__main__":
    main()
