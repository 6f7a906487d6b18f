#!/usr/bin/python3
"""The pages that are given away: nothing of the workshop's inside is on them, and they need nothing else.

    print.py ENDBAND SAMPLE
"""

import html.parser
import sys
import unittest

from program import BOOKS, Bench

# What no buyer may read, in figures and names that stand nowhere else.
SENTINELS = ("87.13", "zwyxq", "7.31", "INTERNAL")


class Page(html.parser.HTMLParser):
    def __init__(self, text):
        super().__init__(convert_charrefs=True)
        self.tags, self.words, self.open = [], [], []
        self.feed(text)

    def handle_starttag(self, tag, attrs):
        self.tags.append(tag)
        if tag not in ("meta", "br", "line", "rect", "path", "circle"):
            self.open.append(tag)

    def handle_endtag(self, tag):
        if tag in self.open:
            while self.open and self.open.pop() != tag:
                pass

    def handle_data(self, data):
        self.words.append(data)


class Print(unittest.TestCase):
    endband = sample = None

    def setUp(self):
        self.bench = Bench(self.endband, self.sample)
        self.bench.__enter__()
        self.addCleanup(self.bench.__exit__)

    def printed(self, *words):
        answer = self.bench.json("quote", "print", *words)
        return (self.bench.folder / answer["file"]).read_text(encoding="utf-8")

    def test_nothing_of_the_inside_is_on_a_buyers_page(self):
        self.bench.good("workshop", "set", "year.pay=87130.00", "year.charges=0.00", 'year.hours=1000 h')
        self.bench.good("material", "price", "goat-moss-08", "--pack", "0.60 m2", "--price", "69.50", "--supplier", "Zwyxq Hides")
        self.bench.good("material", "change", "goat-moss-08", "--spoil", "7.31 %")
        self.bench.good("quote", "make", str(BOOKS / "ferry_songs.toml"))
        inside = self.printed("1", "--level", "internal")
        self.assertIn("87.13", inside)
        self.assertIn("INTERNAL", inside)
        for words in (["1"], ["1", "--level", "one-price", "-o", "offer.html"], ["1", "--letter", "-o", "letter.html"]):
            page = self.printed(*words)
            for sentinel in SENTINELS:
                self.assertNotIn(sentinel.lower(), page.lower(), words)
        self.assertEqual(sorted(path.name for path in self.bench.folder.glob("*.html")),
                         ["letter.html", "offer.html", "quotation-26-001a-internal.html", "quotation-26-001a.html"])

    def test_a_page_needs_nothing_else_and_is_whole(self):
        self.bench.good("quote", "make", str(BOOKS / "hollow_tides.toml"))
        text = self.printed("1")
        page = Page(text)
        self.assertEqual(page.open, [])
        for outside in ("http", "//", "@import", "<script", "<link", "<img", "javascript:"):
            self.assertNotIn(outside, text)
        self.assertEqual(page.tags.count("svg"), 1)
        self.assertIn("meta", page.tags)
        shown = self.bench.json("quote", "show", "1")
        for line in shown["lines"]:
            self.assertIn(line["shown"]["amount"], "".join(page.words))
        self.assertIn(shown["total"]["amount"], "".join(page.words))
        self.assertEqual(self.printed("1", "--yes"), text)

    def test_the_cover_is_drawn_with_what_is_on_it(self):
        for number, (book, said) in enumerate((("hollow_tides", "frames of lines on the front"), ("saltmarsh_log", "1 strap over the fore edge"),
                                               ("chess_endings", "mm thick")), 1):
            self.bench.good("quote", "make", str(BOOKS / f"{book}.toml"))
            text = self.printed(str(number))
            self.assertIn(said, text.split("<desc>")[1].split("</desc>")[0])
            self.assertEqual(self.bench.json("quote", "print", str(number), "--yes")["notices"], [])
        # Frames as the description says: 12 mm from the edge, lines of 2 mm, drawn by their middle.
        frame = self.printed("1", "--yes").split("</desc>")[1]
        self.assertRegex(frame, r'<rect x="[\d.]+" y="13" ')
        self.assertRegex(frame, r'<rect x="[\d.]+" y="17" ')

    def test_names_are_words_and_no_marks(self):
        book = self.bench.write("odd.toml", 'endband = 1\nmodel = "case"\ntitle = "<script>alert(1)</script> & \'Gæst\' \\"漢字\\""\n')
        self.bench.good("customer", "add", "odd", "--name", "Ö'Brien <b>& Søn</b>")
        self.bench.good("quote", "make", book, "--customer", "odd")
        text = self.printed("1")
        self.assertNotIn("<script", text)
        self.assertNotIn("<b>", text)
        words = "".join(Page(text).words)
        self.assertIn("<script>alert(1)</script> & 'Gæst' \"漢字\"", words)
        self.assertIn("Ö'Brien <b>& Søn</b>", words)

    def test_one_price_is_one_line_and_the_same_total(self):
        self.bench.good("quote", "make", str(BOOKS / "chess_endings.toml"))
        whole, parts = Page(self.printed("1", "--level", "one-price", "-o", "one.html")), Page(self.printed("1"))
        self.assertLess(whole.tags.count("tr"), parts.tags.count("tr"))
        total = self.bench.json("quote", "show", "1")["total"]["amount"]
        self.assertIn(total, "".join(whole.words))

    def test_a_file_that_is_there_is_kept_and_a_folder_that_is_not_is_told(self):
        self.bench.good("quote", "make", str(BOOKS / "chess_endings.toml"))
        self.bench.write("taken.html", "mine")
        for words, code, exit_code in ((["-o", "taken.html"], b"already-exists", 1), (["-o", "/dev/full/x.html"], b"file-unusable", 3),
                                       (["--level", "most"], b"bad-value", 2), (["-o", "-"], b"bad-value", 2), (["-o", "/proc/x.html"], b"file-unusable", 3),
                                       (["-o", "new/offer.html"], b"file-unusable", 3)):
            done = self.bench.run("--json", "quote", "print", "1", *words)
            self.assertEqual(done.returncode, exit_code, done.stderr)
            self.assertIn(code, done.stderr)
        self.assertEqual((self.bench.folder / "taken.html").read_text(encoding="utf-8"), "mine")
        self.assertFalse((self.bench.folder / "new").exists())


if __name__ == "__main__":
    Print.endband, Print.sample = sys.argv[1], sys.argv[2]
    unittest.main(argv=sys.argv[:1])
