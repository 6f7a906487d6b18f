#!/usr/bin/python3
"""Whole processes on a large workshop: `quote list` and `quote make` against a bare C program that opens the same file,
runs the same selects and inserts the same rows. Prints the median of each and their ratio; exits 1 when a ratio is over its limit.

  process.py ENDBAND BARE [--materials 10000] [--quotes 10000] [--runs 30]
"""

import argparse
import os
import pathlib
import shutil
import sqlite3
import statistics
import subprocess
import sys
import tempfile
import time

ROOT = pathlib.Path(__file__).resolve().parents[2]
BOOK = ROOT / "sample_data/books/hollow_tides.toml"
DAY = "2026-11-25"
LIMITS = {"quote list": 2.0, "quote make": 3.0}


def columns(db, table):
    return [row[1] for row in db.execute(f"PRAGMA table_info({table})")]


def copies(db, table, key, instead):
    """INSERT ... SELECT of the rows of `table` whose `key` is ?2, with `instead` in the columns that it names."""
    names = columns(db, table)
    values = ", ".join(instead.get(name, name) for name in names)
    return f"INSERT INTO {table} ({', '.join(names)}) SELECT {values} FROM {table} WHERE {key} = ?2"


def part_tables(db):
    """The tables whose rows belong to one quote, each after those it refers to."""
    return [row[0] for row in db.execute(
        "SELECT name FROM sqlite_schema WHERE type = 'table' AND name GLOB 'quote_*' ORDER BY rowid").fetchall()]


def grow_materials(db, to):
    (have,) = db.execute("SELECT count(*) FROM material").fetchone()
    seeds = db.execute("SELECT material, max(id) FROM material_version GROUP BY material").fetchall()
    version = copies(db, "material_version", "id", {"id": "NULL", "material": "?1"})
    price = copies(db, "price_version", "material", {"id": "NULL", "material": "?1"})
    for n in range(have, to):
        seed, latest = seeds[n % len(seeds)]
        row = db.execute("INSERT INTO material (code, entry) VALUES (?, 1)", (f"grown-{n:05}",)).lastrowid
        db.execute(version, (row, latest))
        db.execute(price, (row, seed))


def grow_quotes(db, to):
    (have,) = db.execute("SELECT count(*) FROM quote").fetchone()
    (seed,) = db.execute("SELECT max(id) FROM quote").fetchone()
    (count,) = db.execute("SELECT max(count) FROM commission WHERE year = 2026").fetchone()
    header = copies(db, "quote", "id", {"id": "NULL", "commission": "?1"})
    parts = [copies(db, table, "quote", {"quote": "?1"}) for table in part_tables(db)]
    for n in range(to - have):
        numbered = "INSERT INTO commission (year, count, entry) VALUES (2026, ?, 1)"
        commission = db.execute(numbered, (count + 1 + n,)).lastrowid
        row = db.execute(header, (commission, seed)).lastrowid
        for part in parts:
            db.execute(part, (row, seed))


def make_workshop(endband, path, materials, quotes):
    at = [endband, "--workshop", str(path), "--on", DAY]
    subprocess.run([*at, "workshop", "new", "--sample"], check=True, stdout=subprocess.DEVNULL)
    subprocess.run([*at, "quote", "make", str(BOOK), "--yes"], check=True, stdout=subprocess.DEVNULL)
    db = sqlite3.connect(path, isolation_level=None)
    db.execute("PRAGMA synchronous = OFF")
    db.execute("BEGIN")
    grow_materials(db, materials)
    grow_quotes(db, quotes)
    db.execute("COMMIT")
    codes = [row[0] for row in db.execute(
        "SELECT code FROM material m JOIN quote_material q JOIN material_version v ON v.id = q.material_version "
        "AND v.material = m.id WHERE q.quote = (SELECT max(id) FROM quote)")]
    rows = sum(db.execute(f"SELECT count(*) FROM {table} WHERE quote = (SELECT max(id) FROM quote)").fetchone()[0]
               for table in part_tables(db))
    db.execute("PRAGMA wal_checkpoint(TRUNCATE)")
    db.close()
    return codes, rows


def timed(command):
    """Milliseconds of wall clock and of processor."""
    began = time.perf_counter()
    child = subprocess.Popen(command, stdout=subprocess.DEVNULL)
    _, status, used = os.wait4(child.pid, 0)
    wall = time.perf_counter() - began
    if status != 0:
        sys.exit(f"{' '.join(command[:5])} ... ended with {os.waitstatus_to_exitcode(status)}")
    return wall * 1000, (used.ru_utime + used.ru_stime) * 1000


def compare(name, program, bare, runs):
    pairs = []
    for _ in range(runs + 3):  # turn about, so that whatever else the machine does falls on both
        pairs.append((timed(program), timed(bare)))
    pairs = pairs[3:]
    ours, theirs = [statistics.median(pair[side][0] for pair in pairs) for side in (0, 1)]
    cpu = [statistics.median(pair[side][1] for pair in pairs) for side in (0, 1)]
    ratio = ours / theirs
    print(f"{name}: {ours:.2f} ms (processor {cpu[0]:.2f}), bare {theirs:.2f} ms ({cpu[1]:.2f}): "
          f"{ratio:.2f} times, limit {LIMITS[name]:.0f}")
    return ratio <= LIMITS[name]


def main():
    parser = argparse.ArgumentParser(description=__doc__, formatter_class=argparse.RawDescriptionHelpFormatter)
    parser.add_argument("endband")
    parser.add_argument("bare")
    parser.add_argument("--materials", type=int, default=10_000)
    parser.add_argument("--quotes", type=int, default=10_000)
    parser.add_argument("--runs", type=int, default=30)
    asked = parser.parse_args()
    place = pathlib.Path(tempfile.mkdtemp(prefix="endband-bench-"))
    try:
        path = place / "workshop.db"
        codes, rows = make_workshop(asked.endband, path, asked.materials, asked.quotes)
        size = path.stat().st_size / 1e6
        print(f"workshop of {asked.materials} materials and {asked.quotes} quotes: {size:.0f} MB; "
              f"a quote reads {len(codes)} materials and writes {rows} rows")
        at = [asked.endband, "--workshop", str(path), "--on", DAY]
        bare = [asked.bare, str(path)]
        good = [compare("quote list", [*at, "quote", "list", "--last", "50"], [*bare, "list", "50"], asked.runs),
                compare("quote make", [*at, "quote", "make", str(BOOK), "--yes"], [*bare, "make", DAY, *codes],
                        asked.runs)]
    finally:
        shutil.rmtree(place)
    return 0 if all(good) else 1


if __name__ == "__main__":
    sys.exit(main())
