#!/usr/bin/python3
"""The program on a machine that stops, on a full disk, on a file that may not be written, and beside another of its kind.

usage: whole.py ENDBAND SAMPLE_WORKSHOP [TEST...]
    KILLS=2000 in the environment: as many processes are killed
"""

import os
import random
import resource
import shutil
import signal
import sqlite3
import subprocess
import sys
import time
import unittest
from contextlib import closing
from pathlib import Path

sys.path.insert(0, str(Path(__file__).resolve().parents[1] / "cli"))
import program  # noqa: E402  (it lies beside the tests of the program)

BOOK = 'endband = 1\ntitle = "Tides"\nheight = "210 mm"\nwidth = "148 mm"\npages = 320\nleather = "goat-moss-08"\n'
SKIN = "goat-moss-08"
KILLS = int(os.environ.get("KILLS", "24"))


def dump(path):
    """Every row of every table; opening it recovers what a killed process left."""
    with closing(sqlite3.connect(path)) as base:
        return "\n".join(base.iterdump())


def with_jobs(bench, count):
    """So many quotes of one book, accepted."""
    bench.write("book.toml", BOOK)
    for number in range(1, count + 1):
        bench.good("quote", "make", "book.toml", "--customer", "ida-quill")
        bench.good("quote", "accept", str(number))


class Killed(unittest.TestCase):
    def commands(self, bench):
        return [["stock", "receive", "board-grey-25 10 sheets 34.00", "--supplier", "Harrow"],
                ["workshop", "set", "goal.margin=41 %", "least.charge=61"],
                ["quote", "make", "book.toml", "--customer", "ida-quill"],
                ["job", "paid", "1", "25.00"],
                ["workshop", "undo", "--yes"]]

    def kill_once(self, bench, command, after_commit, draw):
        """True when the process was killed between its first write and its end."""
        log = Path(str(bench.workshop) + "-wal")
        read, write = os.pipe()
        if after_commit:  # its answer finds no room, so that it waits with all of its work done
            os.set_blocking(write, False)
            try:
                while True:
                    os.write(write, b"x" * 4096)
            except BlockingIOError:
                os.set_blocking(write, True)
        child = subprocess.Popen([bench.endband, *program.ON, *command], cwd=bench.folder, env=bench.env, stdout=write,
                                 stderr=subprocess.DEVNULL, stdin=subprocess.DEVNULL)
        os.close(write)
        wrote = False
        until = time.monotonic() + 20
        while child.poll() is None and time.monotonic() < until:
            try:
                wrote = wrote or log.stat().st_size > 0
            except FileNotFoundError:
                pass
            if wrote:
                time.sleep(0.2 if after_commit else draw.random() * 0.004)
                break
        child.send_signal(signal.SIGKILL)
        child.wait()
        os.close(read)
        return wrote and child.returncode == -signal.SIGKILL

    def test_a_process_killed_between_its_first_write_and_its_end_leaves_all_or_nothing(self):
        draw = random.Random(20261125)
        killed = before_seen = after_seen = 0
        with program.Bench(ENDBAND, SAMPLE, on_disk=True) as bench:  # where a transaction takes its time
            with_jobs(bench, 1)
            start = bench.folder / "start.db"
            shutil.copy(bench.workshop, start)
            before = dump(start)
            afters = []
            for command in self.commands(bench):
                shutil.copy(start, bench.workshop)
                bench.good(*command)
                afters.append(dump(bench.workshop))
            for attempt in range(40 * KILLS):
                if killed == KILLS:
                    break
                which = attempt % len(afters)
                for suffix in ("-wal", "-shm"):
                    Path(str(bench.workshop) + suffix).unlink(missing_ok=True)
                shutil.copy(start, bench.workshop)
                if not self.kill_once(bench, self.commands(bench)[which], attempt % 4 == 3, draw):
                    continue
                killed += 1
                bench.good("workshop", "check")
                now = dump(bench.workshop)
                self.assertIn(now, (before, afters[which]), self.commands(bench)[which])
                before_seen += now == before
                after_seen += now == afters[which]
        self.assertEqual(killed, KILLS)
        self.assertGreater(after_seen, 0)
        print(f"killed {killed} times between the first write and the end: {before_seen} inside the transaction, of which nothing "
              f"stood afterwards, and {after_seen} after its commit, of which all stood")


class TwoAtOnce(unittest.TestCase):
    def test_of_two_that_use_the_last_skin_one_gets_it_and_the_other_is_told_who_has_it(self):
        for _ in range(6):
            with program.Bench(ENDBAND, SAMPLE) as bench:
                with_jobs(bench, 2)
                bench.good("stock", "receive", f"{SKIN} 0.61 m2 66.00", "--supplier", "Harrow")
                both = [subprocess.Popen([bench.endband, *program.ON, "job", "use", job, SKIN, "0.61 m2"], cwd=bench.folder,
                                         env=bench.env, stdout=subprocess.PIPE, stderr=subprocess.PIPE) for job in ("1", "2")]
                ends = [(child.communicate(timeout=60), child.returncode) for child in both]
                codes = [code for _, code in ends]
                self.assertEqual(sorted(codes), [0, 1], ends)
                winner, loser = codes.index(0), codes.index(1)
                told = " ".join(ends[loser][0][1].decode().split())
                self.assertIn(f"26-00{winner + 1}", told)
                bench.good("workshop", "check")


class FullAndReadOnly(unittest.TestCase):
    BIG = ["quote", "make", "book.toml", "--customer", "ida-quill"]

    def test_a_full_disk_is_told_and_the_workshop_is_unharmed(self):
        with program.Bench(ENDBAND, SAMPLE) as bench:
            bench.write("book.toml", BOOK)
            before = dump(bench.workshop)
            refused = 0
            # From no room at all for the write-ahead log up to enough for the whole command.
            for limit in (0, 32, 4096, 8192, 20_000, 40_000, 1 << 30):
                def small(limit=limit):
                    resource.setrlimit(resource.RLIMIT_FSIZE, (limit, limit))
                done = bench.run(*self.BIG, preexec_fn=small)
                if done.returncode == 0:
                    self.assertNotEqual(dump(bench.workshop), before)
                    continue
                refused += 1
                with self.subTest(limit=limit):
                    self.assertEqual(done.returncode, 3, done.stderr)
                    self.assertIn(b"nothing saved", done.stderr)
                    self.assertEqual(dump(bench.workshop), before)
            self.assertGreater(refused, 2)
            bench.good("workshop", "check")

    def test_a_file_that_may_grow_no_further_leaves_nothing_half_made(self):
        with program.Bench(ENDBAND, SAMPLE) as bench:
            index = bench.workshop.name + "-shm"  # of the log: it stays, is of nothing, and goes with the next command

            def standing():
                return sorted(path.name for path in bench.folder.iterdir() if path.name != index)

            stood = standing()
            for limit in (0, 20_000, 200_000):
                for words in (["workshop", "new", "--sample", "--workshop", "new.db"], ["workshop", "backup", "copy.db"],
                              ["workshop", "export", "-o", "text.jsonl"]):
                    with self.subTest(limit=limit, words=words):
                        done = bench.run(*words, preexec_fn=lambda: resource.setrlimit(resource.RLIMIT_FSIZE, (limit, limit)))
                        self.assertEqual(done.returncode, 3, done)
                        self.assertIn(b"nothing saved", done.stderr)
                        self.assertEqual(standing(), stood)

    @unittest.skipUnless(os.geteuid() == 0, "only root may mount a small disk")
    def test_a_small_disk_that_fills_up_is_told_and_the_workshop_is_unharmed(self):
        with program.Bench(ENDBAND, SAMPLE) as bench:
            bench.write("book.toml", BOOK)
            place = bench.folder / "small"
            place.mkdir()
            size = bench.workshop.stat().st_size + 96 * 1024
            if subprocess.run(["mount", "-t", "tmpfs", "-o", f"size={size}", "small", place], check=False,
                              stderr=subprocess.DEVNULL).returncode != 0:
                self.skipTest("no disk may be mounted here")
            try:
                shutil.copy(bench.workshop, place / "workshop.db")
                bench.env["ENDBAND_WORKSHOP"] = str(place / "workshop.db")
                stood = dump(place / "workshop.db")
                for _ in range(200):
                    done = bench.run(*self.BIG)
                    if done.returncode != 0:
                        break
                    stood = dump(place / "workshop.db")
                self.assertEqual(done.returncode, 3, done.stderr)
                self.assertIn(b"full", done.stderr)
                self.assertEqual(dump(place / "workshop.db"), stood)
                bench.good("workshop", "check")
            finally:
                subprocess.run(["umount", place], check=True)

    def test_a_workshop_that_may_only_be_read_says_so_and_is_unharmed(self):
        with program.Bench(ENDBAND, SAMPLE) as bench:
            before = dump(bench.workshop)
            locked = bench.folder / "locked"
            locked.mkdir()
            place = locked / "workshop.db"
            shutil.copy(bench.workshop, place)
            bench.env["ENDBAND_WORKSHOP"] = str(place)
            place.chmod(0o444)
            locked.chmod(0o555)
            line = [bench.endband, *program.ON, "customer", "add", "x", "--name", "X"]
            if os.geteuid() == 0:  # to whom nothing is forbidden
                for path in (bench.folder, locked, place):
                    os.chown(path, 65534, 65534)
                line = ["setpriv", "--reuid=65534", "--regid=65534", "--clear-groups", *line]
            done = subprocess.run(line, cwd=bench.folder, env=bench.env, capture_output=True, check=False, timeout=60)
            locked.chmod(0o755)
            self.assertEqual(done.returncode, 3, done.stderr)
            self.assertIn(b"workshop.db", done.stderr)
            self.assertEqual(dump(place), before)


if __name__ == "__main__":
    ENDBAND, SAMPLE = sys.argv[1:3]
    unittest.main(argv=sys.argv[:1] + sys.argv[3:])
