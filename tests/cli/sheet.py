#!/usr/bin/python3
"""`job sheet`: the paper on the bench has all that the job needs, no price and no name, and its templates are as large
as they say.

usage: sheet.py ENDBAND SAMPLE_WORKSHOP
"""

import re
import subprocess
import sys
import unittest

import program
from print import Page

DPI = 300
MM = 25.4


def true_size(text):
    """The pictures of a page that are to be printed as they are, each able to stand alone."""
    found = re.findall(r'<figure class="true-size">\s*(<svg .*?</svg>)', text, re.S)
    return [each.replace("<svg ", '<svg xmlns="http://www.w3.org/2000/svg" ', 1) for each in found]


def raster(folder, picture):
    """Rows of grey pixels, printed at 300 dpi."""
    (folder / "one.svg").write_text(picture, encoding="utf-8")
    subprocess.run(["rsvg-convert", "-f", "pdf", "-o", "one.pdf", "one.svg"], cwd=folder, check=True)
    subprocess.run(["pdftoppm", "-r", str(DPI), "-gray", "-singlefile", "one.pdf", "one"], cwd=folder, check=True)
    return grey_rows(folder / "one.pgm")


def grey_rows(path):
    data = path.read_bytes()
    head = re.match(rb"P5\s+(\d+)\s+(\d+)\s+255\s", data)
    wide, high = int(head[1]), int(head[2])
    return [data[head.end() + y * wide:head.end() + (y + 1) * wide] for y in range(high)]


def grey_page(folder, paper, page):
    """Rows of grey pixels of a page of a PDF, at 300 dpi."""
    subprocess.run(["pdftoppm", "-r", str(DPI), "-gray", "-singlefile", "-f", str(page), "-l", str(page), paper, "page"], cwd=folder, check=True)
    return grey_rows(folder / "page.pgm")


def plumb_runs(rows):
    """The longest dark run of each column, in mm."""
    longest = []
    for x in range(len(rows[0])):
        best = now = 0
        for row in rows:
            now = now + 1 if row[x] < 128 else 0
            best = max(best, now)
        longest.append(best / DPI * MM)
    return longest


class Sheet(unittest.TestCase):
    def setUp(self):
        self.bench = program.Bench(ENDBAND, SAMPLE)
        self.bench.__enter__()
        self.addCleanup(self.bench.__exit__)

    def job(self, book, *more):
        """The number of a job of that book, for a customer whose name stands nowhere else."""
        self.bench.good("quote", "make", str(book), "--yes", *more)
        number = self.bench.json("quote", "list")["quotes"][0]["number"]
        self.bench.good("quote", "accept", number)
        return self.bench.json("job", "list")["jobs"][0]["number"]

    def sheet(self, job, *more):
        answer = self.bench.json("job", "sheet", job, "--yes", *more)
        return (self.bench.folder / answer["file"]).read_text(encoding="utf-8")

    def test_every_binding_has_a_sheet_that_needs_nothing_else(self):
        self.bench.good("customer", "add", "zwyxq", "--name", "Zwyxq Vrblst")
        for book in sorted(program.BOOKS.glob("*.toml")):
            own = [] if "customer =" in book.read_text(encoding="utf-8") else ["--customer", "zwyxq"]
            with self.subTest(book=book.name):
                job = self.job(book, *own)
                text = self.sheet(job)
                page = Page(text)
                self.assertEqual(page.open, [])
                for outside in ("http", "//", "@import", "<script", "<link", "<img", "nan", "#0072B2"):
                    self.assertNotIn(outside, text)
                for secret in ("Zwyxq", "Vrblst", "Ida Quill", "EUR"):
                    self.assertNotIn(secret, text)
                words = "".join(page.words)
                self.assertIn(job, words)
                for step in self.bench.json("quote", "explain", job)["work"]:
                    if step["step"] != "extra-work":
                        self.assertIn(step["step"], page.words)
                self.assertEqual(self.sheet(job), text)

    def test_the_holes_are_those_of_the_structure(self):
        for name in ("pocket_herbal", "band_minutes", "rigger_sketches"):
            measured = self.bench.json("book", "measure", str(program.BOOKS / f"{name}.toml"), "--svg", name)
            section = next(each for each in measured["drawings"] if each["drawing"] == "section")
            known = {each["figure"]: each["value_millionths"] / 1e6 for each in measured["figures"]}
            trim = known.get("head-tail-trim", 0)
            holes = [float(each) for each in re.search(r"Holes at ([0-9., and]+) mm", section["words"])[1].replace(" and", ",").split(",")]
            drawn = []
            for picture in true_size(self.sheet(self.job(program.BOOKS / f"{name}.toml"))):
                if "Sewing stations" in picture:
                    drawn += [float(y) for y in re.findall(r'<circle cx="[^"]*" cy="([^"]*)"', picture)]
            self.assertEqual(len(drawn), len(holes))
            for is_at, wanted in zip(drawn, holes):
                self.assertAlmostEqual(is_at - trim, wanted, delta=0.06)

    def test_the_bar_is_100_mm_on_paper(self):
        for name, more in (("hollow_tides", []), ("pocket_herbal", ["--letter"]), ("moth_notes", [])):
            pictures = true_size(self.sheet(self.job(program.BOOKS / f"{name}.toml"), *more))
            self.assertTrue(pictures)
            for picture in pictures:
                near = [run for run in plumb_runs(raster(self.bench.folder, picture)) if 99 < run < 101]
                self.assertTrue(near, name)
                self.assertAlmostEqual(max(near), 100, delta=0.3)

    def test_the_bar_is_100_mm_on_the_pages_of_a_pdf(self):
        job = self.job(program.BOOKS / "pocket_herbal.toml")
        self.bench.good("job", "sheet", job, "-o", "sheet.pdf")
        text = subprocess.run(["pdftotext", "-layout", "sheet.pdf", "-"], cwd=self.bench.folder, check=True, capture_output=True, text=True).stdout
        pages = [number for number, page in enumerate(text.split("\f"), 1) if "measure this bar" in page]
        self.assertTrue(pages)
        for page in pages:
            near = [run for run in plumb_runs(grey_page(self.bench.folder, "sheet.pdf", page)) if 99 < run < 101]
            self.assertTrue(near, page)
            self.assertAlmostEqual(max(near), 100, delta=0.3)

    def test_a_template_goes_on_the_paper_that_is_asked_for(self):
        job = self.job(program.BOOKS / "school_atlas.toml")
        for more, room in (([], (178, 259)), (["--letter"], (183.9, 241.4))):
            text = self.sheet(job, *more)
            self.assertIn("size: letter" if more else "size: A4", text)
            for picture in re.findall(r'<svg [^>]*width="([0-9.]+)mm" height="([0-9.]+)mm"', text):
                self.assertLessEqual(float(picture[0]), room[0])
                self.assertLessEqual(float(picture[1]), room[1])

    def test_the_title_is_spelled(self):
        text = self.sheet(self.job(program.BOOKS / "hollow_tides.toml"))
        self.assertIn("H o l l o w   T i d e s".lower(), text.lower())

    def test_what_was_told_and_what_waits_stands_on_it(self):
        job = self.job(program.BOOKS / "chess_endings.toml")
        self.bench.good("job", "time", job, "fold-sheets", "47 min")
        self.bench.good("job", "hold", job, "proof of the title")
        text = self.sheet(job)
        self.assertIn("told 47", text)
        self.assertIn("proof of the title", text)
        self.assertIn("No days: it waits for the customer", text)

    def test_lots_and_their_places_are_told(self):
        self.bench.good("stock", "receive", "linen-25-3 200 m 20.00", "--supplier", "Wharf Goods", "--place", "drawer 7")
        text = self.sheet(self.job(program.BOOKS / "chess_endings.toml"))
        self.assertIn("drawer 7", text)

    def test_what_is_no_open_job_is_refused(self):
        self.bench.good("quote", "make", str(program.BOOKS / "chess_endings.toml"))
        done = self.bench.run("--json", "job", "sheet", "26-001")
        self.assertEqual(done.returncode, 1)
        self.assertIn(b"quote accept 26-001a", done.stderr)
        self.bench.good("quote", "accept", "26-001")
        self.bench.good("job", "cancel", "26-001", "--reason", "another plan", "--yes")
        done = self.bench.run("--json", "job", "sheet", "26-001")
        self.assertEqual(done.returncode, 1)
        self.assertIn(b"cancelled since", done.stderr)
        done = self.bench.run("--json", "job", "sheet", "26-099")
        self.assertIn(b"unknown-code", done.stderr)
        self.assertEqual(list(self.bench.folder.glob("*.html")), [])

    def test_a_file_that_is_there_is_kept_and_a_dry_run_writes_nothing(self):
        job = self.job(program.BOOKS / "forty_loaves.toml")
        self.bench.good("job", "sheet", job, "--dry-run")
        self.assertEqual(list(self.bench.folder.glob("*.html")), [])
        self.bench.write(f"job-sheet-{job}.html", "mine")
        done = self.bench.run("--json", "job", "sheet", job)
        self.assertEqual(done.returncode, 1)
        self.assertIn(b"already-exists", done.stderr)
        self.assertEqual((self.bench.folder / f"job-sheet-{job}.html").read_text(encoding="utf-8"), "mine")
        (self.bench.folder / "new").mkdir()
        self.bench.good("job", "sheet", job, "-o", "new/bench.html")
        self.assertTrue((self.bench.folder / "new" / "bench.html").exists())


if __name__ == "__main__":
    ENDBAND, SAMPLE = sys.argv[1:3]
    unittest.main(argv=sys.argv[:1])
