#!/usr/bin/python3
"""Quotations as OASIS UBL 2.1: valid by its schema, their sums by the rules of EN 16931, and nothing of the inside in them.

    ubl.py ENDBAND SAMPLE

The rules are those of the European standard's own artefacts (EN16931-model.sch and EN16931-UBL-model.sch of
ConnectingEurope/eInvoicing-EN16931), which are of invoices: read here, with exact fractions, on quotations.
"""

import contextlib
import itertools
import json
import re
import shlex
import sqlite3
import subprocess
import sys
import unittest
import xml.etree.ElementTree as ET
from decimal import Decimal
from fractions import Fraction

import program
from print import SENTINELS
from program import BOOKS, ROOT, Bench

SCHEMA = ROOT / "tests" / "outside" / "ubl" / "maindoc" / "UBL-Quotation-2.1.xsd"
SPACES = {"q": "urn:oasis:names:specification:ubl:schema:xsd:Quotation-2",
          "cac": "urn:oasis:names:specification:ubl:schema:xsd:CommonAggregateComponents-2",
          "cbc": "urn:oasis:names:specification:ubl:schema:xsd:CommonBasicComponents-2"}
DIGITS = {"EUR": 2, "JPY": 0, "BHD": 3}  # ISO 4217
# UN/ECE Recommendation 20, revision 11e: book, set, piece, lump sum.
UNITS = {"D63", "SET", "H87", "LS"}

OPTIONS = """endband = 1
model = "case"
title = "Winds"
height = "210 mm"
width = "148 mm"
pages = 160
[[options]]
words = "with a slipcase"
either = "box"
change = "box.kind = slipcase"
[[options]]
words = "with a drop-spine box"
either = "box"
change = "box.kind = drop-spine"
[[options]]
words = "half as thick"
change = "pages = 80"
"""
AT_COST = """endband = 1
model = "case"
title = "Tides"
[[outside]]
words = "a die"
price = "80"
at_cost = true
"""
SMALL = 'endband = 1\nmodel = "single-section"\n'
ODD = 'endband = 1\nmodel = "case"\ntitle = "<script>alert(1)</script> & ]]> \'Gæst\' \\"漢字\\" 𝔅"\n'


def half_away(value, digits):
    """Half away from zero, as the artefacts round."""
    scaled = abs(value) * 10**digits
    whole = scaled.numerator // scaled.denominator
    if scaled - whole >= Fraction(1, 2):
        whole += 1
    return Fraction(whole if value >= 0 else -whole, 10**digits)


class Paper:
    """One quotation as a stranger reads it."""

    def __init__(self, text):
        self.root = ET.fromstring(text)
        self.currency = self.text("cbc:PricingCurrencyCode")
        self.digits = DIGITS[self.currency]

    def all(self, path, at=None):
        return (self.root if at is None else at).findall(path, SPACES)

    def text(self, path, at=None):
        found = (self.root if at is None else at).find(path, SPACES)
        return None if found is None else found.text

    def amount(self, path, at=None):
        found = (self.root if at is None else at).find(path, SPACES)
        return Fraction(0) if found is None else Fraction(Decimal(found.text))

    def notes(self):
        return [note.text for note in self.all("cbc:Note")]

    def category(self, at, name="cac:TaxCategory"):
        part = at.find(name, SPACES)
        return None if part is None else (self.text("cbc:ID", part), Fraction(Decimal(self.text("cbc:Percent", part))))


class Printed(unittest.TestCase):
    """A workshop whose quotations are printed, each checked by the schema at the end."""

    endband = sample = None

    def setUp(self):
        self.bench = Bench(self.endband, self.sample)
        self.bench.__enter__()
        self.addCleanup(self.bench.__exit__)
        self.files = []

    def tearDown(self):
        if self.files:
            self.valid(self.files)

    def valid(self, files):
        done = subprocess.run(["xmllint", "--nonet", "--noout", "--schema", str(SCHEMA), *map(str, files)], capture_output=True,
                              text=True, check=False)
        self.assertEqual(done.returncode, 0, done.stderr)
        self.assertEqual(done.stderr.count(" validates"), len(files))

    def printed(self, number, *words):
        answer = self.bench.json("quote", "print", number, "--as", "ubl", "--yes", *words)
        path = self.bench.folder / answer["file"]
        kept = self.bench.folder / f"kept-{len(self.files)}.xml"
        kept.write_bytes(path.read_bytes())
        self.files.append(kept)
        return path.read_text(encoding="utf-8")

    def check_sums(self, paper, shown, cash=0):
        lines = self.all_lines(paper)
        total = paper.all("cac:QuotedMonetaryTotal")[0]
        changes = paper.all("cac:AllowanceCharge")
        of = {flag: sum((paper.amount("cbc:Amount", c) for c in changes if paper.text("cbc:ChargeIndicator", c) == flag), Fraction(0))
              for flag in ("true", "false")}
        net, tax = paper.amount("cbc:TaxExclusiveAmount", total), paper.amount("cac:TaxTotal/cbc:TaxAmount")
        rounding, payable = paper.amount("cbc:PayableRoundingAmount", total), paper.amount("cbc:PayableAmount", total)
        subtotals = paper.all("cac:TaxTotal/cac:TaxSubtotal")
        self.assertEqual(paper.amount("cbc:LineExtensionAmount", total), sum(net for net, _ in lines), "BR-CO-10")
        self.assertEqual(paper.amount("cbc:AllowanceTotalAmount", total), of["false"], "BR-CO-11")
        self.assertEqual(paper.amount("cbc:ChargeTotalAmount", total), of["true"], "BR-CO-12")
        self.assertEqual(net, paper.amount("cbc:LineExtensionAmount", total) - of["false"] + of["true"], "BR-CO-13")
        self.assertEqual(tax, sum(paper.amount("cbc:TaxAmount", s) for s in subtotals), "BR-CO-14")
        self.assertEqual(paper.amount("cbc:TaxInclusiveAmount", total), net + tax, "BR-CO-15")
        self.assertIsNone(total.find("cbc:PrepaidAmount", SPACES), "nothing is paid yet")
        self.assertEqual(payable, net + tax + rounding, "BR-CO-16")
        for subtotal in subtotals:
            category = paper.category(subtotal)
            base = paper.amount("cbc:TaxableAmount", subtotal)
            self.assertEqual(paper.amount("cbc:TaxAmount", subtotal), half_away(base * category[1] / 100, paper.digits), "BR-CO-17")
            by_change = sum(paper.amount("cbc:Amount", c) * (1 if paper.text("cbc:ChargeIndicator", c) == "true" else -1)
                            for c in changes if paper.category(c) == category)
            self.assertEqual(base, sum(net for net, of in lines if of == category) + by_change, "BR-S-08, BR-Z-08, BR-E-08")
            self.assertEqual(category[0] == "S", category[1] > 0, "BR-S-05, BR-Z-05, BR-E-05")
        self.assertEqual(len({paper.category(s) for s in subtotals}), len(subtotals))
        self.assertLessEqual(abs(rounding - cash), Fraction(len(subtotals), 10**paper.digits))
        self.assertEqual(payable, Fraction(Decimal(shown["total"]["amount"])))
        for amount in paper.root.iter():
            if "currencyID" in amount.attrib:
                self.assertEqual(amount.attrib["currencyID"], paper.currency)
                self.assertEqual(len(amount.text.partition(".")[2]), paper.digits, "BR-DEC, by the digits of the currency")
        return rounding

    def all_lines(self, paper):
        rows = paper.all("cac:QuotationLine")
        self.assertEqual(int(paper.text("cbc:LineCountNumeric")), len(rows))
        self.assertEqual([paper.text("cbc:ID", row) for row in rows], [str(i + 1) for i in range(len(rows))])
        lines = []
        for row in rows:
            item = row.find("cac:LineItem", SPACES)
            net = paper.amount("cbc:LineExtensionAmount", item)
            price, base = paper.amount("cac:Price/cbc:PriceAmount", item), paper.amount("cac:Price/cbc:BaseQuantity", item)
            self.assertEqual(net, price / base * paper.amount("cbc:Quantity", item), "the line is its price times its quantity")
            self.assertGreaterEqual(price, 0, "BR-27")
            self.assertTrue(paper.text("cac:Item/cbc:Name", item), "BR-25")
            for unit in ("cbc:Quantity", "cac:Price/cbc:BaseQuantity"):
                self.assertIn(item.find(unit, SPACES).attrib["unitCode"], UNITS)
            lines.append((net, paper.category(item.find("cac:Item", SPACES), "cac:ClassifiedTaxCategory")))
        return lines

    def quoted_at(self, price, book, *words):
        """At that price, or at the lower one that leaves as much."""
        done = self.bench.run("--json", "quote", "make", book, *words, "--at-price", price)
        if own := re.search(r"a price of its own: (\S+)", done.stderr.decode()):
            return self.quoted(book, *words, "--at-price", own[1])
        number = json.loads(done.stdout)["number"]
        return number, self.bench.json("quote", "show", number)

    def quoted(self, book, *words):
        number = self.bench.json("quote", "make", book, *words)["number"]
        return number, self.bench.json("quote", "show", number)


class Ubl(Printed):
    def test_every_book_of_the_sample_is_valid_and_adds_up(self):
        for book in sorted(BOOKS.glob("*.toml")):
            with self.subTest(book=book.name):
                number, shown = self.quoted(str(book), "--customer", "lantern-street", "--carriage", "6.40")
                for level in ("components", "one-price"):
                    self.check_sums(Paper(self.printed(number, "--level", level)), shown)

    def test_tax_in_every_way_at_many_prices(self):
        book = self.bench.write("die.toml", AT_COST)
        rounded = set()
        prices = itertools.cycle(["617.37", "999.99", "480.01", "1234.56", "700.03", "513.33", "801.02"])
        self.bench.good("workshop", "set", "tax-rate.reduced=7 %", "tax-rate.nothing=0 %")
        classes = [[], ["tax-class.text-block=reduced"], ["tax-class.carriage=nothing", "tax-class.outside-work=reduced"]]
        rates = itertools.cycle(["19 %", "5.5 %"])
        for mode, own in itertools.product(("included", "added", "none"), classes):
            rate = next(rates)
            self.bench.good("workshop", "set", f"tax.mode={mode}", f"tax.rate={rate}", *own)
            for words in ([], ["--discount", "12.5 %", "--discount-because", "a school"]):
                with self.subTest(mode=mode, rate=rate, own=own, words=words):
                    number, shown = self.quoted_at(next(prices), book, "--carriage", "7.77", *words)
                    papers = [Paper(self.printed(number, "--level", level)) for level in ("components", "one-price")]
                    for paper in papers:
                        rounded.add(self.check_sums(paper, shown) != 0)
                        self.assertEqual(bool(paper.all("cac:TaxTotal")), mode != "none")
                        if mode == "added":
                            self.assertEqual(paper.amount("cac:TaxTotal/cbc:TaxAmount"), Fraction(Decimal(shown["tax"]["amount"])))
                            self.assertEqual(paper.amount("cac:QuotedMonetaryTotal/cbc:PayableRoundingAmount"), 0)
        self.assertEqual(rounded, {True, False})

    def test_a_gift_a_free_book_and_an_exemption(self):
        gift, shown = self.quoted(str(BOOKS / "chess_endings.toml"), "--discount", "100 %", "--discount-because", "a gift")
        self.check_sums(Paper(self.printed(gift)), shown)
        self.bench.good("workshop", "set", "tax.mode=none", "tax.exempt-words=Small business: no tax is charged.")
        number, shown = self.quoted(str(BOOKS / "chess_endings.toml"))
        paper = Paper(self.printed(number))
        self.check_sums(paper, shown)
        self.assertEqual(paper.text("cac:TaxTotal/cac:TaxSubtotal/cac:TaxCategory/cbc:ID"), "E")
        self.assertEqual(paper.text("cac:TaxTotal/cac:TaxSubtotal/cac:TaxCategory/cbc:TaxExemptionReason"),
                         "Small business: no tax is charged.", "BR-E-10")

    def test_coins_are_in_the_rounding(self):
        self.bench.good("outlet", "add", "fair", str(ROOT / "sample_data" / "outlets" / "fair.toml"))
        number, shown = self.quoted(self.bench.write("small.toml", SMALL), "--through", "fair", "--carriage", "3.35", "--at-price", "199.99")
        paper = Paper(self.printed(number))
        cash = Fraction(Decimal(shown["total"]["amount"])) - Fraction("199.99") - half_away(Fraction("3.35") * Fraction(119, 100), 2)
        self.assertNotEqual(cash, 0)
        self.check_sums(paper, shown, cash)

    def test_copies_sets_and_boxes_are_counted_in_their_units(self):
        for book, unit, count in (("mill_poems", "D63", "5"), ("glass_letters", "SET", "1"), ("lace_box", "H87", "1")):
            with self.subTest(book=book):
                number, shown = self.quoted(str(BOOKS / f"{book}.toml"))
                paper = Paper(self.printed(number, "--level", "one-price"))
                self.check_sums(paper, shown)
                quantity = paper.all("cac:QuotationLine/cac:LineItem/cbc:Quantity")[0]
                self.assertEqual((quantity.attrib["unitCode"], quantity.text), (unit, count))

    def test_what_is_said_beside_the_price(self):
        book = self.bench.write("winds.toml", OPTIONS)
        self.bench.good("customer", "change", "lantern-street", "--country", "AT")
        number, shown = self.quoted(book, "--customer", "lantern-street", "--made-to", "spec", "--because", "their measures",
                                    "--delivery", "by the Tuesday van")
        paper = Paper(self.printed(number))
        self.check_sums(paper, shown)
        self.assertEqual(paper.text("cbc:ID"), number)
        self.assertEqual(paper.text("cbc:IssueDate"), "2026-11-25")
        self.assertEqual(paper.text("cac:ValidityPeriod/cbc:EndDate"), shown["valid_until"])
        self.assertEqual(paper.text("cac:SellerSupplierParty/cac:Party/cac:PartyName/cbc:Name"), "Alder Lane Bindery")
        self.assertEqual(paper.text("cac:SellerSupplierParty/cac:Party/cac:PostalAddress/cac:Country/cbc:IdentificationCode"), "DE", "BR-09")
        self.assertEqual(paper.text("cac:BuyerCustomerParty/cac:Party/cac:PostalAddress/cac:Country/cbc:IdentificationCode"), "AT", "BR-11")
        self.assertEqual(paper.text("cac:DeliveryTerms/cbc:SpecialTerms"), "Delivery: by the Tuesday van")
        self.assertEqual(paper.text("cac:Delivery/cac:Despatch/cbc:EstimatedDespatchDate"), shown["ready"]["by"] if "ready" in shown
                         else re.search(r"Ready to send by (\S+),", self.bench.good("quote", "show", number))[1])
        conditions = [each.text for each in paper.all("cac:TransactionConditions/cbc:Description")]
        self.assertIn(shown["deposit"]["amount"], conditions[0])
        self.assertIn(shown["balance"]["amount"], conditions[0])
        self.assertIn("cannot be given back", conditions[1])
        options = [note for note in paper.notes() if note.startswith("If you wish, not in the total")]
        self.assertEqual(len(options), 3)
        self.assertEqual(sum("only one can be" in note for note in options), 2)
        self.bench.good("quote", "decline", number)
        self.assertIn("This quotation no longer stands: declined on 2026-11-25.", Paper(self.printed(number)).notes())

    def test_names_are_words_and_no_marks(self):
        self.bench.good("customer", "add", "odd", "--name", "Odd")
        with contextlib.closing(sqlite3.connect(self.bench.workshop)) as base:  # what no command would take, and an old file may hold
            base.execute("UPDATE customer_address SET name = ?, address = ? WHERE name = 'Odd'",
                         ("Ö'Brien <b>& \u0001\u0085\ufffeSøn</b> ]]>\u202e", "1 <Way>\n\nBourn & Co"))
            base.commit()
        number, shown = self.quoted(self.bench.write("odd.toml", ODD), "--customer", "odd")
        text = self.printed(number)
        self.assertNotIn("<script", text)
        self.assertNotIn("<b>", text)
        self.assertEqual([c for c in text if ord(c) < 32 and c != "\n"], [])
        paper = Paper(text)
        self.check_sums(paper, shown)
        self.assertIn("<script>alert(1)</script> & ]]> 'Gæst' \"漢字\" 𝔅", paper.notes()[0])
        self.assertEqual(paper.text("cac:BuyerCustomerParty/cac:Party/cac:PartyName/cbc:Name"), "Ö'Brien <b>& ␁\ufffd\ufffdSøn</b> ]]>\u202e")
        self.assertEqual([line.text for line in paper.all("cac:BuyerCustomerParty/cac:Party/cac:PostalAddress/cac:AddressLine/cbc:Line")],
                         ["1 <Way>", "Bourn & Co"])

    def test_a_workshop_and_a_customer_that_say_nothing(self):
        self.bench.good("workshop", "set", "maker.name=", "maker.address=", "maker.email=", "maker.country=")
        number, shown = self.quoted(self.bench.write("small.toml", SMALL))
        paper = Paper(self.printed(number))
        self.check_sums(paper, shown)
        for part in paper.root.iter():
            if part.tag != "{%s}SellerSupplierParty" % SPACES["cac"]:
                self.assertTrue(len(part) or (part.text or "").strip(), part.tag)

    def test_nothing_of_the_inside_is_in_it_nor_in_its_name(self):
        self.bench.good("workshop", "set", "year.pay=87130.00", "year.charges=0.00", "year.hours=1000 h")
        self.bench.good("material", "price", "goat-moss-08", "--pack", "0.60 m2", "--price", "69.50", "--supplier", "Zwyxq Hides")
        self.bench.good("material", "change", "goat-moss-08", "--spoil", "7.31 %")
        number, _ = self.quoted(str(BOOKS / "ferry_songs.toml"))
        for words in ([], ["--level", "one-price", "-o", "offer.xml"]):
            answer = self.bench.json("quote", "print", "1", "--as", "ubl", *words)
            text = (self.bench.folder / answer["file"]).read_text(encoding="utf-8")
            for sentinel in SENTINELS:
                self.assertNotIn(sentinel.lower(), text.lower())
                self.assertNotIn(sentinel.lower(), answer["file"].lower())
        self.assertEqual(sorted(path.name for path in self.bench.folder.glob("*.xml")), ["offer.xml", f"quotation-{number}.xml"])

    def test_what_cannot_be_is_refused_and_writes_nothing(self):
        self.bench.good("quote", "make", self.bench.write("small.toml", SMALL))
        for words, said in ((["--level", "internal"], b"UBL is what the customer gets"), (["--letter"], b"not laid on paper"),
                            (["--as", "ubm"], b'did you mean "ubl"')):
            done = self.bench.run("quote", "print", "1", *([] if "--as" in words else ["--as", "ubl"]), *words)
            self.assertEqual(done.returncode, 2)
            self.assertIn(said, b" ".join(done.stderr.split()))
        self.bench.good("quote", "print", "1", "--as", "ubl", "--dry-run")
        self.assertEqual(list(self.bench.folder.glob("*.xml")), [])


class OtherCurrencies(Printed):
    """The same workshop in money of no digit and of three."""

    def founded(self, currency):
        self.bench.workshop.unlink()
        founding = ["--on", "2026-01-05"]
        self.bench.good(*founding, "workshop", "new", "--name", "Other", "--currency", currency)
        text = (ROOT / "sample_data" / "workshop.commands").read_text(encoding="utf-8").replace("\\\n", " ")
        if DIGITS[currency] == 0:
            text = re.sub(r"(--price |--carriage |=)(\d+)\.(\d\d)\b", r"\1\2\3", text)
        for line in text.splitlines():
            if line and not line.startswith("#"):
                self.bench.good(*founding, *shlex.split(line))

    def test_currencies_of_no_digit_and_of_three(self):
        for currency, price, carriage in (("JPY", "61737", "777"), ("BHD", "617.371", "7.777")):
            with self.subTest(currency=currency):
                self.founded(currency)
                book = self.bench.write("die.toml", AT_COST)
                for mode in ("included", "added"):
                    self.bench.good("workshop", "set", f"tax.mode={mode}")
                    number, shown = self.quoted_at(price, book, "--carriage", carriage, "--discount", "7 %",
                                                   "--discount-because", "a friend")
                    self.check_sums(Paper(self.printed(number)), shown)


if __name__ == "__main__":
    Printed.endband, Printed.sample = sys.argv[1], sys.argv[2]
    unittest.main(argv=sys.argv[:1] + sys.argv[3:])
