#!/usr/bin/env python3
"""The README is true: every command it shows is run, in its order, and what it prints is what the README says.

usage: readme.py ENDBAND README.md
Blocks of `console` in the worked sections are compared word by word on a fresh sample workshop; those of "Your own
workshop" show no output and must only succeed, in a workshop of their own. Blocks of `toml` are the file named before them, or in their first line; those
of `csv` are prices.csv.
"""
import os
import pathlib
import re
import shlex
import subprocess
import sys
import tempfile
import unittest

ENDBAND, README = sys.argv[1], pathlib.Path(sys.argv[2]).read_text(encoding="utf-8")
BLOCK = re.compile(r"^```(\w+)\n(.*?)^```$", re.M | re.S)


def section(title):
    start = README.index(f"\n## {title}\n")
    end = README.find("\n## ", start + 1)
    return README[start:end]


def commands(block):
    """(command, what it prints) of a console block; a line that ends with a backslash goes on."""
    found = []
    for line in block.replace("\\\n", " ").splitlines():
        if line.startswith("$ endband "):
            found.append((line[len("$ endband "):], []))
        else:
            found[-1][1].append(line)
    return [(command, "\n".join(lines)) for command, lines in found]


class Readme(unittest.TestCase):
    def setUp(self):
        self.folder = tempfile.TemporaryDirectory()
        self.env = {"PATH": os.environ["PATH"], "LC_ALL": "C.UTF-8", "TZ": "UTC", "COLUMNS": "80",
                    "ENDBAND_WORKSHOP": "workshop.db", "HOME": self.folder.name}

    def tearDown(self):
        self.folder.cleanup()

    def run_command(self, command):
        done = subprocess.run([ENDBAND, *shlex.split(command)], cwd=self.folder.name, env=self.env, timeout=120,
                              stdout=subprocess.PIPE, stderr=subprocess.STDOUT, text=True, check=False)
        self.assertEqual(done.returncode, 0, f"{command}\n{done.stdout}")
        return done.stdout.rstrip("\n")

    def test_worked_example(self):
        self.run_command("workshop new --sample")
        text = section("A quote from six lines") + section("Prices change, quotes do not") + section("Every binding, and its box")
        text += section("Stock and jobs") + section("Cut by plan") + section("Which day to name")
        text += section("What to ask, here and there") + section("Was it worth it") + section("Papers") + section("In and out")
        text += section("In and out of a spreadsheet")
        ran = 0
        for kind, body in BLOCK.findall(text):
            if kind == "toml":
                named = re.match(r"# (\w+\.toml)\n", body)
                if not named:
                    self.assertEqual(len(body.splitlines()), 6)
                name = named[1] if named else "spells.toml" if "Spell Book" in body else "tides.toml"
                pathlib.Path(self.folder.name, name).write_text(body, encoding="utf-8")
                continue
            if kind == "csv":
                pathlib.Path(self.folder.name, "prices.csv").write_text(body, encoding="utf-8")
                continue
            for command, printed in commands(body):
                self.assertEqual(self.run_command(command), printed, command)
                ran += 1
        self.assertGreaterEqual(ran, 14)

    def test_own_workshop(self):
        blocks = [body for kind, body in BLOCK.findall(section("Your own workshop")) if kind == "console"]
        self.assertEqual(len(blocks), 1)
        for command, printed in commands(blocks[0]):
            self.assertEqual(printed, "")
            self.run_command(command)
        self.assertTrue(pathlib.Path(self.folder.name, "grimoire.toml").exists())


if __name__ == "__main__":
    unittest.main(argv=sys.argv[:1])
