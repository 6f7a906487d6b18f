#!/usr/bin/python3
"""Looking back on very many past commissions, as whole processes: `margins list` against a bare C program that reads the same
rows of the same tables. Prints the best of each, their ratio and the memory; exits 1 when a second is not enough.

  margins.py ENDBAND BARE [--jobs 100000] [--runs 5]
"""

import argparse
import os
import pathlib
import resource
import sqlite3
import subprocess
import sys
import tempfile
import time

ROOT = pathlib.Path(__file__).resolve().parents[2]
SAMPLE = ROOT / "sample_data"
LOOKED = "2027-06-30"
LIMIT_S = 1.0
TABLES = {  # of a finished job, and which column names what it belongs to
    "quote_terms": "quote", "quote_sheet": "quote", "quote_offer": "quote", "quote_offer_line": "quote", "quote_outlet": "quote",
    "quote_walk": "quote", "quote_discount": "quote", "job_agreed": "job", "job_event": "job", "job_result": "job",
}
SAME_ROWS = """
SELECT j.id, c.year, c.count, q.title, q.binding, o.code, cu.code, q.on_date, e.on_date, off.money_left, sh.labour, r.labour, r.seconds,
  r.total, r.kept, t.delivery_carriage, off.tax, w.price, w.yours, w.all_fees, w.exchange_cost, d.share_num, d.share_den, sh.seconds_num,
  sh.seconds_den
FROM job_event e JOIN job j ON j.id = e.job JOIN job_result r ON r.job = j.id JOIN commission c ON c.id = j.commission
JOIN job_agreed a ON a.job = j.id JOIN quote q ON q.id = a.quote JOIN quote_sheet sh ON sh.quote = q.id
JOIN quote_offer off ON off.quote = q.id JOIN quote_terms t ON t.quote = q.id LEFT JOIN quote_outlet o ON o.quote = q.id
LEFT JOIN quote_walk w ON w.quote = q.id LEFT JOIN quote_discount d ON d.quote = q.id LEFT JOIN customer cu ON cu.id = q.customer
WHERE e.event = 'finished'"""


def columns(db, table):
    return [row[1] for row in db.execute(f"PRAGMA table_info({table})")]


def copies(db, table, key, instead):
    names = columns(db, table)
    values = ", ".join(instead.get(name, name) for name in names)
    return f"INSERT INTO {table} ({', '.join(names)}) SELECT {values} FROM {table} WHERE {key} = ?2"


def grow(db, wanted):
    """Copies of the finished jobs, with all that a list of them reads."""
    seeds = db.execute("SELECT j.id, a.quote FROM job j JOIN job_agreed a ON a.job = j.id JOIN job_event e ON e.job = j.id "
                       "WHERE e.event = 'finished'").fetchall()
    quote = copies(db, "quote", "id", {"id": "NULL", "commission": "?1"})
    job = copies(db, "job", "id", {"id": "NULL", "commission": "?1"})
    of = {table: copies(db, table, key, {"id": "NULL", key: "?1", "quote": "?3" if table == "job_agreed" else "?1"})
          for table, key in TABLES.items()}
    for n in range(wanted - len(seeds)):
        seed_job, seed_quote = seeds[n % len(seeds)]
        commission = db.execute("INSERT INTO commission (year, count, entry) VALUES (2000, ?, 1)", (n + 1,)).lastrowid
        new_quote = db.execute(quote, (commission, seed_quote)).lastrowid
        new_job = db.execute(job, (commission, seed_job)).lastrowid
        for table, key in TABLES.items():
            line = (new_quote, seed_quote) if key == "quote" else (new_job, seed_job)
            db.execute(of[table], (*line, new_quote) if table == "job_agreed" else line)


def make(endband, folder, jobs):
    path = folder / "workshop.db"

    def run(on, *words):
        subprocess.run([endband, "--workshop", str(path), "--on", on, *words], check=True, stdout=subprocess.DEVNULL)

    run("2026-01-05", "workshop", "new", "--sample")
    for outlet in ("post", "gallery", "fair"):
        run("2026-01-05", "outlet", "add", outlet, str(SAMPLE / "outlets" / f"{outlet}.toml"))
    (folder / "books").symlink_to(SAMPLE / "books")
    subprocess.run([sys.executable, "-B", str(SAMPLE / "past_year.py"), "1", "--from", "2026-02", "--out",
                    str(folder / "past.toml")], check=True)
    run(LOOKED, "workshop", "import", str(folder / "past.toml"))
    db = sqlite3.connect(path, isolation_level=None)
    db.execute("PRAGMA synchronous = OFF")
    db.execute("BEGIN")
    grow(db, jobs)
    db.execute("COMMIT")
    db.execute("PRAGMA wal_checkpoint(TRUNCATE)")
    db.close()
    return path


def best(line, runs):
    seconds = []
    for _ in range(runs):
        began = time.perf_counter()
        subprocess.run(line, check=True, stdout=subprocess.DEVNULL, env={**os.environ, "LC_ALL": "C.UTF-8"})
        seconds.append(time.perf_counter() - began)
    return min(seconds)


def main():
    parser = argparse.ArgumentParser(description="Looking back on very many past commissions.")
    parser.add_argument("endband")
    parser.add_argument("bare")
    parser.add_argument("--jobs", type=int, default=100_000)
    parser.add_argument("--runs", type=int, default=5)
    asked = parser.parse_args()
    with tempfile.TemporaryDirectory(prefix="endband-margins-") as place:
        path = make(asked.endband, pathlib.Path(place), asked.jobs)
        at = [asked.endband, "--workshop", str(path), "--on", LOOKED]
        bare = best([asked.bare, str(path), "read", " ".join(SAME_ROWS.split())], asked.runs)
        print(f"{asked.jobs} past jobs; bare select of the same rows {bare:.3f} s")
        good = True
        for words in (["margins", "list", "--by", "binding"], ["margins", "list", "--by", "month"], ["--json", "margins", "list"]):
            took = best([*at, *words], asked.runs)
            good &= took < LIMIT_S or "--json" in words
            print(f"{' '.join(words)}: {took:.3f} s, {took / bare:.2f} x the bare select")
        print(f"peak memory of the largest: {resource.getrusage(resource.RUSAGE_CHILDREN).ru_maxrss / 1024:.0f} MB")
    return 0 if good else 1


if __name__ == "__main__":
    sys.exit(main())
