#!/usr/bin/python3
"""The papers that follow a quote, labels, the report; and the owner's own words and numbers on them.

    papers.py ENDBAND SAMPLE
"""

import base64
import decimal
import re
import subprocess
import sys
import unittest

import margins
from program import BOOKS, Bench


def letters(path):
    return subprocess.run(["pdftotext", "-layout", str(path), "-"], check=True, capture_output=True, text=True, encoding="utf-8").stdout


class Papers(unittest.TestCase):
    endband = sample = None

    def setUp(self):
        self.bench = Bench(self.endband, self.sample)
        self.bench.__enter__()
        self.addCleanup(self.bench.__exit__)

    def job(self, book="hollow_tides.toml"):
        self.bench.good("quote", "make", str(BOOKS / book))
        self.bench.good("quote", "accept", "1", "--needed-on", "2027-03-01")

    def text(self, *words):
        answer = self.bench.json(*words, "--as", "pdf", "--yes")
        return letters(self.bench.folder / answer["file"])

    def test_a_confirmation_says_what_was_agreed_and_no_more(self):
        self.job()
        text = self.text("job", "print", "1")
        quote = self.bench.json("quote", "show", "1")
        self.assertIn("Order confirmation 26-001", text)
        self.assertIn("Quotation 26-001a", text)
        self.assertIn("2027-03-01", text)
        for amount in [line["shown"]["amount"] for line in quote["lines"]] + [quote["total"]["amount"]]:
            self.assertIn(amount, text)
        self.assertNotIn("[ ]", text)
        self.assertNotIn("Valid until", text)

    def test_receipts_add_up(self):
        self.job()
        self.bench.good("job", "paid", "1", "100.00", "--words", "deposit")
        self.bench.good("job", "paid", "1", "40.50")
        self.bench.good("job", "paid", "1", "10.00", "--given-back")
        to_pay = decimal.Decimal(self.bench.json("job", "show", "1")["job"]["to_pay"]["amount"])
        paid = decimal.Decimal(0)
        for number, amount in enumerate(("100.00", "40.50", "-10.00"), 1):
            paid += decimal.Decimal(amount)
            text = self.text("job", "print", "1", "--paper", "receipt", "--payment", str(number))
            self.assertIn(f"Receipt 26-001-{number}", text)
            self.assertIn("Given back" if amount.startswith("-") else "Received", text)
            self.assertRegex(text, rf"Paid so far\s+{paid}")
            self.assertRegex(text, rf"Still due\s+{to_pay - paid}")
        self.assertIn("26-001-3", self.text("job", "print", "1", "--paper", "receipt"))
        self.bench.good("workshop", "undo", "--yes")
        self.assertIn("26-001-2", self.text("job", "print", "1", "--paper", "receipt"))

    def test_what_cannot_be_printed_is_refused(self):
        self.job()
        for words, code in ((["--paper", "receipt"], 1), (["--paper", "bill"], 2), (["--paper", "receipt", "--payment", "0"], 2)):
            self.assertEqual(self.bench.run("job", "print", "1", *words).returncode, code, words)
        self.bench.good("job", "paid", "1", "5.00")
        self.assertEqual(self.bench.run("job", "print", "1", "--paper", "receipt", "--payment", "2").returncode, 2)
        self.assertEqual(self.bench.run("stock", "label", "L99999").returncode, 2)
        self.assertEqual(sorted(path.suffix for path in self.bench.folder.iterdir() if path.suffix in (".html", ".pdf")), [])

    def test_the_owners_words_and_numbers(self):
        self.bench.good("workshop", "set", "paper.numbers=1.234,50", "word.total=Zu zahlen", "word.page=Seite", "word.page-of=von",
                        "text.terms=Der Rest ist vor dem Versand fällig.")
        self.bench.good("quote", "make", str(BOOKS / "hollow_tides.toml"))
        total = decimal.Decimal(self.bench.json("quote", "show", "1")["total"]["amount"])
        self.assertGreater(total, 1000)
        said = f"{total:,.2f}".replace(",", " ").replace(".", ",").replace(" ", ".")
        text = self.text("quote", "print", "1")
        self.assertRegex(text, r"Zu zahlen\s+" + re.escape(said))
        self.assertIn("Seite 1 von", text)
        self.assertIn("Der Rest ist vor dem Versand fällig.", text)
        page = (self.bench.folder / self.bench.json("quote", "print", "1")["file"]).read_text(encoding="utf-8")
        self.assertIn(said, page)
        self.assertNotIn(str(total), page)
        self.assertEqual(self.bench.run("workshop", "set", "word.totl=x").returncode, 2)
        self.assertIn(b"total", self.bench.run("workshop", "set", "word.totl=x").stderr)

    def test_the_workshops_picture_stands_at_the_head(self):
        png = base64.b64decode("iVBORw0KGgoAAAANSUhEUgAAAAIAAAABCAIAAAB7QOjdAAAAD0lEQVR4nGNgKNp0NY4BAAhEAlhBvvHXAAAAAElFTkSuQmCC")
        self.bench.good("quote", "make", str(BOOKS / "chess_endings.toml"))
        self.bench.good("workshop", "set", "maker.logo=mark.png", "--from", "2026-01-01")
        done = self.bench.run("--json", "quote", "print", "1")
        self.assertEqual(done.returncode, 3)
        for wrong in (b"", b"GIF89a", png[:-3], png[:20], b"<script>"):
            (self.bench.folder / "mark.png").write_bytes(wrong)
            for form in ("html", "pdf"):
                done = self.bench.run("--json", "quote", "print", "1", "--as", form)
                self.assertEqual(done.returncode, 2, wrong)
                self.assertIn(b"PNG", done.stderr)
        self.assertEqual([path.name for path in self.bench.folder.glob("quotation*")], [])
        (self.bench.folder / "mark.png").write_bytes(png)
        self.bench.good("quote", "print", "1")
        page = (self.bench.folder / "quotation-26-001a.html").read_text(encoding="utf-8")
        self.assertEqual(base64.b64decode(re.search(r"base64,([^\"]*)", page).group(1)), png)
        self.bench.good("quote", "print", "1", "--as", "pdf")
        images = subprocess.run(["pdfimages", "-list", str(self.bench.folder / "quotation-26-001a.pdf")], check=True, capture_output=True, text=True)
        self.assertEqual(len(images.stdout.splitlines()), 3)

    def test_labels_are_at_true_size(self):
        self.assertEqual(self.bench.run("stock", "label").returncode, 1)
        self.bench.good("stock", "receive", "goat-moss-08 0.61 m2 61.50", "--place", "chest 3")
        answer = self.bench.json("stock", "label", "--as", "pdf")
        self.assertGreater(len(answer["lots"]), 0)
        path = self.bench.folder / answer["file"]
        text = letters(path)
        for lot in answer["lots"]:
            self.assertIn(lot, text)
        # Edges of a label in the content stream: 88 mm across, 57 mm down, in points of 1/72 inch.
        unpacked = subprocess.run(["qpdf", "--qdf", "--object-streams=disable", str(path), "-"], check=True, capture_output=True).stdout
        scales = re.findall(rb"([\d.]+) 0 0 -?([\d.]+) [-\d.]+ [-\d.]+ cm", unpacked)
        self.assertTrue(any(abs(float(x) - 72 / 25.4) < 1e-3 for x, _ in scales) or rb"249.4" in unpacked, scales[:5])

    def test_the_report_of_a_year_has_its_figures_and_their_tables(self):
        self.assertEqual(self.bench.run("margins", "report").returncode, 1)
        self.bench.good("workshop", "import", margins.notebook(self.bench))
        answer = self.bench.json("margins", "report", "-o", "report.html")
        page = (self.bench.folder / "report.html").read_text(encoding="utf-8")
        listed = self.bench.json("margins", "list")
        self.assertEqual(answer["jobs"], len(listed["rows"]))
        self.assertGreaterEqual(page.count("<svg"), 4)
        for row in listed["rows"]:
            self.assertIn(row["job"], page)
        text = self.text("margins", "report")
        self.assertIn("INTERNAL", text)
        self.assertIn("What steps take", text)


if __name__ == "__main__":
    Papers.endband, Papers.sample = sys.argv[1], sys.argv[2]
    unittest.main(argv=sys.argv[:1])
