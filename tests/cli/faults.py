#!/usr/bin/python3
"""Provokes every fault of schema/faults.json, and compares the list with the engine's own.

usage: faults.py ENDBAND SAMPLE_WORKSHOP
"""

import contextlib
import json
import re
import sqlite3
import sys
import threading
import time
import unittest

import program

LIST = json.loads((program.ROOT / "schema" / "faults.json").read_text(encoding="utf-8"))["faults"]


def connect(bench):
    return sqlite3.connect(bench.workshop, isolation_level=None, check_same_thread=False)


def without_triggers(base):
    for (name,) in base.execute("SELECT name FROM sqlite_master WHERE type = 'trigger'").fetchall():
        base.execute(f"DROP TRIGGER {name}")


@contextlib.contextmanager
def untimed_step(bench):
    with contextlib.closing(connect(bench)) as base:
        without_triggers(base)
        base.execute("DELETE FROM step_version WHERE operation = 'sew-sections'")
    yield


@contextlib.contextmanager
def later_schema(bench):
    with contextlib.closing(connect(bench)) as base:
        base.execute("PRAGMA user_version = 99")
    yield


@contextlib.contextmanager
def tampered_total(bench):
    with contextlib.closing(connect(bench)) as base:
        without_triggers(base)
        base.execute("PRAGMA ignore_check_constraints = ON")
        base.execute("UPDATE quote_offer SET total = total + 1")
    yield


@contextlib.contextmanager
def writer_that_stays(bench):
    with contextlib.closing(connect(bench)) as base:
        base.execute("BEGIN IMMEDIATE")
        yield
        base.execute("ROLLBACK")


@contextlib.contextmanager
def setting_changed_meanwhile(bench):
    """Holds the right to write while the program computes, changes a setting, and lets go: the program waits for its turn."""
    with contextlib.closing(connect(bench)) as base:
        base.execute("BEGIN IMMEDIATE")

        def change():
            time.sleep(0.8)
            base.execute("INSERT INTO setting_version (name, value, valid_from, entry) SELECT name, '195.00', valid_from, entry "
                         "FROM setting_version WHERE name = 'least.charge'")
            base.execute("COMMIT")

        other = threading.Thread(target=change)
        other.start()
        yield
        other.join()


GIVEN = {
    None: lambda bench: contextlib.nullcontext(),
    "a step that is not timed": untimed_step,
    "another changes a setting while the price is computed": setting_changed_meanwhile,
    "a stored total that was tampered with": tampered_total,
    "a workshop of a later schema": later_schema,
    "another process that writes and does not end": writer_that_stays,
}


class Faults(unittest.TestCase):
    def test_every_code_of_the_engine_is_listed_with_its_exit_code(self):
        source = (program.ROOT / "engine" / "fault" / "table.cpp").read_text(encoding="utf-8")
        table = dict(re.findall(r'"([a-z-]+)", (\d)}', source))
        self.assertEqual({fault["code"]: str(fault["exit"]) for fault in LIST}, table)

    def test_every_example_ends_with_its_fault_and_saves_nothing(self):
        for fault in LIST:
            if "reserved" in fault:
                continue
            with self.subTest(code=fault["code"]), program.Bench(ENDBAND, SAMPLE) as bench:
                example = fault["example"]
                for name, text in example.get("files", {}).items():
                    bench.write(name, text)
                for line in example.get("before", []):
                    bench.good(*line)
                with GIVEN[example.get("given")](bench):
                    done = bench.run("--json", *example["command"])
                self.assertEqual(done.returncode, fault["exit"], done.stderr.decode())
                found = json.loads(done.stdout if fault["code"] == "broken-invariant" else done.stderr)["faults"]
                self.assertIn(fault["code"], {each["code"] for each in found})

    def test_every_message_is_a_sentence_for_people(self):
        for fault in LIST:
            if "reserved" in fault or "given" in fault["example"]:
                continue
            with self.subTest(code=fault["code"]), program.Bench(ENDBAND, SAMPLE) as bench:
                for name, text in fault["example"].get("files", {}).items():
                    bench.write(name, text)
                for line in fault["example"].get("before", []):
                    bench.good(*line)
                done = bench.run(*fault["example"]["command"])
                text = done.stderr.decode()
                self.assertTrue(text.startswith("endband: "), text)
                self.assertEqual(done.stdout, b"")
                self.assertNotIn(fault["code"] + ":", text)
                self.assertNotRegex(text, r"terminate|exception|std::|errno")


class Unexpected(unittest.TestCase):
    def test_a_damaged_row_is_told_and_is_no_crash(self):
        with program.Bench(ENDBAND, SAMPLE) as bench:
            with contextlib.closing(connect(bench)) as base:
                without_triggers(base)
                base.execute("PRAGMA ignore_check_constraints = ON")
                base.execute("UPDATE setting_version SET value = 'much' WHERE name = 'year.pay'")
            bench.write("book.toml", "endband = 1\n")
            done = bench.run("quote", "make", "book.toml")
            self.assertEqual(done.returncode, 3, done.stderr.decode())

    def test_a_damaged_file_is_told_by_check(self):
        with program.Bench(ENDBAND, SAMPLE) as bench:
            data = bytearray(bench.workshop.read_bytes())
            data[4096 * 3:4096 * 9] = b"\x55" * (4096 * 6)
            bench.workshop.write_bytes(data)
            done = bench.run("workshop", "check")
            self.assertIn(done.returncode, (1, 3), done.stderr.decode())


if __name__ == "__main__":
    ENDBAND, SAMPLE = sys.argv[1:3]
    unittest.main(argv=sys.argv[:1] + sys.argv[3:])
