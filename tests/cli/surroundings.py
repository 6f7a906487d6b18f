#!/usr/bin/python3
"""What surrounds the program: the pager, colour, the folders of the XDG specification, a failure of its own, the network.

usage: surroundings.py ENDBAND SAMPLE_WORKSHOP
"""

import fcntl
import os
import pty
import re
import sqlite3
import struct
import subprocess
import sys
import termios
import unittest

import program

LONG, SHORT = ["material", "list"], ["workshop", "undo"]


def at_a_terminal(bench, *words, rows=20, width=80, **env):
    """Runs with all three streams on a terminal; (exit code, what it shows)."""
    master, slave = pty.openpty()
    fcntl.ioctl(slave, termios.TIOCSWINSZ, struct.pack("HHHH", rows, width, 0, 0))
    child = subprocess.Popen([bench.endband, *program.ON, *words], cwd=bench.folder, stdin=slave, stdout=slave, stderr=slave,
                             env={**bench.env, "TERM": "xterm", **env})
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
    child.wait(timeout=60)
    os.close(master)
    return child.returncode, shown.decode().replace("\r\n", "\n")


class Pager(unittest.TestCase):
    PAGER = "sed s/^/paged:/"

    def setUp(self):
        self.bench = program.Bench(ENDBAND, SAMPLE)
        self.bench.__enter__()
        self.addCleanup(self.bench.__exit__)

    def test_what_is_longer_than_the_terminal_is_paged_all_of_it(self):
        plain = self.bench.good(*LONG, "--no-color")
        code, shown = at_a_terminal(self.bench, *LONG, width=400, NO_COLOR="1", PAGER=self.PAGER)
        self.assertEqual(code, 0)
        expected = "".join(f"paged:{line}\n" for line in plain.splitlines())
        self.assertEqual(shown[:len(expected)], expected)
        self.assertTrue(all(line.startswith("paged:") for line in shown.splitlines()))

    def test_what_fits_is_not(self):
        self.assertNotIn("paged:", at_a_terminal(self.bench, *SHORT, PAGER=self.PAGER)[1])
        self.assertNotIn("paged:", at_a_terminal(self.bench, *LONG, rows=2000, PAGER=self.PAGER)[1])

    def test_nor_is_it_where_one_says_so_or_the_terminal_cannot(self):
        for words, env in ((["--no-pager", *LONG], {}), ([*LONG, "--no-pager"], {}), (LONG, {"PAGER": ""}), (LONG, {"PAGER": "cat"}),
                           (LONG, {"TERM": "dumb"}), (["help", "--man"], {}), (["completion", "bash"], {})):
            with self.subTest(words=words, env=env):
                code, shown = at_a_terminal(self.bench, *words, **{"PAGER": self.PAGER, **env})
                self.assertEqual(code, 0)
                self.assertNotIn("paged:", shown)
                self.assertGreater(len(shown.splitlines()), 20)

    def test_nor_is_what_goes_into_a_pipe(self):
        self.bench.env.update(PAGER=self.PAGER, TERM="xterm")
        self.assertNotIn("paged:", self.bench.good(*LONG))

    def test_a_pager_that_is_not_there_loses_nothing(self):
        expected = at_a_terminal(self.bench, *LONG, "--no-pager")[1]
        for env in ({"PAGER": "/no/such/pager"}, {"PAGER": "/etc/passwd"}, {"PATH": "/no/such"}):
            with self.subTest(env=env):
                code, shown = at_a_terminal(self.bench, *LONG, **env)
                self.assertEqual(code, 0)
                self.assertTrue(shown.endswith(expected), shown[-300:])

    def test_a_pager_that_is_left_early_is_no_fault_and_the_exit_code_is_the_commands(self):
        self.assertEqual(at_a_terminal(self.bench, *LONG, PAGER="head -1")[0], 0)
        with sqlite3.connect(self.bench.workshop) as file:
            file.execute("DROP TRIGGER material_version_stays")
            file.execute("UPDATE material_version SET valid_from = '2030-01-01'")
        file.close()
        code, shown = at_a_terminal(self.bench, "workshop", "check", rows=3, PAGER=self.PAGER)
        self.assertEqual(self.bench.run("workshop", "check").returncode, 1)
        self.assertEqual(code, 1)
        self.assertIn("paged:", shown)

    def test_without_one_it_is_less_that_passes_colour_on_and_leaves_what_fits(self):
        links = self.bench.folder / "bin"
        links.mkdir()
        (links / "less").write_text('#!/bin/sh\necho "less $*"\n', encoding="utf-8")
        (links / "less").chmod(0o755)
        self.assertEqual(at_a_terminal(self.bench, *LONG, PATH=f"{links}:/usr/bin:/bin")[1], "less -FIRX\n")


class Colour(unittest.TestCase):
    def test_it_is_there_for_a_terminal_only_and_goes_for_each_of_the_reasons(self):
        with program.Bench(ENDBAND, SAMPLE) as bench:
            coloured = at_a_terminal(bench, "customer", "list", rows=90)[1]
            self.assertIn("\x1b[", coloured)
            plain = re.sub("\x1b\\[[0-9;]*m", "", coloured)
            for words, env in ((["--no-color"], {}), ([], {"NO_COLOR": "1"}), ([], {"TERM": "dumb"})):
                with self.subTest(words=words, env=env):
                    self.assertEqual(at_a_terminal(bench, "customer", "list", *words, rows=90, **env)[1], plain)
            self.assertIn("\x1b[", at_a_terminal(bench, "customer", "list", rows=90, NO_COLOR="")[1])
            bench.env["TERM"] = "xterm"
            self.assertNotIn("\x1b[", bench.good("customer", "list"))


class TakingBack(unittest.TestCase):
    def test_a_person_is_told_how_where_it_can_be_and_a_program_is_not(self):
        with program.Bench(ENDBAND, SAMPLE) as bench:
            shown = at_a_terminal(bench, "workshop", "set", "least.charge=61")[1]
            self.assertIn("To take this back: endband workshop undo", shown)
            shown = at_a_terminal(bench, "material", "price", "goat-moss-08", "--pack", "0.60 m2", "--price", "96.00")[1]
            told = re.search(r"To take this back: endband (workshop undo \d+ --yes)", shown)
            self.assertIsNotNone(told, shown)
            self.assertNotIn("take this back", at_a_terminal(bench, "material", "price", "goat-moss-08", "--pack", "0.60 m2", "--price", "97.00",
                                                             "--dry-run")[1])
            bench.good(*told[1].split())
            self.assertIn("61.00", bench.good("material", "show", "goat-moss-08"))
            # What no undoing takes back is not promised.
            self.assertNotIn("take this back", at_a_terminal(bench, "customer", "add", "mira-holt", "--name", "Mira Holt")[1])
            self.assertNotIn("take this back", bench.good("customer", "change", "mira-holt", "--name", "Mira"))
            bench.good("workshop", "check")


class Folders(unittest.TestCase):
    """XDG Base Directory Specification 0.8: "All paths set in these environment variables must be absolute. If an
    implementation encounters a relative path in any of these variables it should consider the path invalid and ignore it." """

    def test_a_relative_folder_is_ignored_and_the_named_file_comes_first(self):
        with program.Bench(ENDBAND, SAMPLE, empty=True) as bench:
            del bench.env["ENDBAND_WORKSHOP"]
            home = bench.folder / ".local/share/endband/workshop.db"
            for env, path in (({}, home), ({"XDG_DATA_HOME": ""}, home), ({"XDG_DATA_HOME": "data"}, home),
                              ({"XDG_DATA_HOME": str(bench.folder / "data")}, bench.folder / "data/endband/workshop.db")):
                with self.subTest(env=env):
                    bench.env.pop("XDG_DATA_HOME", None)
                    bench.env.update(env)
                    self.assertIn(str(path), bench.run("quote", "list").stderr.decode())
            self.assertIn("named.db", bench.run("quote", "list", "--workshop", "named.db").stderr.decode())
            bench.env["ENDBAND_WORKSHOP"] = "said.db"
            self.assertIn("said.db", bench.run("quote", "list").stderr.decode())
            self.assertIn("named.db", bench.run("quote", "list", "--workshop", "named.db").stderr.decode())


class Failure(unittest.TestCase):
    """The program trusts the tables that it made itself: without one of them a query is a mistake of its own."""

    def failed(self, bench, *words):
        with sqlite3.connect(bench.workshop) as file:
            file.execute("PRAGMA foreign_keys = OFF")
            file.execute("DROP TABLE customer_address")
        file.close()
        done = bench.run(*words)
        self.assertEqual((done.returncode, done.stdout), (4, b""))
        return done.stderr.decode()

    def reports(self, folder):
        return sorted(folder.glob("endband/failure-*.txt"))

    def test_it_is_said_in_short_and_kept_without_names(self):
        with program.Bench(ENDBAND, SAMPLE) as bench:
            state = bench.folder / "state"
            bench.env["XDG_STATE_HOME"] = str(state)
            said = self.failed(bench, "customer", "add", "secret-code", "--name", "Mira Secret", "--email", "mira@secret.example.org")
            self.assertIn("a mistake in endband itself, nothing saved", said)
            report, = self.reports(state)
            self.assertIn(str(report), said)
            text = report.read_text(encoding="utf-8")
            self.assertIn("command  customer add --on --at --name --email\n", text)
            self.assertIn("no such table: customer_address", text)
            self.assertIn(bench.run("--version", day=False).stdout.decode().split()[1], text)
            for own in ("secret", "Mira", str(bench.folder), "workshop.db"):
                self.assertNotIn(own, text)

    def test_the_usual_place_stands_in_for_a_relative_one_and_no_place_is_no_second_failure(self):
        with program.Bench(ENDBAND, SAMPLE) as bench:
            bench.env["XDG_STATE_HOME"] = "state"
            self.failed(bench, "customer", "list")
            self.assertEqual(len(self.reports(bench.folder / ".local/state")), 1)
        with program.Bench(ENDBAND, SAMPLE) as bench:
            bench.env["XDG_STATE_HOME"] = "/proc/nowhere"
            said = self.failed(bench, "customer", "list")
            self.assertEqual(len(said.splitlines()), 1)


class SystemCalls(unittest.TestCase):
    def trace(self, bench, kinds, *words):
        where = bench.folder.parent / (bench.folder.name + ".calls")
        done = subprocess.run(["strace", "-f", "-qq", "-e", f"trace={kinds}", "-e", "signal=none", "-o", where, bench.endband,
                               *([] if words[0] == "complete" else program.ON), *words],
                              cwd=bench.folder, env=bench.env, capture_output=True, check=False)
        if done.returncode != 0 and b"ptrace" in done.stderr:
            self.skipTest("nothing may be traced here: " + done.stderr.decode().splitlines()[0])
        self.assertEqual(done.returncode, 0, done.stderr.decode())
        text = where.read_text(encoding="utf-8")
        where.unlink()
        return text

    def lines(self, bench):
        book = bench.write("book.toml", 'endband = 1\nheight = "210 mm"\nwidth = "148 mm"\npages = 160\nleather = "goat-moss-08"\n')
        return [["quote", "make", book, "--customer", "ida-quill"], ["book", "measure", book, "--svg", "drawings"], ["quote", "print", "1"],
                ["quote", "accept", "1"], ["margins", "list"], ["workshop", "check"], ["complete", "--", "material", "show", ""], ["help"]]

    def test_no_command_starts_another_program_and_none_asks_a_shell(self):
        with program.Bench(ENDBAND, SAMPLE) as bench:
            for words in self.lines(bench):
                with self.subTest(words=words):
                    self.assertEqual(self.trace(bench, "execve,execveat", *words).count("execve("), 1)  # of the program itself

    def test_a_pager_is_started_without_a_shell(self):
        with program.Bench(ENDBAND, SAMPLE) as bench:
            _, shown = at_a_terminal(bench, *LONG, PAGER="sed s/^/$(id);/")
            self.assertIn("$(id);", shown)

    def test_what_is_written_is_for_its_owner_alone(self):
        with program.Bench(ENDBAND, SAMPLE) as bench:
            os.umask(0o022)
            for words in self.lines(bench):
                bench.good(*words, day=words[0] != "complete")
            for words in (["customer", "export", "-o", "customers.csv"], ["quote", "print", "1", "-o", "paper.html"],
                          ["workshop", "backup", "copy.db"], ["job", "sheet", "1", "-o", "sheet.pdf"]):
                bench.good(*words)
            for name in ("workshop.db", "copy.db", "customers.csv", "paper.html", "sheet.pdf", "drawings/section.svg"):
                self.assertEqual((bench.folder / name).stat().st_mode & 0o777, 0o600, name)

    def test_no_command_uses_a_network(self):
        with program.Bench(ENDBAND, SAMPLE) as bench:
            for words in self.lines(bench):
                with self.subTest(words=words):
                    self.assertEqual(self.trace(bench, "network", *words), "")

    def test_nothing_is_written_outside_the_workshop_and_what_one_names(self):
        with program.Bench(ENDBAND, SAMPLE) as bench:
            seen = 0
            for words in self.lines(bench):
                for call in self.trace(bench, "open,openat,creat,mkdir,rename,renameat,renameat2,unlink", *words).splitlines():
                    named = re.search(r'"([^"]*)"', call)
                    writes = re.search(r"O_WRONLY|O_RDWR|O_CREAT|mkdir|rename|unlink|creat\(", call)
                    if not named or not writes or call.rstrip().endswith(")") and "= -1" in call:
                        continue
                    seen += 1
                    path = os.path.join(bench.folder, named[1])
                    own = path.startswith(str(bench.folder)) or path.startswith(("/dev/", "/var/tmp/etilqs", "/tmp/etilqs"))  # SQLite's sorter
                    self.assertTrue(own, call)
            self.assertGreater(seen, 20)


class Help(unittest.TestCase):
    def test_a_question_for_help_wins_wherever_it_stands(self):
        with program.Bench(ENDBAND, SAMPLE, empty=True) as bench:
            expected = bench.good("help", "customer", "add", day=False)
            for line in (["-h", "customer", "add"], ["customer", "-h", "add"], ["customer", "add", "x", "--name", "-h"],
                         ["customer", "add", "x", "--nonsense", "--help"], ["--on", "never", "customer", "add", "-h"]):
                with self.subTest(line=line):
                    self.assertEqual(bench.good(*line, day=False), expected)
            self.assertFalse(bench.workshop.exists())

    def test_what_was_asked_for_is_on_standard_output_and_what_was_wrong_on_the_other(self):
        with program.Bench(ENDBAND, SAMPLE, empty=True) as bench:
            asked = bench.run("help", day=False)
            self.assertEqual((asked.returncode, asked.stderr), (0, b""))
            wrong = bench.run("qoute", "make", day=False)
            self.assertEqual((wrong.returncode, wrong.stdout), (2, b""))
            self.assertIn(b'did you mean "quote"', wrong.stderr)

    def test_without_words_it_fits_a_terminal(self):
        with program.Bench(ENDBAND, SAMPLE, empty=True) as bench:
            lines = bench.good(day=False).splitlines()
            self.assertLessEqual(len(lines), 24)
            self.assertLessEqual(max(map(len, lines)), 80)

    def test_a_keyboard_is_not_waited_for(self):
        with program.Bench(ENDBAND, SAMPLE) as bench:
            code, shown = at_a_terminal(bench, "quote", "make", "-")
            self.assertEqual(code, 3)
            self.assertIn("it is the keyboard", shown)

    def test_switches_that_change_nothing_of_an_answer_are_taken_everywhere(self):
        with program.Bench(ENDBAND, SAMPLE) as bench:
            expected = bench.good("customer", "list")
            for switch in ("--no-input", "--no-pager", "--no-color"):
                self.assertEqual(bench.good(switch, "customer", "list"), expected)
                self.assertEqual(bench.good("customer", "list", switch), expected)
                self.assertEqual(bench.good(switch, "help", day=False), bench.good("help", day=False))


class Today(unittest.TestCase):
    def test_a_busy_workshop_is_one_screen(self):
        """Command Line Interface Guidelines, "make it easy to see the current state": here of 24 lines of 80 columns."""
        with program.Bench(ENDBAND, SAMPLE) as bench:
            for name in ("chess_endings", "pocket_herbal", "moth_notes", "forty_loaves", "lace_box"):
                for _ in range(3):
                    bench.good("quote", "make", str(program.BOOKS / f"{name}.toml"))
            for number in range(1, 9):
                bench.good("quote", "accept", str(number))
            text = bench.good("workshop", "today")
            self.assertIn("Quotes that stand: 7", text)
            self.assertIn("Jobs under way: 8", text)
            wrapped = sum(max(1, -(-len(line) // 80)) for line in text.splitlines())
            self.assertLessEqual(wrapped, 24, text)
            told = bench.json("workshop", "today")
            self.assertEqual(told["schema"], "endband/workshop-today/1")


class FirstRun(unittest.TestCase):
    def test_from_nothing_to_a_printed_quote_in_three_commands(self):
        with program.Bench(ENDBAND, SAMPLE, empty=True) as bench:
            refused = bench.run("quote", "list")
            self.assertEqual(refused.returncode, 3)
            self.assertIn(b"endband workshop new", refused.stderr)
            bench.good("workshop", "new", "--sample")
            number = bench.json("quote", "make", str(program.BOOKS / "chess_endings.toml"))["number"]
            bench.good("quote", "print", number, "-o", "offer.pdf")
            self.assertTrue((bench.folder / "offer.pdf").read_bytes().startswith(b"%PDF-"))


if __name__ == "__main__":
    ENDBAND, SAMPLE = sys.argv[1:3]
    unittest.main(argv=sys.argv[:1] + sys.argv[3:])
