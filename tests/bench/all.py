#!/usr/bin/python3
"""All benchmarks, as one table: what, at what size, beside what yardstick in the same run, the ratio, and the exponent with
which it grows over the sizes.

    all.py BUILD [--quick]      BUILD: of the release preset; --quick: smaller sizes, fewer runs
"""

import argparse
import contextlib
import json
import math
import os
import shutil
import sqlite3
import statistics
import subprocess
import sys
import tempfile
from collections import defaultdict
from pathlib import Path

sys.path.insert(0, str(Path(__file__).resolve().parent))
import papers  # noqa: E402
import process  # noqa: E402

ROOT = Path(__file__).resolve().parents[2]
BOOK = ROOT / "sample_data" / "books" / "hollow_tides.toml"
PRICED = ("hollow_tides", "saltmarsh_log", "quay_ballads")


def said(*words, **more):
    """What a measuring program prints; one that misses a limit of its own says so and goes on."""
    done = subprocess.run([str(word) for word in words], capture_output=True, text=True, check=False, **more)
    if done.returncode not in (0, 1):
        sys.exit(f"{words[0]}: {done.stderr}")
    for line in done.stdout.splitlines():
        if "MISSED" in line:
            print(f"{Path(words[0]).name}: {line}", file=sys.stderr)
    return done.stdout


class Table:
    def __init__(self):
        self.rows = defaultdict(list)  # what: (size, ours, beside, theirs), in seconds

    def add(self, what, size, ours, beside, theirs):
        self.rows[what].append((size, ours, beside, theirs))
        print(f"  {what}, {size:.0f}: {self.time(ours).strip()}, {beside} {self.time(theirs).strip()}", file=sys.stderr, flush=True)

    def take_lines(self, text):
        for line in text.splitlines():
            if line.startswith("ROW\t"):
                _, what, size, ours, beside, theirs = line.split("\t")
                self.add(what, float(size), float(ours), beside, float(theirs))

    @staticmethod
    def exponent(rows):
        """The slope of a line through the logarithms: 0 does not grow, 1 grows as its size."""
        if len(rows) < 2:
            return ""
        x, y = [math.log(row[0]) for row in rows], [math.log(row[1]) for row in rows]
        return f"{statistics.linear_regression(x, y).slope:.2f}"

    @staticmethod
    def time(seconds):
        for unit, factor in (("s ", 1), ("ms", 1e3), ("us", 1e6)):
            if seconds * factor >= 1:
                return f"{seconds * factor:8.2f} {unit}"
        return f"{seconds * 1e9:8.1f} ns"

    def show(self):
        print(f"{'what':40} {'size':>9}  {'takes':>11}  {'beside':30} {'takes':>11}  {'ratio':>9}  grows")
        for what, rows in self.rows.items():
            for index, (size, ours, beside, theirs) in enumerate(rows):
                last = index + 1 == len(rows)
                print(f"{what if index == 0 else '':40} {size:9.0f}  {self.time(ours)}  {beside:30} {self.time(theirs)}  "
                      f"{ours / theirs:9.2f}  {self.exponent(rows) if last else ''}".rstrip())


def google(text):
    """Names and seconds of a report of Google Benchmark."""
    scale = {"ns": 1e-9, "us": 1e-6, "ms": 1e-3, "s": 1}
    return [(each["name"].rstrip(), each["cpu_time"] * scale[each["time_unit"]]) for each in json.loads(text)["benchmarks"]]


def workshop_with_quotes(build, folder):
    path = folder / "workshop.db"
    said(build / "endband", "--workshop", path, "--on", "2026-01-05", "workshop", "new", "--sample")
    for book in PRICED:
        said(build / "endband", "--workshop", path, "--on", "2026-03-02", "quote", "make", ROOT / "sample_data" / "books" / f"{book}.toml")
    return path


def computed(build, path, table, seconds):
    """Stages of a quote, each beside the whole; and what grows, beside its yardstick."""
    report = ["--benchmark_format=json", f"--benchmark_min_time={seconds}"]
    stages = google(said(build / "tests/bench/bench_engine", path, BOOK, *report))
    whole = stages[0][1]
    for name, took in stages:
        table.add(f"stage: {name.strip()}", 1, took, "BookSpec to Offer", whole)
    pairs = defaultdict(dict)
    for name, took in google(said(build / "tests/bench/growth_bench", path, BOOK, *report)):
        what, side, size = name.split("/")
        pairs[what, int(size)]["ours" if side == "ours" else "theirs"] = (side, took)
    for (what, size), of in pairs.items():
        beside, theirs = of["theirs"]
        table.add(what, size, of["ours"][1], beside, theirs)


QUOTE_TABLES = "SELECT name FROM sqlite_schema WHERE type = 'table' AND name GLOB 'quote_*'"


def selects(path):
    """For each of the commonest commands: its words, and selects of the rows that it shows."""
    with contextlib.closing(sqlite3.connect(path)) as db:
        parts = [f"SELECT * FROM {name} WHERE quote = 1" for (name,) in db.execute(QUOTE_TABLES)]
    quotes = ("SELECT q.*, o.total, o.money_left FROM quote q JOIN commission c ON c.id = q.commission "
              "JOIN quote_offer o ON o.quote = q.id ORDER BY q.id DESC LIMIT {}")
    materials = ("SELECT * FROM material m JOIN material_version v ON v.material = m.id LEFT JOIN price_version p ON p.material = m.id "
                 "GROUP BY m.id ORDER BY m.code")
    settings = "SELECT * FROM setting_version"
    jobs = "SELECT * FROM job j JOIN commission c ON c.id = j.commission JOIN job_agreed a ON a.job = j.id JOIN quote q ON q.id = a.quote"
    return {"start-up": (["--version"], ["SELECT 1"]),
            "quote list": (["quote", "list", "--last", "50"], [quotes.format(50)]),
            "quote show": (["quote", "show", "1"], ["SELECT * FROM quote WHERE id = 1", *parts]),
            "quote explain": (["quote", "explain", "1", "cover-width"], ["SELECT * FROM quote WHERE id = 1", *parts]),
            "quote print": (["quote", "print", "1", "-o", str(path) + ".html", "--yes"], ["SELECT * FROM quote WHERE id = 1", *parts]),
            "job list": (["job", "list"], [jobs]),
            "material list": (["material", "list"], [materials]),
            "stock list": (["stock", "list"], ["SELECT * FROM lot_state JOIN lot ON lot.id = lot_state.lot", "SELECT * FROM shelf", materials]),
            "workshop today": (["workshop", "today"], [quotes.format(50), jobs, "SELECT * FROM shelf", settings]),
            "margins list": (["margins", "list"], [jobs, settings]),
            "book measure": (["book", "measure", str(BOOK)], [settings, materials])}


def commands(build, seed, folder, table, sizes, runs):
    for size in sizes:
        path = folder / f"of-{size}.db"
        shutil.copy(seed, path)
        if size > len(PRICED):
            said(build / "tests/bench/bench_reprice", "grow", path, size)
        with contextlib.closing(sqlite3.connect(path)) as db:
            codes = [row[0] for row in db.execute(
                "SELECT code FROM material m JOIN quote_material q JOIN material_version v ON v.id = q.material_version "
                "AND v.material = m.id WHERE q.quote = (SELECT max(id) FROM quote)")]
        at, bare = [str(build / "endband"), "--workshop", str(path), "--on", process.DAY], [str(build / "tests/bench/bare_select"), str(path)]
        lines = {name: ([*at, *words], [*bare, "read", *reads]) for name, (words, reads) in selects(path).items()}
        lines["quote make"] = ([*at, "quote", "make", str(BOOK), "--yes"], [*bare, "make", process.DAY, *codes])
        for name, (program, plain) in lines.items():
            pairs = [(process.timed(program), process.timed(plain)) for _ in range(runs)]  # turn about
            ours, theirs = (statistics.median(pair[side][0] for pair in pairs) / 1e3 for side in (0, 1))
            table.add(f"process: {name}", size, ours, "a bare C program", theirs)
        if size >= 1_000:
            table.take_lines(said(build / "tests/bench/bench_reprice", "measure", path, process.DAY))
        path.unlink()


def pages(build, path, folder, table, sizes):
    env = {**os.environ, "ENDBAND_WORKSHOP": str(path)}
    say = {"env": env, "cwd": folder}

    def printed(form, times):
        return sum(papers.spent(build / "endband", "quote", "print", number % 3 + 1, "--as", form, "-o", f"{number}.{form}", "--yes", **say)[0]
                   for number in range(times))

    printed("html", 1)
    browser = papers.spent("chromium", "--headless", "--no-sandbox", "--disable-gpu", "--disable-quic", "--no-first-run",
                           "--disable-background-networking", "--disable-component-update", "--disable-sync",
                           f"--user-data-dir={folder}/profile", f"--print-to-pdf={folder}/by-browser.pdf", f"file://{folder}/0.html", **say)[0]
    for size in sizes:
        table.add("quotations printed as PDF", size, printed("pdf", size), "Chromium, of the HTML", browser * size)


def main():
    parser = argparse.ArgumentParser(description=__doc__, formatter_class=argparse.RawDescriptionHelpFormatter)
    parser.add_argument("build", type=Path)
    parser.add_argument("--quick", action="store_true")
    asked = parser.parse_args()
    build, table = asked.build.resolve(), Table()
    with tempfile.TemporaryDirectory(prefix="endband-bench-") as name:
        folder = Path(name)
        seed = workshop_with_quotes(build, folder)
        computed(build, seed, table, 0.02 if asked.quick else 0.2)
        commands(build, seed, folder, table, (10, 100, 1_000) if asked.quick else (10, 1_000, 100_000), 5 if asked.quick else 11)
        for movements in (1_000, 10_000) if asked.quick else (1_000, 30_000, 1_000_000):
            place = folder / f"ledger-{movements}"
            place.mkdir()
            table.take_lines(said(build / "tests/bench/bench_ledger", place, movements))
            shutil.rmtree(place)
        pages(build, seed, folder, table, (1, 4) if asked.quick else (1, 6, 36))
    table.show()
    return 0


if __name__ == "__main__":
    sys.exit(main())
