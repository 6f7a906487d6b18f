#!/usr/bin/python3
"""Invents a binder's past year, for `endband workshop import`:

    past_year.py SEED [--plain] [--from 2025-10] [--out FILE]

84 commissions over 14 months, of 16 of the books beside this file; 70 are finished, 2 under way, 12 came to nothing.
The same seed gives the same text. Hours are shares of what was quoted, so nothing here knows how long a step is timed.

Three things are true of the year, and nothing that looks at it later may know them from here: sewing takes a third more
than it is timed, the fair takes far more fees and office work than said, and books with leaf go quicker. With --plain
none of them is, and every step takes on average what it is timed.

    past_year.py --steps ENDBAND

prints past_year.steps anew: which steps each book has, from the sample workshop of that program.
"""

import argparse
import datetime
import json
import math
import random
import subprocess
import sys
import tempfile
from pathlib import Path
from statistics import NormalDist

HERE = Path(__file__).resolve().parent
STEPS = HERE / "past_year.steps"

# How often each is made and finished.
BOOKS = {
    "moor_flora": 10, "tower_clock": 6, "pocket_herbal": 4, "pocket_herbal_two_ribbons": 4, "hollow_tides": 1,
    "band_minutes": 4, "ferry_songs": 4, "glass_letters": 3, "quay_ballads": 7, "saltmarsh_log": 3, "school_atlas": 3,
    "bell_methods": 7, "chess_endings": 4, "lace_box": 4, "rigger_sketches": 3, "orchard_album": 3,
}
OPEN, NOTHING = 2, 12  # asked for beside them
TO_THE_FAIR = {"band_minutes", "ferry_songs", "quay_ballads", "bell_methods", "chess_endings", "orchard_album"}
TO_THE_GALLERY = {"moor_flora", "lace_box", "rigger_sketches", "bell_methods"}
FAIR, GALLERY, POST = 14, 5, 14

CUSTOMERS = [
    ("nell-harrow", "Nell Harrow"), ("jory-pellick", "Jory Pellick"), ("tamsin-oakwater", "Tamsin Oakwater"),
    ("bram-thistledown", "Bram Thistledown"), ("odile-fenwater", "Odile Fenwater"), ("wim-saltaker", "Wim Saltaker"),
    ("greta-lanternby", "Greta Lanternby"), ("perran-mudlark", "Perran Mudlark"), ("hesper-gullway", "Hesper Gullway"),
    ("otterby-school", "Otterby Village School"), ("quay-choir", "The Lower Quay Choir"),
    ("moor-walkers", "Peat Moor Walkers"),
]
REASONS = ["an old customer", "a prize for the choir's raffle", "three of a kind", "a little late"]
SPOILED = {"moor_flora": "text-wove-90 2 sheets", "band_minutes": "text-laid-110 3 sheets"}

# The noise of a year: deviation of the logarithm of a whole job, and of each of its steps. The mean is 1.
OF_JOB, OF_STEP = 0.08, 0.18

UNDER_TIMED = {"sew-sections": 0.75}  # timed so much of what it takes
OFFICE_OF_THE_FAIR = {"answer-enquiry": 3.0, "pack-parcel": 3.0, "keep-accounts": 3.0}
FEES_OF_THE_FAIR = 180, 230
LEAF, OF_LEAF = "lay-leaf", 0.65  # of what was quoted


def steps_by_book():
    rows = [line.split() for line in STEPS.read_text("utf-8").splitlines() if line and not line.startswith("#")]
    return {row[0]: row[1:] for row in rows}


class Year:
    def __init__(self, seed, plain, start):
        self.random = random.Random(f"past year {seed}")
        self.plain = plain
        self.start = start
        self.steps = steps_by_book()

    def factor(self, deviation):
        # not random.lognormvariate, whose draws may differ between versions of Python
        z = NormalDist().inv_cdf(max(self.random.random(), 1e-12))
        return math.exp(deviation * z - deviation * deviation / 2)

    def some(self, chance):
        return self.random.random() < chance

    def shuffled(self, items):
        return sorted(items, key=lambda item: self.random.random())

    def commissions(self):
        made = self.shuffled([book for book, often in BOOKS.items() for _ in range(often)])
        asked = self.shuffled(list(BOOKS) * 2)[:OPEN + NOTHING]
        of = [{"book": book, "state": "finished", "through": None} for book in made]
        for count, outlet, books in ((FAIR, "fair", TO_THE_FAIR), (GALLERY, "gallery", TO_THE_GALLERY),
                                     (POST, "post", set(BOOKS))):
            free = [one for one in of if one["through"] is None and one["book"] in books]
            for one in self.shuffled(free)[:count]:
                one["through"] = outlet
        of += [{"book": book, "state": "nothing", "through": None} for book in asked[:NOTHING]]
        of = self.shuffled(of)
        # 54 weeks in which something is asked for; the last ones are under way when the year is looked at
        days = sorted(self.random.randrange(54 * 7) for _ in of)
        for one, day in zip(of, days):
            one["on"] = self.start + datetime.timedelta(day)
        for i, book in enumerate(asked[NOTHING:]):
            of.append({"book": book, "state": "open", "through": None,
                       "on": self.start + datetime.timedelta(56 * 7 + 9 * i)})
        return of

    def hours(self, commission):
        fair = commission["through"] == "fair"
        steps = self.steps[commission["book"]]
        of_job = self.factor(OF_JOB)
        said = []
        for step in steps:
            share = of_job * self.factor(OF_STEP)
            if not self.plain:
                if fair:
                    share *= OFFICE_OF_THE_FAIR.get(step, 1)
                if step in UNDER_TIMED:
                    share /= UNDER_TIMED[step]
                elif LEAF in steps:
                    share *= OF_LEAF
            said.append(f"{step} {100 * share:.2f} %")
        return [*said, f"rest {100 * of_job:.2f} %"]

    def text_of(self, commission):
        lines = ["[[commissions]]", f'book = "books/{commission["book"]}.toml"', f'on = {commission["on"]}',
                 f'customer = "{self.random.choice(CUSTOMERS)[0]}"', 'margin = "18 %"']
        if commission["through"]:
            lines.append(f'through = "{commission["through"]}"')
        if self.some(0.07):
            lines += [f'discount = "{self.random.choice([5, 10])} %"', f'because = "{self.random.choice(REASONS)}"']
        if commission["state"] == "nothing":
            return lines
        accepted = commission["on"] + datetime.timedelta(self.random.randrange(1, 9))
        lines.append(f"accepted = {accepted}")
        if commission["state"] == "open":
            return lines
        lines.append(f"finished = {accepted + datetime.timedelta(self.random.randrange(14, 40))}")
        if commission["through"] == "fair" and not self.plain:
            lines.append(f'fees = "{self.random.randrange(*FEES_OF_THE_FAIR)}.00"')
        lines.append(f'hours = "{"; ".join(self.hours(commission))}"')
        if commission["book"] in SPOILED and self.some(0.2):
            lines.append(f'spoiled = "{SPOILED[commission["book"]]}"')
        return lines

    def text(self):
        lines = ["endband = 1", "# An invented year: nobody and nothing in it exists. Made by past_year.py.", ""]
        for code, name in CUSTOMERS:
            lines += ["[[customers]]", f'code = "{code}"', f'name = "{name}"', f'email = "{code}@example.org"', ""]
        for commission in self.commissions():
            lines += [*self.text_of(commission), ""]
        return "\n".join(lines)


def print_steps(endband):
    print("# The steps of the books that past_year.py makes, in their order: past_year.py --steps ENDBAND")
    with tempfile.TemporaryDirectory() as folder:
        def run(*words):
            done = subprocess.run([endband, "--workshop", f"{folder}/w.db", "--on", "2026-01-05", "--json", *words],
                                  check=True, capture_output=True, text=True)
            return json.loads(done.stdout)
        run("workshop", "new", "--sample")
        for book in BOOKS:
            number = run("quote", "make", str(HERE / "books" / f"{book}.toml"))["quote"]["number"]
            work = [row["step"] for row in run("quote", "explain", number)["work"]]
            # hours of work in the owner's words belong to no step: they go with the rest
            print(book, *dict.fromkeys(step for step in work if step not in ("extra-work", "other-repair")))


def month(text):
    return datetime.date.fromisoformat(f"{text}-01")


def main():
    parser = argparse.ArgumentParser(description="Invents a binder's past year.")
    parser.add_argument("seed", type=int, nargs="?", help="the same seed gives the same year")
    parser.add_argument("--plain", action="store_true", help="a year in which every step takes what it is timed")
    parser.add_argument("--from", dest="start", type=month, default=month("2025-10"), help="its first month")
    parser.add_argument("--out", type=Path, help="a file; else it is printed")
    parser.add_argument("--steps", metavar="ENDBAND", help="print past_year.steps anew")
    arguments = parser.parse_args()
    if arguments.steps:
        print_steps(arguments.steps)
        return
    if arguments.seed is None:
        parser.error("a seed is wanted")
    text = Year(arguments.seed, arguments.plain, arguments.start).text()
    if arguments.out:
        arguments.out.write_text(text, "utf-8")
    else:
        sys.stdout.write(text)


main()
