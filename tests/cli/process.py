#!/usr/bin/python3
"""The program as a process: outputs that end or are full, signals, terminals of several widths, the languages of the machine.

usage: process.py ENDBAND SAMPLE_WORKSHOP
"""

import fcntl
import itertools
import os
import pty
import signal
import sqlite3
import struct
import subprocess
import sys
import termios
import time
import unittest

import program

BOOK = 'endband = 1\ntitle = "Tides"\nheight = "210 mm"\nwidth = "148 mm"\npages = 320\nleather = "goat-moss-08"\n'


def at_a_terminal(bench, width, *words, **env):
    """Runs with both outputs on a terminal so wide; what it shows, with lines as it wrapped them."""
    master, slave = pty.openpty()
    fcntl.ioctl(slave, termios.TIOCSWINSZ, struct.pack("HHHH", 40, width, 0, 0))
    child = subprocess.Popen([bench.endband, *program.ON, *words], cwd=bench.folder, stdout=slave, stderr=slave,
                             stdin=subprocess.DEVNULL, env={**bench.env, "TERM": "xterm", **env})
    os.close(slave)
    shown = b""
    while True:
        try:
            piece = os.read(master, 65536)
        except OSError:  # the other end is closed
            break
        if not piece:
            break
        shown += piece
    child.wait()
    os.close(master)
    return shown.decode().replace("\r\n", "\n")


class Outputs(unittest.TestCase):
    def test_a_reader_that_leaves_is_no_fault(self):
        with program.Bench(ENDBAND, SAMPLE) as bench:
            read, write = os.pipe()
            os.close(read)
            done = subprocess.run([bench.endband, "material", "list"], stdout=write, stderr=subprocess.PIPE, env=bench.env, check=False)
            os.close(write)
            self.assertEqual((done.returncode, done.stderr), (0, b""))

    def test_a_full_output_is_told_with_exit_code_3(self):
        with program.Bench(ENDBAND, SAMPLE) as bench, open("/dev/full", "wb") as full:
            for words in (["material", "list"], ["--json", "material", "list"], ["help"]):
                with self.subTest(words=words):
                    done = subprocess.run([bench.endband, *words], stdout=full, stderr=subprocess.PIPE, env=bench.env, check=False)
                    self.assertEqual(done.returncode, 3)
                    self.assertIn(b"No space left", done.stderr)

    def test_what_was_saved_before_the_output_filled_up_is_told_as_saved(self):
        with program.Bench(ENDBAND, SAMPLE) as bench, open("/dev/full", "wb") as full:
            done = subprocess.run([bench.endband, "customer", "add", "x", "--name", "X"], stdout=full, stderr=subprocess.PIPE,
                                  env=bench.env, check=False)
            self.assertEqual(done.returncode, 3)
            self.assertIn(b"is done and saved", done.stderr)
            self.assertIn("X", bench.good("customer", "show", "x"))

    def test_what_is_only_shown_is_not_told_as_saved(self):
        shown = (["workshop", "export"], ["workshop", "export", "-o", "-"], ["customer", "export", "-o", "-"], ["book", "start", "case"],
                 ["workshop", "import", "--example"], ["margins", "list"], ["margins", "worth"], ["steps", "learn"])
        with program.Bench(ENDBAND, SAMPLE) as bench, open("/dev/full", "wb") as full:
            for words in shown:
                with self.subTest(words=words):
                    done = subprocess.run([bench.endband, *words], stdout=full, stderr=subprocess.PIPE, env=bench.env, check=False)
                    self.assertEqual(done.returncode, 3)
                    self.assertNotIn(b"is done and saved", done.stderr)

    def test_no_workshop_is_written_over_by_what_it_gives(self):
        with program.Bench(ENDBAND, SAMPLE) as bench:
            (bench.folder / "to").symlink_to(bench.workshop)
            quote = bench.json("quote", "make", bench.write("book.toml", BOOK))["number"]
            os.mkfifo(bench.folder / "pipe")
            before = bench.workshop.read_bytes()
            writers = (["customer", "export"], ["material", "export"], ["workshop", "export"], ["book", "start", "case"],
                       ["quote", "print", quote, "--as", "html"])
            for words, (file, why) in itertools.product(writers, ((bench.workshop.name, "never written over"), ("to", "never written over"),
                                                                  (bench.workshop.name + "-wal", "belongs to a workshop"),
                                                                  ("pipe", "a device or a pipe"), (".", "is a folder"))):
                for dry in ([], ["--dry-run"]):
                    with self.subTest(words=words, file=file, dry=dry):
                        done = bench.run(*words, "-o", file, "--yes", *dry)
                        self.assertEqual(done.returncode, 3, done.stderr)
                        self.assertIn(why, done.stderr.decode())
            self.assertEqual(bench.workshop.read_bytes(), before)
            self.assertTrue((bench.folder / "to").is_symlink() and (bench.folder / "pipe").is_fifo())

    def test_what_writes_nothing_says_nothing_of_saving(self):
        with program.Bench(ENDBAND, SAMPLE) as bench:
            book = bench.write("bad.toml", 'endband = 1\nheight = "210 furlongs"\n')
            self.assertNotIn(b"saved", bench.run("book", "measure", book).stderr)
            self.assertIn(b"nothing saved", bench.run("book", "measure", book, "--svg", "out").stderr)
            self.assertFalse((bench.folder / "out").exists())

    def test_what_is_wrong_with_one_volume_of_a_set_is_told_of_that_volume(self):
        with program.Bench(ENDBAND, SAMPLE) as bench:
            book = bench.write("set.toml", 'endband = 1\nmodel = "raised-cords"\nheight = "200 mm"\nwidth = "140 mm"\n'
                               '[[volumes]]\npages = 320\n[[volumes]]\npages = 192\n')
            told = [line for line in bench.good("book", "measure", book).splitlines() if line.startswith("Look: ")]
            self.assertEqual([line[:32] for line in told], ["Look: Volume 2: This will not ba"])
            once = bench.write("same.toml", (bench.folder / book).read_text().replace("pages = 320", "pages = 192"))
            self.assertNotIn("Look: Volume", bench.good("book", "measure", once))

    def test_a_closed_output_is_told_with_exit_code_3(self):
        with program.Bench(ENDBAND, SAMPLE) as bench:
            done = subprocess.run(["bash", "-c", f"exec {bench.endband} material list >&-"], stderr=subprocess.PIPE, env=bench.env, check=False)
            self.assertEqual(done.returncode, 3)

    def test_the_language_and_zone_of_the_machine_change_no_byte(self):
        with program.Bench(ENDBAND, SAMPLE) as bench:
            bench.write("book.toml", BOOK)
            plain = bench.good("quote", "make", "book.toml", "--dry-run")
            for surroundings in ({"LC_ALL": "C"}, {"LC_ALL": "de_DE.UTF-8", "LANG": "de_DE.UTF-8"}, {"LC_ALL": "tr_TR.UTF-8"}):
                bench.env.update(surroundings)
                self.assertEqual(bench.good("quote", "make", "book.toml", "--dry-run"), plain)

    def test_without_a_day_the_day_is_the_one_on_the_wall(self):
        with program.Bench(ENDBAND, SAMPLE) as bench:
            for zone in ("Etc/GMT+12", "Etc/GMT-14"):
                bench.env["TZ"] = zone
                today = subprocess.run(["date", "+%F"], env=bench.env, capture_output=True, text=True, check=True).stdout.strip()
                shown = bench.json("workshop", "show", day=False)["on"]
                self.assertEqual(shown, today)


class Signals(unittest.TestCase):
    def test_a_signal_while_reading_ends_the_process_by_that_signal_and_saves_nothing(self):
        for number in (signal.SIGINT, signal.SIGTERM, signal.SIGHUP):
            with self.subTest(signal=number), program.Bench(ENDBAND, SAMPLE) as bench:
                child = subprocess.Popen([bench.endband, "quote", "make", "-"], stdin=subprocess.PIPE, stdout=subprocess.PIPE,
                                         stderr=subprocess.PIPE, env=bench.env)
                time.sleep(0.5)
                child.send_signal(number)
                child.communicate(timeout=10)
                self.assertEqual(child.returncode, -number)
                self.assertEqual(bench.json("quote", "list")["quotes"], [])
                bench.good("workshop", "check")

    def test_a_signal_while_a_workshop_is_made_leaves_no_file(self):
        stopped = 0
        for delay in (0.02, 0.04, 0.06, 0.08, 0.1, 0.15):
            with program.Bench(ENDBAND, SAMPLE, empty=True) as bench:
                child = subprocess.Popen([bench.endband, "workshop", "new", "--sample"], stdout=subprocess.DEVNULL, env=bench.env)
                time.sleep(delay)
                child.send_signal(signal.SIGINT)
                child.wait()
                left = sorted(path.name for path in bench.folder.iterdir())
                if child.returncode == 0:
                    self.assertEqual(left, ["workshop.db"])
                else:
                    self.assertEqual(child.returncode, -signal.SIGINT)
                    self.assertEqual([name for name in left if "unfinished" in name or name == "workshop.db"], [])
                    stopped += 1
        self.assertGreater(stopped, 0)

    def test_a_killed_writer_leaves_a_sound_workshop(self):
        with program.Bench(ENDBAND, SAMPLE) as bench:
            for i in range(8):
                child = subprocess.Popen([bench.endband, "customer", "add", f"c{i}", "--name", "C"], stdout=subprocess.DEVNULL, env=bench.env)
                time.sleep(0.004 * i)
                child.kill()
                child.wait()
            bench.good("workshop", "check")


class Terminals(unittest.TestCase):
    def test_what_is_shown_fits_the_terminal(self):
        with program.Bench(ENDBAND, SAMPLE) as bench:
            bench.write("book.toml", BOOK)
            bench.good("quote", "make", "book.toml", "--customer", "ida-quill")
            lines = (["material", "list"], ["customer", "list"], ["steps", "list"], ["quote", "list"], ["quote", "show", "1"],
                     ["quote", "explain", "1"], ["book", "measure", "book.toml"], ["workshop", "show"], ["help", "quote", "make"])
            for width in (60, 80, 120):
                for line in lines:
                    shown = at_a_terminal(bench, width, *line, NO_COLOR="1")
                    for text in shown.splitlines():
                        if not text.startswith("  endband "):  # an example is copied whole
                            with self.subTest(width=width, line=" ".join(line), text=text):
                                self.assertLessEqual(len(text), width)

    def test_money_is_never_dropped_or_cut(self):
        with program.Bench(ENDBAND, SAMPLE) as bench:
            bench.write("book.toml", BOOK)
            bench.good("quote", "make", "book.toml")
            wide = bench.good("quote", "show", "1")
            narrow = at_a_terminal(bench, 40, "quote", "show", "1", NO_COLOR="1")
            for word in wide.split():
                if word.replace(".", "").isdigit() and "." in word:
                    self.assertIn(word, narrow)

    def test_colour_only_for_a_person_who_wants_it(self):
        with program.Bench(ENDBAND, SAMPLE) as bench:
            self.assertIn("\x1b[", at_a_terminal(bench, 80, "material", "list"))
            self.assertNotIn("\x1b[", at_a_terminal(bench, 80, "material", "list", NO_COLOR="1"))
            self.assertNotIn("\x1b[", at_a_terminal(bench, 80, "material", "list", TERM="dumb"))
            self.assertIn("\x1b[", at_a_terminal(bench, 80, "material", "list", NO_COLOR=""))
            self.assertNotIn("\x1b[", bench.good("material", "list"))

    def test_the_next_command_is_told_to_a_person_only(self):
        with program.Bench(ENDBAND, SAMPLE) as bench:
            self.assertIn("Next: endband", at_a_terminal(bench, 80, "customer", "add", "x", "--name", "X", NO_COLOR="1"))
            self.assertNotIn("Next:", bench.good("customer", "add", "y", "--name", "Y"))

    def test_a_keyboard_is_not_waited_for(self):
        with program.Bench(ENDBAND, SAMPLE) as bench:
            master, slave = pty.openpty()
            done = subprocess.run([bench.endband, "quote", "make", "-"], stdin=slave, capture_output=True, env=bench.env, check=False, timeout=10)
            os.close(slave)
            os.close(master)
            self.assertEqual(done.returncode, 3)
            self.assertIn(b"keyboard", done.stderr)


class Private(unittest.TestCase):
    """What the customer reads holds nothing of the workshop's."""

    def test_no_cost_hour_rate_or_supplier_is_on_the_customers_paper(self):
        with program.Bench(ENDBAND, SAMPLE) as bench:
            for book in sorted(program.BOOKS.glob("*.toml")):
                number = bench.json("quote", "make", str(book))["number"]
                inside = bench.json("quote", "explain", number)
                paper = bench.good("quote", "show", number) + bench.good("--json", "quote", "show", number)
                public = {line["shown"]["amount"] for line in bench.json("quote", "show", number)["lines"]}
                secret = {inside["ladder"][rung]["price"]["amount"] for rung in ("cash_floor", "walk_away", "full_cost", "target")}
                secret |= {inside["rates"][rate]["amount"] for rate in ("labour_an_hour", "overhead_an_hour")}
                secret |= {inside["cost"][total]["amount"] for total in ("materials", "labour", "overhead", "total")}
                secret |= {line["name"] for line in inside["bill"]}
                with sqlite3.connect(bench.workshop) as base:
                    secret |= {name for (name,) in base.execute("SELECT DISTINCT supplier FROM price_version") if name}
                for text in secret - public - {"0.00"}:
                    with self.subTest(book=book.stem, text=text):
                        self.assertNotIn(text, paper)

    def test_the_lines_of_the_paper_add_up(self):
        with program.Bench(ENDBAND, SAMPLE) as bench:
            for book in sorted(program.BOOKS.glob("*.toml")):
                number = bench.json("quote", "make", str(book))["number"]
                paper = bench.json("quote", "show", number)
                cents = lambda money: round(float(money["amount"]) * 100)
                lines = sum(cents(line["shown"]) for line in paper["lines"])
                added = cents(paper["tax"]) if paper["tax_mode"] == "added" else 0
                self.assertEqual(lines, cents(paper["goods"]))
                self.assertEqual(lines + cents(paper["carriage"]) + added, cents(paper["total"]))
                self.assertEqual(cents(paper["deposit"]) + cents(paper["balance"]), cents(paper["total"]))


if __name__ == "__main__":
    ENDBAND, SAMPLE = sys.argv[1:3]
    unittest.main(argv=sys.argv[:1] + sys.argv[3:])
