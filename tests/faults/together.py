#!/usr/bin/python3
"""Many at one workshop, damaged pages, a clock that goes backwards, two time zones.

usage: together.py ENDBAND SAMPLE_WORKSHOP [--seconds 4] [--every-page] [TEST...]
"""

import argparse
import json
import random
import sqlite3
import subprocess
import sys
import threading
import time
import unittest
from contextlib import closing
from pathlib import Path

sys.path.insert(0, str(Path(__file__).resolve().parents[1] / "cli"))
import program  # noqa: E402  (it lies beside the tests of the program)

BOOK = 'endband = 1\ntitle = "Tides"\nheight = "210 mm"\nwidth = "148 mm"\npages = 320\nleather = "goat-moss-08"\n'
WRITERS = READERS = 8
PAPER = "text-laid-110"


def on_the_shelf(bench, code):
    """Thousandths of a sheet."""
    with closing(sqlite3.connect(bench.workshop)) as base:
        (movement,) = base.execute("SELECT coalesce(sum(m.quantity), 0) FROM movement m JOIN material a ON a.id = m.material "
                                   "WHERE a.code = ?", (code,)).fetchone()
    return movement


def paid(bench):
    """Cents."""
    with closing(sqlite3.connect(bench.workshop)) as base:
        return base.execute("SELECT coalesce(sum(amount), 0) FROM job_payment").fetchone()[0]


def entries(bench):
    with closing(sqlite3.connect(bench.workshop)) as base:
        return base.execute("SELECT count(*), count(DISTINCT seq), max(seq) FROM entry").fetchone()


class Many(unittest.TestCase):
    """Each writer counts what it was told is done; afterwards that is what stands in the books."""

    def setUp(self):
        self.bench = program.Bench(ENDBAND, SAMPLE)
        self.bench.__enter__()
        self.addCleanup(self.bench.__exit__)
        self.bench.write("book.toml", BOOK)
        self.bench.good("quote", "make", "book.toml", "--customer", "ida-quill")
        self.bench.good("quote", "accept", "1")
        self.done, self.busy, self.read, self.wrong = {}, 0, 0, []
        self.lock = threading.Lock()
        self.until = time.monotonic() + SECONDS

    def count(self, **told):
        with self.lock:
            for name, amount in told.items():
                self.done[name] = self.done.get(name, 0) + amount

    def try_it(self, words, **if_done):
        """A writer that has waited its turn in vain is told so, and nothing of it stays."""
        done = self.bench.run(*words)
        if done.returncode == 0:
            self.count(entries=1, **if_done)
        elif done.returncode == 3 and b"busy" in done.stderr:
            self.busy += 1
        else:
            self.wrong.append((words, done.returncode, done.stderr.decode()))

    def write(self, number):
        draw, step = random.Random(number), 0
        while time.monotonic() < self.until:
            step += 1
            kind = draw.randrange(4)
            if kind == 0:
                sheets = draw.randrange(1, 40)
                self.try_it(["stock", "receive", f"{PAPER} {sheets} sheets 12.00"], sheets=sheets)
            elif kind == 1:
                cents = draw.randrange(1, 500)
                self.try_it(["job", "paid", "1", f"{cents // 100}.{cents % 100:02}"], cents=cents)
            elif kind == 2:
                self.try_it(["customer", "add", f"writer-{number}-{step}", "--name", "N"], customers=1)
            else:
                self.try_it(["quote", "make", "book.toml"], quotes=1)

    def look(self, number):
        lines = (["stock", "list"], ["quote", "list"], ["job", "show", "1"], ["workshop", "today"], ["margins", "list"])
        while time.monotonic() < self.until:
            words = lines[number % len(lines)]
            number += 1
            done = self.bench.run("--json", *words)
            self.read += 1
            if done.returncode != 0:
                self.wrong.append((words, done.returncode, done.stderr.decode()))
            else:
                json.loads(done.stdout)

    def at_once(self, *more):
        each = [threading.Thread(target=run, args=(number,)) for run in (self.write, self.look) for number in range(WRITERS)]
        each += [threading.Thread(target=run) for run in more]
        for one in each:
            one.start()
        for one in each:
            one.join()
        self.assertEqual(self.wrong, [])

    def test_eight_that_write_and_eight_that_read_leave_books_that_add_up(self):
        sheets, (count, _, _) = on_the_shelf(self.bench, PAPER), entries(self.bench)
        cents = paid(self.bench)
        people, quotes = len(self.bench.json("customer", "list")["customers"]), 1
        self.at_once()
        self.bench.good("workshop", "check")
        now, numbers, last = entries(self.bench)
        self.assertEqual((now - count, now), (self.done["entries"], numbers))
        self.assertEqual(last, now, "a number of the log was lost")
        self.assertEqual(on_the_shelf(self.bench, PAPER) - sheets, 1000 * self.done["sheets"])
        self.assertEqual(paid(self.bench) - cents, self.done["cents"])
        self.assertEqual(len(self.bench.json("customer", "list")["customers"]) - people, self.done["customers"])
        made = self.bench.json("quote", "list", "--last", "100000")["quotes"]
        self.assertEqual(len({quote["number"] for quote in made}), len(made))
        self.assertEqual(len(made) - quotes, self.done["quotes"])
        print(f"{SECONDS} s: {self.done['entries']} commands written, {self.busy} told busy, {self.read} read")

    def test_a_backup_made_while_others_write_is_a_sound_workshop_of_one_moment(self):
        made = []

        def back_up():
            while time.monotonic() < self.until:
                name = f"backup-{len(made)}.db"
                done = self.bench.run("workshop", "backup", name)
                if done.returncode != 0:
                    self.wrong.append((name, done.returncode, done.stderr.decode()))
                    return
                made.append(name)

        self.at_once(back_up)
        self.assertGreater(len(made), 0)
        counts = []
        for name in made:
            self.bench.good("--workshop", name, "workshop", "check")
            with closing(sqlite3.connect(self.bench.folder / name)) as base:
                counts.append(base.execute("SELECT count(*) FROM entry").fetchone()[0])
        self.assertEqual(counts, sorted(counts))
        print(f"{SECONDS} s: {len(made)} backups of {counts[0]} to {counts[-1]} entries")


class DamagedPages(unittest.TestCase):
    """Whatever page of the file was overwritten, the program ends in an orderly way, and the check finds it."""

    LINES = (["quote", "show", "1"], ["stock", "list"], ["margins", "list"])

    def test_a_page_that_was_overwritten_is_found_and_never_taken_for_a_workshop_s(self):
        found = shown = 0
        with program.Bench(ENDBAND, SAMPLE) as bench:
            bench.write("book.toml", BOOK)
            bench.good("quote", "make", "book.toml", "--customer", "ida-quill")
            bench.good("quote", "accept", "1")
            good = bench.workshop.read_bytes()
            size = int.from_bytes(good[16:18], "big")
            pages = len(good) // size
            draw = random.Random(20261127)
            for page in range(0, pages, 1 if EVERY_PAGE else 11):
                for damage in (bytes(size), draw.randbytes(size)):
                    bench.workshop.write_bytes(good[:page * size] + damage + good[(page + 1) * size:])
                    with self.subTest(page=page):
                        checked = bench.run("workshop", "check")
                        self.assertIn(checked.returncode, (1, 3), checked)
                        found += 1
                        for words in self.LINES:
                            done = bench.run(*words)
                            self.assertIn(done.returncode, (0, 1, 2, 3), (words, done))
                            shown += done.returncode == 0
                    for suffix in ("-wal", "-shm"):
                        Path(str(bench.workshop) + suffix).unlink(missing_ok=True)
        print(f"{found} damaged files of {pages} pages: all found; {shown} of {found * len(self.LINES)} commands did not need the page")


class Clocks(unittest.TestCase):
    def test_a_clock_that_goes_backwards_mixes_nothing_up(self):
        with program.Bench(ENDBAND, SAMPLE) as bench:
            bench.write("book.toml", BOOK)

            def at(day, hour, *words):
                return bench.good("--on", day, "--at", hour, *words)

            at("2026-11-25", "10:00", "quote", "make", "book.toml")
            at("2026-11-25", "09:00", "workshop", "set", "least.charge=70")
            at("2026-11-24", "23:59", "stock", "receive", f"{PAPER} 10 sheets 12.00")
            at("2027-01-02", "12:00", "quote", "make", "book.toml")
            at("2026-11-25", "08:00", "quote", "make", "book.toml")
            numbers = [quote["number"] for quote in bench.json("quote", "list")["quotes"]]
            self.assertEqual(len(set(numbers)), 3)
            self.assertEqual(sorted(number[:2] for number in numbers), ["26", "26", "27"])
            log = bench.json("workshop", "log")["entries"]
            sequence = [entry["seq"] for entry in log]
            self.assertEqual(sequence, sorted(sequence, reverse=True), "the newest first, whatever the clock said")
            bench.good("workshop", "check")
            shown = [bench.good("quote", "show", number) for number in numbers]
            undone = bench.json("--on", "2026-11-01", "--at", "07:00", "workshop", "undo", "--yes")
            self.assertEqual(undone["entry"], max(sequence), "the newest, whatever the clock said")
            bench.good("workshop", "check")
            self.assertEqual([bench.good("quote", "show", number) for number in numbers[1:]], shown[1:])

    def test_two_places_of_the_earth_have_their_own_day_and_one_workshop(self):
        with program.Bench(ENDBAND, SAMPLE) as bench:
            bench.write("book.toml", BOOK)
            days = {}
            for zone in ("Pacific/Kiritimati", "Pacific/Pago_Pago"):  # 25 hours apart: never the same day
                bench.env["TZ"] = zone
                number = bench.json("quote", "make", "book.toml", day=False)["number"]
                days[zone] = bench.json("quote", "show", number, day=False)["on"]
                wall = subprocess.run(["date", "+%F"], env=bench.env, capture_output=True, text=True, check=True)
                self.assertEqual(days[zone], wall.stdout.strip())
            self.assertGreater(days["Pacific/Kiritimati"], days["Pacific/Pago_Pago"])
            instants = [entry["at_utc"] for entry in bench.json("workshop", "log")["entries"]][:2]
            self.assertGreaterEqual(instants[0], instants[1], "instants are of one clock")
            pages = set()
            for zone in ("Pacific/Kiritimati", "Pacific/Pago_Pago", "Europe/Vienna"):
                bench.env["TZ"] = zone
                pages.add(bench.good("--json", "quote", "list") + bench.good("workshop", "log") + bench.good("quote", "show", "1"))
                bench.good("workshop", "check")
            self.assertEqual(len(pages), 1, "what is kept is shown alike everywhere")


if __name__ == "__main__":
    parser = argparse.ArgumentParser()
    parser.add_argument("endband")
    parser.add_argument("sample")
    parser.add_argument("--seconds", type=float, default=4)
    parser.add_argument("--every-page", action="store_true")
    parser.add_argument("tests", nargs="*")
    said = parser.parse_intermixed_args()
    ENDBAND, SAMPLE, SECONDS, EVERY_PAGE = said.endband, said.sample, said.seconds, said.every_page
    unittest.main(argv=sys.argv[:1] + said.tests)
