#!/usr/bin/python3
"""schedule_bench solves a made-up instance, prints valid lines, and says what it cannot read.

usage: samples_test.py SCHEDULE_BENCH FOLDER
"""

import json
import subprocess
import sys
import tempfile
import unittest
from pathlib import Path

BENCH, FOLDER = "", ""


def run(*arguments):
    return subprocess.run([BENCH, *arguments], capture_output=True, text=True, timeout=100)


class Samples(unittest.TestCase):
    @classmethod
    def setUpClass(cls):
        cls.done = run(FOLDER)
        cls.lines = [json.loads(line) for line in cls.done.stdout.splitlines()]

    def test_it_ends_well(self):
        self.assertEqual(self.done.returncode, 0, self.done.stderr)

    def test_a_line_for_each_number_of_schedules(self):
        self.assertEqual([(line["name"], line["schedules"]) for line in self.lines], [("own_6", 1000), ("own_6", 5000)])

    def test_the_makespan_is_the_one_by_hand(self):
        # Of 3, 4 and 5 no two can be at once, so 4 + 6 + 2; 2 fits beside 4.
        for line in self.lines:
            self.assertEqual(line["makespan"], 12)
            self.assertTrue(line["feasible"])
            self.assertEqual(len(line["starts"]), 6)
            self.assertEqual(line["starts"][5], 12)

    def test_the_gap_is_said(self):
        self.assertIn("mean gap 0.000 %", self.done.stderr)
        self.assertIn("of the target", self.done.stderr)

    def test_a_seed_gives_the_same_bytes(self):
        self.assertEqual(run(FOLDER, "--seed", "7").stdout, run(FOLDER, "--seed", "7").stdout)


class Unreadable(unittest.TestCase):
    def refused(self, old, new, words):
        text = (Path(FOLDER) / "own_6.sm").read_text(encoding="utf-8")
        self.assertIn(old, text)
        with tempfile.TemporaryDirectory() as folder:
            (Path(folder) / "wrong.sm").write_text(text.replace(old, new, 1), encoding="utf-8")
            done = run(folder)
        self.assertEqual(done.returncode, 2)
        self.assertIn("wrong.sm", done.stderr)
        self.assertIn(words, done.stderr)

    def test_a_successor_that_is_no_job(self):
        self.refused("   4        1          1           6", "   4        1          1           9", "no job")

    def test_successors_that_end_too_soon(self):
        self.refused("   6        1          0        ", "", "too soon")

    def test_several_modes(self):
        self.refused("   2        1          1           5", "   2        2          1           5", "modes")

    def test_a_number_too_many(self):
        self.refused("  1      1     0       0    0\n", "  1      1     0       0    0   0\n", "one line a job")

    def test_resources_that_are_used_up(self):
        self.refused("nonrenewable              :  0", "nonrenewable              :  2", "used up")

    def test_a_circle(self):
        self.refused("   5        1          1           6", "   5        1          2           6   2", "circle")

    def test_no_folder(self):
        self.assertEqual(run().returncode, 2)
        self.assertEqual(run("/nonexistent/folder").returncode, 2)
        self.assertEqual(run(FOLDER, "--schedules", "0").returncode, 2)


if __name__ == "__main__":
    BENCH, FOLDER = sys.argv[1:3]
    unittest.main(argv=sys.argv[:1])
