#!/usr/bin/python3
"""A large workshop as text and back, as whole processes: rows a second each way, and what of the way back is the check.

  whole.py ENDBAND [--quotes 2000]
"""

import argparse
import pathlib
import sqlite3
import subprocess
import sys
import tempfile
import time

BOOK = pathlib.Path(__file__).resolve().parents[2] / "sample_data" / "books" / "ferry_songs.toml"


def columns(db, table):
    return [row[1] for row in db.execute(f"PRAGMA table_info({table})")]


def grow(db, wanted):
    """Copies of one quote with all its parts, each of a commission of its own."""
    parts = [name for (name,) in db.execute("SELECT name FROM sqlite_schema WHERE type = 'table' AND name LIKE 'quote_%'")
             if "quote" in columns(db, name) and "id" not in columns(db, name)]
    entry, = db.execute("SELECT entry FROM quote WHERE id = 1").fetchone()
    names = [name for name in columns(db, "quote") if name not in ("id", "commission")]
    copy = f"INSERT INTO quote (commission, {', '.join(names)}) SELECT ?, {', '.join(names)} FROM quote WHERE id = 1"
    of = []
    for table in parts:
        rest = [name for name in columns(db, table) if name != "quote"]
        of.append(f"INSERT INTO {table} (quote, {', '.join(rest)}) SELECT ?, {', '.join(rest)} FROM {table} WHERE quote = 1")
    for count in range(2, wanted + 1):
        commission = db.execute("INSERT INTO commission (year, count, entry) VALUES (2026, ?, ?)", (count, entry)).lastrowid
        quote = db.execute(copy, (commission,)).lastrowid
        for line in of:
            db.execute(line, (quote,))


def timed(line):
    began = time.perf_counter()
    done = subprocess.run(line, check=False, stdout=subprocess.DEVNULL)
    if done.returncode != 0:
        sys.exit(f"{' '.join(map(str, line))} ended with {done.returncode}")
    return time.perf_counter() - began


def main():
    parser = argparse.ArgumentParser(description="A large workshop as text and back.")
    parser.add_argument("endband")
    parser.add_argument("--quotes", type=int, default=2000)
    asked = parser.parse_args()
    with tempfile.TemporaryDirectory(prefix="endband-whole-") as place:
        at = [pathlib.Path(place) / name for name in ("workshop.db", "workshop.jsonl", "anew.db", "anew.jsonl")]
        workshop, text, anew, again = map(str, at)
        timed([asked.endband, "--workshop", workshop, "--on", "2026-06-01", "workshop", "new", "--sample"])
        timed([asked.endband, "--workshop", workshop, "--on", "2026-06-01", "quote", "make", str(BOOK)])
        db = sqlite3.connect(workshop, isolation_level=None)
        db.execute("PRAGMA synchronous = OFF")
        db.execute("BEGIN")
        grow(db, asked.quotes)
        db.execute("COMMIT")
        db.execute("PRAGMA wal_checkpoint(TRUNCATE)")
        db.close()
        out = timed([asked.endband, "--workshop", workshop, "workshop", "export", "-o", text])
        back = timed([asked.endband, "--workshop", anew, "workshop", "new", "--from", text])
        check = timed([asked.endband, "--workshop", anew, "workshop", "check"])
        timed([asked.endband, "--workshop", anew, "workshop", "export", "-o", again])
        if at[1].read_bytes() != at[3].read_bytes():
            sys.exit("the text of what was made anew differs")
        with open(text, "rb") as file:
            rows = sum(1 for _ in file) - 2
        size = at[1].stat().st_size / 1e6
        print(f"{asked.quotes} quotes, {rows} rows, {size:.0f} MB of text")
        print(f"out  {out:7.2f} s  {rows / out:10,.0f} rows/s")
        print(f"back {back:7.2f} s  {rows / back:10,.0f} rows/s, of it the check {check:.2f} s")


if __name__ == "__main__":
    main()
