#!/usr/bin/python3
"""Many invented past years through the whole program: how often each planted truth is named, and how often anything is
named in a year without one.

    past_years.py ENDBAND [--years 200] [--first 1] [--at-once 2]

Every year is a text of sample_data/past_year.py, kept with `workshop import` in a copy of the sample workshop; what is
looked at is what `margins worth` says, which knows nothing of how the year was made.
"""

import argparse
import collections
import concurrent.futures
import json
import os
import shutil
import subprocess
import sys
import tempfile
from pathlib import Path

ROOT = Path(__file__).resolve().parents[2]
SAMPLE = ROOT / "sample_data"
OPENED, LOOKED = "2026-01-05", "2027-06-30"
TRUTHS = {("step-takes-longer", "sew-sections"), ("outlet-loses", "fair"), ("feature-pays", "leaf")}
AIM_FOUND, AIM_FALSE = 0.90, 0.05


class Workshops:
    """A sample workshop with its outlets and the cutting plans of every book, to copy for each year."""

    def __init__(self, endband, folder):
        self.endband, self.folder = endband, folder
        (folder / "books").symlink_to(SAMPLE / "books")
        self.first = folder / "first.db"
        self.run(self.first, OPENED, "workshop", "new", "--sample")
        for outlet in ("post", "gallery", "fair"):
            self.run(self.first, OPENED, "outlet", "add", outlet, str(SAMPLE / "outlets" / f"{outlet}.toml"))
        warm = folder / "warm.db"
        shutil.copy(self.first, warm)
        self.run(warm, LOOKED, "workshop", "import", str(self.text(1, plain=True)))
        self.run(warm, LOOKED, "workshop", "undo", "--yes")  # the plans stay
        self.warm = warm

    def run(self, workshop, on, *words):
        done = subprocess.run([self.endband, "--workshop", str(workshop), "--on", on, *words], capture_output=True, text=True,
                              check=False, env={**os.environ, "LC_ALL": "C.UTF-8", "TZ": "UTC"})
        if done.returncode != 0:
            raise RuntimeError(f"{' '.join(words)}: {done.stderr[:2000]}")
        return done.stdout

    def text(self, seed, plain):
        path = self.folder / f"{seed}-{'plain' if plain else 'planted'}.toml"
        subprocess.run([sys.executable, "-B", str(SAMPLE / "past_year.py"), str(seed), "--from", "2026-02", "--out", str(path),
                        *(["--plain"] if plain else [])], check=True)
        return path

    def findings(self, seed, plain):
        workshop = self.folder / f"{seed}-{plain}.db"
        shutil.copy(self.warm, workshop)
        try:
            text = self.text(seed, plain)
            self.run(workshop, LOOKED, "workshop", "import", str(text))
            seen = json.loads(self.run(workshop, LOOKED, "--json", "margins", "worth"))["findings"]
        finally:
            for path in self.folder.glob(f"{workshop.name}*"):
                path.unlink()
        return {(one["what"], one["name"]) for one in seen}


def main():
    parser = argparse.ArgumentParser(description="Many invented past years through the whole program.")
    parser.add_argument("endband", type=Path)
    parser.add_argument("--years", type=int, default=200)
    parser.add_argument("--first", type=int, default=1)
    parser.add_argument("--at-once", type=int, default=2)
    asked = parser.parse_args()
    seeds = range(asked.first, asked.first + asked.years)
    with tempfile.TemporaryDirectory(prefix="endband-years-") as folder, \
            concurrent.futures.ThreadPoolExecutor(asked.at_once) as pool:
        workshops = Workshops(str(asked.endband.resolve()), Path(folder))
        planted = list(pool.map(lambda seed: workshops.findings(seed, False), seeds))
        plain = list(pool.map(lambda seed: workshops.findings(seed, True), seeds))
    good = True
    for truth in sorted(TRUTHS):
        rate = sum(truth in found for found in planted) / asked.years
        good &= rate >= AIM_FOUND
        print(f"{' '.join(truth)}: named in {rate:.1%} of {asked.years} years (aim: at least {AIM_FOUND:.0%})")
    wrong = [found for found in plain if found]
    rate = len(wrong) / asked.years
    good &= rate <= AIM_FALSE
    print(f"anything at all: named in {rate:.1%} of {asked.years} years without a truth (aim: at most {AIM_FALSE:.0%})")
    for what, times in collections.Counter(one for found in wrong for one in found).most_common():
        print(f"  {' '.join(what)}: {times}")
    return 0 if good else 1


if __name__ == "__main__":
    sys.exit(main())
