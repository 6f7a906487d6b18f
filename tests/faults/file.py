#!/usr/bin/python3
"""The workshop as a file among others: what it is called, where it lies, what lies beside it, and how it is lost and found again.

usage: file.py ENDBAND SAMPLE_WORKSHOP [TEST...]
"""

import os
import shutil
import sqlite3
import subprocess
import sys
import threading
import unittest
from contextlib import closing, contextmanager
from pathlib import Path

sys.path.insert(0, str(Path(__file__).resolve().parents[1] / "cli"))
import program  # noqa: E402  (it lies beside the tests of the program)

NEW = ["workshop", "new", "--name", "Quay Bindery", "--currency", "EUR"]
BOOK = 'endband = 1\ntitle = "Tides"\nheight = "210 mm"\nwidth = "148 mm"\npages = 320\nleather = "goat-moss-08"\n'
LOOKING = (["quote", "list"], ["quote", "show", "1"], ["quote", "explain", "1", "spine-width"], ["customer", "list"], ["stock", "list"],
           ["stock", "to-buy"], ["margins", "list"], ["bench", "show"], ["job", "list"], ["material", "list"], ["workshop", "show"],
           ["workshop", "log"], ["workshop", "check"], ["workshop", "today"], ["workshop", "export", "-o", "-"])
SUFFIXES = ("-wal", "-shm", "-journal")


def names_in(folder):
    return sorted(path.name for path in folder.iterdir())


def beside(path, suffix):
    return path.with_name(path.name + suffix)


@contextmanager
def open_log(workshop):
    """While it lasts, what is written stays in the log beside the workshop, as a killed process leaves it."""
    with closing(sqlite3.connect(workshop, isolation_level=None)) as base:
        base.execute("BEGIN")
        base.execute("SELECT count(*) FROM entry").fetchone()
        yield


def with_a_quote(bench):
    bench.write("book.toml", BOOK)
    bench.good("quote", "make", "book.toml", "--customer", "ida-quill")


class Names(unittest.TestCase):
    def test_a_name_that_sqlite_would_read_otherwise_is_a_name(self):
        for name in ("file:zz.db?mode=memory", "file:zz.db?mode=ro", "file:zz%41.db", ":memory:", "zz.db?immutable=1#x", "-zz.db"):
            with self.subTest(name=name), program.Bench(ENDBAND, SAMPLE, empty=True) as bench:
                on = f"--workshop={name}"
                bench.good(*NEW, on)
                self.assertEqual([path.name for path in bench.folder.iterdir()], [name])
                bench.good("customer", "add", "ida-quill", "--name", "Ida Quill", on)
                self.assertIn("Ida Quill", bench.good("customer", "list", on))
                bench.good("workshop", "backup", "file:copy.db?mode=memory", on)
                bench.good("workshop", "check", "--workshop=file:copy.db?mode=memory")
                self.assertIn("ida-quill", bench.good("complete", "--", "customer", "show", "--workshop", name, "", day=False))
                self.assertEqual(sorted(path.name for path in bench.folder.iterdir()), sorted([name, "file:copy.db?mode=memory"]))

    def test_no_name_is_refused(self):
        with program.Bench(ENDBAND, SAMPLE, empty=True) as bench:
            for words in (NEW, ["customer", "list"]):
                done = bench.run(*words, "--workshop=")
                self.assertIn(done.returncode, (2, 3), done)
                self.assertEqual(list(bench.folder.iterdir()), [])


class LeftBeside(unittest.TestCase):
    def left(self, bench, suffix):
        """Beside a name that is free, what a workshop of that name left."""
        place = bench.folder / "lost"
        place.mkdir(exist_ok=True)
        with open_log(bench.workshop):
            bench.good("customer", "add", f"otter{suffix}", "--name", "Otter Stage")
            log = beside(bench.workshop, "-wal").read_bytes()
        self.assertGreater(len(log), 4096)
        beside(place / "w.db", suffix).write_bytes(log)
        return place

    def test_no_new_file_takes_for_its_own_what_another_has_left(self):
        for suffix in SUFFIXES:
            with program.Bench(ENDBAND, SAMPLE) as bench:
                place = self.left(bench, suffix)
                bench.good("workshop", "export", "-o", "text.jsonl")
                kept = beside(place / "w.db", suffix).read_bytes()
                name = str(place / "w.db")
                lines = ([*NEW, "--workshop", name], ["workshop", "new", "--sample", "--workshop", name],
                         ["workshop", "new", "--from-text", "text.jsonl", "--workshop", name], ["workshop", "backup", name])
                for words in lines:
                    for more in ([], ["--dry-run"]):
                        with self.subTest(suffix=suffix, words=words, more=more):
                            done = bench.run(*words, *more)
                            self.assertEqual(done.returncode, 3, done)
                            self.assertIn(f"w.db{suffix}", done.stderr.decode())
                            self.assertEqual(names_in(place), [f"w.db{suffix}"])
                            self.assertEqual(beside(place / "w.db", suffix).read_bytes(), kept)
                beside(place / "w.db", suffix).unlink()
                for words in lines:
                    bench.good(*words)
                    bench.good("workshop", "check", "--workshop", name)
                    (place / "w.db").unlink()

    def test_a_backup_takes_the_place_of_a_lost_workshop_as_help_says(self):
        with program.Bench(ENDBAND, SAMPLE) as bench:
            bench.good("workshop", "backup", "copy.db")
            place = self.left(bench, "-wal")
            text = " ".join(bench.good("help", "workshop", "backup", day=False).split())
            self.assertIn("-wal and -shm", text)
            self.assertIn("endband --workshop COPY workshop backup WORKSHOP", text)
            back = ["--workshop", "copy.db", "workshop", "backup", str(place / "w.db")]
            self.assertEqual(bench.run(*back).returncode, 3)
            (place / "w.db-wal").rename(place / "old-wal")
            bench.good(*back)
            bench.good("workshop", "check", "--workshop", str(place / "w.db"))

    def test_an_empty_file_is_called_so_and_its_log_is_kept(self):
        with program.Bench(ENDBAND, SAMPLE) as bench:
            place = self.left(bench, "-wal")
            kept = (place / "w.db-wal").read_bytes()
            (place / "w.db").touch()
            for words in (["quote", "list"], ["workshop", "check"], ["customer", "add", "x", "--name", "X"]):
                done = bench.run("--workshop", str(place / "w.db"), *words)
                self.assertEqual(done.returncode, 3)
                self.assertIn("empty", done.stderr.decode())
                self.assertEqual((place / "w.db-wal").read_bytes(), kept)


class Damaged(unittest.TestCase):
    def test_a_damaged_file_is_told_in_words_and_each_finding_once(self):
        with program.Bench(ENDBAND, SAMPLE) as bench:
            with_a_quote(bench)
            good = bench.workshop.read_bytes()
            last_page = len(good) // 4096
            for pages in ((last_page - 2, last_page), (last_page - 12, last_page - 2)):
                with self.subTest(pages=pages):
                    first, last = (4096 * page for page in pages)
                    bench.workshop.write_bytes(good[:first] + bytes(last - first) + good[last:])
                    done = bench.run("workshop", "check", "--json")
                    self.assertEqual(done.returncode, 1, done.stderr)
                    shown = bench.run("workshop", "check").stdout.decode()
                    words = " ".join(shown.split())
                    self.assertIn("the file is damaged", words)
                    self.assertIn("endband help workshop backup", words)
                    self.assertNotIn("***", shown)
                    self.assertNotIn("SQLite's integrity", words)
                    faults = [(fault["field"], fault["found"]) for fault in program.json.loads(done.stdout)["faults"]]
                    self.assertEqual(len(faults), len(set(faults)), faults)
                    self.assertFalse([found for _, found in faults if "\n" in found])

    def test_where_it_cannot_even_be_opened_the_way_back_is_told(self):
        with program.Bench(ENDBAND, SAMPLE) as bench:
            good = bench.workshop.read_bytes()
            for damage in (good[:4096] + bytes(len(good) - 4096), b"letters to customers" * 400):
                bench.workshop.write_bytes(damage)
                for words in (["workshop", "check"], ["quote", "list"]):
                    done = bench.run(*words)
                    self.assertEqual(done.returncode, 3, done)
                    self.assertIn("endband help workshop backup", done.stderr.decode())


class OnlyReading(unittest.TestCase):
    """Where nothing may be written, all can be looked at, and what would be written says why it is not."""

    def as_nobody(self, bench, *words):
        line = [bench.endband, *program.ON, *words]
        if os.geteuid() == 0:  # to whom nothing is forbidden
            line = ["setpriv", "--reuid=65534", "--regid=65534", "--clear-groups", *line]
        return subprocess.run(line, cwd=bench.folder, env=bench.env, capture_output=True, check=False, timeout=60)

    @contextmanager
    def locked(self, bench, *suffixes):
        """The workshop, and of what is beside it that, in a folder of which one may only look."""
        place = bench.folder / "locked"
        place.mkdir()
        for suffix in ("", *suffixes):
            shutil.copy(beside(bench.workshop, suffix), place / f"workshop.db{suffix}")
            (place / f"workshop.db{suffix}").chmod(0o444)
        bench.folder.chmod(0o755)
        place.chmod(0o555)
        bench.env["ENDBAND_WORKSHOP"] = str(place / "workshop.db")
        stood = names_in(place), (place / "workshop.db").read_bytes()
        try:
            yield place
            self.assertEqual((names_in(place), (place / "workshop.db").read_bytes()), stood)
        finally:
            place.chmod(0o755)

    def looked(self, bench, run):
        """What each command says, without the path."""
        said = []
        for words in LOOKING:
            done = run(*words)
            self.assertEqual(done.returncode, 0, (words, done.stderr))
            said.append(done.stdout.decode().replace(bench.env["ENDBAND_WORKSHOP"], "W"))
        return said

    def refused(self, done, word):
        self.assertEqual(done.returncode, 3, done)
        self.assertIn(word, done.stderr.decode())
        self.assertIn("nothing saved", done.stderr.decode())

    def test_a_file_and_a_folder_that_may_not_be_written(self):
        with program.Bench(ENDBAND, SAMPLE) as bench:
            with_a_quote(bench)
            before = self.looked(bench, bench.run)
            with self.locked(bench):
                self.assertEqual(self.looked(bench, lambda *words: self.as_nobody(bench, *words)), before)
                self.refused(self.as_nobody(bench, "customer", "add", "x", "--name", "X"), "write-protected")
                self.refused(self.as_nobody(bench, "quote", "make", "book.toml"), "write-protected")
                out = bench.folder / "out"
                out.mkdir()
                out.chmod(0o777)
                done = self.as_nobody(bench, "workshop", "backup", "out/copy.db")
                self.assertEqual(done.returncode, 0, done.stderr)
                self.assertEqual((out / "copy.db").read_bytes()[18:20], b"\2\2", "a workshop keeps a log")
                bench.good("workshop", "check", "--workshop", "out/copy.db")
                self.assertEqual(names_in(out), ["copy.db"])

    def test_one_that_would_have_to_be_brought_up_to_date_says_so(self):
        with program.Bench(ENDBAND, SAMPLE) as bench:
            good = bench.workshop.read_bytes()
            bench.workshop.write_bytes(good[:60] + bytes((0, 0, 0, 6)) + good[64:])  # user_version
            with self.locked(bench):
                done = self.as_nobody(bench, "quote", "list")
                self.assertEqual(done.returncode, 3)
                self.assertIn(b"version 6", done.stderr)
                self.assertIn(b"a copy of it", done.stderr)

    def test_the_log_of_a_killed_process_is_read_or_named(self):
        with program.Bench(ENDBAND, SAMPLE) as bench:
            with_a_quote(bench)
            with open_log(bench.workshop):
                bench.good("customer", "add", "otter", "--name", "Otter Stage")
                with self.locked(bench, "-wal", "-shm"):
                    done = self.as_nobody(bench, "customer", "list")
                    self.assertIn(b"Otter Stage", done.stdout, done.stderr)
                shutil.rmtree(bench.folder / "locked")
                bench.env["ENDBAND_WORKSHOP"] = str(bench.workshop)
                with self.locked(bench, "-wal"):
                    done = self.as_nobody(bench, "customer", "list")
                    self.assertEqual(done.returncode, 3)
                    self.assertIn(b"workshop.db-wal", done.stderr)

    @unittest.skipUnless(os.geteuid() == 0, "only root may be another user")
    def test_a_reader_sees_whole_states_while_another_user_writes(self):
        with program.Bench(ENDBAND, SAMPLE) as bench:
            bench.folder.chmod(0o755)
            bench.workshop.chmod(0o644)
            ends, stop = [], threading.Event()

            def write():
                count = 0
                while not stop.is_set():
                    count += 1
                    ends.append(bench.run("customer", "add", f"c-{count}", "--name", "X" * 150).returncode)

            writer = threading.Thread(target=write)
            writer.start()
            try:
                for _ in range(20):
                    done = self.as_nobody(bench, "workshop", "check")
                    self.assertEqual(done.returncode, 0, done)
            finally:
                stop.set()
                writer.join()
            self.assertEqual(set(ends), {0})

    @contextmanager
    def disk(self, bench, size):
        place = bench.folder / "disk"
        place.mkdir()
        if subprocess.run(["mount", "-t", "tmpfs", "-o", f"size={size}", "disk", place], check=False,
                          stderr=subprocess.DEVNULL).returncode != 0:
            self.skipTest("no disk may be mounted here")
        try:
            shutil.copy(bench.workshop, place / "workshop.db")
            bench.env["ENDBAND_WORKSHOP"] = str(place / "workshop.db")
            yield place
        finally:
            subprocess.run(["umount", place], check=True)

    @unittest.skipUnless(os.geteuid() == 0, "only root may mount a disk")
    def test_a_disk_that_may_not_be_written(self):
        with program.Bench(ENDBAND, SAMPLE) as bench:
            with_a_quote(bench)
            before = self.looked(bench, bench.run)
            with self.disk(bench, "8M") as place:
                subprocess.run(["mount", "-o", "remount,ro", place], check=True)
                self.assertEqual(self.looked(bench, bench.run), before)
                self.refused(bench.run("customer", "add", "x", "--name", "X"), "write-protected")
                bench.good("workshop", "backup", "copy.db")
                bench.good("workshop", "check", "--workshop", "copy.db")

    @unittest.skipUnless(os.geteuid() == 0, "only root may mount a disk")
    def test_a_full_disk(self):
        with program.Bench(ENDBAND, SAMPLE) as bench:
            with_a_quote(bench)
            before = self.looked(bench, bench.run)
            with self.disk(bench, "2M") as place:
                kept = (place / "workshop.db").read_bytes()
                try:
                    (place / "fill").write_bytes(bytes(1 << 22))
                except OSError:
                    pass
                self.assertEqual(self.looked(bench, bench.run), before)
                self.refused(bench.run("customer", "add", "x", "--name", "X"), "the disk is full")
                bench.good("workshop", "backup", "copy.db")
                bench.good("workshop", "check", "--workshop", "copy.db")
                self.assertEqual((place / "workshop.db").read_bytes(), kept)
                (place / "fill").unlink()
                bench.good("customer", "add", "x", "--name", "X")
                bench.good("workshop", "check")
                self.assertEqual(names_in(place), ["workshop.db"])


if __name__ == "__main__":
    ENDBAND, SAMPLE = sys.argv[1:3]
    unittest.main(argv=sys.argv[:1] + sys.argv[3:])
