#!/usr/bin/python3
"""The workshop as text, and made anew from it.

    whole.py ENDBAND SAMPLE
"""

import json
import os
import sqlite3
import stat
import sys
import unittest
from contextlib import closing

import program
from program import BOOKS, ROOT, Bench

SUMMED = {"lot_state", "shelf", "reserved"}
OLD = sorted((ROOT / "tests" / "fixtures").glob("workshop-*.sql"))


def filled(bench):
    """Some of everything: quotes, a job with stock and hours, a listing, an entry taken back, words that are hard to write."""
    bench.good("customer", "add", "odd", "--name", "Odd")
    with closing(sqlite3.connect(bench.workshop)) as base:  # what no command would take, and an old file may hold
        base.execute("UPDATE customer_address SET name = ?, address = ? WHERE name = 'Odd'",
                     ("Ö'Brien \"<b>\" \\ \u0001\u007f\u0085 漢字 𝔅\u2028", "1 Way\nBourn\t2"))
        base.commit()
    bench.good("quote", "make", str(BOOKS / "chess_endings.toml"), "--customer", "odd")
    bench.good("quote", "make", str(BOOKS / "quay_ballads.toml"), "--customer", "ida-quill")
    bench.good("stock", "receive", "goat-moss-08 0.61 m2 66.00", "text-wove-90 2 packs 30.00", "--supplier", "Harrow")
    job = bench.json("quote", "accept", "2")["job"]
    bench.good("job", "use", job, "goat-moss-08", "0.2 m2")
    bench.good("job", "time", job, "sewing", "09:10-11:40")
    bench.good("job", "paid", job, "100.00")
    bench.good("stock", "scrap", "text-wove-90", "1 sheet", "--reason", "foxed")
    bench.good("workshop", "undo", "--yes")
    bench.good("outlet", "add", "fair", str(ROOT / "sample_data" / "outlets" / "fair.toml"))
    bench.good("listing", "post", str(BOOKS / "tower_clock.toml"), "--through", "fair")


def tables(path):
    """Every row of every table but those that triggers sum up, whatever their order."""
    with closing(sqlite3.connect(path)) as base:
        names = [name for (name,) in base.execute("SELECT name FROM sqlite_schema WHERE type = 'table' AND name NOT LIKE 'sqlite%'")]
        return {name: sorted(map(repr, base.execute(f"SELECT * FROM {name}"))) for name in names}


def text_of(path):
    """What an older program would have written of its workshop: written here, row by row, by another hand."""
    with closing(sqlite3.connect(path)) as base:
        base.row_factory = sqlite3.Row
        schema = base.execute("PRAGMA user_version").fetchone()[0]
        left = [name for (name,) in base.execute("SELECT name FROM sqlite_schema WHERE type = 'table' AND name NOT LIKE 'sqlite%'")
                if name not in SUMMED]
        lines, done = [json.dumps({"endband": "workshop", "version": 1, "schema": schema})], set()
        while left:
            for name in list(left):
                parents = {row["table"] for row in base.execute(f"PRAGMA foreign_key_list({name})")}
                if parents - done - {name}:
                    continue
                lines += [json.dumps({name: dict(row)}) for row in base.execute(f"SELECT * FROM {name}")]
                left.remove(name)
                done.add(name)
        return "\n".join([*lines, json.dumps({"rows": len(lines) - 1})]) + "\n"


class Whole(unittest.TestCase):
    endband = sample = None

    def setUp(self):
        self.bench = Bench(self.endband, self.sample)
        self.bench.__enter__()
        self.addCleanup(self.bench.__exit__)

    def exported(self, name, *words):
        self.bench.good("workshop", "export", "-o", name, *words)
        return (self.bench.folder / name).read_bytes()

    def back(self, name, into="anew.db", **more):
        return self.bench.run("workshop", "new", "--from-text", name, "--workshop", into, **more)

    def refused(self, lines, *said, exit_code=2):
        """The text is refused, with each of these words, and nothing is left of it."""
        self.bench.write("bad.jsonl", "".join(line + "\n" for line in lines))
        before = sorted(os.listdir(self.bench.folder))
        done = self.back("bad.jsonl")
        told = " ".join(done.stderr.decode().split())
        self.assertEqual(done.returncode, exit_code, told)
        for words in said:
            self.assertIn(words, told)
        self.assertEqual(sorted(os.listdir(self.bench.folder)), before)
        return told

    def test_there_and_back_again_is_the_same_to_the_byte(self):
        filled(self.bench)
        text = self.exported("one.jsonl")
        self.assertEqual(self.exported("two.jsonl"), text)
        self.assertEqual(self.bench.run("workshop", "export").stdout, text)
        self.assertEqual(self.bench.run("workshop", "export", "-o", "-").stdout, text)
        self.assertEqual(self.bench.json("workshop", "export")["text"].encode(), text)
        made = self.bench.json("workshop", "new", "--from-text", "one.jsonl", "--workshop", "anew.db")
        self.assertEqual((made["name"], made["currency"], made["rows"]), ("Alder Lane Bindery", "EUR", text.count(b"\n") - 2))
        self.assertEqual(self.exported("three.jsonl", "--workshop", "anew.db"), text)
        self.assertEqual(tables(self.bench.folder / "anew.db"), tables(self.bench.workshop))
        self.bench.good("workshop", "check", "--workshop", "anew.db")
        for line in (["quote", "show", "1"], ["quote", "explain", "2"], ["job", "show", "2"], ["stock", "list"], ["margins", "reprice"],
                     ["workshop", "log"], ["customer", "show", "odd"], ["listing", "list"]):
            self.assertEqual(self.bench.good(*line, "--workshop", "anew.db"), self.bench.good(*line))
        # It goes on where it was: the next numbers, and what there is to take back.
        for line in (["workshop", "undo", "--yes"], ["quote", "make", str(BOOKS / "lace_box.toml")], ["workshop", "log"]):
            self.assertEqual(self.bench.good(*line, "--workshop", "anew.db"), self.bench.good(*line))
        self.bench.good("workshop", "check", "--workshop", "anew.db")

    def test_every_line_is_json_in_utf8_and_names_its_table_and_columns(self):
        filled(self.bench)
        lines = self.exported("one.jsonl").decode("utf-8").split("\n")
        self.assertEqual(lines.pop(), "")
        rows = [json.loads(line) for line in lines]
        self.assertEqual(rows[0], {"endband": "workshop", "version": 1, "schema": rows[0]["schema"]})
        self.assertEqual(rows[-1], {"rows": len(rows) - 2})
        there = tables(self.bench.workshop)
        count = {}
        for row in rows[1:-1]:
            (name, columns), = row.items()
            count[name] = count.get(name, 0) + 1
            self.assertTrue(all(value is None or isinstance(value, (int, str)) for value in columns.values()))
        self.assertEqual(count, {name: len(found) for name, found in there.items() if found and name not in SUMMED})
        self.assertTrue(all(ord(c) >= 32 and not 0x7F <= ord(c) < 0xA0 for line in lines for c in line))

    def test_what_is_left_out_is_what_triggers_write(self):
        with closing(sqlite3.connect(self.bench.workshop)) as base:
            texts = " ".join(sql for (sql,) in base.execute("SELECT sql FROM sqlite_schema WHERE type = 'trigger'"))
            words = texts.split()
        written = {words[i + 2] for i, word in enumerate(words) if word == "INSERT" and words[i + 1] == "INTO"}
        self.assertEqual(written, SUMMED)

    def test_only_its_owner_may_read_either_file(self):
        os.umask(0)
        self.addCleanup(os.umask, 0o022)
        self.exported("one.jsonl")
        self.assertEqual(self.back("one.jsonl").returncode, 0)
        for name in ("one.jsonl", "anew.db"):
            self.assertEqual(stat.S_IMODE((self.bench.folder / name).stat().st_mode), 0o600)

    def test_files_that_are_there_are_kept_and_a_dry_run_writes_none(self):
        text = self.exported("one.jsonl")
        self.bench.write("taken.jsonl", "mine")
        done = self.bench.run("workshop", "export", "-o", "taken.jsonl")
        self.assertEqual((done.returncode, (self.bench.folder / "taken.jsonl").read_text(encoding="utf-8")), (1, "mine"))
        self.assertEqual(self.exported("taken.jsonl", "--yes"), text)
        before = sorted(os.listdir(self.bench.folder))
        self.bench.good("workshop", "export", "-o", "none.jsonl", "--dry-run")
        self.assertEqual(self.bench.run("workshop", "new", "--from-text", "one.jsonl", "--workshop", "anew.db", "--dry-run").returncode, 0)
        self.assertEqual(self.back("one.jsonl", into=str(self.bench.workshop)).returncode, 1)
        for words in (["--name", "B"], ["--currency", "EUR"], ["--sample"]):
            self.assertEqual(self.bench.run("workshop", "new", "--from-text", "one.jsonl", *words, "--workshop", "anew.db").returncode, 2)
        for place in ("/dev/full/x", ".", "/proc/x.jsonl"):
            self.assertEqual(self.bench.run("workshop", "export", "--yes", "-o", place).returncode, 3, place)
        self.assertEqual(self.back("none.jsonl").returncode, 3)
        self.assertEqual(sorted(os.listdir(self.bench.folder)), before)

    def test_from_a_pipe_and_with_other_blanks(self):
        text = self.exported("one.jsonl")
        spaced = b"".join(json.dumps(json.loads(line)).encode() + b"\r\n" for line in text.splitlines())
        self.assertEqual(self.back("-", input=spaced.removesuffix(b"\r\n")).returncode, 0)
        self.assertEqual(self.exported("two.jsonl", "--workshop", "anew.db"), text)

    def test_big_numbers_stay_exact(self):
        filled(self.bench)
        lines = self.exported("one.jsonl").decode("utf-8").split("\n")
        at = next(i for i, line in enumerate(lines) if line.startswith('{"plan"'))
        row = json.loads(lines[at])
        # A plan of solvers that there are no more is not made again.
        row["plan"].update(key="99 1", cost=2**53 + 1, bound=-(2**63), opened=2**63 - 1)  # of the three no double holds the first and the last
        lines[at] = json.dumps(row, separators=(",", ":"), ensure_ascii=False)
        self.bench.write("big.jsonl", "\n".join(lines))
        self.assertEqual(self.back("big.jsonl").returncode, 0)
        self.assertEqual(self.exported("two.jsonl", "--workshop", "anew.db").decode("utf-8"), "\n".join(lines))

    def test_a_text_of_every_older_schema_becomes_a_workshop_of_this_one(self):
        for fixture in OLD:
            with self.subTest(fixture=fixture.name):
                old, anew = self.bench.folder / "old.db", self.bench.folder / "anew.db"
                with closing(sqlite3.connect(old)) as base:
                    base.executescript(fixture.read_text(encoding="utf-8"))
                self.bench.write("old.jsonl", text_of(old))
                self.assertEqual(self.back("old.jsonl").returncode, 0)
                self.bench.good("workshop", "check", "--workshop", "anew.db")
                upgraded = self.exported("upgraded.jsonl", "--workshop", "old.db")
                self.assertEqual(self.exported("two.jsonl", "--workshop", "anew.db"), upgraded)
                self.assertEqual(tables(anew), tables(old))
                for path in self.bench.folder.glob("*"):
                    if path != self.bench.workshop and path.is_file():
                        path.unlink()

    def test_what_is_wrong_is_told_with_its_line_and_nothing_is_kept(self):
        filled(self.bench)
        lines = self.exported("one.jsonl").decode("utf-8").split("\n")[:-1]
        last = len(lines)

        def at(table, nth=0):
            return [i for i, line in enumerate(lines) if line.startswith(f'{{"{table}":')][nth]

        def changed(place, change):
            row = json.loads(lines[place])
            change(next(iter(row.values())))
            return [*lines[:place], json.dumps(row), *lines[place + 1:]]

        entry, price, movement = at("entry", 2), at("price_version"), at("movement")
        self.refused([], "bad.jsonl:1:", "an empty text")
        self.refused(["nonsense"], "bad.jsonl:1:1:", "a first line such as")
        self.refused(['{"endband":"book","version":1,"schema":7}', *lines[1:]], "bad.jsonl:1:1:")
        self.refused([lines[0].replace('"version":1', '"version":2'), *lines[1:]], "bad.jsonl:1:1:", "newer endband", "version 2", exit_code=3)
        self.refused(['{"endband":"workshop","version":1,"schema":99}', *lines[1:]], "newer endband", "schema 99", exit_code=3)
        self.refused(['{"endband":"workshop","version":1,"schema":0}', *lines[1:]], "bad.jsonl:1:1:", "out of range")
        self.refused(lines[:-1], f"bad.jsonl:{last - 1}:1:", "cut off", f'{{"rows":{last - 2}}}')
        self.refused([*lines[:-2], lines[-2][:20]], f"bad.jsonl:{last - 1}:", "JSON")
        self.refused(lines[:40], "bad.jsonl:40:1:", "cut off")
        self.refused([*lines[:-2], lines[-1]], f"bad.jsonl:{last - 1}:1:", f"{last - 2} rows", f"{last - 3}, as many")
        self.refused([*lines, lines[1]], f"bad.jsonl:{last + 1}:1:", "nothing after the count")
        self.refused([*lines[:3], '{"entry":{"seq":3', *lines[4:]], "bad.jsonl:4:18:", "JSON")
        self.refused([*lines[:3], "[1]", *lines[4:]], "bad.jsonl:4:1:", "an object")
        self.refused([*lines[:3], '{"entry":{"seq":[3]}}', *lines[4:]], "bad.jsonl:4:1:", "a whole number, words or null")
        self.refused([*lines[:3], '{"entry":{"seq":3},"entry":{"seq":4}}', *lines[4:]], "bad.jsonl:4:1:")
        self.refused([*lines[:3], lines[3].replace('"entry"', '"enrty"'), *lines[4:]], "bad.jsonl:4:1:", 'no key "enrty"', 'did you mean "entry"')
        self.refused([*lines[:3], '{"shelf":{"material":1,"quantity":5}}', *lines[4:]], "bad.jsonl:4:1:", 'no key "shelf"')
        self.refused([*lines[:3], '{"sqlite_sequence":{"name":"entry","seq":5}}', *lines[4:]], "bad.jsonl:4:1:", 'no key "sqlite_sequence"')
        self.refused(changed(entry, lambda row: row.update(comand="x")), f"bad.jsonl:{entry + 1}:1:", "entry.comand", 'did you mean "command"')
        self.refused(changed(entry, lambda row: row.pop("command")), f"bad.jsonl:{entry + 1}:1:", "entry.command is missing")
        self.refused([*lines[:entry], lines[entry].replace('"seq"', '"seq":1,"seq"'), *lines[entry + 1:]], f"bad.jsonl:{entry + 1}:1:", "each column once")
        for wrong, said in (("12", "a whole number"), (1.5, "a whole number"), (True, "a whole number"), (2**63, "64 bits"), (None, "a whole number"),
                            (10**40, "64 bits")):
            self.refused(changed(price, lambda row, value=wrong: row.update(price=value)), f"bad.jsonl:{price + 1}:1:", "price", said)
        self.refused(changed(entry, lambda row: row.update(command=7)), f"bad.jsonl:{entry + 1}:1:", "entry.command", "words")
        self.refused([*lines[:entry + 1], *lines[entry:-1], f'{{"rows":{last - 1}}}'], f"bad.jsonl:{entry + 2}:1:", "entry, seq 3", "one row of each entry.seq")
        self.refused(changed(price, lambda row: row.update(material=99999)), f"bad.jsonl:{price + 1}:1:", "price_version, material 99999", "a row of material")
        self.refused(changed(price, lambda row: row.update(pack=-1)), f"bad.jsonl:{price + 1}:1:", "pack > 0")
        for table, column in (("entry", "on_date"), ("price_version", "valid_from"), ("customer", "since"), ("quote", "valid_until"), ("movement", "on_date")):
            for day in ("2026-02-30", "2026-02-32", "2027-02-29", "2026-2-3", "today", ""):
                place = at(table)
                self.refused(changed(place, lambda row, column=column, day=day: row.update({column: day})), f"bad.jsonl:{place + 1}:1:", f"{table}.{column}",
                             "a day of the calendar")
        self.refused(changed(movement, lambda row: row.update(quantity=1, kind="used")), f"bad.jsonl:{movement + 1}:1:")
        self.refused([lines[0], *(line for line in lines[1:-1] if not line.startswith('{"workshop":')), f'{{"rows":{last - 3}}}'], "currency")
        # Several are told at once, in their order.
        told = self.refused([*lines[:3], "x", lines[4].replace('"entry"', '"enrty"'), *lines[5:]], "bad.jsonl:4:", "bad.jsonl:5:", "2 problems")
        self.assertLess(told.index("jsonl:4:"), told.index("jsonl:5:"))
        many = self.refused([lines[0], *["x"] * 1000], "20 problems")
        self.assertEqual(many.count("bad.jsonl:"), 20)

    def test_a_text_that_was_changed_into_what_cannot_be_is_refused_as_check_would(self):
        filled(self.bench)
        self.bench.good("job", "paid", "2", "20.00")
        self.bench.good("job", "cancel", "2", "--keep", "90.00", "--reason", "moved away")
        lines = self.exported("one.jsonl").decode("utf-8").split("\n")[:-1]
        for table, change, said in (("quote_offer", {"total": 1}, "quote_offer of 26-001a"),
                                    ("plan", {"opened": 1000}, "as it is planned anew"),
                                    ("plan", {"bound": -1}, "as it is planned anew"),
                                    ("quote_bill", {"ruin_chance_num": 1}, "less than 1"),
                                    ("job_payment", {"amount": 2**63 - 10001}, "smaller numbers"),
                                    ("movement", {"quantity": 1000}, "as its lot says"),
                                    ("job_agreed", {"price": 1}, "as the quote that was accepted offers"),
                                    ("job_agreed", {"to_pay": -1}, "as the quote that was accepted offers"),
                                    ("job_result", {"to_pay": 1}, "what is kept and the tax on it"),
                                    ("job_result", {"materials": 500, "total": 500}, "as the job's rows give"),
                                    ("job_time", {"seconds": -60}, "as the job's rows give")):
            place = next(i for i, line in enumerate(lines) if line.startswith(f'{{"{table}":'))
            row = json.loads(lines[place])
            for column, more in change.items():
                row[table][column] += more
            with self.subTest(table=table, change=change):
                self.refused([*lines[:place], json.dumps(row), *lines[place + 1:]], "bad.jsonl", said, exit_code=1)


if __name__ == "__main__":
    Whole.endband, Whole.sample = sys.argv[1], sys.argv[2]
    unittest.main(argv=sys.argv[:1] + sys.argv[3:])
