#!/usr/bin/env python3
"""The shelf and the jobs at the end of the month of sample_data/month.commands, worked by hand.

usage: month_table.py ENDBAND

Nothing here is shared with the program. Packs, prices and carriage are transcribed from sample_data/workshop.commands, what
happened from sample_data/month.commands. Only what a quote says that a book takes, costs and is sold for is read from the
program: the quotes are worked by hand beside this file. Quantities are whole base units (a thousandth of a sheet, leaf or
piece; a micrometre; a milligram; a microlitre; a square micrometre), money whole cents, everything between a Fraction.
"""

import json
import math
import shlex
import subprocess
import sys
import tempfile
import unittest
from collections import defaultdict
from fractions import Fraction as F
from pathlib import Path

SAMPLE = Path(__file__).resolve().parents[2] / "sample_data"
ENDBAND = ""
PIECE, M, G, ML, M2 = 1000, 10**6, 1000, 1000, 10**12  # of a sheet and a leaf as of a piece
LAST_DAY = "2026-03-31"


def half_away(x):
    """The nearest whole number, a half away from zero; nothing here is below nothing."""
    return math.floor(F(x) + F(1, 2))


# ----------------------------------------------------------------------------------------------- inputs: the first count
# code: counted, and the price in force in March: pack, price, carriage. The 19 % of tax come back whole.
OPENING = {
    "text-wove-90": (40 * PIECE, 125 * PIECE, 4600, 0),
    "spine-kraft-90": (6 * PIECE, 50 * PIECE, 1650, 0),
    "card-template-03": (3 * PIECE, 50 * PIECE, 2400, 0),
    "board-grey-15": (2 * PIECE, 25 * PIECE, 4150, 900),
    "board-mill-20": (4 * PIECE, 20 * PIECE, 7400, 900),
    "card-spine-06": (2 * PIECE, 25 * PIECE, 2900, 0),
    "end-paste-moss": (3 * PIECE, 10 * PIECE, 3800, 0),
    "mull-heavy": (2 * M, 5 * M, 2450, 0),
    "mull-fine": (3 * M // 2, 10 * M, 2100, 0),
    "linen-25-3": (6 * M, 350 * M, 1460, 0),
    "beeswax-block": (120 * G, 200 * G, 640, 0),
    "hemp-cord-3": (20 * M, 50 * M, 1150, 0),
    "tape-linen-13": (12 * M, 50 * M, 1240, 0),
    "core-linen-2": (5 * M, 25 * M, 720, 0),
    "endband-navy-white": (3 * M, 10 * M, 820, 0),
    "silk-madder": (80 * M, 50 * M, 620, 0),
    "silk-cream": (80 * M, 50 * M, 590, 0),
    "ribbon-moss-6": (4 * M, 25 * M, 2100, 0),
    "ribbon-indigo-9": (6 * M, 25 * M, 2750, 0),
    "pva-slow": (400 * G, 1000 * G, 1980, 0),
    "pva-bindery": (900 * G, 1000 * G, 1450, 0),
    "paste-starch": (250 * G, 1000 * G, 860, 0),
    "epoxy-metal": (40 * G, 100 * G, 1560, 0),
    "dye-walnut": (60 * ML, 250 * ML, 1320, 0),
    "wax-polish": (90 * G, 200 * G, 1900, 0),
    "leaf-brass-140": (12 * PIECE, 25 * PIECE, 680, 0),
    "leaf-gold-23": (10 * PIECE, 25 * PIECE, 5800, 250),
    "size-water": (80 * ML, 100 * ML, 890, 0),
    "varnish-matt": (50 * ML, 250 * ML, 1220, 0),
    "varnish-shellac": (70 * ML, 250 * ML, 1360, 0),
    "rivet-copper-4": (30 * PIECE, 50 * PIECE, 890, 0),
    "needles-18": (14 * PIECE, 25 * PIECE, 780, 0),
    "carton-s": (6 * PIECE, 25 * PIECE, 1950, 0),
    "carton-m": (3 * PIECE, 25 * PIECE, 2750, 0),
    "padding-kraft": (60 * M, 150 * M, 2200, 0),
}
# A year's pay with its charges, and all that the house costs besides, over the hours that customers pay for.
HOURS = 1200
LABOUR = F(2640000 + 528000, HOURS)
OVERHEAD = F(408000 + 114000 + 62000 + 43000 + 38000 + 69000 + 90000 + 9500, HOURS)
TAX = F(19, 100)
KEPT_WORTH = F(1, 2)  # of an offcut, where the material says nothing else


def only(amount):
    """The number of {"area_um2": 62000}, whatever its unit."""
    (number,) = amount.values()
    return number


def by_largest_remainder(whole, weights):
    exact = [F(whole * weight, sum(weights)) for weight in weights]
    shares = [math.floor(share) for share in exact]
    by_rest = sorted(range(len(weights)), key=lambda n: (shares[n] - exact[n], n))
    for n in by_rest[: whole - sum(shares)]:
        shares[n] += 1
    return shares


# --------------------------------------------------------------------------------------------------------- the table
class Lot:
    def __init__(self, quantity, value):
        self.quantity, self.value = quantity, value

    def part(self, quantity):
        """What so much of it is worth; takes it out. The rest stays, so the last taking takes all."""
        value = half_away(F(self.value * quantity, self.quantity))
        self.quantity -= quantity
        self.value -= value
        return value


class Table:
    """Lots of each material, oldest first, and sums of what went in and out: (material, kind, job) -> [quantity, value]."""

    def __init__(self):
        self.lots = defaultdict(list)
        self.moved = defaultdict(lambda: [0, 0])
        self.seconds = defaultdict(int)
        self.paid = defaultdict(int)

    def tell(self, code, kind, quantity, value, job=""):
        sums = self.moved[code, kind, job]
        sums[0] += quantity
        sums[1] += value

    def lay(self, code, kind, quantity, value, job=""):
        self.lots[code].append(Lot(quantity, value))
        self.tell(code, kind, quantity, value, job)

    def take(self, code, kind, quantity, job=""):
        """First in, first out. (lot, quantity, value) of each lot that gave."""
        gave = []
        for lot in self.lots[code]:
            part = min(quantity, lot.quantity)
            if part:
                value = lot.part(part)
                self.tell(code, kind, -part, -value, job)
                gave.append((lot, part, value))
            quantity -= part
        assert quantity == 0, f"too little {code}"
        return gave

    def parcel(self, lines, carriage, rate=F(1), duty=F(0)):
        prices = [half_away(price * rate) for _, _, price in lines]
        for (code, quantity, _), price, share in zip(lines, prices, by_largest_remainder(carriage, prices)):
            self.lay(code, "received", quantity, price + share + half_away(price * duty))

    def held(self, code, job):
        """What the job took of it and did not give back, in quantity and value."""
        rows = [sums for (material, _, whose), sums in self.moved.items() if (material, whose) == (code, job)]
        return -sum(quantity for quantity, _ in rows), -sum(value for _, value in rows)

    def as_quoted(self, bill, job):
        """What is left of each kind; more than quoted of one was the waste of it: less to cut away, then less to spoil."""
        for line in bill:
            code = line["material"]
            quoted = {kind: only(line[name]) for kind, name in (("used", "net"), ("spoiled", "spoil"), ("cut-away", "cutting_loss"))}
            taken = {kind: -self.moved[code, kind, job][0] for kind in quoted}
            rest = {kind: max(0, quoted[kind] - taken[kind]) for kind in quoted}
            beyond = sum(max(0, taken[kind] - quoted[kind]) for kind in quoted)
            for kind in ("cut-away", "spoiled", "used"):
                less = min(beyond, rest[kind])
                rest[kind] -= less
                beyond -= less
            for kind, quantity in rest.items():
                self.take(code, kind, quantity, job)

    def materials_of(self, job):
        return -sum(value for (_, _, whose), (_, value) in self.moved.items() if whose == job)

    def cost_of(self, job):
        hours = F(self.seconds[job], 3600)
        return self.materials_of(job), half_away(hours * LABOUR), half_away(hours * OVERHEAD)


def opening(table):
    for code, (counted, pack, price, carriage) in OPENING.items():
        table.lay(code, "opening", counted, half_away(F((price + carriage) * counted, pack)))


def received_for_the_first_two(table):
    table.parcel([("text-rag-95", 50 * PIECE, 6100), ("end-ingres-grey", 12 * PIECE, 1440),
                  ("text-laid-110", 50 * PIECE, 3950), ("card-wrapper-04", 10 * PIECE, 2360)], carriage=1180)
    table.parcel([("calf-natural-08", 98 * M2 // 100, 7100)], carriage=1420, rate=F(116, 100), duty=F(3, 100))
    table.parcel([("clasp-plain-12", 2 * PIECE, 980), ("corner-steel-20", 8 * PIECE, 1120)], carriage=490)


def the_pamphlet(table, bill):
    job = "26-001"
    table.as_quoted(bill, job)
    table.take("text-wove-90", "spoiled", 1 * PIECE, job)
    table.seconds[job] = 60 * (150 + 80 + 125)
    table.paid[job] = 14000 + 20000


def the_herbal(table, bill):
    job = "26-002"
    table.take("text-rag-95", "used", 10 * PIECE, job)
    table.take("end-paste-moss", "used", 1 * PIECE, job)
    table.take("linen-25-3", "used", 4 * M, job)
    ((_, whole, cost),) = table.take("calf-natural-08", "used", 98 * M2 // 100, job)
    offcut = 600 * 400 * M2 // 10**6
    table.lay("calf-natural-08", "kept", offcut, half_away(KEPT_WORTH * F(offcut, whole) * cost), job)
    table.as_quoted(bill, job)
    table.seconds[job] = 60 * 220
    table.paid[job] = 58000


def received_for_the_other_two(table):
    table.parcel([("cloth-navy", 3 * M, 4350), ("linen-25-3", 350 * M, 1520), ("carton-m", 25 * PIECE, 2750)], carriage=735)
    table.parcel([("side-marbled-garnet", 3 * PIECE, 3150)], carriage=0)


def the_chess_book(table):
    job = "26-003"
    table.take("text-wove-90", "used", 12 * PIECE, job)
    table.seconds[job] = 60 * 105
    table.paid[job] = 34000 - 26530


def the_poems(table):
    job = "26-004"
    table.take("text-laid-110", "used", 32 * PIECE, job)
    reel, taken, value = table.take("linen-25-3", "used", 10 * M, job)[-1]
    back = half_away(F(value * M, taken))
    reel.quantity += M
    reel.value += back
    table.tell("linen-25-3", "used", M, back, job)
    table.seconds[job] = 60 * (240 + 260)


def ends_of_the_month(table):
    (offcut,) = [lot for lot in table.lots["calf-natural-08"] if lot.quantity]
    table.tell("calf-natural-08", "written-down", 0, 200 - offcut.value)
    offcut.value = 200
    for code, counted in (("text-wove-90", 21 * PIECE), ("rivet-copper-4", 21 * PIECE), ("paste-starch", 240 * G)):
        quantity = sum(lot.quantity for lot in table.lots[code])
        value = sum(lot.value for lot in table.lots[code])
        if counted < quantity:
            table.take(code, "missing", quantity - counted)
        else:  # at what those that lie there are worth
            table.lay(code, "found", counted - quantity, half_away(F(value * (counted - quantity), quantity)))


def work_the_month(bills):
    table = Table()
    opening(table)
    received_for_the_first_two(table)
    the_pamphlet(table, bills["26-001"])
    the_herbal(table, bills["26-002"])
    received_for_the_other_two(table)
    the_chess_book(table)
    table.take("text-laid-110", "scrapped", 3 * PIECE)
    the_poems(table)
    ends_of_the_month(table)
    return table


# ------------------------------------------------------------------------------------------------------- the program's
def minor(money):
    whole, _, part = money["amount"].partition(".")
    return int(whole + part)


class EndOfTheMonth(unittest.TestCase):
    maxDiff = None

    @classmethod
    def setUpClass(cls):
        cls.place = tempfile.TemporaryDirectory(prefix="endband-month-")
        cls.addClassCleanup(cls.place.cleanup)
        cls.ask("--on", "2026-01-05", "workshop", "new", "--sample")
        cls.answers = {}
        for line in (SAMPLE / "month.commands").read_text(encoding="utf-8").splitlines():
            words = [word.replace("BOOKS", str(SAMPLE / "books")) for word in shlex.split(line, comments=True)]
            if words:
                cls.answers[line] = cls.ask(*words)
        cls.quotes = {number: cls.ask("quote", "explain", number) for number in ("26-001a", "26-002a", "26-002b", "26-003a", "26-004a")}
        cls.table = work_the_month({number[:-1]: quote["bill"] for number, quote in cls.quotes.items() if number[-1] == "a"})
        cls.shelf = cls.ask("--on", LAST_DAY, "stock", "list", "--lots")
        cls.moves = cls.ask("--on", LAST_DAY, "stock", "moves", "--last", "10000")["movements"]
        cls.jobs = {job["number"]: job for job in cls.ask("--on", LAST_DAY, "job", "list", "--ended")["jobs"]}

    @classmethod
    def ask(cls, *words):
        workshop = str(Path(cls.place.name) / "workshop.db")
        done = subprocess.run([ENDBAND, "--workshop", workshop, "--json", *words], capture_output=True, text=True, check=False)
        if done.returncode != 0:
            raise AssertionError(f"{words} ended with {done.returncode}:\n{done.stdout}{done.stderr}")
        return json.loads(done.stdout)

    def balanced(self, code, moved, on_hand):
        """opening + received + found = used + cut away + spoiled + scrapped + missing + written down - kept + on hand"""
        into = {"opening", "received", "found"}
        out = {"used", "cut-away", "spoiled", "scrapped", "missing", "written-down"}
        for n, what in enumerate(("quantity", "value")):
            of = defaultdict(int)
            for (material, kind, _), sums in moved.items():
                if material == code:
                    of[kind] += sums[n]
            self.assertLessEqual(set(of), into | out | {"kept"})
            came = sum(of[kind] for kind in into)
            went = -sum(of[kind] for kind in out)
            self.assertEqual(came, went - of["kept"] + on_hand[n], f"{what} of {code}")

    def moved_by_the_program(self):
        moved = defaultdict(lambda: [0, 0])
        for move in self.moves:
            sums = moved[move["material"], move["kind"], move["job"]]
            sums[0] += only(move["quantity"])
            sums[1] += minor(move["worth"])
        return moved

    def test_every_material_lies_there_to_the_last_unit_and_cent(self):
        shown = {line["code"]: (only(line["quantity"]), minor(line["worth"])) for line in self.shelf["materials"]}
        by_hand = {code: (sum(lot.quantity for lot in lots), sum(lot.value for lot in lots)) for code, lots in self.table.lots.items()}
        self.assertEqual(shown, by_hand)
        self.assertEqual(len(by_hand), 44)

    def test_every_lot_is_what_was_left_of_it(self):
        shown = {line["code"]: [(only(lot["left"]), minor(lot["worth"])) for lot in line["lots"]] for line in self.shelf["materials"]}
        by_hand = {code: [(lot.quantity, lot.value) for lot in lots if lot.quantity] for code, lots in self.table.lots.items()}
        self.assertEqual(shown, by_hand)

    def test_what_went_in_and_out_is_the_same_kind_by_kind_and_job_by_job(self):
        by_hand = {key: sums for key, sums in self.table.moved.items() if sums != [0, 0]}  # and not what was only asked for
        self.assertEqual(dict(self.moved_by_the_program()), by_hand)

    def test_what_came_is_what_went_and_what_lies_there(self):
        moved = self.moved_by_the_program()
        for line in self.shelf["materials"]:
            with self.subTest(material=line["code"]):
                self.balanced(line["code"], moved, (only(line["quantity"]), minor(line["worth"])))
        for code, lots in self.table.lots.items():
            with self.subTest(by_hand=code):
                self.balanced(code, self.table.moved, (sum(lot.quantity for lot in lots), sum(lot.value for lot in lots)))

    def test_the_shelf_and_the_work_begun_are_worth_the_same(self):
        self.assertEqual(minor(self.shelf["shelf"]), sum(lot.value for lots in self.table.lots.values() for lot in lots))
        self.assertEqual(minor(self.shelf["in_work"]), sum(self.table.materials_of(job) for job in ("26-002", "26-004")))
        self.assertEqual(minor(self.shelf["in_work_with_hours"]), sum(sum(self.table.cost_of(job)) for job in ("26-002", "26-004")))

    def test_every_job_took_and_cost_the_same(self):
        for number in self.jobs:
            job = self.ask("--on", LAST_DAY, "job", "show", number)
            with self.subTest(job=number):
                for line in job["materials"]:
                    shown = (only(line["taken"]), minor(line["taken_value"]))
                    self.assertEqual(shown, self.table.held(line["code"], number), line["code"])
                cost = self.table.cost_of(number)
                self.assertEqual(tuple(minor(job["cost"][part]) for part in ("materials", "labour", "overhead")), cost)
                self.assertEqual(minor(job["cost"]["outside"]), 0)
                self.assertEqual(minor(job["cost"]["total"]), sum(cost))
                self.assertEqual(job["cost"]["work_s"], self.table.seconds[number])

    def test_one_job_is_finished_one_cancelled_two_are_open(self):
        states = {number: job["state"] for number, job in self.jobs.items()}
        self.assertEqual(states, {"26-001": "finished", "26-002": "open", "26-003": "cancelled", "26-004": "open"})

    def test_every_payment_counts_and_what_is_due_is_the_rest(self):
        # The change: the least price of the new book less that of the one agreed on, a fifth of each being left; taxed.
        before, after = (minor(self.quotes[number]["cost"]["total"]) for number in ("26-002a", "26-002b"))
        more = math.ceil(F(after * 5, 4)) - math.ceil(F(before * 5, 4))
        self.assertEqual(more, 337)
        self.assertEqual({number: minor(job["paid"]) for number, job in self.jobs.items()},
                         {number: self.table.paid[number] for number in self.jobs})
        for number, to_pay in (("26-001", 34000), ("26-002", 143738 + more + half_away(more * TAX)), ("26-004", 185166)):
            with self.subTest(job=number):
                self.assertEqual(minor(self.jobs[number]["to_pay"]), to_pay)
                self.assertEqual(minor(self.jobs[number]["due"]), to_pay - self.table.paid[number])

    def test_what_the_cancelled_job_keeps_is_its_cost_and_the_tax_on_it(self):
        (settled,) = [answer for line, answer in self.answers.items() if " job cancel " in line]
        kept = sum(self.table.cost_of("26-003"))
        self.assertEqual(minor(settled["keeps"]), kept)
        self.assertEqual(minor(settled["to_give_back"]), 34000 - kept - half_away(kept * TAX))
        self.assertEqual(self.table.paid["26-003"], kept + half_away(kept * TAX))


if __name__ == "__main__":
    ENDBAND = sys.argv.pop(1)
    unittest.main()
