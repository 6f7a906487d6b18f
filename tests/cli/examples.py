#!/usr/bin/python3
"""The two examples of every command's help run, on the sample workshop; and the table of commands is whole.

usage: examples.py ENDBAND SAMPLE_WORKSHOP
"""

import hashlib
import shlex
import sys
import unittest

import margins
import program


def ready_to_finish(bench):
    """Nothing of job 26-001 is open any more."""
    for point in bench.json("job", "show", "26-001")["still_open"]:
        if point["what"] == "material":
            bench.good("job", "use", "26-001", point["name"], "--without")
        if point["what"] == "outside":
            bench.good("job", "use", "26-001", "--outside", point["name"], "--price", "20.00")
        if point["what"] == "custody":
            bench.good("job", "return", "26-001", "--to-customer")


def another_job(bench):
    number = bench.json("quote", "make", "book.toml")["number"]
    bench.good("quote", "accept", number)


def somewhere_to_sell(bench):
    bench.write("fair.toml", bench.json("outlet", "show", "--example")["text"])
    bench.write("carriage.toml", bench.good("rates", "list", "--example"))
    bench.good("outlet", "add", "post", "fair.toml")


# What has happened before a command can do its work, where the examples before it do not lead there.
def a_past(bench):
    bench.good("workshop", "import", margins.notebook(bench))
    for book in bench.folder.glob("*.toml"):  # other books than those, for the next notebook
        if book.name != "past.toml":
            book.write_text(book.read_text(encoding="utf-8") + "\n# once more\n", encoding="utf-8")


BEFORE = {"listing price": somewhere_to_sell, "job finish": ready_to_finish, "job cancel": another_job, "margins list": a_past}


# By a day, and by a kind: the same word in any sentence.
TWO_MEANINGS = {"--by"}


def digests(bench):
    """Every file of the folder, by what is in it."""
    return {path: hashlib.sha256(path.read_bytes()).hexdigest() for path in bench.folder.rglob("*") if path.is_file()}


class Examples(unittest.TestCase):
    def test_every_example_of_every_command_runs(self):
        with program.Bench(ENDBAND, SAMPLE) as bench:
            for command in program.commands(bench):
                BEFORE.get(command["noun"] + " " + command["verb"], lambda _: None)(bench)
                for example in command["examples"]:
                    with self.subTest(example=example):
                        words = shlex.split(example)
                        self.assertEqual(words[:3], ["endband", command["noun"], command["verb"]])
                        bench.good(*words[1:])

    def test_a_dry_run_of_any_of_them_changes_no_byte(self):
        with program.Bench(ENDBAND, SAMPLE) as bench:
            for command in program.commands(bench):
                BEFORE.get(command["noun"] + " " + command["verb"], lambda _: None)(bench)
                for example in command["examples"]:
                    words = shlex.split(example)[1:]
                    if command["writes"] and words[:2] != ["workshop", "undo"]:
                        with self.subTest(example=example):
                            was = digests(bench)
                            bench.good(*words, *([] if {"-n", "--dry-run"} & set(words) else ["--dry-run"]))
                            self.assertEqual(digests(bench), was)
                    bench.good(*words)

    def test_the_examples_stand_in_the_help_before_anything_else(self):
        with program.Bench(ENDBAND, SAMPLE) as bench:
            for command in program.commands(bench):
                with self.subTest(command=command["noun"] + " " + command["verb"]):
                    lines = bench.good("help", command["noun"], command["verb"], day=False).splitlines()
                    self.assertEqual(lines[0], command["summary"])
                    self.assertEqual([line.strip() for line in lines[2:4]], command["examples"])

    def test_every_way_of_asking_gives_the_same_help(self):
        with program.Bench(ENDBAND, SAMPLE) as bench:
            for command in program.commands(bench):
                name = [command["noun"], command["verb"]]
                with self.subTest(command=" ".join(name)):
                    wanted = bench.good("help", *name, day=False)
                    for line in ([*name, "-h"], [*name, "--help"], ["--help", *name], [*name, "--nonsense", "-h"]):
                        self.assertEqual(bench.good(*line, day=False), wanted)

    def test_every_flag_is_explained_and_has_one_type_everywhere(self):
        values = {}
        with program.Bench(ENDBAND, SAMPLE) as bench:
            for command in program.commands(bench):
                for flag in command["flags"]:
                    with self.subTest(command=command["usage"], flag=flag["name"]):
                        self.assertTrue(flag["help"])
                        name = (flag["name"], flag["value"]) if flag["name"] in TWO_MEANINGS else flag["name"]
                        self.assertEqual(values.setdefault(name, flag["value"]), flag["value"])

    def test_commands_that_write_say_what_a_dry_run_would_do_and_those_that_do_not_refuse_the_flag(self):
        with program.Bench(ENDBAND, SAMPLE) as bench:
            for command in program.commands(bench):
                names = {flag["name"] for flag in command["flags"]}
                self.assertEqual(command["writes"], "--dry-run" in names and "--yes" in names, command["usage"])


if __name__ == "__main__":
    ENDBAND, SAMPLE = sys.argv[1:3]
    unittest.main(argv=sys.argv[:1] + sys.argv[3:])
