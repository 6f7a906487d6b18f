#!/usr/bin/python3
"""Books and jobs cut by plan: from new goods, from the shelf, and what a job takes of it.

usage: cut.py ENDBAND SAMPLE_WORKSHOP
"""

import collections
import json
import shutil
import subprocess
import sys
import unittest

import program

BOOK = """endband = 1
model = "half-leather"
title = "Songs of the Wend Ferry"
height = "210 mm"
width = "148 mm"
pages = 320
"""
CUT_BY = ("sheet", "pad", "skin", "length")


def counts(material):
    """How many of each piece of a material are cut, by its number."""
    total = collections.Counter()
    for use in material["used"]:
        for row in use["pieces"]:
            total[row["piece"]] += row["count"] * use["times"]
    return total


class Cut(unittest.TestCase):
    def setUp(self):
        self.bench = program.Bench(ENDBAND, SAMPLE)
        self.bench.__enter__()
        self.addCleanup(self.bench.__exit__)
        self.bench.write("book.toml", BOOK)

    def cut(self, *words):
        return self.bench.json("book", "cut", "book.toml", *words)

    def refused(self, *words, code, exit_code):
        done = self.bench.run("--json", *words)
        self.assertEqual(done.returncode, exit_code, done.stdout + done.stderr)
        fault = json.loads(done.stderr)
        self.assertEqual([row["code"] for row in fault["faults"]][0], code)
        return fault["faults"]

    def material(self, document, code):
        return next(row for row in document["materials"] if row["code"] == code)

    def fill_shelf(self, plan):
        """All that a plan has to buy, received as it is sold."""
        for row in plan["materials"]:
            new = [use for use in row["used"] if use["from"] is None]
            count = sum(use["times"] for use in new)
            if not count:
                continue
            card = self.bench.json("material", "show", row["code"])["material"]
            if card["sold_by"] == "skin":
                for _ in range(count):
                    self.bench.good("stock", "receive", f"{row['code']} 0.62 m2 60.00", "--supplier", "Wharf Goods")
            elif card["sold_by"] == "length":
                self.bench.good("stock", "receive", f"{row['code']} 20 m 40.00", "--supplier", "Wharf Goods")
            else:
                self.bench.good("stock", "receive", f"{row['code']} {count} sheets {count}.00", "--supplier", "Wharf Goods")

    def test_every_piece_of_sheets_and_skins_is_cut_once(self):
        measured = collections.Counter()
        sold = {}
        for piece in self.bench.json("book", "measure", "book.toml")["pieces"]:
            code = piece["material"]
            sold.setdefault(code, self.bench.json("material", "show", code)["material"]["sold_by"])
            if sold[code] in CUT_BY:
                measured[code] += piece["count"]
        for basis in (["--new"], []):
            done = self.cut(*basis)
            got = {row["code"]: sum(counts(row).values()) for row in done["materials"] if row["used"][0]["cuts"]
                   or row["used"][0]["laid"]}
            self.assertEqual(got, measured)
            for row in done["materials"]:
                self.assertEqual(row["outcome"], "planned")
                self.assertIsNotNone(row["cost"])

    def test_pieces_on_a_sheet_lie_apart_and_within_it(self):
        for row in self.cut("--new")["materials"]:
            for use in row["used"]:
                boxes = [(p["from_left_um"], p["from_top_um"], p["from_left_um"] + p["across_um"],
                          p["from_top_um"] + p["down_um"]) for p in use["laid"]]
                for i, (left, top, right, foot) in enumerate(boxes):
                    self.assertTrue(0 <= left < right <= use["width_um"] and 0 <= top < foot <= use["height_um"])
                    for other in boxes[:i]:
                        self.assertTrue(right <= other[0] or other[2] <= left or foot <= other[1] or other[3] <= top)

    def test_the_shelf_comes_first_at_what_it_is_worth(self):
        codes = [row["code"] for row in self.cut()["materials"]]
        self.assertTrue(all(use["from"] is None for row in self.cut()["materials"] for use in row["used"]))
        self.fill_shelf(self.cut())
        on_shelf = self.cut()
        self.assertEqual([row["code"] for row in on_shelf["materials"]], codes)
        self.assertTrue(any(use["from"] for use in self.material(on_shelf, "goat-moss-08")["used"]))
        self.assertTrue(all(use["from"] is None for row in self.cut("--new")["materials"] for use in row["used"]))
        self.assertEqual(self.cut("--new"), self.cut("--new"))

    def test_one_thread_or_two_make_the_same_plan(self):
        if shutil.which("taskset", path="/usr/bin:/bin") is None:
            self.skipTest("taskset is not here")
        line = [self.bench.endband, *program.ON, "--json", "book", "cut", "book.toml"]
        runs = [subprocess.run([*before, *line], cwd=self.bench.folder, env=self.bench.env, capture_output=True, check=True)
                for before in ([], ["/usr/bin/taskset", "-c", "0"])]
        self.assertEqual(runs[0].stdout, runs[1].stdout)

    def test_drawings_are_one_a_piece_of_stock_and_write_over_nothing(self):
        done = self.cut("--svg", "cuts")
        told = [use["drawing"] for row in done["materials"] for use in row["used"] if use["drawing"]]
        self.assertEqual(sorted(path.name for path in (self.bench.folder / "cuts").iterdir()), sorted(told))
        self.assertIn("cut-1.svg", told)
        self.refused("book", "cut", "book.toml", "--svg", "cuts", code="already-exists", exit_code=1)
        self.bench.good("book", "cut", "book.toml", "--svg", "cuts", "--yes")
        self.bench.good("book", "cut", "book.toml", "--svg", "none", "--dry-run")
        self.assertFalse((self.bench.folder / "none").exists())

    def test_what_cannot_be_cut_is_said_with_the_side_and_how_much(self):
        self.bench.write("large.toml", BOOK.replace('"210 mm"', '"760 mm"').replace('"148 mm"', '"560 mm"'))
        done = self.bench.run("--json", "book", "cut", "large.toml", "--new")
        self.assertEqual(done.returncode, 1, done.stderr)
        rows = [row for row in json.loads(done.stdout)["materials"] if row["outcome"] == "impossible"]
        self.assertTrue(rows)
        for row in rows:
            self.assertTrue(row["reasons"])
            self.assertTrue(row["obstacles"])

    def test_faults(self):
        self.refused("book", "cut", "none.toml", code="file-missing", exit_code=3)
        self.refused("book", "cut", "book.toml", "--work", "-1", code="out-of-range", exit_code=2)
        self.refused("book", "cut", "book.toml", "--work", "1.5", code="bad-value", exit_code=2)
        self.refused("job", "cut", "26-009", code="unknown-code", exit_code=2)

    def accepted(self):
        number = self.bench.json("quote", "make", "book.toml", "--customer", "ida-quill")["number"]
        return self.bench.json("quote", "accept", number)["job"]

    def test_a_job_takes_what_its_plan_takes_and_it_can_be_undone(self):
        job = self.accepted()
        self.assertTrue(self.refused("job", "cut", job, "--take", code="rule-refused", exit_code=1))
        self.fill_shelf(self.bench.json("job", "cut", job))
        self.bench.good("stock", "change", "K1", "--stations", "0 620, 350 760, 900 520 mm")
        before = self.bench.json("stock", "list")
        dry = self.bench.json("job", "cut", job, "--take", "--dry-run")
        self.assertEqual(dry["missing"], [])
        self.assertEqual(self.bench.json("stock", "list"), before)
        done = self.bench.json("job", "cut", job, "--take")
        self.assertEqual(done["taken"], dry["taken"])
        taken = {row["code"] for row in done["taken"]}
        self.assertEqual(taken, {row["code"] for row in done["materials"]})
        rest = next(lot for lot in done["kept"] if lot["material"] == "goat-moss-08")
        self.assertIsNone(rest["height_um"])  # the rest of a measured skin has an outline, no sides
        self.bench.good("workshop", "check")
        again = self.bench.json("job", "cut", job)
        self.assertEqual(again["materials"], [])
        self.assertEqual({row["code"] for row in again["left_out"]}, taken)
        self.bench.good("workshop", "undo", "--yes")
        self.assertEqual(self.bench.json("stock", "list"), before)
        self.assertEqual([row["code"] for row in self.bench.json("job", "cut", job)["materials"]],
                         [row["code"] for row in done["materials"]])

    def test_jobs_cut_together_say_whose_each_piece_is(self):
        one, other = self.accepted(), self.accepted()
        done = self.bench.json("job", "cut", one, other)
        for row in done["materials"]:
            self.assertEqual({piece["for"] for piece in row["pieces"]}, {one, other})
        self.refused("job", "cut", one, other, "--take", code="contradiction", exit_code=2)
        self.refused("job", "cut", one, one, code="contradiction", exit_code=2)
        self.bench.good("job", "cancel", other, "--reason", "moved away")
        self.refused("job", "cut", one, other, code="rule-refused", exit_code=1)


if __name__ == "__main__":
    ENDBAND, SAMPLE = sys.argv[1:3]
    unittest.main(argv=sys.argv[:1] + sys.argv[3:])
