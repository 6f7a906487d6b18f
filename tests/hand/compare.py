#!/usr/bin/python3
"""The program's quote against one that was worked by hand, to the last minor unit.

usage: compare.py ENDBAND MODULE      such as quote_pocket_herbal
"""

import importlib
import json
import subprocess
import sys
import tempfile
import unittest
from pathlib import Path

ON = "2026-11-25"
ENDBAND = ""
hand = None


def minor(money):
    whole, _, part = money["amount"].partition(".")
    return int(whole + part)


def only(amount):
    """The number of {"area_um2": 62000}, whatever its unit."""
    (number,) = amount.values()
    return number


def replayed(cut, code, pieces):
    """What pieces of several sizes take of their material by the program's plan, once it is seen that the plan cuts just
    them, [(height, width)] in micrometres, each within what is opened and none over another, and keeps no more than is left.
    Thousandths of sheets, or micrometres of a roll. How they are laid is the program's; that it can be cut so is looked at."""
    (material,) = [each for each in cut["materials"] if each["code"] == code]
    laid, taken = [], 0
    for used in material["used"]:
        whole = used["height_um"] * used["width_um"]
        here = [(one["from_left_um"], one["from_top_um"], one["across_um"], one["down_um"]) for one in used["laid"]]
        for n, (x, y, w, h) in enumerate(here):
            assert 0 <= x and x + w <= used["width_um"] and 0 <= y and y + h <= used["height_um"], (code, n)
            for left, top, across, down in here[:n]:
                assert x >= left + across or left >= x + w or y >= top + down or top >= y + h, (code, n)
        kept = [(part["height_um"], part["width_um"]) for each in used["cuts"] for part in (each["first"], each["second"])
                if part["what"] == "left-over"]
        assert all(min(sides) >= hand.LEAST_KEPT for sides in kept), (code, kept)
        assert sum(h * w for h, w in kept) + sum(w * h for _, _, w, h in here) <= whole, code
        laid += [(h, w) for _, _, w, h in here] * used["times"]
        off_a_roll = used["words"].endswith("wide")
        taken += used["times"] * (used["height_um"] if off_a_roll else 1000 - sum(h * w for h, w in kept) * 1000 // whole)
    assert sorted(laid) == sorted(pieces), (code, sorted(laid), sorted(pieces))
    return taken


class HandWorkedQuote(unittest.TestCase):
    maxDiff = None

    @classmethod
    def setUpClass(cls):
        with tempfile.TemporaryDirectory(prefix="endband-hand-") as place:
            workshop = str(Path(place) / "workshop.db")

            def ask(*words):
                done = subprocess.run([ENDBAND, "--workshop", workshop, "--json", *words], capture_output=True, text=True, check=False)
                if done.returncode != 0:
                    raise AssertionError(f"{words} ended with {done.returncode}:\n{done.stdout}{done.stderr}")
                return json.loads(done.stdout)

            ask("--on", "2026-01-05", "workshop", "new", "--sample")
            cls.measured = ask("--on", ON, "book", "measure", str(hand.BOOK))
            made = ask("--on", ON, "quote", "make", str(hand.BOOK), "--yes")
            cls.quote = ask("quote", "explain", made["number"])
            cls.cut = ask("--on", ON, "book", "cut", str(hand.BOOK), "--new") if hasattr(hand, "cut_together") else None
        cls.figures = hand.structure()
        if cls.cut is None:
            needs = hand.needs(cls.figures)
        else:
            taken = {code: replayed(cls.cut, code, pieces) for code, pieces in hand.cut_together(cls.figures).items()}
            needs = hand.needs(cls.figures, taken)
        cls.bill = hand.bill(needs)
        cls.work = hand.work(cls.figures)
        cls.cost = hand.cost(cls.bill, cls.work)
        cls.ladder, cls.offer = hand.offer(cls.cost)

    def test_every_figure_of_the_structure_is_the_same(self):
        shown = {figure["figure"].replace("-", "_"): figure["value_millionths"] / 1e6 for figure in self.measured["figures"]}
        for name, value in self.figures.items():
            with self.subTest(figure=name):
                self.assertIn(name, shown)
                self.assertAlmostEqual(float(shown[name]), value, delta=2e-6 * max(1.0, abs(value)))

    def test_every_material_is_charged_the_same_quantity_and_money(self):
        shown = {line["material"]: (only(line["charged"]), minor(line["pack_landed"]), only(line["pack"]), minor(line["cost"]))
                 for line in self.quote["bill"]}
        by_hand = {code: (row["consumed"], row["landed_pack"], row["pack"], row["cost"]) for code, row in self.bill.items()}
        self.assertEqual(shown, by_hand)

    def test_every_step_counts_the_same_and_takes_the_same_time(self):
        shown = {line["step"]: line["mean_s"] for line in self.quote["work"]}
        by_hand = {step: hand.half_away(row["seconds"]) for step, row in self.work.items()}
        self.assertEqual(shown, by_hand)

    def test_the_cost_sheet_is_the_same_line_by_line(self):
        lines = self.quote["cost"]["lines"]

        def of(kind):
            return [minor(line["amount"]) for line in lines if line["kind"] == kind]

        self.assertEqual(sorted(of("material")), sorted(row["cost"] for row in self.bill.values()))
        self.assertEqual(sorted(of("labour")), sorted(self.cost["labour_lines"].values()))
        self.assertEqual(of("overhead"), [self.cost["overhead"]])
        self.assertEqual(of("ruin"), list(self.cost["ruin"].values()))
        self.assertEqual(of("contingency"), [self.cost["contingency"]])
        self.assertEqual(minor(self.quote["cost"]["total"]), self.cost["total"])
        self.assertEqual(minor(self.quote["cost"]["outlay"]), self.cost["outlay"])
        self.assertEqual(self.quote["cost"]["work_s"], hand.half_away(self.cost["seconds"]))

    def test_every_rung_of_the_ladder_is_the_same(self):
        shown = {name: {key: minor(money) for key, money in rung.items()} for name, rung in self.quote["ladder"].items()}
        self.assertEqual(shown, self.ladder)

    def test_what_is_asked_is_the_same_to_the_last_minor_unit(self):
        shown = {name: minor(self.quote["offer"][name]) for name in self.offer}
        self.assertEqual(shown, self.offer)


if __name__ == "__main__":
    ENDBAND = sys.argv.pop(1)
    hand = importlib.import_module(sys.argv.pop(1))
    unittest.main()
