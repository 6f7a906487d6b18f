#!/usr/bin/python3
"""`book measure --svg`: every picture of every sample book is sound, agrees with the figures, and is put where it is to
be whole or not at all.

usage: drawings.py ENDBAND SAMPLE_WORKSHOP
"""

import os
import re
import shutil
import subprocess
import sys
import unittest
import xml.etree.ElementTree as tree

import program

SVG = "{http://www.w3.org/2000/svg}"
ODD = """endband = 1
model = "raised-cords"
title = "O'Brien & S\u00f8n <script>"
height = "210 mm"
width = "148 mm"
pages = 320
"""


def figures(measured):
    return {each["figure"]: each["value_millionths"] / 1e6 for each in measured["figures"]}


def letters(picture):
    return [each.text or "" for each in picture.iter(SVG + "text")]


def pictures(folder):
    return {path.name: path.read_bytes() for path in sorted(folder.iterdir())}


class Drawings(unittest.TestCase):
    def measured(self, bench, book):
        """The answer and the pictures of a book."""
        folder = bench.folder / "out"
        shutil.rmtree(folder, ignore_errors=True)
        answer = bench.json("book", "measure", book, "--svg", "out")
        return answer, {name: tree.fromstring(text) for name, text in pictures(folder).items()}

    def each_sample(self):
        with program.Bench(ENDBAND, SAMPLE) as bench:
            for book in sorted(program.BOOKS.glob("*.toml")):
                with self.subTest(book=book.name):
                    yield (*self.measured(bench, str(book)), bench)

    def test_the_answer_lists_the_files_that_are_there_and_all_are_sound(self):
        for answer, drawn, bench in self.each_sample():
            self.assertEqual(sorted(each["file"] for each in answer["drawings"]), sorted(drawn))
            self.assertTrue(drawn)
            for name in drawn:
                subprocess.run(["xmllint", "--noout", str(bench.folder / "out" / name)], check=True)

    def test_a_picture_needs_nothing_else_and_says_what_it_shows(self):
        for answer, drawn, bench in self.each_sample():
            words = {each["file"]: each["words"] for each in answer["drawings"]}
            for name, picture in drawn.items():
                text = (bench.folder / "out" / name).read_text(encoding="utf-8")
                rest = re.sub(r'xmlns="[^"]*"|url\(#[a-z0-9-]+\)', "", text)
                for outside in ("http", "url(", "href", "@import", "<script", "nan", "inf\""):
                    self.assertNotIn(outside, rest, name)
                self.assertEqual(picture.find(SVG + "desc").text, words[name])
                self.assertTrue(picture.find(SVG + "title").text)

    def test_a_picture_goes_on_a_page_at_the_scale_it_says(self):
        for answer, drawn, _ in self.each_sample():
            scales = {each["file"]: 1000 / each["scale_thousandths"] for each in answer["drawings"]}
            for name, picture in drawn.items():
                wide, high = (float(picture.get(key).removesuffix("mm")) for key in ("width", "height"))
                box = [float(value) for value in picture.get("viewBox").split()]
                self.assertAlmostEqual(box[2] / wide, scales[name], delta=0.01 * scales[name])
                self.assertAlmostEqual(box[3] / high, scales[name], delta=0.01 * scales[name])
                said = f"1:{scales[name]:.0f}" if scales[name] >= 1 else f"{1 / scales[name]:.0f}:1"
                self.assertTrue(any(f"Scale {said}." in text for text in letters(picture)), name)
                if name not in ("box.svg", "pieces.svg"):
                    self.assertLessEqual(min(wide, high), 210, name)
                    self.assertLessEqual(max(wide, high), 297, name)

    def test_the_covering_is_drawn_as_large_as_its_figures_say(self):
        seen = 0
        for answer, drawn, _ in self.each_sample():
            known, ways = figures(answer), {each["way"] for each in answer["ways"] if each["axis"] == "cover.extent"}
            if "cover.svg" not in drawn:
                continue
            width = known["spine-cover-width" if ways & {"half", "quarter", "three-quarter"} else "cover-width"]
            sizes = [(float(each.get("width")), float(each.get("height"))) for each in drawn["cover.svg"].iter(SVG + "rect")]
            self.assertIn((round(width, 3), round(known["cover-height"], 3)), [(round(w, 3), round(h, 3)) for w, h in sizes])
            seen += 1
        self.assertGreater(seen, 3)

    def test_the_measures_of_the_spine_are_the_figures(self):
        seen = 0
        for answer, drawn, _ in self.each_sample():
            if "spine.svg" not in drawn:
                continue
            known = figures(answer)
            told = letters(drawn["spine.svg"])
            names = {"T": "block-thickness", "B": "spine-width"}
            if known.get("rise", 0) > 0:
                names |= {"C": "chord", "r": "rise"}
            for symbol, figure in names.items():
                number = f"{known[figure]:.1f}".removesuffix(".0")
                self.assertIn(f"{symbol} {number}", told)
            seen += 1
        self.assertGreater(seen, 3)

    def test_every_piece_is_drawn_once_as_large_as_it_is_cut(self):
        for answer, drawn, _ in self.each_sample():
            sizes = []
            for name in ("box.svg", "pieces.svg"):
                if name in drawn:
                    sizes += [(each.get("width"), each.get("height")) for each in drawn[name].iter(SVG + "rect")
                              if each.get("stroke") is not None]
            wanted = [(f"{p['width_um'] / 1000:.3f}", f"{p['height_um'] / 1000:.3f}") for p in answer["pieces"]]
            self.assertEqual(sorted((float(w), float(h)) for w, h in sizes), sorted((float(w), float(h)) for w, h in wanted))

    def test_an_odd_title_is_letters_and_nothing_else(self):
        with program.Bench(ENDBAND, SAMPLE) as bench:
            _, drawn = self.measured(bench, bench.write("odd.toml", ODD))
            for picture in drawn.values():
                self.assertIn("O'Brien & S\u00f8n <script>", picture.find(SVG + "title").text)
                self.assertIsNone(picture.find(".//" + SVG + "script"))

    def test_the_same_book_gives_the_same_bytes(self):
        with program.Bench(ENDBAND, SAMPLE) as bench:
            book = bench.write("odd.toml", ODD)
            bench.good("book", "measure", book, "--svg", "one")
            bench.good("book", "measure", book, "--svg", "two")
            self.assertEqual(pictures(bench.folder / "one"), pictures(bench.folder / "two"))

    def test_what_is_there_is_written_over_only_when_that_is_said(self):
        with program.Bench(ENDBAND, SAMPLE) as bench:
            book = bench.write("odd.toml", ODD)
            bench.good("book", "measure", book, "--svg", "out")
            kept = bench.folder / "out" / "spine.svg"
            kept.write_text("mine")
            before = pictures(bench.folder / "out")
            refused = bench.run("book", "measure", book, "--svg", "out")
            self.assertNotEqual(refused.returncode, 0)
            self.assertIn(b"out/spine.svg", refused.stderr)
            self.assertIn(b"--yes", refused.stderr)
            self.assertEqual(pictures(bench.folder / "out"), before)
            bench.good("book", "measure", book, "--svg", "out", "--yes")
            self.assertNotEqual(kept.read_text(), "mine")

    def test_a_dry_run_says_what_it_would_write_and_makes_nothing(self):
        with program.Bench(ENDBAND, SAMPLE) as bench:
            told = bench.good("book", "measure", bench.write("odd.toml", ODD), "--svg", "out", "--dry-run")
            self.assertIn("Would write", told)
            self.assertFalse((bench.folder / "out").exists())

    def test_where_one_picture_cannot_be_put_there_none_is(self):
        with program.Bench(ENDBAND, SAMPLE) as bench:
            book = bench.write("odd.toml", ODD)
            (bench.folder / "out" / "spine.svg").mkdir(parents=True)
            refused = bench.run("book", "measure", book, "--svg", "out", "--yes")
            self.assertEqual(refused.returncode, 3)
            self.assertEqual([path.name for path in (bench.folder / "out").iterdir()], ["spine.svg"])
            bench.write("file", "")
            self.assertEqual(bench.run("book", "measure", book, "--svg", "file").returncode, 3)
            self.assertEqual(bench.run("book", "measure", book, "--svg", "no/such").returncode, 3)
            if os.path.exists("/dev/full"):
                (bench.folder / "full").mkdir()
                (bench.folder / "full" / "section.svg.unfinished").symlink_to("/dev/full")
                refused = bench.run("book", "measure", book, "--svg", "full")
                self.assertEqual(refused.returncode, 3)
                self.assertEqual(list((bench.folder / "full").iterdir()), [])


if __name__ == "__main__":
    ENDBAND, SAMPLE = sys.argv[1:3]
    unittest.main(argv=sys.argv[:1] + sys.argv[3:])
