#!/usr/bin/python3
"""What a page costs: the CPU time of a quotation as PDF and as HTML, beside Chromium printing the same HTML, in the same run.

    papers.py ENDBAND [--quotes N]      of a release build
"""

import argparse
import os
import resource
import subprocess
import sys
import tempfile
import time
from pathlib import Path

ROOT = Path(__file__).resolve().parents[2]
BOOKS = sorted((ROOT / "sample_data" / "books").glob("*.toml"))


def spent(*command, **more):
    """Seconds of CPU and by the clock."""
    before, began = resource.getrusage(resource.RUSAGE_CHILDREN), time.monotonic()
    subprocess.run([str(word) for word in command], check=True, stdout=subprocess.DEVNULL, stderr=subprocess.DEVNULL, **more)
    after = resource.getrusage(resource.RUSAGE_CHILDREN)
    return after.ru_utime + after.ru_stime - before.ru_utime - before.ru_stime, time.monotonic() - began


def median(values):
    return sorted(values)[len(values) // 2]


def main():
    parser = argparse.ArgumentParser()
    parser.add_argument("endband", type=Path)
    parser.add_argument("--quotes", type=int, default=100)
    asked = parser.parse_args()
    endband = asked.endband.resolve()
    with tempfile.TemporaryDirectory(prefix="endband-bench-") as folder:
        env = {**os.environ, "ENDBAND_WORKSHOP": f"{folder}/w.db"}
        say = {"env": env, "cwd": folder}
        spent(endband, "workshop", "new", "--sample", **say)
        for number in range(asked.quotes):
            spent(endband, "quote", "make", BOOKS[number % len(BOOKS)], **say)
        numbers = [str(number) for number in range(1, asked.quotes + 1)]
        forms = {}
        for form in ("pdf", "html"):
            began = time.monotonic()
            forms[form] = [spent(endband, "quote", "print", number, "--as", form, "-o", f"{number}.{form}", **say)[0] for number in numbers]
            print(f"{asked.quotes} quotations as {form}: {time.monotonic() - began:6.2f} s by the clock, "
                  f"{1000 * median(forms[form]):6.1f} ms of CPU each (median), {1000 * max(forms[form]):.1f} at most")
        browser = []
        for number in numbers[:5]:
            browser.append(spent("chromium", "--headless", "--no-sandbox", "--disable-gpu", "--disable-quic", "--no-first-run",
                                 "--disable-background-networking", "--disable-component-update", "--disable-sync", f"--user-data-dir={folder}/profile",
                                 f"--print-to-pdf={folder}/by-browser.pdf", f"file://{folder}/{number}.html", **say)[0])
        print(f"Chromium prints the same HTML in {1000 * median(browser):.0f} ms of CPU: {median(browser) / median(forms['pdf']):.0f} x")
    return 0


if __name__ == "__main__":
    sys.exit(main())
