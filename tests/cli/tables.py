#!/usr/bin/python3
"""Tables out to a spreadsheet and in from one. Python's csv module, in strict mode, is the reader and writer from outside.

    tables.py ENDBAND SAMPLE
"""

import csv
import hashlib
import io
import json
import random
import sys
import time
import unittest

from program import Bench


def rows_of(text, delimiter=","):
    return list(csv.reader(io.StringIO(text, newline=""), delimiter=delimiter, strict=True))


def table(rows, **how):
    out = io.StringIO(newline="")
    csv.writer(out, strict=True, **how).writerows(rows)
    return out.getvalue()


class Tables(unittest.TestCase):
    endband = sample = None

    def bench_of(self, empty=False, currency="EUR"):
        bench = Bench(self.endband, self.sample, empty)
        bench.__enter__()
        self.addCleanup(bench.__exit__)
        if empty:
            bench.good("workshop", "new", "--name", "Other", "--currency", currency)
        return bench

    def setUp(self):
        self.bench = self.bench_of()

    def put(self, text, name="t.csv", bench=None):
        ((bench or self.bench).folder / name).write_bytes(text if isinstance(text, bytes) else text.encode())
        return name

    def bytes_of(self, *words, bench=None):
        done = (bench or self.bench).run(*words)
        self.assertEqual(done.returncode, 0, done.stderr)
        return done.stdout

    def refused(self, noun, text, *words):
        """The faults of an import that must change nothing: (line, column, code), and the exit code."""
        before = hashlib.sha256(self.bench.workshop.read_bytes()).hexdigest()
        done = self.bench.run("--json", noun, "import", self.put(text), *words)
        self.assertNotEqual(done.returncode, 0, done.stdout[:300])
        self.assertEqual(hashlib.sha256(self.bench.workshop.read_bytes()).hexdigest(), before)
        faults = json.loads(done.stderr)["faults"]
        for fault in faults:
            self.assertLess(len(fault["message"]), 1500)
        return faults

    def places(self, noun, text, *words):
        return [(fault["line"], fault["column"], fault["code"]) for fault in self.refused(noun, text, *words)]

    # --- out

    def test_every_table_is_strict_utf8_with_crlf_and_says_what_the_program_says(self):
        for noun, listed in (("material", "materials"), ("customer", "customers")):
            out = self.bytes_of(noun, "export")
            self.assertFalse(out.startswith(b"\xef\xbb\xbf"))
            text = out.decode("utf-8")
            self.assertEqual(text.count("\n"), text.count("\r\n"))
            header, *rows = rows_of(text)
            known = self.bench.json(noun, "list")[listed]
            self.assertEqual([row[header.index("code")] for row in rows], [each["code"] for each in known])
            self.assertEqual([row[header.index("name")] for row in rows], [each["name"] for each in known])
            self.assertTrue(all(len(row) == len(header) for row in rows))

    def test_a_file_is_written_whole_or_not_and_none_is_written_over(self):
        text = self.bytes_of("material", "export")
        self.bench.good("material", "export", "-o", "m.csv", "--dry-run")
        self.assertFalse((self.bench.folder / "m.csv").exists())
        self.bench.good("material", "export", "-o", "m.csv")
        self.assertEqual((self.bench.folder / "m.csv").read_bytes(), text)
        self.assertEqual(self.bench.run("material", "export", "-o", "m.csv").returncode, 1)
        self.bench.good("material", "export", "-o", "m.csv", "--kind", "leather", "--yes")
        self.assertLess(len((self.bench.folder / "m.csv").read_bytes()), len(text))
        for place in ("/dev/full/x.csv", "/proc/x.csv"):
            self.assertEqual(self.bench.run("job", "export", "-o", place).returncode, 3)
        self.assertEqual(sorted(path.name for path in self.bench.folder.glob("*.csv*")), ["m.csv"])

    def test_jobs_add_up(self):
        book = self.bench.write("b.toml", 'endband = 1\nmodel = "case"\ntitle = "=Winds, \\"and\\" tides"\n')
        for number in ("26-001", "26-002"):
            self.bench.good("quote", "make", book, "--customer", "ida-quill")
            self.bench.good("quote", "accept", number)
        self.bench.good("job", "paid", "26-001", "100.00")
        self.bench.good("job", "time", "26-001", "fold-sheets", "45 min")
        self.bench.good("job", "cancel", "26-002", "--reason", "moved away", "--yes")
        text = self.bytes_of("job", "export").decode()
        header, *rows = rows_of(text)
        self.assertEqual([row[0] for row in rows], ["26-001", "26-002"])
        for row in rows:
            said = dict(zip(header, row))
            cents = lambda name: round(float(said[name]) * 100)  # noqa: E731
            shown = self.bench.json("job", "show", said["number"])
            self.assertEqual(said["customer"], "ida-quill")
            self.assertEqual(said["title"], "'=Winds, \"and\" tides")
            self.assertEqual(cents("to pay"), cents("price") + cents("carriage") + cents("tax"))
            self.assertEqual(cents("due"), cents("to pay") - cents("paid"))
            self.assertEqual(cents("cost"), sum(cents(part) for part in ("materials", "labour", "overhead", "outside")))
            self.assertEqual(cents("left"), cents("price") - cents("cost") - cents("sale"))
            self.assertEqual(said["paid"], shown["job"]["paid"]["amount"])
            self.assertEqual(said["to pay"], shown["job"]["to_pay"]["amount"])
            self.assertEqual(said["state"], shown["job"]["state"])
        self.assertEqual(dict(zip(header, rows[0]))["hours"], "0.75")
        other = rows_of(self.bytes_of("job", "export", "--separator", "semicolon").decode(), ";")
        self.assertEqual(dict(zip(*other[:2]))["hours"], "0,75")

    # --- out, in, out

    def round_trip(self, noun, *how):
        out = self.bytes_of(noun, "export", *how)
        other = self.bench_of(empty=True)
        if noun == "stock":
            other.good("material", "import", "-", input=self.bytes_of("material", "export"))
        answer = json.loads(other.good("--json", noun, "import", "-", input=out))
        self.assertEqual(answer["unchanged"], 0)
        self.assertTrue(all(row["deed"] == "added" for row in answer["rows"]))
        self.assertEqual(self.bytes_of(noun, "export", *how, bench=other), out)
        log = other.json("workshop", "log")
        again = json.loads(other.good("--json", noun, "import", "-", input=out))
        self.assertEqual((again["rows"], again["unchanged"]), ([], len(answer["rows"])))
        self.assertEqual(other.json("workshop", "log"), log)
        other.good("workshop", "check")
        return other

    def test_what_goes_out_comes_back_the_same_into_a_new_workshop(self):
        self.bench.good("customer", "add", "odd", "--name", "=SUM(A1)", "--email", "@x", "--address", "+49 \"30\"; a, b", "--notes", "'=1")
        self.bench.good("customer", "add", "rtl", "--name", "אבן ספיר ﺍﻠﺴﻼﻡ", "--notes", "-5 and ''-")
        self.bench.good("material", "add", "odd-skin", "--kind", "leather", "--sold-by", "skin", "--name", "@ skin, \"odd\"",
                        "--caliper", "2.5 oz", "--density", "700 kg/m3", "--usable", "700.1234 x 500 mm", "--usable-share", "2/3",
                        "--spoil", "1/7", "--pack", "12 sq ft", "--price", "88.00 GBP", "--rate", "1.17", "--duty", "0.125 %")
        for how in ([], ["--separator", "semicolon"], ["--separator", "tab"]):
            for noun in ("material", "customer"):
                with self.subTest(noun=noun, how=how):
                    other = self.round_trip(noun, *how)
                    for each in ("odd-skin",) if noun == "material" else ("odd", "rtl"):
                        ours, theirs = (bench.json(noun, "show", each)[noun] for bench in (self.bench, other))
                        ours.pop("since", None), theirs.pop("since", None)
                        self.assertEqual(ours, theirs)

    def test_a_currency_of_three_digits_with_a_decimal_comma(self):
        first, second = (self.bench_of(empty=True, currency="KWD") for _ in range(2))
        first.good("material", "add", "wax", "--kind", "wax", "--sold-by", "piece", "--name", "Wax", "--pack", "1 piece", "--price", "1.234")
        out = self.bytes_of("material", "export", "--separator", "semicolon", bench=first)
        self.assertIn(b";1,234;", out)
        second.good("material", "import", "-", input=out)
        self.assertEqual(self.bytes_of("material", "export", "--separator", "semicolon", bench=second), out)

    def test_the_shelf_comes_back_the_same_into_a_new_workshop(self):
        self.fill_shelf()
        other = self.round_trip("stock")
        ours, theirs = (bench.json("stock", "list")["shelf"] for bench in (self.bench, other))
        self.assertEqual(ours, theirs)

    # --- in

    def fill_shelf(self):
        self.bench.good("stock", "receive", "goat-moss-08 0.61 m2 61.50", "goat-moss-08 0.58 m2 80.00", "--tax", "19 %", "--place", "rack")
        self.bench.good("stock", "receive", "text-wove-90 1 packs 47.01", "text-wove-90 33 sheets 10.00", "--supplier", "Wharf Goods")
        self.bench.good("stock", "count", "text-laid-110", "84 sheets", "--worth", "48.72", "--place", "plan chest 2")
        self.bench.good("stock", "receive", "clasp-tide 2 pieces", "--owner", "ida-quill")

    def test_a_binders_spreadsheet_semicolons_decimal_commas_a_mark_and_two_new_prices(self):
        text = ("\ufeffcode;Kind;Sold by;name;caliper;density;usable;usable share;spoil;pack;price;tax;supplier\r\n"
                "goat-plum;leather;skin;\"Goat; plum\";0,9 mm;700 kg/m3;640 x 480 mm;70 %;3,5 %;0,6 m2;64,00;19 %;Sandbar Skins\r\n"
                "cord-plum;cord;length;Cord, plum;2,5 mm;900 kg/m3;;;;50 m;1.204,50;19 %;\r\n"
                ";;;;;;;;;;;;\r\n")
        answer = self.bench.json("material", "import", self.put(text))
        self.assertEqual([row["code"] for row in answer["rows"]], ["goat-plum", "cord-plum"])
        plum = self.bench.json("material", "show", "goat-plum")["material"]
        self.assertEqual((plum["name"], plum["caliper_nm"], plum["spoil"]), ("Goat; plum", 900_000, "7/200"))
        self.assertEqual(self.bench.json("material", "show", "cord-plum")["material"]["price"]["price"]["amount"], "1204.50")
        new = text.replace("64,00", "66,50").replace("1.204,50", "13,00")
        day = ["--from", "2026-12-01"]
        dry = self.bench.json("material", "import", self.put(new), *day, "--dry-run")
        self.assertEqual([(row["line"], row["changes"]) for row in dry["rows"]],
                         [(2, [{"field": "price", "from": "64.00", "to": "66.50"}]),
                          (3, [{"field": "price", "from": "1204.50", "to": "13.00"}])])
        self.assertEqual(len(self.bench.json("material", "show", "goat-plum")["prices"]), 1)
        self.bench.good("material", "import", "t.csv", *day)
        self.assertEqual([price["valid_from"] for price in self.bench.json("material", "show", "goat-plum")["prices"]],
                         ["2026-11-25", "2026-12-01"])
        out = rows_of(self.bytes_of("material", "export", "--separator", "semicolon", "--on", "2026-12-02").decode(), ";")
        prices = {row[0]: row[out[0].index("price")] for row in out[1:]}
        self.assertEqual((prices["goat-plum"], prices["cord-plum"]), ("66,50", "13,00"))
        self.bench.good("workshop", "undo", "--yes", "--on", "2026-12-02")
        again = self.bench.json("material", "show", "goat-plum", "--on", "2026-12-02")["material"]
        self.assertEqual(again["price"]["price"]["amount"], "64.00")

    def test_a_few_columns_in_any_order_leave_the_rest_as_it_is(self):
        before = self.bench.json("material", "show", "goat-moss-08")["material"]
        answer = self.bench.json("material", "import", self.put("price,code\n72.00,goat-moss-08\n"))
        self.assertEqual(answer["rows"][0]["changes"], [{"field": "price", "from": before["price"]["price"]["amount"], "to": "72.00"}])
        after = self.bench.json("material", "show", "goat-moss-08")["material"]
        self.assertEqual(after["price"]["pack"], before["price"]["pack"])
        self.assertEqual(after["price"]["carriage"], before["price"]["carriage"])
        before["price"] = after["price"] = None
        self.assertEqual(after, before)

    def test_one_entry_one_undo(self):
        self.fill_shelf()
        out = self.bytes_of("stock", "export").decode()
        last = self.bench.json("workshop", "log")["entries"][0]["seq"]
        changed = out.replace("84 sheets", "80 sheets").replace("158 sheets", "160 sheets").replace("plan chest 2", "loft")
        answer = self.bench.json("stock", "import", self.put(changed))
        self.assertEqual(len(answer["rows"]), 2)
        self.assertEqual(self.bench.json("workshop", "log")["entries"][0]["seq"], last + 1)
        self.bench.good("workshop", "check")
        self.assertEqual(rows_of(self.bytes_of("stock", "export").decode())[0], rows_of(out)[0])
        self.assertNotEqual(self.bytes_of("stock", "export").decode(), out)
        self.bench.good("workshop", "undo", "--yes")
        self.assertEqual(self.bytes_of("stock", "export").decode(), out)

    def test_skins_lots_and_worth(self):
        self.fill_shelf()
        lots = self.bytes_of("stock", "export", "--lots").decode()
        same = self.bench.json("stock", "import", self.put(lots))
        self.assertEqual(same["rows"], [])
        one_less = lots.replace("goat-moss-08,K2,0.58 m2", "goat-moss-08,K2,0.5 m2")
        self.assertEqual(self.bench.json("stock", "import", self.put(one_less))["rows"][0]["code"], "K2")
        # A skin that no row names is not the one that lies there.
        self.assertEqual(self.places("stock", "code,quantity\ngoat-moss-08,0.7 m2\n"), [(2, 14, "contradiction")])
        found = self.bench.json("stock", "import", self.put(
            "code,quantity,worth,place\ngoat-moss-08,0.61 m2,,\ngoat-moss-08,0.5 m2,,\ngoat-moss-08,0.7 m2,70.00,drawer\n"))
        self.assertEqual([(row["code"], row["deed"]) for row in found["rows"]], [("goat-moss-08", "added")])
        shelf = self.bench.json("stock", "list", "--lots")["materials"]
        new = [lot for material in shelf for lot in material["lots"] if lot["place"] == "drawer"]
        self.assertEqual([(lot["left"], lot["worth"]["amount"]) for lot in new], [({"area_um2": 700_000_000_000}, "70.00")])
        # A count changes no worth of what was known; what is found is worth what all of it is worth more.
        self.assertEqual(self.places("stock", "code,quantity,worth\ntext-laid-110,84 sheets,50.00\n"), [(2, 25, "contradiction")])
        self.bench.good("stock", "import", self.put("code,quantity,worth\ntext-laid-110,90 sheets,50.00\n"))
        shelf = [row for row in self.bench.json("stock", "list")["materials"] if row["code"] == "text-laid-110"]
        self.assertEqual(shelf[0]["worth"]["amount"], "50.00")

    # --- what is refused

    def test_bad_bytes(self):
        header = "code,name\n"
        long = "x" * (10 << 20)
        for text, wanted in (
                ("", [(1, 1, "missing-key")]), (header, [(2, 1, "missing-key")]), ("\n\n", [(1, 1, "missing-key")]),
                (header + "a\n", [(2, 1, "bad-syntax")]), (header + "a,b,c\n", [(2, 1, "bad-syntax")]),
                (header + "a,\"b\nc,d\n", [(2, 3, "bad-syntax")]), (header + "a,b\"c\n", [(2, 4, "bad-syntax")]),
                (header.encode() + b"a,b\0c\n", [(2, 4, "bad-syntax")]),
                (header.encode() + b"a,M\xfcller\n", [(2, 3, "bad-value")]),
                (header + f"a,{long}\n", [(2, 3, "out-of-range")]), (header + f"{long},A\n", [(2, 1, "bad-value")]),
                (header + f"a,{'ü' * 201}\n", [(2, 3, "out-of-range")]),
                (header + "a,\"two\nlines\"\n", [(2, 3, "bad-value")]),
                (header + "a,A\nb,B\na,C\n", [(4, 1, "contradiction")]),
                ("code,name,Name\na,A,B\n", [(1, 11, "contradiction")]),
                ("code,nmae\na,A\n", [(1, 6, "bad-value")]), ("name\nA\n", [(1, 1, "missing-key")]),
                ("code,\na,A\n", [(1, 6, "missing-key")]), ("code;name,country\na;A,B\n", [(1, 1, "missing-key")]),
                (header + ",A\n", [(2, 1, "missing-key")]), (header + "fresh,\n", [(2, 7, "bad-command")]),
                (header + "Big One,A\n", [(2, 1, "bad-value")])):
            with self.subTest(text=text[:40]):
                self.assertEqual(self.places("customer", text), wanted)
        self.bench.good("customer", "import", self.put(header + f"long,{'ü' * 200}\n"))

    def test_bad_values(self):
        header = "code,kind,sold by,name,pack,price,rate,spoil,from\n"
        faults = self.refused("material", header +
                              "a,lether,skin,A,,,,,\n"
                              "b,wax,piece,B,-1 piece,2.00,,,\n"
                              "c,wax,piece,C,1 piece,\"1,234\",,,\n"
                              "d,wax,piece,D,1 piece,3.00 GBP,,,\n"
                              "e,wax,piece,E,1 piece,3.00,,,2026-02-30\n"
                              "goat-moss-08,wax,,,,,,,\n"
                              "goat-moss-08b,,,,,,,,\n"
                              "f,wax,piece,F,1 piece,2.00,,150 %,\n"
                              "g,wax,sheet,G,,,,,\n"
                              "goat-tan,,,,,-3.00,,,\n")
        self.assertEqual([(fault["line"], fault["column"], fault["field"]) for fault in faults],
                         [(2, 3, "kind"), (3, 15, "pack"), (4, 23, "price"), (5, 23, "price"), (6, 30, "from"), (7, 14, "kind"),
                          (8, 15, "kind"), (8, 16, "sold by"), (8, 17, "name"), (9, 29, "spoil"), (10, 1, "sheet"), (10, 7, "sold by"),
                          (11, 14, "price")])
        self.assertEqual(faults[0]["near"], ["leather"])
        self.assertEqual((faults[2]["code"], faults[2]["expected"]), ("ambiguous-number", "1234 EUR or 1.234 EUR"))
        self.assertIn("rate, the EUR for one GBP", faults[3]["message"])
        self.assertNotIn("--", "".join(fault["message"] for fault in faults))
        stock = self.refused("stock", "code;quantity;worth\ntext-laid-111;3 sheets;\ntext-laid-110;-3 sheets;\ntext-wove-90;3;\n"
                             "end-ingres-grey;2 sheets;3,00 USD\nboard-mill-20;1.234,5 sheets;1,234\n")
        self.assertEqual([(fault["line"], fault["code"]) for fault in stock],
                         [(2, "unknown-material"), (3, "out-of-range"), (4, "missing-unit"), (5, "currency-mismatch"),
                          (6, "ambiguous-number")])
        self.assertEqual((stock[-1]["found"], stock[-1]["expected"]), ("1,234", "1234 EUR or 1,234 EUR"))

    def test_many_faults_are_told_in_part_and_all_in_json(self):
        text = "code,name\n" + "".join(f"Bad {n},x\n" for n in range(300))
        done = self.bench.run("customer", "import", self.put(text))
        lines = done.stderr.decode().splitlines()
        self.assertEqual(lines[0], 'endband: t.csv:2:1: "Bad 0" is not a code of lower case letters, digits and \'-\', such as goat-green')
        self.assertEqual(lines[-2:], ["and 260 more", "300 problems, nothing saved."])
        self.assertEqual(len(self.refused("customer", text)), 300)

    # --- against the outside, and in time

    def test_python_reads_what_is_written_and_is_read_in_what_it_writes(self):
        draws = random.Random(4180)
        letters = ["a", " ", ",", ";", "\"", "'", "=", "-", "é", "漢", "📕", "|", "\\", "#", "ﺍ", "%"]
        people = {f"p-{n}": ["".join(draws.choices(letters, k=draws.randint(1, 12))) for _ in range(2)] for n in range(400)}
        people = {code: [name if name.strip(" ") else "x", notes] for code, (name, notes) in people.items()}  # a name is more than spaces
        for style in ({"delimiter": ";", "lineterminator": "\n"}, {"quoting": csv.QUOTE_ALL}, {"delimiter": "\t"}):
            bench = self.bench_of(empty=True)
            rows = [["code", "name", "notes"], *([code, *self.defused(words)] for code, words in people.items())]
            bench.good("customer", "import", self.put(table(rows, **style), bench=bench))
            known = {each["code"]: [each["name"], each["notes"]] for each in bench.json("customer", "list")["customers"]}
            self.assertEqual(known, people)
            header, *out = rows_of(self.bytes_of("customer", "export", bench=bench).decode())
            back = {row[0]: [row[header.index("name")], row[header.index("notes")]] for row in out}
            self.assertEqual(back, {code: self.defused(words) for code, words in people.items()})

    @staticmethod
    def defused(words):
        return [f"'{word}" if word.lstrip("'")[:1] in ("=", "+", "-", "@") and word.lstrip("'") else word for word in words]

    def test_ten_thousand_rows(self):
        bench = self.bench_of(empty=True)
        materials = "code,kind,sold by,name,pack,price\n" + "".join(
            f"m-{n},wax,piece,Wax {n},10 pieces,{n % 90 + 1}.50\n" for n in range(10_000))
        stock = "code,quantity,worth\n" + "".join(f"m-{n},{n % 7 + 1} pieces,{n % 7 + 1}.00\n" for n in range(10_000))
        people = "code,name\n" + "".join(f"p-{n},Somebody {n}\n" for n in range(10_000))
        for noun, text in (("material", materials), ("stock", stock), ("customer", people)):
            for what in ("new", "unchanged"):
                began = time.monotonic()
                answer = bench.json(noun, "import", self.put(text, bench=bench))
                took = time.monotonic() - began
                self.assertEqual((len(answer["rows"]), answer["unchanged"]), (10_000, 0) if what == "new" else (0, 10_000))
                print(f"{noun} import, 10,000 rows {what}: {took:.1f} s", file=sys.stderr)


if __name__ == "__main__":
    Tables.endband, Tables.sample = sys.argv[1], sys.argv[2]
    unittest.main(argv=sys.argv[:1] + sys.argv[3:])
