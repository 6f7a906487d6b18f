#!/usr/bin/python3
"""Pages as PDF, seen through other programs: poppler's (pdfinfo, pdffonts, pdftotext) and qpdf.

    pdf.py ENDBAND SAMPLE
"""

import os
import re
import shutil
import subprocess
import sys
import unittest

from program import BOOKS, Bench

MM = 72 / 25.4  # points


def said(*command):
    return subprocess.run(command, check=True, capture_output=True, text=True, encoding="utf-8").stdout


class Pdf(unittest.TestCase):
    endband = sample = None

    def setUp(self):
        self.bench = Bench(self.endband, self.sample)
        self.bench.__enter__()
        self.addCleanup(self.bench.__exit__)

    def printed(self, *words):
        answer = self.bench.json(*words)
        return str(self.bench.folder / answer["file"]), answer

    def info(self, file):
        return dict(re.split(r":\s+", line, maxsplit=1) for line in said("pdfinfo", file).splitlines() if ": " in line)

    def test_a_quotation_is_whole_and_its_amounts_are_letters(self):
        self.bench.good("quote", "make", str(BOOKS / "hollow_tides.toml"))
        file, answer = self.printed("quote", "print", "1", "--as", "pdf")
        self.assertTrue(file.endswith("quotation-26-001a.pdf"))
        self.assertEqual(answer["notices"], [])
        subprocess.run(["qpdf", "--check", file], check=True, capture_output=True)
        info = self.info(file)
        self.assertEqual(info["Title"], "Quotation 26-001a")
        self.assertIn("A4", info["Page size"])
        for font in said("pdffonts", file).splitlines()[2:]:
            self.assertRegex(font, r"EBGaramond|CairoFont")  # its bold is made of the regular, which has more letters
            self.assertRegex(font, r"\byes yes (yes|no)\b")  # embedded, and only the letters used
        text = said("pdftotext", "-layout", file, "-")
        shown = self.bench.json("quote", "show", "1")
        for amount in [line["shown"]["amount"] for line in shown["lines"]] + [shown["total"]["amount"]]:
            self.assertIn(amount, text)
        self.assertIn("Page 1 of " + info["Pages"], text)

    def test_the_same_page_is_the_same_bytes(self):
        self.bench.good("quote", "make", str(BOOKS / "hollow_tides.toml"))
        first, _ = self.printed("quote", "print", "1", "-o", "one.pdf")
        second, _ = self.printed("quote", "print", "1", "-o", "two.pdf")
        with open(first, "rb") as one, open(second, "rb") as two:
            self.assertEqual(one.read(), two.read())

    def test_letter_paper(self):
        self.bench.good("quote", "make", str(BOOKS / "chess_endings.toml"))
        file, _ = self.printed("quote", "print", "1", "--letter", "-o", "letter.pdf")
        self.assertIn("612 x 792", self.info(file)["Page size"])

    def test_nothing_of_the_inside_is_in_a_buyers_file(self):
        self.bench.good("workshop", "set", "year.pay=87130.00", "year.charges=0.00", "year.hours=1000 h")
        self.bench.good("material", "price", "goat-moss-08", "--pack", "0.60 m2", "--price", "69.50", "--supplier", "Zwyxq Hides")
        self.bench.good("material", "change", "goat-moss-08", "--spoil", "7.31 %")
        number = self.bench.json("quote", "make", str(BOOKS / "ferry_songs.toml"))["number"]
        files = [self.printed("quote", "print", "1", "--level", level, "-o", level + ".pdf")[0] for level in ("one-price", "components")]
        self.bench.good("quote", "accept", number)
        self.bench.good("job", "paid", "1", "50.00")
        files += [self.printed("job", "print", "1", "--paper", paper, "--as", "pdf")[0] for paper in ("confirmation", "receipt")]
        for file in files:
            unpacked = subprocess.run(["qpdf", "--qdf", "--object-streams=disable", file, "-"], check=True, capture_output=True).stdout
            everything = unpacked.decode("latin-1").lower() + said("pdftotext", file, "-").lower() + os.path.basename(file)
            for sentinel in ("87.13", "zwyxq", "7.31", "internal"):
                self.assertNotIn(sentinel, everything, file)
        inside, _ = self.printed("quote", "print", "1", "--level", "internal", "-o", "inside.pdf")
        text = said("pdftotext", inside, "-")
        self.assertIn("87.13", text)
        self.assertIn("INTERNAL", text)

    def test_letters_that_no_typeface_has_are_named(self):
        book = self.bench.write("odd.toml", 'endband = 1\nmodel = "case"\ntitle = "\U00012000 <script> שלום"\n')
        self.bench.good("customer", "add", "odd", "--name", "O'Brien & Søn " + "x" * 150)
        self.bench.good("quote", "make", book, "--customer", "odd")
        file, answer = self.printed("quote", "print", "1", "--as", "pdf")
        self.assertEqual(len(answer["notices"]), 1)
        self.assertIn("\U00012000", answer["notices"][0])
        self.assertNotIn("ø", answer["notices"][0])
        text = said("pdftotext", file, "-")
        self.assertIn("<script>", text)
        self.assertIn("O'Brien & Søn", text)
        width = float(self.info(file)["Page size"].split()[0])
        for x_end in re.findall(r'<word xMin="[\d.]+" yMin="[\d.]+" xMax="([\d.]+)"', said("pdftotext", "-bbox", file, "-")):
            self.assertLess(float(x_end), width - 14 * MM)

    def test_forms_are_said_once(self):
        self.bench.good("quote", "make", str(BOOKS / "chess_endings.toml"))
        for words in (["--as", "word"], ["--as", "html", "-o", "offer.pdf"]):
            done = self.bench.run("--json", "quote", "print", "1", *words)
            self.assertEqual(done.returncode, 2)
            self.assertIn(b"bad-value", done.stderr)
        self.assertEqual(list(self.bench.folder.glob("*.pdf")), [])

    def test_a_full_disk_leaves_nothing(self):
        self.bench.good("quote", "make", str(BOOKS / "chess_endings.toml"))
        done = self.bench.run("--json", "quote", "print", "1", "-o", "/dev/full/x.pdf")
        self.assertEqual(done.returncode, 3)

    def test_a_program_without_its_module_says_so_and_does_all_else(self):
        alone = self.bench.folder / "endband"
        shutil.copy(self.endband, alone)
        self.bench.good("quote", "make", str(BOOKS / "chess_endings.toml"))
        done = subprocess.run([str(alone), "--workshop", str(self.bench.workshop), "quote", "print", "1", "--as", "pdf"], capture_output=True, text=True, cwd=self.bench.folder)
        self.assertEqual(done.returncode, 3, done.stderr)
        self.assertIn("endband-pdf.so", done.stderr)
        done = subprocess.run([str(alone), "--workshop", str(self.bench.workshop), "quote", "print", "1"], capture_output=True, text=True, cwd=self.bench.folder)
        self.assertEqual(done.returncode, 0, done.stderr)

    def test_only_the_module_knows_the_type_setting(self):
        for library in ("pango", "cairo", "glib", "fontconfig"):
            self.assertNotIn(library, said("ldd", self.endband))


if __name__ == "__main__":
    Pdf.endband, Pdf.sample = sys.argv[1], sys.argv[2]
    unittest.main(argv=sys.argv[:1])
