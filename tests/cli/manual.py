#!/usr/bin/python3
"""The manual page and --version: nothing of the table is missing, and mandoc finds nothing to say.

usage: manual.py ENDBAND SAMPLE_WORKSHOP
"""

import re
import subprocess
import sys
import unittest

import program

# man-pages(7): the sections of a page, in this order.
SECTIONS = ["NAME", "SYNOPSIS", "DESCRIPTION", "COMMANDS", "OPTIONS", "EXIT STATUS", "ENVIRONMENT", "FILES", "EXAMPLES", "SEE ALSO"]


def plain(roff):
    """The text without its macros' names, fonts and escapes: one line for each of the page's."""
    text = re.sub(r"\\f[BIR]", "", roff).replace("\\-", "-").replace("\\&", "").replace("\\e", "\\")
    return re.sub(r"\\\[u([0-9A-F]{4,6})\]", lambda found: chr(int(found[1], 16)), text)


def flat(text):
    return " ".join(text.split())


class Manual(unittest.TestCase):
    @classmethod
    def setUpClass(cls):
        with program.Bench(ENDBAND, SAMPLE, empty=True) as bench:
            cls.roff = bench.good("help", "--man", day=False)
            cls.commands = program.commands(bench)
            cls.as_json = bench.json("help", "--man", day=False)
        cls.text = plain(cls.roff)

    def test_mandoc_finds_nothing_to_say(self):
        done = subprocess.run(["mandoc", "-Tlint", "-Wall"], input=self.roff.encode(), capture_output=True, check=False)
        # That this machine has no page of another program is not the page's fault.
        told = [line for line in done.stdout.decode().splitlines() if "referenced manual not found" not in line]
        self.assertEqual(told, [])
        self.assertEqual(done.stderr, b"")

    def test_it_reads_at_eighty_columns(self):
        shown = subprocess.run(["mandoc", "-Tutf8", "-Owidth=80"], input=self.roff.encode(), capture_output=True, check=True).stdout.decode()
        lines = re.sub(".\b", "", shown).splitlines()  # overstruck: bold and underlined
        self.assertGreater(len(lines), 1000)
        # An example is one line that one can copy, however long.
        wide = [line for line in lines if len(line) > 80 and "endband " not in line]
        self.assertEqual(wide, [])
        self.assertEqual([line for line in lines if "\\" in line and "\\f" in line], [])

    def test_the_sections_are_there_in_their_order(self):
        self.assertEqual(re.findall(r"^\.SH (.+)$", self.roff, re.M), SECTIONS)
        self.assertRegex(self.roff, r'^\.TH ENDBAND 1 \d{4}-\d\d-\d\d "endband \d+\.\d+\.\d+"\n')

    def test_every_command_word_flag_and_example_of_the_table_is_in_it(self):
        at = {}
        for command in self.commands:
            name = f"{command['noun']} {command['verb']}"
            with self.subTest(command=name):
                begins = re.search(rf"^\.TP\n{name}( .*)?$", self.text, re.M)
                self.assertIsNotNone(begins)
                self.assertTrue(flat(self.text[begins.end():begins.end() + 200]).startswith(command["summary"] + "."))
                at[name] = begins.start()
        starts = sorted(at.values()) + [self.text.index(".SH OPTIONS")]
        everywhere = None
        for command in self.commands:
            begin = at[f"{command['noun']} {command['verb']}"]
            own = self.text[begin:starts[starts.index(begin) + 1]]
            for flag in command["flags"]:
                with self.subTest(usage=command["usage"], flag=flag["name"]):
                    tag = ("" if flag["letter"] is None else f"-{flag['letter']}, ") + flag["name"]
                    found = rf"(?m)^\.TP\n{re.escape(tag)}( .*)?$"
                    place = own if re.search(found, own) else self.text[starts[-1]:]
                    self.assertRegex(place, found)
                    self.assertIn(flag["help"], flat(place))
            for word in command["words"]:
                self.assertIn(word["help"], flat(own))
            for example in command["examples"]:
                self.assertIn("\n" + example + "\n", own)
            self.assertEqual("--dry-run" in own.replace(example, ""), command["writes"], command["usage"])
            everywhere = {flag["name"] for flag in command["flags"]} & (everywhere or {flag["name"] for flag in command["flags"]})
        for name in everywhere | {"--dry-run", "--yes", "--jsonl"}:
            self.assertRegex(self.text[starts[-1]:], rf"(?m)^\.TP\n(-., )?{name}( .*)?$")

    def test_what_the_program_reads_of_its_surroundings_is_told(self):
        sources = [path.read_text(encoding="utf-8") for path in (program.ROOT / "cli").rglob("*.cpp")]
        read = {name for text in sources for name in re.findall(r'(?:environment|getenv)\("([A-Z_]+)"\)', text)}
        self.assertGreaterEqual(len(read), 6)
        section = self.text[self.text.index(".SH ENVIRONMENT"):self.text.index(".SH FILES")]
        for name in read:
            self.assertRegex(section, rf"(?m)^\.TP\n{name}$")

    def test_the_exit_codes_are_those_of_the_faults(self):
        section = self.text[self.text.index(".SH EXIT STATUS"):self.text.index(".SH ENVIRONMENT")]
        self.assertEqual(re.findall(r"^\.TP\n(\d)$", section, re.M), list("01234"))

    def test_as_json_it_is_the_same_page(self):
        self.assertEqual(self.as_json, {"schema": "endband/man/1", "page": self.roff})

    def test_the_version_names_program_and_workshop_schema(self):
        with program.Bench(ENDBAND, SAMPLE) as bench:
            newest = max(int(path.name[:4]) for path in (program.ROOT / "schema").glob("[0-9]*.sql"))
            for line in (["--version"], ["quote", "list", "--version"]):
                self.assertRegex(bench.good(*line, day=False), rf"^endband \d+\.\d+\.\d+\nworkshop schema {newest}\n")


if __name__ == "__main__":
    ENDBAND, SAMPLE = sys.argv[1:3]
    unittest.main(argv=sys.argv[:1] + sys.argv[3:])
