#!/usr/bin/python3
"""The invented past years are what they say they are, and their table of steps is the program's.

usage: past_year.py ENDBAND [TEST ...]
"""

import re
import subprocess
import sys
import unittest
from pathlib import Path

ROOT = Path(__file__).resolve().parents[2]
SAMPLE = ROOT / "sample_data"
ENDBAND = ""


def year(*words):
    done = subprocess.run([sys.executable, "-B", str(SAMPLE / "past_year.py"), *words], check=True, capture_output=True,
                          text=True)
    return done.stdout


def commissions(text):
    """Each as its keys and values, as they stand."""
    parts = text.split("[[commissions]]")[1:]
    return [dict(re.findall(r'^(\w+) = "?([^"\n]*)"?$', part, re.MULTILINE)) for part in parts]


def shares(one):
    return {step: float(share) for step, share in re.findall(r"([\w-]+) ([\d.]+) %", one["hours"])}


class PastYear(unittest.TestCase):
    def test_one_seed_has_one_year(self):
        self.assertEqual(year("7"), year("7"))
        self.assertNotEqual(year("7"), year("8"))

    def test_there_are_commissions_enough_of_books_that_exist(self):
        made = commissions(year("3"))
        self.assertGreaterEqual(len(made), 66)
        self.assertGreaterEqual(sum("finished" in one for one in made), 60)
        self.assertTrue(10 <= sum("accepted" not in one for one in made) <= 15)
        books = {one["book"] for one in made}
        self.assertTrue(14 <= len(books) <= 18)
        for book in books:
            self.assertTrue((SAMPLE / book).exists(), book)
        for outlet in {one["through"] for one in made if "through" in one}:
            self.assertTrue((SAMPLE / "outlets" / f"{outlet}.toml").exists(), outlet)

    def test_days_follow_each_other_within_fourteen_months(self):
        made = commissions(year("5"))
        self.assertEqual([one["on"] for one in made], sorted(one["on"] for one in made))
        self.assertTrue(all("2025-10-01" <= one["on"] < "2026-12-01" for one in made))
        for one in made:
            if "accepted" in one:
                self.assertLess(one["on"], one["accepted"])
            if "finished" in one:
                self.assertLess(one["accepted"], one["finished"])
                self.assertLess(one["finished"], "2026-12-31")
        self.assertEqual(year("5", "--from", "2026-01").count("2025-"), 0)

    def test_a_plain_year_takes_on_average_what_is_timed(self):
        seen = [share for seed in range(1, 7) for one in commissions(year(str(seed), "--plain")) if "hours" in one
                for step, share in shares(one).items() if step != "rest"]
        self.assertAlmostEqual(sum(seen) / len(seen), 100, delta=1.5)
        self.assertNotIn("fees", year("1", "--plain"))

    def test_the_truths_are_there(self):
        made = [one for seed in range(1, 4) for one in commissions(year(str(seed))) if "hours" in one]
        sewing = [shares(one)["sew-sections"] for one in made if "sew-sections" in one["hours"]]
        self.assertAlmostEqual(sum(sewing) / len(sewing), 100 / 0.75, delta=5)
        self.assertTrue(all("fees" in one for one in made if one.get("through") == "fair"))

    def test_the_table_of_steps_is_the_programs(self):
        self.assertEqual((SAMPLE / "past_year.steps").read_text("utf-8"), year("--steps", ENDBAND))


if __name__ == "__main__":
    ENDBAND = sys.argv.pop(1)
    unittest.main()
