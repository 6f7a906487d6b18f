#!/usr/bin/python3
"""cutting_bench reads two instances of every kind (made up for this, their optima by hand) and prints valid lines.

usage: samples_test.py CUTTING_BENCH FOLDER
"""

import json
import subprocess
import sys
import unittest
from pathlib import Path

BENCH, FOLDER = "", ""
WORK = "20000"


def run(*arguments):
    return subprocess.run([BENCH, FOLDER, "--work", WORK, *arguments], capture_output=True, text=True, timeout=100)


def lines_of(done):
    return [json.loads(line) for line in done.stdout.splitlines() if line.startswith("{")]


class Samples(unittest.TestCase):
    @classmethod
    def setUpClass(cls):
        cls.done = run("--threads", "2")
        cls.lines = lines_of(cls.done)

    def test_it_ends_well(self):
        self.assertEqual(self.done.returncode, 0, self.done.stderr)

    def test_every_instance_has_its_line(self):
        said = {(line["file"], line["name"]) for line in self.lines}
        asked = {(file.name, instance["name"]) for file in Path(FOLDER).glob("*.json")
                 for instance in json.loads(file.read_text(encoding="utf-8"))}
        self.assertEqual(said, asked)

    def test_every_plan_is_valid_and_placed(self):
        for line in self.lines:
            with self.subTest(name=line["name"], variant=line.get("variant")):
                self.assertIs(line["valid"], True)
                self.assertEqual(line["outcome"], "planned")
                self.assertTrue(line["placements"])
                self.assertGreaterEqual(line["ms"], 0)

    def test_so_small_ones_reach_what_is_known(self):
        for line in self.lines:
            if line["best_known"] is not None and line.get("variant") != "strip":
                with self.subTest(name=line["name"], variant=line.get("variant")):
                    self.assertLess(abs(line["gap"]), 1e-9)

    def test_a_place_is_in_the_units_of_the_file(self):
        line = next(line for line in self.lines if line["name"] == "offcut first")
        self.assertEqual({key: line["placements"][0][key] for key in ("kind", "piece", "w", "h")},
                         {"kind": 1, "piece": 0, "w": 210, "h": 297})

    def test_one_thread_gives_the_same_plans(self):
        def plans(lines):
            return [{key: value for key, value in line.items() if key not in ("ms", "core_ms")} for line in lines]
        self.assertEqual(plans(lines_of(run("--threads", "1"))), plans(self.lines))

    def test_each_family_is_summed_up(self):
        self.assertIn("own_cord ", self.done.stdout)
        self.assertIn("0 invalid", self.done.stdout)

    def test_family_and_limit_choose(self):
        lines = lines_of(run("--family", "own_cord", "--limit", "1"))
        self.assertEqual([line["name"] for line in lines], ["remnant"])

    def test_a_wrong_word_is_refused(self):
        self.assertEqual(run("--wrong", "1").returncode, 2)
        self.assertEqual(run("--work").returncode, 2)


if __name__ == "__main__":
    BENCH, FOLDER = sys.argv.pop(1), sys.argv.pop(1)
    unittest.main()
