#!/usr/bin/python3
"""The demo workshop holds no filler: every material and every step is used by one of its books.

usage: sample_data.py ENDBAND [TEST ...]     the program under test; the tests as unittest names them
"""

import json
import re
import shlex
import subprocess
import sys
import tempfile
import unittest
from pathlib import Path

ROOT = Path(__file__).resolve().parents[2]
SAMPLE = ROOT / "sample_data"
BOOKS = sorted((SAMPLE / "books").glob("*.toml"))
MODELS = sorted((ROOT / "engine" / "book" / "models").glob("*.toml"))
BINDINGS = {path.stem for path in (ROOT / "engine" / "book" / "practice").glob("*.toml")} - {"common"}
ENDBAND = ""
ON = "2026-11-25"
BEFORE_THE_RISES = "2026-02-02"

# What a book may be warned of on purpose; every other warning is a slip of the sample data.
MEANT = {
    "pocket_herbal": {"leaf-tarnishes"},
    "pocket_herbal_two_ribbons": {"leaf-tarnishes"},
    "saltmarsh_log": {"customer-piece-cannot-be-replaced"},
}

CHANGED = {"pocket_herbal_two_ribbons"}  # another book as its customer wanted it later

# The models of cloth and paper, and what covers them here; what covers the others is the workshop's habit.
COVERED = {
    "case": "cloth-navy",
    "quarter-cloth": "cloth-navy",
    "link-stitch": "side-paste-slate",
    "single-section": "card-wrapper-04",
    "long-stitch": "calf-limp-tan-14",
}
MEANT_OF_MODELS = {"grimoire": {"square-unusual"}, "raised-cords": {"will-not-back"}}


def commands(name):
    """The commands of a file as lists of words, joined and split as the program does."""
    text = (SAMPLE / name).read_text(encoding="utf-8").replace("\\\n", " ")
    lines = [line for line in text.splitlines() if line.strip() and not line.lstrip().startswith("#")]
    return [shlex.split(line) for line in lines]


def codes_of(words):
    return {line[2] for line in commands("workshop.commands") if line[:2] == words}


def said(path, key):
    """What a description says of a key that stands in no table."""
    found = re.search(rf'^{key} = "?([^"\n]*)"?$', path.read_text(encoding="utf-8"), re.MULTILINE)
    return found[1] if found else None


def starter_steps():
    return [line for line in commands("starter_steps.commands") if line[:2] == ["steps", "set"]]


def binding_of(path):
    """The binding of a description: its own, or that of its model."""
    return said(path, "binding") or binding_of(ROOT / "engine" / "book" / "models" / f"{said(path, 'model')}.toml")


def run(*words):
    done = subprocess.run([ENDBAND, *words], capture_output=True, text=True, check=False)
    if done.returncode != 0:
        raise AssertionError(f"endband {' '.join(words)} ended with {done.returncode}:\n{done.stdout}{done.stderr}")
    return done.stdout


class SampleFiles(unittest.TestCase):
    """What can be seen without the program."""

    def test_there_are_seventy_materials_from_five_suppliers_each_with_a_price(self):
        added = [line for line in commands("workshop.commands") if line[:2] == ["material", "add"]]
        self.assertGreaterEqual(len({line[2] for line in added}), 70)
        for line in added:
            with self.subTest(material=line[2]):
                for flag in ("--pack", "--price", "--supplier", "--tax"):
                    self.assertIn(flag, line)
        suppliers = {line[line.index("--supplier") + 1] for line in added}
        self.assertGreaterEqual(len(suppliers), 5)

    def test_some_prices_change_and_some_are_in_another_currency(self):
        lines = commands("workshop.commands")
        self.assertGreaterEqual(sum(line[:2] == ["material", "price"] for line in lines), 2)
        self.assertGreaterEqual(sum("--rate" in line for line in lines), 1)

    def test_there_are_six_customers_and_nobody_can_be_written_to(self):
        added = [line for line in commands("workshop.commands") if line[:2] == ["customer", "add"]]
        self.assertGreaterEqual(len(added), 6)
        for line in added:
            self.assertTrue(line[line.index("--email") + 1].endswith(".example.org"), line)

    def test_no_two_materials_are_alike(self):
        seen = {}
        for line in commands("workshop.commands"):
            if line[:2] != ["material", "add"]:
                continue
            for flag in ("--name", "--buyer"):
                if flag in line:
                    words = line[line.index(flag) + 1]
                    self.assertNotIn((flag, words), seen, line[2])
                    seen[flag, words] = line[2]

    def test_every_binding_and_every_model_that_a_workshop_sells_has_a_book(self):
        self.assertEqual({binding_of(book) for book in BOOKS}, BINDINGS)
        self.assertLessEqual({said(book, "model") for book in BOOKS}, {model.stem for model in MODELS})

    def test_there_are_a_set_and_copies_and_a_given_block_and_no_title_twice(self):
        texts = [book.read_text(encoding="utf-8") for book in BOOKS]
        for words in ("[[volumes]]", "copies = 5", "given = true", "[[repairs]]", "[[custody]]", "[box]"):
            self.assertTrue(any(words in text for text in texts), words)
        titles = [said(book, "title") for book in BOOKS if book.stem not in CHANGED]
        self.assertEqual(len(titles), len(set(titles)))

    def test_one_book_has_six_lines_and_one_has_sixty(self):
        sizes = sorted(len(book.read_text(encoding="utf-8").splitlines()) for book in BOOKS)
        self.assertEqual(sizes[0], 6)
        self.assertGreaterEqual(sizes[-1], 60)

    def test_every_operation_has_a_step(self):
        table = (ROOT / "engine" / "book" / "operation.cpp").read_text(encoding="utf-8")
        operations = set(re.findall(r'OperationRow\{\w+, "([\w-]+)"', table))
        self.assertGreaterEqual(len(operations), 45)
        steps = [line[2] for line in starter_steps()]
        self.assertEqual(len(steps), len(set(steps)))
        self.assertEqual(operations - set(steps), {"extra-work", "other-repair"})  # their times are the description's

    def test_a_press_or_a_shelf_is_held_through_a_wait_and_is_there(self):
        places = {line[2] for line in commands("starter_steps.commands") if line[:2] == ["bench", "set"]}
        holding = [line for line in starter_steps() if "--holds" in line]
        self.assertEqual({line[line.index("--holds") + 1] for line in holding}, places)
        for line in holding:
            self.assertIn("--wait", line, line[2])

    def test_steps_that_cut_burn_or_fume_carry_a_caution(self):
        lines = {line[2]: line for line in starter_steps()}
        self.assertGreaterEqual(len(lines), 45)
        for words, steps in {
            "knives": ["cut-sheets", "cut-leather", "turn-corners", "cut-cloth", "cut-wrapper", "build-box"],
            "dust": ["cut-boards", "shape-boards", "drill-lacing", "cut-box-boards", "let-in-panels"],
            "mould": ["collate-block", "pull-block", "clean-leaves", "receive-custody"],
            "arsenic": ["collate-block", "pull-block", "clean-leaves", "mend-leaves"],
            "press": ["gild-edges", "sprinkle-edges", "case-in", "press-impressions"],
            "razor": ["put-on-corners", "joint-endpapers", "lay-onlays"],
            "ignite": ["dye-leather", "dress-leather", "size-lines", "varnish-leaf"],
            "flame": ["dye-leather", "laminate-underlays", "size-lines", "varnish-leaf"],
            "epoxy": ["set-stone"],
            "burn": ["blind-lines", "letter-title", "glue-spine", "line-spine", "press-impressions"],
            "polyester": ["fix-registers"],
        }.items():
            for step in steps:
                with self.subTest(step=step):
                    line = lines[step]
                    self.assertIn(words, line[line.index("--caution") + 1].lower())


class SampleInUse(unittest.TestCase):
    """What the program makes of it."""

    @classmethod
    def setUpClass(cls):
        cls.place = tempfile.TemporaryDirectory(prefix="endband-sample-")
        cls.workshop = str(Path(cls.place.name) / "workshop.db")
        run("--workshop", cls.workshop, "--on", "2026-01-05", "workshop", "new", "--sample")
        cls.quotes = {book.stem: cls.quote(book, ON) for book in BOOKS}

    @classmethod
    def tearDownClass(cls):
        cls.place.cleanup()

    @classmethod
    def ask(cls, *words):
        return json.loads(run("--workshop", cls.workshop, "--json", *words))

    @classmethod
    def quote(cls, book, on):
        """The quote of a book as the binder sees it, kept and explained."""
        extra = [] if "customer =" in book.read_text(encoding="utf-8") else ["--customer", "ida-quill"]
        made = cls.ask("--on", on, "quote", "make", str(book), "--yes", *extra)
        return cls.ask("quote", "explain", made["number"])

    def test_every_model_measures_with_the_materials_of_the_workshop_and_warns_of_nothing(self):
        for model in MODELS:
            with self.subTest(model=model.stem):
                book = Path(self.place.name) / f"{model.stem}.toml"
                text = f'endband = 1\nmodel = "{model.stem}"\ntitle = "A model"\n'
                if model.stem in COVERED:
                    text += f'[cover]\nmaterial = "{COVERED[model.stem]}"\n'
                book.write_text(text, encoding="utf-8")
                warnings = {warning["code"] for warning in self.ask("--on", ON, "book", "measure", str(book))["warnings"]}
                self.assertEqual(warnings, MEANT_OF_MODELS.get(model.stem, set()))

    def test_every_sample_book_measures(self):
        for book in BOOKS:
            with self.subTest(book=book.stem):
                self.assertTrue(self.ask("--on", ON, "book", "measure", str(book))["pieces"])

    def test_every_material_is_used_by_a_sample_book(self):
        used = {line["material"] for quote in self.quotes.values() for line in quote["bill"]}
        self.assertEqual(codes_of(["material", "add"]) - used, set())

    def test_every_step_is_used_by_a_sample_book(self):
        used = {line["step"] for quote in self.quotes.values() for line in quote["work"]}
        # A book that only gets a new back keeps its boards and its covering, and is no new binding.
        self.assertEqual({line[2] for line in starter_steps()} - used, {"reback-book"})

    def test_no_sample_book_is_warned_of_anything_but_what_is_meant(self):
        for name, quote in self.quotes.items():
            with self.subTest(book=name):
                self.assertEqual({warning["code"] for warning in quote["warnings"]}, MEANT.get(name, set()))

    def test_a_risen_price_makes_the_same_book_dearer_on_the_later_day(self):
        book = SAMPLE / "books" / "hollow_tides.toml"
        before, after = self.quote(book, BEFORE_THE_RISES), self.quotes["hollow_tides"]
        self.assertLess(float(before["cost"]["materials"]["amount"]), float(after["cost"]["materials"]["amount"]))

    def test_the_workshop_is_sound(self):
        run("--workshop", self.workshop, "workshop", "check")


if __name__ == "__main__":
    ENDBAND = sys.argv.pop(1)
    unittest.main()
