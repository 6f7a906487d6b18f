#!/usr/bin/env python3
"""The bench of sample_data/bench.commands, planned by hand: one binder, three orders that share her presses, a fourth asked for.

usage: bench_plan.py ENDBAND

What comes after what, when she works and what each step holds is transcribed here from the trade and from the sample workshop;
only how long a step of these books takes is read from the program (the quotes are worked by hand beside this file). The plan is
made the slow way: second by second candidates, one task after another, those of the order that is due first before the others,
within an order the one with the longest way to the end first. Compared are the days on which each order can be sent, and every
stretch of work that the program plans is held against hours, hands, presses and order.
"""

import datetime
import json
import shlex
import subprocess
import sys
import tempfile
import unittest
from pathlib import Path

SAMPLE = Path(__file__).resolve().parents[2] / "sample_data"
ENDBAND = ""
MONDAY = datetime.date(2026, 11, 30)
DAY = 86400
HOURS = [(9 * 3600, 12 * 3600 + 1800), (13 * 3600 + 1800, 17 * 3600)]  # Monday to Friday
CLOSED = {datetime.date(2026, 12, 24) + datetime.timedelta(days=i) for i in range(10)}

# Which press or shelf a step holds until its wait is over, and how many books that takes at once.
HOLDS = {"press-sections": "standing", "final-press": "standing", "case-in": "standing", "glue-spine": "lying", "back-spine": "lying",
         "line-spine": "lying", "put-down-endpapers": "nipping", "make-case": "shelf", "dress-leather": "shelf", "build-box": "shelf",
         "cover-box": "shelf", "line-box": "shelf", "put-on-sides": "shelf"}
BOOKS_AT_ONCE = {"standing": 1, "lying": 1, "nipping": 1, "shelf": 6}

# What comes right after what. Common practice, no source.
ALL = {"cut-sheets": ["order-materials"], "fold-sheets": ["cut-sheets"], "press-sections": ["fold-sheets"],
       "pierce-stations": ["press-sections"], "wax-thread": ["order-materials"], "mix-paste": ["order-materials"],
       "pack-parcel": ["photograph"], "post-parcel": ["pack-parcel"], "keep-accounts": ["post-parcel"]}
PAMPHLET = ALL | {"cut-wrapper": ["order-materials"], "pierce-wrapper": ["cut-wrapper"],
                  "sew-pamphlet": ["pierce-stations", "wax-thread", "pierce-wrapper"], "trim-edges": ["sew-pamphlet"],
                  "final-press": ["trim-edges"], "photograph": ["final-press"]}
LONG_STITCH = ALL | {"cut-wrapper": ["order-materials"], "pierce-wrapper": ["cut-wrapper"],
                     "long-stitch-sections": ["pierce-stations", "wax-thread", "pierce-wrapper"],
                     "dress-leather": ["long-stitch-sections"], "final-press": ["dress-leather"], "make-ties": ["final-press"],
                     "photograph": ["make-ties"]}
BOX = ALL | {"cut-box-boards": ["order-materials"], "build-box": ["cut-box-boards"], "cover-box": ["build-box", "mix-paste"],
             "line-box": ["cover-box"], "letter-title": ["cover-box"], "photograph": ["line-box", "letter-title"]}
CASE = ALL | {"make-endpapers": ["order-materials"], "set-up-frame": ["order-materials"], "cut-boards": ["order-materials"],
              "sew-sections": ["pierce-stations", "make-endpapers", "set-up-frame", "wax-thread"], "glue-spine": ["sew-sections"],
              "trim-edges": ["glue-spine"], "round-spine": ["trim-edges"], "back-spine": ["round-spine"],
              "stick-endbands": ["back-spine"], "fix-registers": ["back-spine"], "line-spine": ["stick-endbands", "fix-registers"],
              "cut-cloth": ["back-spine", "cut-boards"], "make-case": ["cut-cloth", "mix-paste"], "turn-corners": ["make-case"],
              "press-impressions": ["turn-corners"], "case-in": ["line-spine", "press-impressions"],
              "put-down-endpapers": ["case-in"], "final-press": ["put-down-endpapers"], "photograph": ["final-press"]}
ORDERS = {"26-001": PAMPHLET, "26-002": LONG_STITCH, "26-003": BOX, "26-004a": CASE}
PAST = {"answer-enquiry", "draw-proof", "receive-custody"}  # the clock starts when the order is there and the proof approved
WET = {"make-endpapers", "glue-spine", "line-spine", "make-case", "stick-endbands", "fix-registers", "build-box", "cover-box",
       "line-box", "case-in", "put-down-endpapers", "put-on-sides"}


class Bench(unittest.TestCase):
    @classmethod
    def setUpClass(cls):
        with tempfile.TemporaryDirectory(prefix="endband-hand-") as folder:
            cls.workshop = str(Path(folder) / "workshop.db")
            cls.run_line("--on", "2026-01-05", "workshop", "new", "--sample")
            for line in (SAMPLE / "bench.commands").read_text(encoding="utf-8").splitlines():
                if line and not line.startswith("#"):
                    cls.run_line(*shlex.split(line.replace("BOOKS", str(SAMPLE / "books"))))
            cls.week = cls.answer("--on", str(MONDAY), "bench", "week", "--days", "60", "--with", "4")
            cls.quotes = {name: cls.answer("quote", "explain", name[:6]) for name in ORDERS}
        cls.plan, cls.ready = by_hand(cls.quotes, {row["order"]: row["due"] for row in cls.week["orders"]})

    @classmethod
    def run_line(cls, *words):
        done = subprocess.run([ENDBAND, "--workshop", cls.workshop, *words], capture_output=True, text=True, check=False)
        if done.returncode != 0:
            raise AssertionError(f"{' '.join(words)}: {done.stderr}")
        return done.stdout

    @classmethod
    def answer(cls, *words):
        return json.loads(cls.run_line("--json", *words))

    def test_each_order_can_be_sent_on_the_day_worked_by_hand(self):
        for row in self.week["orders"]:
            with self.subTest(order=row["order"]):
                self.assertEqual(row["ready"]["ready_50"], str(MONDAY + datetime.timedelta(days=(self.ready[row["order"]] - 1) // DAY)))

    def test_the_work_is_what_the_steps_take(self):
        for name, quote in self.quotes.items():
            planned = sum(seconds(stint["to"]) - seconds(stint["from"]) for stint in self.week["work"] if stint["order"] == name)
            taken = sum(row["mean_s"] for row in quote["work"] if row["step"] not in PAST)
            with self.subTest(order=name):
                self.assertLess(abs(planned - taken), 60 * 2 * len(quote["work"]))  # the week tells whole minutes

    def test_she_works_in_her_hours_and_does_one_thing_at_a_time(self):
        last = 0
        for stint in self.week["work"]:
            day = datetime.date.fromisoformat(stint["on"])
            begin, end = seconds(stint["from"]), seconds(stint["to"])
            with self.subTest(stint=stint):
                self.assertTrue(day.weekday() < 5 and day not in CLOSED)
                self.assertTrue(any(first <= begin and end <= then for first, then in HOURS))
                self.assertGreaterEqual((day - MONDAY).days * DAY + begin, last)
            last = (day - MONDAY).days * DAY + end

    def test_nothing_is_begun_before_what_comes_before_it_has_set(self):
        for name, before in ORDERS.items():
            waits = {row["step"]: (row["wait_low_s"] + row["wait_high_s"]) // 2 for row in self.quotes[name]["work"]}
            begun, ended = {}, {}
            for stint in self.week["work"]:
                if stint["order"] == name:
                    day = (datetime.date.fromisoformat(stint["on"]) - MONDAY).days * DAY
                    begun.setdefault(stint["step"], day + seconds(stint["from"]))
                    ended[stint["step"]] = day + seconds(stint["to"])
            for step, begin in begun.items():
                for first in before.get(step, []):
                    if first in ended:
                        with self.subTest(order=name, step=step, after=first):
                            self.assertGreaterEqual(begin + 60, ended[first] + waits[first])  # whole minutes


def seconds(clock):
    return int(clock[:2]) * 3600 + int(clock[3:]) * 60


def stretches():
    for day in range(120):
        date = MONDAY + datetime.timedelta(days=day)
        if date.weekday() < 5 and date not in CLOSED:
            for begin, end in HOURS:
                yield day * DAY + begin, day * DAY + end


OPEN = list(stretches())


def worked(start, work):
    """When work that is begun then is done, or nothing where the hours are closed then."""
    if not any(begin <= start < end for begin, end in OPEN):
        return None
    for begin, end in OPEN:
        from_now = max(begin, start)
        if from_now < end:
            if end - from_now >= work:
                return from_now + work
            work -= end - from_now
    return None


def place(task, hands, held):
    """The earliest start: one of the moments at which something changes, or as late in a stretch as it just fits."""
    moments = {task["from"]} | {begin for begin, _ in OPEN} | {end for _, end in hands} | {end for _, _, end in held}
    for start in sorted(moment for moment in moments if moment >= task["from"]):
        end = worked(start, task["work"])
        if end is None or any(start < b and a < end for a, b in hands):
            continue
        if task["unbroken"] and not any(begin <= start and end <= close for begin, close in OPEN):
            continue
        finish = end + task["wait"]
        where = task["holds"]
        at_once = [(a, b) for place_held, a, b in held if place_held == where]
        crowded = where and any(sum(a <= moment < b for a, b in at_once) >= BOOKS_AT_ONCE[where]
                                for moment in [start] + [a for a, _ in at_once if start < a < finish])
        if not crowded:
            return start, end, finish
    raise AssertionError("no room for " + task["step"])


def by_hand(quotes, due):
    hands, held, finish, ready = [], [], {}, {}
    asked = [name for name in ORDERS if name.endswith("a")]
    for name in sorted((n for n in ORDERS if n not in asked), key=lambda n: due[n]) + asked:
        before = ORDERS[name]
        rows = {row["step"]: row for row in quotes[name]["work"] if row["step"] not in PAST}
        wait = {step: (row["wait_low_s"] + row["wait_high_s"]) // 2 for step, row in rows.items()}
        come = 4 * DAY if name == "26-004a" else None  # the navy cloth, ordered with the rest
        die = sum(outside["lead_s"] for outside in quotes[name]["outside"] if outside["kind"] == "die")

        def way(step):
            later = [other for other in rows if step in before.get(other, [])]
            return rows[step]["mean_s"] * 4 + wait[step] + max((way(other) for other in later), default=0)

        done = set()
        while len(done) < len(rows):
            free = [step for step in rows if step not in done and all(b in done or b not in rows for b in before.get(step, []))]
            step = max(free, key=way)
            start = max([finish[name, b] for b in before.get(step, []) if b in rows], default=0)
            if come and rows[step]["part"] == "cover":
                start = max(start, finish[name, "order-materials"] + come)
            if step == "press-impressions":
                start = max(start, die)
            task = {"step": step, "from": start, "work": rows[step]["mean_s"], "wait": wait[step], "holds": HOLDS.get(step),
                    "unbroken": wait[step] > 0 or step in WET}
            begin, end, finish[name, step] = place(task, hands, held)
            hands.append((begin, end))
            if task["holds"]:
                held.append((task["holds"], begin, finish[name, step]))
            done.add(step)
        ready[name] = max(finish[name, step] for step in rows if step not in ("post-parcel", "keep-accounts"))
    return finish, ready


if __name__ == "__main__":
    ENDBAND = sys.argv[1]
    unittest.main(argv=sys.argv[:1] + sys.argv[2:])
