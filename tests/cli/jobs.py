#!/usr/bin/python3
"""Jobs as a binder keeps them: from a quote accepted to a job finished, changed or called off.

usage: jobs.py ENDBAND SAMPLE_WORKSHOP
"""

import sys
import unittest

import program

BOOK = """endband = 1
model = "single-section"
title = "Tides"
[[outside]]
words = "a die"
price = "80.00"
at_cost = true
"""
UNIT = {"length_um": (1e6, "m"), "area_um2": (1e12, "m2"), "mass_mg": (1e3, "g"), "volume_ul": (1e3, "ml")}


def number(amount):
    return next(iter(amount.values()))


def cents(money):
    return round(float(money["amount"]) * 100)


class Jobs(unittest.TestCase):
    def setUp(self):
        self.bench = program.Bench(ENDBAND, SAMPLE)
        self.bench.__enter__()
        self.addCleanup(self.bench.__exit__)
        self.bench.write("book.toml", BOOK)
        self.bench.good("quote", "make", "book.toml", "--customer", "ida-quill", "--made-to", "business", "--delivery",
                        "collected")

    def test_before_its_materials_were_known_a_job_wants_them_all_the_same(self):
        self.bench.good("quote", "accept", "1")
        for words in (["stock", "to-buy"], ["workshop", "today"]):
            self.assertTrue(self.bench.good(*words, "--on", "2020-01-01"))
        refused = self.bench.run("material", "show", "goat-moss-08", "--on", "2020-01-01")
        self.assertEqual(refused.returncode, 2)
        self.assertIn("on, when it is first known", refused.stderr.decode())

    def words(self, material, amount, times=1):
        """So much of a material as one would say it, rounded up."""
        (name, n), = amount.items()
        if name in UNIT:
            one, unit = UNIT[name]
            return f"{n * times / one + 0.001:.6f} {unit}"
        card = self.bench.json("material", "show", material)["material"]
        unit = {"sheet": "sheets", "pad": "sheets", "leaf-book": "leaves"}.get(card["sold_by"], "pieces")
        return f"{-(-n * times // 1000)} {unit}"

    def fill_shelf(self, materials, but=()):
        for row in materials:
            if row["code"] not in but:
                quantity = self.words(row["code"], row["wanted"], 2)
                skin = "area_um2" in row["wanted"]
                line = ["stock", "receive", f"{row['code']} {quantity} 20.00", "--supplier", "Wharf Goods"]
                self.bench.good(*line)
                if skin:
                    self.bench.good(*line)

    def wanted(self):
        return self.bench.json("quote", "accept", "1", "--dry-run")["materials"]

    def accept(self, but=()):
        wanted = self.wanted()
        self.fill_shelf(wanted, but)
        return self.bench.json("quote", "accept", "1")

    def refused(self, *words, code, exit_code):
        done = self.bench.run("--json", *words)
        self.assertEqual(done.returncode, exit_code, done.stderr)
        self.assertIn(code.encode(), done.stderr)
        return done.stderr.decode()

    def test_a_quote_moves_on_and_each_move_shows(self):
        state = lambda: self.bench.json("quote", "list")["quotes"][0]["state"]
        self.assertEqual(state(), "open")
        self.bench.good("quote", "send", "1")
        self.assertEqual(state(), "sent")
        self.bench.good("quote", "decline", "1")
        self.assertEqual(state(), "declined")
        self.assertEqual(self.bench.json("quote", "revise", "1", "book.toml")["number"], "26-001b")
        listed = self.bench.json("quote", "list")["quotes"]
        self.assertEqual([(q["number"], q["state"]) for q in listed], [("26-001b", "open"), ("26-001a", "revised")])
        self.refused("quote", "accept", "26-001a", code="rule-refused", exit_code=1)
        self.assertEqual(self.bench.json("quote", "list", "--on", "2027-11-25")["quotes"][0]["state"], "lapsed")
        self.bench.good("quote", "accept", "26-001b")
        self.assertEqual(self.bench.json("quote", "show", "26-001b")["state"], "accepted")
        self.assertIn("job vary", self.refused("quote", "revise", "1", "book.toml", code="rule-refused", exit_code=1))

    def test_accepting_sets_aside_what_is_there_and_says_what_is_short(self):
        first = self.wanted()[0]["code"]
        accepted = self.accept(but=[first])
        for row in accepted["materials"]:
            with self.subTest(row["code"]):
                there = number(row["set_aside"])
                self.assertEqual(number(row["short_of"]), number(row["wanted"]) if row["code"] == first else 0)
                self.assertTrue(there == 0 if row["code"] == first else there >= number(row["wanted"]))

    def test_as_quoted_takes_all_of_the_bill_or_nothing(self):
        first = self.wanted()[0]
        self.accept(but=[first["code"]])
        told = self.refused("job", "use", "1", "--as-quoted", code="rule-refused", exit_code=1)
        self.assertIn(first["code"], told)
        self.assertEqual(self.bench.json("stock", "moves", "--job", "1")["movements"], [])
        shown = self.bench.json("job", "use", "1", "--as-quoted", "--dry-run")
        self.assertEqual([row["code"] for row in shown["short"]], [first["code"]])
        self.fill_shelf([first])
        used = self.bench.json("job", "use", "1", "--as-quoted")
        self.assertEqual(used["short"], [])
        seen = self.bench.json("job", "show", "1")
        for row in seen["materials"]:
            with self.subTest(row["code"]):
                self.assertEqual(number(row["to_take"]), 0)
                if "area_um2" not in row["taken"]:  # a skin is set aside whole, and the rest of it until the end
                    self.assertEqual(number(row["set_aside"]), 0)
        worth = sum(cents(taken["worth"]) for taken in used["taken"])
        self.assertEqual(cents(seen["cost"]["materials"]), worth)
        self.assertEqual(self.bench.json("job", "use", "1", "--as-quoted")["taken"], [])

    def test_a_correction_after_as_quoted_stands_and_is_not_taken_again(self):
        self.accept()
        self.bench.good("job", "use", "1", "--as-quoted")
        before = self.bench.json("job", "show", "1")
        sheets = next(row for row in before["materials"] if "count_thousandths" in row["taken"] and number(row["taken"]) >= 2000)
        one = self.words(sheets["code"], {"count_thousandths": 1000})
        self.bench.good("job", "return", "1", sheets["code"], one)
        after = self.bench.json("job", "show", "1")
        row = next(r for r in after["materials"] if r["code"] == sheets["code"])
        self.assertEqual(number(row["taken"]), number(sheets["taken"]) - 1000)
        self.assertEqual(number(row["to_take"]), 1000)
        self.assertLess(cents(after["cost"]["materials"]), cents(before["cost"]["materials"]))
        self.bench.good("job", "use", "1", "--as-quoted")
        self.assertEqual(self.bench.json("job", "show", "1")["cost"], before["cost"])

    def test_finish_names_all_that_is_open_and_closes_once_nothing_is(self):
        accepted = self.accept()
        self.bench.good("job", "hold", "1", "the title")
        told = self.refused("job", "finish", "1", code="rule-refused", exit_code=1)
        for name in ["the title", "a die", *(row["code"] for row in accepted["materials"])]:
            self.assertIn(name, told)
        self.bench.good("job", "approve", "1", "the title")
        dropped = accepted["materials"][0]["code"]
        self.bench.good("job", "use", "1", dropped, "--without")
        self.bench.good("job", "use", "1", "--as-quoted")
        self.bench.good("job", "use", "1", "--outside", "A die", "--price", "85.00")
        self.bench.good("job", "time", "1", "--as-quoted")
        done = self.bench.json("job", "finish", "1")
        self.assertEqual(done["cost"]["work_s"], done["quoted_cost"]["work_s"])
        # The quote rounds each line of work, the job all hours once.
        self.assertAlmostEqual(cents(done["cost"]["labour"]), cents(done["quoted_cost"]["labour"]), delta=20)
        self.assertEqual(cents(done["cost"]["outside"]), 8500)
        self.assertEqual(cents(done["left_now"]), cents(done["job"]["price"]) - cents(done["cost"]["total"]))
        self.assertEqual(done["job"]["state"], "finished")
        self.refused("job", "time", "1", "sewing", "1 h", code="rule-refused", exit_code=1)
        self.bench.good("job", "paid", "1", "10.00")
        self.assertEqual(self.bench.json("job", "list")["jobs"], [])
        self.assertIn("All is well", self.bench.good("workshop", "check"))

    def test_hours_are_told_by_the_clock_by_length_by_part_and_taken_off_again(self):
        self.accept()
        told = self.bench.json("job", "time", "1", "sewing", "22:30-00:15")
        self.assertEqual((told["worked_s"], told["told"][0]["began"]), (105 * 60, "22:30"))
        self.assertEqual(self.bench.json("job", "time", "1", "fold-sheets", "2 h")["worked_s"], 225 * 60)
        self.assertEqual(self.bench.json("job", "time", "1", "fold-sheets", "30 min", "--less")["worked_s"], 195 * 60)
        self.refused("job", "time", "1", "fold-sheets", "3 h", "--less", code="out-of-range", exit_code=2)
        self.assertIn("sew-sections", self.refused("job", "time", "1", "sew", "1 h", code="bad-value", exit_code=2))

    def test_an_unchanged_book_changes_nothing_and_another_is_priced_against_today(self):
        self.accept()
        self.bench.good("workshop", "set", "default.leather=goat-midnight-10", "--from", "2026-11-26")
        same = self.bench.json("job", "vary", "1", "book.toml", "--dry-run", "--on", "2026-11-27")
        self.assertEqual((cents(same["change"]["difference"]), same["needs"]), (0, []))
        self.assertEqual(same["job"]["to_pay"], same["to_pay_before"])
        self.bench.write("more.toml", BOOK.replace('title = "Tides"', 'title = "Tides"\ncopies = 2'))
        more = self.bench.json("job", "vary", "1", "more.toml", "--words", "two of it")
        self.assertEqual(more["job"]["quote"], "26-001b")
        change = more["change"]
        self.assertGreater(cents(change["new_cost"]), cents(change["old_cost"]))
        self.assertEqual(cents(change["price"]), cents(more["price_before"]) + cents(change["difference"]))
        self.assertEqual(more["job"]["price"], change["price"])
        states = {q["number"]: q["state"] for q in self.bench.json("quote", "list")["quotes"]}
        self.assertEqual(states, {"26-001a": "revised", "26-001b": "accepted"})

    def test_a_job_called_off_settles_what_was_paid(self):
        self.accept()
        self.bench.good("job", "use", "1", "--as-quoted")
        self.bench.good("job", "paid", "1", "500.00")
        self.refused("job", "cancel", "1", code="bad-command", exit_code=2)
        off = self.bench.json("job", "cancel", "1", "--reason", "moved away")
        self.assertEqual(off["keeps"], off["cost"]["total"])
        self.assertEqual(cents(off["paid"]), cents(off["keeps"]) + cents(off["tax"]) + cents(off["to_give_back"])
                         - cents(off["still_due"]))
        self.assertEqual(0, cents(off["to_give_back"]) * cents(off["still_due"]))
        self.refused("job", "use", "1", "--outside", "a die", "--price", "1", code="rule-refused", exit_code=1)

    def test_what_a_command_says_twice_is_refused(self):
        self.accept()
        for line in (["use", "1", "--as-quoted", "--without"], ["use", "1", "text-wove-90", "1 sheet", "--spoiled", "--cut-away"],
                     ["time", "1", "sewing", "1 h", "--as-quoted"], ["return", "1", "text-wove-90", "--to-customer"]):
            with self.subTest(line=" ".join(line)):
                self.refused("job", *line, code="contradiction", exit_code=2)


if __name__ == "__main__":
    ENDBAND, SAMPLE = sys.argv[1:3]
    unittest.main(argv=sys.argv[:1] + sys.argv[3:])
