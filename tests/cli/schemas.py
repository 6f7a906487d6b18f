#!/usr/bin/python3
"""Every command's JSON is as its schema says; and the schema would see a key removed, renamed or of another type.

usage: schemas.py ENDBAND SAMPLE_WORKSHOP
"""

import copy
import json
import sys
import unittest

import jsonschema

import margins
import program

# What a job needs to come to its end: one that needs little.
SMALL = """endband = 1
model = "single-section"
"""

BOOK = """endband = 1
model = "grimoire"
title = "Tides"
leather = "goat-moss-08"
customer_supplies = ["clasp-tide"]
[[extra_work]]
words = "age the edges"
time = "10/20/40 min"
[[outside]]
words = "a die"
price = "80.00"
at_cost = true
kind = "die"
redo = "5 %"
[[custody]]
what = "the old boards"
condition = "worn"
declared_value = "40.00"
[[custody]]
what = "a letter of 1881"
[set]
same = "batch"
[[volumes]]
title = "Ebb"
[[volumes]]
title = "Flood"
pages = 160
"""

OPTIONS = """endband = 1
model = "case"
title = "Winds"
height = "210 mm"
width = "148 mm"
pages = 160
[[options]]
words = "with a slipcase"
change = "box.kind = slipcase"
[[options]]
words = "half as thick"
change = "pages = 80"
"""

# One line for each command at least; more where the answer has more than one shape. Run in order on one workshop.
LINES = [
    ["book", "start", "--list"],
    ["book", "start", "raised-cords"],
    ["book", "start", "raised-cords", "-o", "started.toml"],
    ["book", "measure", "book.toml"],
    ["book", "measure", "book.toml", "--svg", "drawings"],
    ["quote", "make", "book.toml", "--customer", "ida-quill", "--made-to", "business", "--delivery", "collected"],
    ["quote", "make", "book.toml", "--markup", "60 %", "--dry-run"],
    ["rates", "tax", "reduced", "7 %"],
    ["rates", "exchange", "USD", "0.92", "--taken", "1.5 %", "--dry-run"],
    ["rates", "carriage", "parcel", "carriage.toml"],
    ["rates", "list"],
    ["outlet", "add", "market", "outlet.toml"],
    ["outlet", "change", "market", "outlet.toml", "--from", "2027-01-01"],
    ["outlet", "list"],
    ["outlet", "show", "market"],
    ["outlet", "show", "--example"],
    ["quote", "make", "options.toml", "--through", "market", "--discount", "5 %", "--discount-because", "a friend", "--budget",
     "200.00", "--service", "parcel", "--to", "DE", "--profit", "90.00", "--dry-run"],
    ["listing", "price", "options.toml", "--through", "market", "--sale", "15 %"],
    ["listing", "price", "options.toml", "--through", "all", "--one-price"],
    ["listing", "post", "options.toml", "--through", "market"],
    ["listing", "change", "1", "--at-price", "310.00"],
    ["listing", "list"],
    ["listing", "end", "1", "--sold"],
    ["listing", "post", "options.toml", "--through", "market"],
    ["listing", "list", "--ended"],
    ["quote", "list"],
    ["quote", "show", "1"],
    ["quote", "print", "1"],
    ["quote", "print", "1", "--as", "ubl"],
    ["quote", "explain", "1"],
    ["quote", "weigh", "1"],
    ["quote", "explain", "1", "arc"],
    ["material", "add", "tape-10", "--kind", "sundry", "--sold-by", "length", "--name", "Tape, 10 mm", "--pack", "10 m",
     "--price", "36.00 GBP", "--rate", "1.17"],
    ["material", "change", "tape-10", "--name", "Tape"],
    ["material", "price", "tape-10", "--pack", "10 m", "--price", "4.00"],
    ["material", "list"],
    ["material", "show", "text-wove-90"],
    ["material", "show", "linen-18-3"],
    ["material", "show", "leaf-gold-23"],
    ["material", "export", "-o", "materials.csv"],
    ["material", "export", "--kind", "leather"],
    ["material", "import", "materials.csv"],
    ["material", "import", "prices.csv", "--from", "2026-12-01"],
    ["customer", "add", "mira-holt", "--name", "Mira Holt"],
    ["customer", "change", "mira-holt", "--country", "AT"],
    ["customer", "list"],
    ["customer", "show", "mira-holt"],
    ["customer", "export", "-o", "customers.csv"],
    ["customer", "export"],
    ["customer", "import", "who.csv"],
    ["bench", "set", "tobin", "--hours", "Tue Thu 9-13", "--pay", "14.00", "--overtime", "1 h"],
    ["bench", "set", "lying-press", "--count", "2"],
    ["bench", "off", "tobin", "2026-12-01", "--reason", "an exam"],
    ["bench", "off", "tobin", "2026-12-01", "--working", "--dry-run"],
    ["bench", "show"],
    ["steps", "set", "sew-sections", "--each", "4/5/8 min"],
    ["steps", "set", "glue-spine", "--wait", "0 h", "--who", "wren tobin", "--after", "fold-sheets", "--dry-run"],
    ["steps", "set", "fold-sheets", "--who", "tobin wren", "--holds", "lying-press", "--after", "cut-sheets"],
    ["steps", "list"],
    ["stock", "receive", "goat-moss-08 0.61 m2 61.50", "goat-moss-08 0.58 m2 80.00", "--carriage", "6.40", "--tax", "19 %",
     "--batch", "7", "--thickness", "0.8 mm", "--keeps-until", "2027-11-25", "--opened", "2026-11-24"],
    ["stock", "receive", "clasp-tide 2 pieces", "--owner", "ida-quill"],
    ["stock", "count", "text-laid-110", "84 sheets", "--worth", "48.72"],
    ["stock", "count", "text-laid-110", "84 sheets"],
    ["stock", "scrap", "text-laid-110", "3 sheets", "--reason", "foxed"],
    ["stock", "write-down", "K1", "40.00", "--reason", "a stain"],
    ["stock", "change", "K1", "--place", "skin rack"],
    ["stock", "receive", "goat-moss-08 0.3 m2 30.00", "--supplier", "Wharf Goods", "--corners", "0 0, 640 0, 600 480, 20 500 mm",
     "--flaw", "220 310 15 mm"],
    ["stock", "change", "K2", "--stations", "0 400, 700 430 mm"],
    ["stock", "hand-back", "L1", "1 piece"],
    ["stock", "supply", "text-laid-110", "--reorder-at", "100 sheets", "--lead-days", "9"],
    ["stock", "list"],
    ["stock", "list", "--lots"],
    ["stock", "offcuts"],
    ["stock", "moves"],
    ["stock", "to-buy"],
    ["stock", "suggest"],
    ["stock", "export", "-o", "stock.csv"],
    ["stock", "export", "--lots"],
    ["stock", "import", "counted.csv", "--dry-run"],
    ["quote", "send", "1", "--words", "by letter"],
    ["quote", "revise", "1", "book.toml", "--margin", "38 %"],
    ["quote", "decline", "1"],
    ["stock", "receive", "text-wove-90 2 packs 30.00", "--supplier", "Wharf Goods"],
    ["stock", "receive", "goat-moss-08 0.9 m2 90.00", "goat-moss-08 0.9 m2 90.00", "--supplier", "Wharf Goods"],
    ["quote", "accept", "1", "--needed-on", "2026-12-20"],
    ["job", "list"],
    ["job", "export", "-o", "jobs.csv"],
    ["job", "export"],
    ["job", "use", "1", "--as-quoted", "--dry-run"],
    ["job", "use", "1", "goat-moss-08", "0.5 m2"],
    ["job", "use", "1", "text-wove-90", "20 sheets", "--spoiled"],
    ["job", "use", "1", "--outside", "a die", "--price", "82.00"],
    ["job", "use", "1", "beeswax-block", "--without"],
    ["job", "return", "1", "text-wove-90", "1 sheet"],
    ["job", "return", "1", "goat-moss-08", "--offcut", "200 x 150 mm"],
    ["job", "time", "1", "sewing", "09:10-11:40"],
    ["job", "time", "1", "fold-sheets", "20 min"],
    ["job", "paid", "1", "100.00"],
    ["job", "print", "1"],
    ["job", "print", "1", "--paper", "receipt", "--as", "pdf"],
    ["job", "sheet", "1", "-o", "bench.pdf"],
    ["stock", "label", "-o", "labels.html"],
    ["job", "hold", "1", "the title"],
    ["job", "show", "1"],
    ["job", "approve", "1", "the title"],
    ["job", "vary", "1", "book.toml"],
    ["job", "return", "1", "--to-customer"],
    ["job", "cancel", "1", "--reason", "moved away", "--dry-run"],
    ["quote", "list"],
    ["quote", "show", "1"],
    ["workshop", "new", "--name", "B", "--currency", "EUR", "--workshop", "other.db"],
    ["workshop", "set", "least.charge=61"],
    ["workshop", "today"],
    ["workshop", "show"],
    ["workshop", "check"],
    ["workshop", "backup", "copy.db"],
    ["workshop", "export"],
    ["workshop", "export", "-o", "all.jsonl"],
    ["workshop", "new", "--from-text", "all.jsonl", "--workshop", "again.db"],
    ["workshop", "log"],
    ["workshop", "undo", "--dry-run"],
    ["help"],
    ["--version"],
    ["help", "--man"],
    ["completion", "bash"],
]


def finished(bench):
    """A job that did without all of its goods."""
    number = bench.json("quote", "make", bench.write("small.toml", SMALL))["number"]
    accepted = bench.json("quote", "accept", number)
    for row in accepted["materials"]:
        bench.good("job", "use", accepted["job"], row["code"], "--without")
    bench.good("job", "time", accepted["job"], "--as-quoted")
    return bench.json("job", "finish", accepted["job"])


def promised(bench):
    """A job that is behind, a book asked for by a day, and the rush that makes it."""
    small = bench.write("small.toml", SMALL)
    job = bench.json("quote", "accept", bench.json("quote", "make", small, "--by", "2026-11-27")["number"])["job"]
    for by in (["--by", "2026-11-30"], ["--by", "2026-12-24", "--rush", "--odds"]):
        made = bench.json("quote", "make", small, *by)
        yield made
    yield bench.json("bench", "week", "--days", "14", "--with", made["number"], "--svg", "chart")
    yield bench.json("job", "time", job, "fold-sheets", "--finished")
    yield bench.json("job", "show", job)
    yield bench.json("quote", "odds", made["number"], "--runs", "200")


def looked_back(bench):
    """Past commissions, all that is said of them, and the same where there are none."""
    for line in (["margins", "list"], ["margins", "worth"], ["margins", "year"], ["margins", "reprice"], ["steps", "learn"]):
        yield bench.json(*line)
    yield bench.json("workshop", "import", "--example")
    yield bench.json("workshop", "import", margins.notebook(bench))
    number = bench.json("margins", "list")["rows"][0]["job"]
    yield bench.json("job", "sold", number, "--fees", "12.00", "--tax-paid", "3")
    for by in ("binding", "feature", "outlet", "customer", "month"):
        yield bench.json("margins", "list", "--by", by)
    yield bench.json("margins", "list", "--svg", "figures")
    yield bench.json("margins", "show", number)
    yield bench.json("margins", "worth", "--svg", "worth")
    yield bench.json("margins", "year")
    yield bench.json("margins", "report")
    yield bench.json("margins", "reprice", "--if", "rate=+9.00")
    yield bench.json("margins", "reprice", "--if", "goat-moss-08=+90%", "--if", "text-wove-90=+900%")
    yield bench.json("steps", "learn", "--accept", "sew-sections enquiries", "--svg", "steps")


def cut(bench):
    """A book and its job cut by plan, and one that cannot be cut."""
    half = bench.write("half.toml", 'endband = 1\nmodel = "half-leather"\n')
    yield bench.json("book", "cut", half, "--svg", "cuts")
    yield json.loads(bench.run("--json", "book", "cut", "book.toml", "--new").stdout)
    job = bench.json("quote", "accept", bench.json("quote", "make", half)["number"])["job"]
    yield bench.json("job", "cut", job)
    yield bench.json("job", "cut", job, "--take", "--dry-run")


def few(document):
    """The same document with at most two elements in each array: as many shapes, fewer copies of them."""
    if isinstance(document, dict):
        return {key: few(value) for key, value in document.items()}
    return [few(value) for value in document[:2]] if isinstance(document, list) else document


def places(document, path=()):
    """Every key of every object, as a path to it."""
    items = document.items() if isinstance(document, dict) else enumerate(document) if isinstance(document, list) else ()
    for key, value in items:
        if isinstance(document, dict):
            yield (*path, key)
        yield from places(value, (*path, key))


def holder(document, path):
    for key in path[:-1]:
        document = document[key]
    return document


def another_type(value):
    """A value that stands for nothing of the kind: for null, what no optional value is."""
    return [{"no": "such"}] if value is None or isinstance(value, (str, int, bool, dict)) else "not a list"


class Schemas(unittest.TestCase):
    @classmethod
    def setUpClass(cls):
        with program.Bench(ENDBAND, SAMPLE) as bench:
            bench.write("book.toml", BOOK)
            bench.write("options.toml", OPTIONS)
            bench.write("prices.csv", "code,pack,price,kind,sold by,name\ntape-10,20 m,7.00,,,\ntape-12,,,sundry,length,A tape\n")
            bench.write("who.csv", "code,name,country\nmira-holt,Mira Holt,DE\nnew-one,Somebody,\n")
            bench.write("counted.csv", "code,quantity,place\ntext-laid-110,80 sheets,loft\ntext-wove-90,5 sheets,\n")
            bench.write("outlet.toml", bench.json("outlet", "show", "--example")["text"])
            bench.write("carriage.toml", (program.ROOT / "sample_data" / "carriage" / "wend.toml").read_text(encoding="utf-8"))
            cls.commands = program.commands(bench)
            cls.answers = []
            for line in LINES:
                cls.answers.append((line, bench.json(*line, day=line[0] not in ("help", "--version", "completion"))))
            cls.answers.append((["job", "finish"], finished(bench)))
            cls.answers += [(["cut"], document) for document in cut(bench)]
            cls.answers += [(["promised"], document) for document in promised(bench)]
            cls.answers += [(["looked back"], document) for document in looked_back(bench)]
            refused = bench.run("--json", "quote", "make", bench.write("bad.toml", 'endband = 1\nheigth = 5\npages = "x"\n'))
            cls.answers.append((["a fault"], json.loads(refused.stderr)))
            cls.lists = {c["answer_schema"]: (bench.good(c["noun"], c["verb"], "--jsonl"), bench.json(c["noun"], c["verb"]))
                         for c in cls.commands if any(flag["name"] == "--jsonl" for flag in c["flags"])}

    def validator(self, document):
        name = document["schema"].split("/")[1]
        schema = program.schema(name)
        jsonschema.Draft202012Validator.check_schema(schema)
        return jsonschema.Draft202012Validator(schema)

    def test_every_command_has_an_answer_here_and_a_schema(self):
        told = {command["answer_schema"] for command in self.commands}
        self.assertEqual(told - {document["schema"] for _, document in self.answers}, set())
        files = {path.name.removesuffix(".schema.json") for path in (program.ROOT / "schema" / "json").iterdir()}
        self.assertEqual(files, {name.split("/")[1] for name in told} | {"help", "version", "man", "completion", "fault"})

    def test_every_answer_is_as_its_schema_says(self):
        for line, document in self.answers:
            with self.subTest(line=" ".join(line)):
                self.validator(document).validate(document)

    def test_every_object_of_a_schema_names_all_its_keys_and_allows_no_others(self):
        def objects(node):
            if isinstance(node, dict):
                if node.get("type") == "object":
                    yield node
                for value in node.values():
                    yield from objects(value)
            elif isinstance(node, list):
                for value in node:
                    yield from objects(value)
        for path in (program.ROOT / "schema" / "json").iterdir():
            for node in objects(json.loads(path.read_text(encoding="utf-8"))):
                with self.subTest(schema=path.name):
                    self.assertIs(node["additionalProperties"], False)
                    if "maxProperties" not in node:  # a quantity has one of its keys
                        self.assertEqual(node["required"], list(node["properties"]))

    def test_a_key_removed_renamed_or_of_another_type_is_refused(self):
        seen = set()  # a place of a schema is tried once for each type of what stands there
        for line, document in self.answers:
            validator, small = self.validator(document), few(document)
            self.assertTrue(validator.is_valid(small))
            for path in places(small):
                keys = ("[]" if isinstance(key, int) else key for key in path)
                place = (document["schema"], *keys, type(holder(small, path)[path[-1]]))
                if place in seen:
                    continue
                seen.add(place)
                for name, change in CHANGES.items():
                    with self.subTest(line=" ".join(line), key=path, change=name):
                        changed = copy.deepcopy(small)
                        change(holder(changed, path), path[-1])
                        self.assertFalse(validator.is_valid(changed))

    def test_the_lines_of_a_list_are_the_rows_of_its_document(self):
        self.assertGreaterEqual(len(self.lists), 15)
        for name, (text, document) in self.lists.items():
            with self.subTest(schema=name):
                schema = program.schema(name.split("/")[1])
                (key, rows), = ((key, value) for key, value in schema["properties"].items()
                                if value.get("type") == "array" and value["items"].get("type") != "string")
                validator = jsonschema.Draft202012Validator({**rows["items"], "$defs": schema.get("$defs", {})})
                self.assertTrue(text.endswith("\n"))
                lines = [json.loads(line) for line in text.split("\n")[:-1]]
                self.assertEqual(lines, document[key])
                for line in lines:
                    validator.validate(line)

    def test_every_list_gives_its_rows_as_lines(self):
        told = {name.split("/")[1] for name in self.lists}
        lists = {c["answer_schema"].split("/")[1] for c in self.commands if c["verb"] in ("list", "log", "moves", "offcuts", "to-buy", "suggest")}
        self.assertEqual(told, lists | {"margins-reprice"})


def rename(members, key):
    members[key + "_"] = members.pop(key)


def retype(members, key):
    members[key] = another_type(members[key])


CHANGES = {"removed": lambda members, key: members.pop(key), "renamed": rename, "retyped": retype}

if __name__ == "__main__":
    ENDBAND, SAMPLE = sys.argv[1:3]
    unittest.main(argv=sys.argv[:1] + sys.argv[3:])
