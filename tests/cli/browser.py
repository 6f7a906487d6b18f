#!/usr/bin/python3
"""HTML pages as a browser shows them: Chromium without a window, at the width of a phone and of a desk, and printed.
Contrast is computed as WCAG 2.2 defines it (relative luminance, success criterion 1.4.3: 4.5 to 1).

    browser.py ENDBAND SAMPLE
"""

import re
import subprocess
import sys
import tempfile
import unittest

from program import BOOKS, Bench

CHROMIUM = ["chromium", "--headless", "--no-sandbox", "--disable-gpu", "--disable-quic", "--no-first-run", "--hide-scrollbars",
            "--disable-background-networking", "--disable-component-update", "--disable-sync"]


def luminance(colour):
    def channel(value):
        value /= 255
        return value / 12.92 if value <= 0.04045 else ((value + 0.055) / 1.055) ** 2.4

    digits = colour.lstrip("#")
    digits = "".join(2 * digit for digit in digits) if len(digits) == 3 else digits
    red, green, blue = (channel(int(digits[at:at + 2], 16)) for at in (0, 2, 4))
    return 0.2126 * red + 0.7152 * green + 0.0722 * blue


def contrast(one, other):
    light, dark = sorted((luminance(one), luminance(other)), reverse=True)
    return (light + 0.05) / (dark + 0.05)


class Browser(unittest.TestCase):
    endband = sample = None

    @classmethod
    def setUpClass(cls):
        cls.bench = Bench(cls.endband, cls.sample)
        cls.bench.__enter__()
        cls.addClassCleanup(cls.bench.__exit__)
        cls.bench.good("customer", "add", "long", "--name", "x" * 150 + " שלום 漢字")
        cls.bench.good("quote", "make", str(BOOKS / "hollow_tides.toml"), "--customer", "long")
        cls.page = cls.bench.folder / cls.bench.json("quote", "print", "1")["file"]

    def chromium(self, *words):
        with tempfile.TemporaryDirectory(prefix="endband-") as profile:
            return subprocess.run([*CHROMIUM, f"--user-data-dir={profile}", *words], check=True, capture_output=True, timeout=120).stdout.decode()

    def test_nothing_stands_over_the_edge_of_a_phone_or_a_desk(self):
        text = self.page.read_text(encoding="utf-8")
        measured = self.bench.folder / "measured.html"
        measured.write_text(text.replace("</body>", "<script>document.title = document.documentElement.scrollWidth + '/' + window.innerWidth"
                                                    "</script></body>"), encoding="utf-8")
        for width in (360, 1280):
            # A window is never narrower than some 500 px: the page goes into a frame of the width asked for.
            frame = self.bench.folder / "frame.html"
            frame.write_text(f'<iframe src="measured.html" style="width:{width}px;height:800px;border:0" onload="'
                             "document.title = this.contentDocument.documentElement.scrollWidth\"></iframe>", encoding="utf-8")
            shown = self.chromium("--allow-file-access-from-files", "--dump-dom", "--virtual-time-budget=3000", f"--window-size={max(width + 40, 600)},900",
                                  frame.as_uri())
            self.assertLessEqual(int(re.search(r"<title>(\d+)</title>", shown).group(1)), width)

    def test_printed_it_is_a4_and_every_amount_is_there(self):
        printed = self.bench.folder / "printed.pdf"
        self.chromium(f"--print-to-pdf={printed}", "--no-pdf-header-footer", self.page.as_uri())
        info = subprocess.run(["pdfinfo", str(printed)], check=True, capture_output=True, text=True).stdout
        self.assertRegex(info, r"Page size:\s+59[45][.\d]* x 84[12]")
        text = subprocess.run(["pdftotext", "-layout", str(printed), "-"], check=True, capture_output=True, text=True).stdout
        self.assertIn("Page 1 of", text)
        quote = self.bench.json("quote", "show", "1")
        for amount in [line["shown"]["amount"] for line in quote["lines"]] + [quote["total"]["amount"]]:
            self.assertIn(amount, text)

    def test_letters_stand_out_from_the_paper(self):
        style = re.search(r"<style>(.*?)</style>", self.page.read_text(encoding="utf-8"), re.S).group(1)
        colours = re.findall(r"(?<![-\w])color: (#[0-9a-f]{3,6})", style)
        self.assertGreaterEqual(len(colours), 3)
        for colour in colours:
            self.assertGreaterEqual(contrast(colour, "#ffffff"), 4.5, colour)
        self.assertAlmostEqual(contrast("#000000", "#ffffff"), 21, places=6)  # WCAG 2.2: the most there is
        self.assertAlmostEqual(contrast("#767676", "#ffffff"), 4.54, places=2)  # WCAG techniques, G18: a known pair


if __name__ == "__main__":
    Browser.endband, Browser.sample = sys.argv[1], sys.argv[2]
    unittest.main(argv=sys.argv[:1])
