#!/usr/bin/python3
"""Past commissions kept, compared, learned from and repriced, by the whole program.

    margins.py ENDBAND SAMPLE
"""

import json
import shutil
import sys
import unittest
from fractions import Fraction

from program import BOOKS, Bench

PAST = """endband = 1

[[customers]]
code = "ned-fallow"
name = "Ned Fallow"
email = "ned@example.org"

[[commissions]]
book = "chess_endings.toml"
on = 2026-03-02
customer = "ned-fallow"
accepted = 2026-03-05
finished = 2026-04-02
hours = "cut-boards 2 h; rest 100 %"
spoiled = "text-wove-90 3 sheets"

[[commissions]]
book = "ferry_songs.toml"
on = 2026-02-03
price = "640.00"
accepted = 2026-02-06
finished = 2026-03-20
hours = "sew-sections 130 %; rest 90 %"

[[commissions]]
book = "mill_poems.toml"
on = 2026-04-07
discount = "50 %"
because = "a present to the school"
accepted = 2026-04-07
finished = 2026-06-11
hours = "sewing 9 h; rest 100 %"

[[commissions]]
book = "ferry_songs.toml"
on = 2026-05-04
accepted = 2026-05-05

[[commissions]]
book = "lace_box.toml"
on = 2026-05-06
"""


def notebook(bench):
    """past.toml and the descriptions that it names, in the bench's folder."""
    for book in ("chess_endings", "ferry_songs", "mill_poems", "lace_box"):
        shutil.copy(BOOKS / f"{book}.toml", bench.folder)
    return bench.write("past.toml", PAST)


def cents(money):
    return round(Fraction(money["amount"]) * 100)


class Margins(unittest.TestCase):
    endband = sample = None

    def setUp(self):
        self.bench = Bench(self.endband, self.sample)
        self.bench.__enter__()
        self.addCleanup(self.bench.__exit__)
        notebook(self.bench)

    def kept(self):
        return self.bench.json("workshop", "import", "past.toml")["commissions"]

    def refused(self, *words, code, exit_code):
        before = self.bench.workshop.read_bytes()
        done = self.bench.run("--json", *words)
        self.assertEqual(done.returncode, exit_code, done.stderr)
        faults = json.loads(done.stderr)["faults"]
        self.assertIn(code, [fault["code"] for fault in faults])
        self.assertEqual(self.bench.workshop.read_bytes(), before)
        return faults

    def test_a_notebook_is_kept_as_of_its_days(self):
        kept = self.kept()
        self.assertEqual([one["quote"]["number"] for one in kept], ["26-001a", "26-002a", "26-003a", "26-004a", "26-005a"])
        self.assertEqual([one["quote"]["on"] for one in kept], sorted(one["quote"]["on"] for one in kept))
        states = [one["job"] and one["job"]["state"] for one in kept]
        self.assertEqual(states, ["finished", "finished", "finished", "open", None])
        self.assertEqual(kept[0]["quote"]["total"]["amount"], "640.00")
        chess = self.bench.json("job", "show", "26-002")
        boards = next(row for row in chess["work"] if row["step"] == "cut-boards")
        self.assertEqual(boards["worked_s"], 7200)
        self.assertIn("All is well", self.bench.good("workshop", "check"))

    def test_what_is_listed_is_what_is_shown_and_its_parts_sum(self):
        self.kept()
        self.bench.good("job", "sold", "26-001", "--carriage", "14.20", "--fees", "3.10")
        listed = {row["job"]: row for row in self.bench.json("margins", "list")["rows"]}
        self.assertEqual(sorted(listed), ["26-001", "26-002", "26-003"])
        for number, row in listed.items():
            shown = self.bench.json("margins", "show", number)
            self.assertEqual(shown["left"], row["left"], number)
            self.assertEqual(shown["left_quoted"], row["left_quoted"], number)
            parts = sum(cents(line["amount"]) for line in shown["lines"])
            self.assertEqual(parts, cents(row["left"]) - cents(row["left_quoted"]), number)
            self.assertEqual(sum(cents(one["amount"]) for one in shown["details"]), parts, number)
        fees = {line["because"]: cents(line["amount"]) for line in self.bench.json("margins", "show", "26-001")["lines"]}
        self.assertEqual((fees["fees"], fees["carriage"]), (-310, -1420))

    def test_the_sums_of_a_list_are_those_of_its_rows(self):
        self.kept()
        answer = self.bench.json("margins", "list")
        for field in ("left", "left_quoted", "full_price", "given_away"):
            self.assertEqual(cents(answer["all"][field]), sum(cents(row[field]) for row in answer["rows"]))
        gift = next(row for row in answer["rows"] if row["job"] == "26-003")
        self.assertEqual(cents(gift["given_away"]), cents(gift["full_price"]) - cents(gift["price"]))
        self.assertAlmostEqual(cents(gift["price"]) / cents(gift["full_price"]), 0.5, places=3)
        by = self.bench.json("margins", "list", "--by", "binding")
        self.assertEqual(by["all"], answer["all"])
        self.assertEqual(sum(row["jobs"] for row in by["rows"]), 3)
        self.assertTrue(all(row["few"] for row in by["rows"]))
        later = self.bench.json("margins", "list", "--since", "2026-04-02", "--until", "2026-04-30")["rows"]
        self.assertEqual([row["job"] for row in later], ["26-002"])
        self.assertEqual([row["job"] for row in self.bench.json("margins", "list", "--customer", "ned-fallow")["rows"]], ["26-002"])

    def test_what_is_learned_is_taken_over_from_a_day_and_quotes_keep_theirs(self):
        self.kept()
        before = self.bench.json("quote", "explain", "26-001")["work"]
        learned = {row["step"]: row for row in self.bench.json("steps", "learn")["steps"]}
        sewing = learned["sew-sections"]
        # Two jobs, one of them 30 % over, against four average ones that took just what was timed: as learned.h states it.
        self.assertEqual(sewing["factor"]["n"], 2)
        expected = (4 * sewing["timed_s"] + 2 * sewing["took_s"]) / (6 * sewing["timed_s"])
        self.assertAlmostEqual(sewing["factor"]["value_e3"], 1000 * expected, delta=1)
        self.assertTrue(1000 < sewing["factor"]["value_e3"] < 1100)
        self.assertTrue(sewing["few"])
        old = self.bench.json("steps", "list", "sew-sections")
        self.bench.good("steps", "learn", "--accept", "sew-sections", "--from", "2026-12-01")
        self.assertEqual(self.bench.json("--on", "2026-11-30", "steps", "list", "sew-sections", day=False)["steps"], old["steps"])
        new = self.bench.json("--on", "2026-12-01", "steps", "list", "sew-sections", day=False)
        self.assertNotEqual(new["steps"], old["steps"])
        self.assertEqual(self.bench.json("quote", "explain", "26-001")["work"], before)
        # What was learned is believed now: the same job is no longer 30 % over.
        again = {row["step"]: row for row in self.bench.json("--on", "2026-12-02", "steps", "learn", day=False)["steps"]}
        self.assertLess(again["sew-sections"]["factor"]["value_e3"], sewing["factor"]["value_e3"])
        self.refused("steps", "learn", "--accept", "sow-sections", code="unknown-code", exit_code=2)

    def test_hours_of_a_part_teach_no_single_step(self):
        self.kept()
        answer = self.bench.json("steps", "learn")
        self.assertEqual(answer["jobs_by_part"], 1)
        self.assertEqual(next(row for row in answer["steps"] if row["step"] == "sew-sections")["factor"]["n"], 2)

    def test_an_import_is_taken_back_whole(self):
        before = self.bench.json("stock", "list")
        self.kept()
        self.bench.good("workshop", "undo", "--yes")
        self.assertEqual(self.bench.json("margins", "list")["rows"], [])
        self.assertEqual(self.bench.json("stock", "list"), before)
        self.assertIn("All is well", self.bench.good("workshop", "check"))

    def test_nothing_is_kept_of_a_notebook_that_is_wrong_anywhere(self):
        wrong = PAST.replace("cut-boards 2 h", "cut-bords 2 h").replace("2026-03-20", "2026-01-20").replace("640.00", "-1")
        self.bench.write("wrong.toml", wrong)
        faults = self.refused("workshop", "import", "wrong.toml", code="bad-value", exit_code=2)
        self.assertGreaterEqual(len(faults), 3)
        for fault in faults:
            self.assertEqual(fault["source"], "wrong.toml")
            self.assertGreater(fault["line"], 1)
        self.bench.write("wrong.toml", PAST.replace("text-wove-90", "text-wave-90").replace("lace_box", "lost_box"))
        self.refused("workshop", "import", "wrong.toml", code="unknown-code", exit_code=3)
        self.bench.write("wrong.toml", PAST.replace("ned-fallow\"\naccepted", "nod-fallow\"\naccepted"))
        self.refused("workshop", "import", "wrong.toml", code="unknown-code", exit_code=2)
        self.bench.write("wrong.toml", PAST.replace("on = 2026-02-03", "on = 2024-02-03"))
        self.refused("workshop", "import", "wrong.toml", code="missing-setting", exit_code=1)
        self.refused("workshop", "import", "nowhere.toml", code="file-missing", exit_code=3)
        self.bench.write("empty.toml", "endband = 1\n")
        self.refused("workshop", "import", "empty.toml", code="missing-key", exit_code=2)

    def test_a_notebook_is_kept_once(self):
        self.kept()
        faults = self.refused("workshop", "import", "past.toml", code="already-exists", exit_code=1)
        self.assertEqual(faults[0]["found"], "26-001a")
        self.bench.good("workshop", "undo", "--yes")
        self.assertEqual(len(self.kept()), 5)

    def test_what_is_past_is_not_yet_to_come_and_all_its_work_is_told(self):
        self.bench.write("late.toml", PAST.replace("finished = 2026-06-11", "finished = 2027-06-11"))
        fault = self.refused("workshop", "import", "late.toml", code="out-of-range", exit_code=2)[0]
        self.assertEqual((fault["source"], fault["field"], fault["found"]), ("late.toml", "commissions[3].finished", "2027-06-11"))
        self.bench.write("some.toml", PAST.replace("sew-sections 130 %; rest 90 %", "sew-sections 130 %"))
        fault = self.refused("workshop", "import", "some.toml", code="missing-key", exit_code=2)[0]
        self.assertIn("rest 100 %", fault["expected"])

    def test_a_gift_through_an_outlet_gives_away_less_than_its_price(self):
        self.bench.write("market.toml", """endband = 1
name = "The Long Table"
kind = "marketplace"
[[fees]]
name = "share"
of = "goods"
share = "40 %"
""")
        self.bench.good("outlet", "add", "market", "market.toml", "--from", "2026-02-01")
        plain = PAST.replace("on = 2026-04-07\n", "on = 2026-04-07\nthrough = \"market\"\n")
        self.bench.write("gift.toml", plain)
        self.bench.good("workshop", "import", "gift.toml")
        gift = next(row for row in self.bench.json("margins", "list")["rows"] if row["outlet"] == "market")
        # Of each euro given away the market would have taken 40 cents.
        self.assertAlmostEqual(cents(gift["left_given"]) / cents(gift["given_away"]), 0.6, places=2)
        quoted = self.bench.json("quote", "explain", gift["job"])["offer"]
        self.assertNotEqual(quoted["margin"], gift["margin_quoted"])
        margin = Fraction(gift["margin_quoted"])
        self.assertTrue(Fraction("0.18") <= margin < Fraction("0.20"), margin)

    def test_an_empty_year_says_so(self):
        self.assertIn("No job", self.bench.good("margins", "list"))
        self.assertIn("No job", self.bench.good("margins", "worth"))
        self.assertIn("No finished job", self.bench.good("steps", "learn"))
        self.assertIn("say nothing of the next year", self.bench.good("margins", "year"))
        self.refused("margins", "show", "26-001", code="unknown-code", exit_code=2)

    def test_what_is_not_known_is_refused_with_what_is_near(self):
        self.kept()
        for words in (["--outlet", "nowhere"], ["--customer", "nobody"], ["--binding", "raised-cord"]):
            self.refused("margins", "list", *words, code="unknown-code", exit_code=2)
        for words in (["--by", "colour"], ["--sort", "size"]):
            self.refused("margins", "list", *words, code="bad-value", exit_code=2)
        self.refused("margins", "list", "--since", "2027-01-01", "--until", "2026-01-01", code="contradiction", exit_code=2)
        self.assertEqual(self.bench.json("margins", "list", "--outlet", "own")["all"]["jobs"], 3)
        self.refused("margins", "reprice", "--if", "rate=2", code="bad-value", exit_code=2)
        self.refused("margins", "reprice", "--if", "goat-mos-08=+5%", code="unknown-code", exit_code=2)

    def test_repricing_supposes_and_changes_nothing(self):
        self.kept()
        plain = self.bench.json("margins", "reprice")
        dearer = self.bench.json("margins", "reprice", "--if", "rate=+20.00", "--if", "text-wove-90=+10%")
        self.assertEqual(plain["quotes"], 5)
        self.assertEqual(dearer["supposed"], ["rate=+20.00", "text-wove-90=+10%"])
        self.assertGreater(cents(dearer["cost_now"]), cents(plain["cost_now"]))
        self.assertEqual(dearer["below_goal"], 5)
        self.assertTrue(all(row["largest"]["what"] == "rate" for row in dearer["rows"] if row["largest"]))
        for row in dearer["rows"]:
            self.assertGreater(cents(row["ticket_now"]), cents(row["ticket_then"]))
        self.assertEqual(self.bench.json("margins", "reprice"), plain)

    def test_a_job_that_goes_on_is_not_looked_back_on(self):
        self.kept()
        self.refused("margins", "show", "26-004", code="rule-refused", exit_code=1)

    def test_a_year_holds_what_was_borne_against_what_was_spent(self):
        self.kept()
        year = self.bench.json("margins", "year", "--since", "2026-01-05", "--until", "2026-11-25", "--spent", "5000")
        self.assertEqual(year["jobs"], 3)
        self.assertEqual(cents(year["overhead_not_covered"]), 500000 - cents(year["overhead_absorbed"]))
        worked = sum(row["worked_s"] for row in self.bench.json("margins", "list")["rows"])
        self.assertEqual(year["hours_charged_s"], worked)

    def test_a_price_that_is_said_is_the_price(self):
        for price in ("640.00", "655.55", "123.45"):
            made = self.bench.json("quote", "make", "ferry_songs.toml", "--at-price", price, "--dry-run")
            self.assertEqual(made["quote"]["total"]["amount"], price)
        self.refused("quote", "make", "ferry_songs.toml", "--at-price", "640", "--margin", "10 %", code="contradiction", exit_code=2)
        self.refused("quote", "make", "ferry_songs.toml", "--at-price", "0", code="out-of-range", exit_code=2)

    def test_figures_are_drawn_and_none_over_another(self):
        self.kept()
        self.bench.good("margins", "list", "--by", "binding", "--svg", "figures")
        self.bench.good("margins", "show", "26-001", "--svg", "figures")
        self.bench.good("margins", "worth", "--svg", "figures")
        self.bench.good("steps", "learn", "--svg", "figures")
        names = sorted(path.name for path in (self.bench.folder / "figures").iterdir())
        self.assertEqual(names, ["26-001-hours.svg", "26-001-walk.svg", "features.svg", "hourly.svg", "margins.svg", "steps.svg"])
        for words in (["steps", "learn"], ["margins", "list"], ["margins", "worth"], ["margins", "show", "26-001"]):
            self.refused(*words, "--svg", "figures", code="already-exists", exit_code=1)
            self.bench.good(*words, "--svg", "figures", "--yes")


if __name__ == "__main__":
    Margins.endband, Margins.sample = sys.argv[1], sys.argv[2]
    unittest.main(argv=sys.argv[:1])
