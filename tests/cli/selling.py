#!/usr/bin/python3
"""Selling as a binder does it: places, prices, options, a budget, what a customer must be told, listings.

usage: selling.py ENDBAND SAMPLE_WORKSHOP
"""

import sys
import unittest
from fractions import Fraction

import program

BOOK = """endband = 1
model = "case"
title = "Winds"
height = "210 mm"
width = "148 mm"
pages = 160
[[options]]
words = "with a slipcase"
change = "box.kind = slipcase"
[[options]]
words = "without the lettering"
change = "without = lettering"
[[options]]
words = "half as thick"
change = "pages = 80"
"""
MARKET = """endband = 1
name = "A market of ours"
kind = "marketplace"
days_to_sell = 100
[[fees]]
name = "share"
of = "paid"
share = "9 %"
[[fees]]
name = "list"
per = "listing"
fixed = "2.00"
every_days = 30
[[fees]]
name = "big"
of = "goods"
share = "0 %"
steps_on = "whole"
[[steps]]
fee = "big"
from = "600.00"
share = "3 %"
"""
SHOP = """endband = 1
name = "A shop"
kind = "trade"
discount = "35 %"
"""
FAR = MARKET.replace("A market of ours", "Far").replace('kind = "marketplace"', 'kind = "marketplace"\ncurrency = "USD"')
PARCEL = """endband = 1
name = "Parcel"
divisor = 5000
cover = "100.00"
[[zones]]
name = "home"
to = "DE"
[[prices]]
zone = "home"
up_to = "2 kg"
price = "5.00"
[[prices]]
zone = "home"
up_to = "10 kg"
price = "9.00"
[[insurance]]
up_to = "500.00"
price = "3.00"
[[insurance]]
up_to = "3000.00"
price = "8.00"
"""


def cents(money):
    return round(Fraction(money["amount"]) * 100)


class Selling(unittest.TestCase):
    def setUp(self):
        self.bench = program.Bench(ENDBAND, SAMPLE)
        self.bench.__enter__()
        self.addCleanup(self.bench.__exit__)
        for name, text in (("book.toml", BOOK), ("market.toml", MARKET), ("shop.toml", SHOP), ("far.toml", FAR),
                           ("parcel.toml", PARCEL)):
            self.bench.write(name, text)
        self.bench.good("outlet", "add", "market", "market.toml")
        self.bench.good("outlet", "add", "shop", "shop.toml")

    def refused(self, *words, code, exit_code):
        done = self.bench.run("--json", *words)
        self.assertEqual(done.returncode, exit_code, done.stdout + done.stderr)
        self.assertIn(code.encode(), done.stderr)
        return done.stderr.decode()

    def price(self, *words):
        return self.bench.json("listing", "price", "book.toml", *words)

    def test_a_walk_adds_up_and_no_lower_ticket_keeps_the_margin(self):
        told = self.price("--through", "market", "--margin", "20 %")
        walk = told["through"][0]["walk"]
        self.assertEqual(cents(walk["paid"]), cents(walk["goods_shown"]) + cents(walk["carriage_shown"]) + cents(walk["cash_rounding"]))
        self.assertEqual(cents(walk["all_fees"]), sum(cents(fee["amount"]) for fee in walk["fees"]))
        self.assertEqual(cents(walk["payout"]), cents(walk["paid"]) - cents(walk["all_fees"]))
        self.assertEqual(cents(walk["yours"]), cents(walk["received"]) - cents(walk["tax_due"]) - cents(walk["carriage"]))
        self.assertEqual(cents(walk["left"]), cents(walk["yours"]) - cents(walk["returns"]) - cents(walk["cost"]))
        listing = next(fee for fee in walk["fees"] if fee["name"] == "list")
        self.assertEqual(cents(listing["amount"]), 800)  # 100 days at 30 each: four periods
        self.assertGreaterEqual(Fraction(told["through"][0]["margin"]), Fraction(1, 5))
        below = cents(walk["ticket"]) - 500  # prices of the sample are multiples of 5.00
        lower = self.price("--through", "market", "--at-price", f"{below / 100:.2f}")
        self.assertLess(Fraction(lower["through"][0]["margin"]), Fraction(1, 5))

    def test_each_goal_is_met_by_its_own_measure(self):
        walk = lambda *goal: self.price("--through", "market", *goal)["through"][0]
        self.assertGreaterEqual(cents(walk("--profit", "50")["walk"]["left"]), 5000)
        self.assertGreaterEqual(cents(walk("--hourly", "40")["hourly"]), 4000)
        self.assertGreaterEqual(cents(walk("--leave", "400")["walk"]["yours"]), 40000)
        self.refused("listing", "price", "book.toml", "--through", "market", "--profit", "50", "--leave", "400",
                     code="contradiction", exit_code=2)
        self.refused("listing", "price", "book.toml", "--through", "market", "--margin", "92 %", code="bad-goal", exit_code=2)

    def test_side_by_side_with_one_ticket_and_a_sale(self):
        told = self.price("--through", "all", "--one-price", "--sale", "15 %")
        self.assertEqual([each["outlet"] for each in told["through"]], ["market", "shop"])
        for each in told["through"]:
            self.assertEqual(each["walk"]["ticket"], told["one_price"])
            self.assertGreaterEqual(Fraction(each["margin"]), Fraction(18, 100))
            ticket = cents(each["walk"]["ticket"])
            trade = round(ticket * Fraction(35, 100)) if each["outlet"] == "shop" else 0
            self.assertLess(cents(each["on_sale"]["left"]), cents(each["walk"]["left"]))
            self.assertEqual(cents(each["walk"]["goods_shown"]), ticket - trade)

    def test_tickets_in_other_money_need_a_rate(self):
        self.bench.good("outlet", "add", "far", "far.toml")
        told = self.refused("listing", "price", "book.toml", "--through", "far", code="missing-setting", exit_code=1)
        self.assertIn("rates exchange USD", told)
        self.bench.good("rates", "exchange", "USD", "0.80", "--taken", "2 %")
        walk = self.price("--through", "far")["through"][0]["walk"]
        self.assertEqual(walk["ticket"]["currency"], "USD")
        self.assertEqual(walk["left"]["currency"], "EUR")
        gross = round(cents(walk["payout"]) * Fraction(8, 10))
        self.assertEqual(cents(walk["received"]) + cents(walk["exchange_cost"]), gross)
        self.assertIn("listing price", self.refused("quote", "make", "book.toml", "--through", "far", code="rule-refused", exit_code=1))

    def test_where_a_higher_ticket_leaves_less_is_said(self):
        told = self.price("--through", "market", "--at-price", "590")
        dip = told["through"][0]["dips"][0]
        self.assertEqual(dip["fee"], "big")
        at = lambda cents_: self.price("--through", "market", "--at-price", f"{cents_ / 100:.2f}")["through"][0]["walk"]
        first = cents(dip["first"])
        self.assertLess(cents(at(first)["left"]), cents(at(first - 500)["left"]))
        self.assertIn("you keep less", self.bench.good("listing", "price", "book.toml", "--through", "market", "--at-price", "590"))

    def test_an_outlet_that_takes_everything_is_refused_when_it_is_written(self):
        self.bench.write("greedy.toml", MARKET.replace('share = "9 %"', 'share = "97 %"'))
        before = self.bench.workshop.read_bytes()
        self.refused("outlet", "add", "greedy", "greedy.toml", code="bad-goal", exit_code=2)
        self.assertEqual(self.bench.workshop.read_bytes(), before)
        self.refused("outlet", "add", "market", "market.toml", code="rule-refused", exit_code=1)
        self.bench.write("holes.toml", MARKET.replace('share = "0 %"\n', ""))
        self.assertIn("holes.toml", self.refused("outlet", "add", "holes", "holes.toml", code="contradiction", exit_code=2))
        self.refused("outlet", "add", "none", "missing.toml", code="file-missing", exit_code=3)

    def test_terms_change_from_a_day_on_and_quotes_keep_theirs(self):
        made = self.bench.json("quote", "make", "book.toml", "--through", "market")
        self.bench.write("dearer.toml", MARKET.replace('"9 %"', '"19 %"'))
        self.bench.good("outlet", "change", "market", "dearer.toml")
        self.assertEqual(self.bench.json("quote", "explain", "1")["selling"]["walk"], made["selling"]["walk"])
        dearer = self.bench.json("quote", "make", "book.toml", "--through", "market")
        self.assertGreater(cents(dearer["quote"]["total"]), cents(made["quote"]["total"]))
        self.assertIn("All is well", self.bench.good("workshop", "check"))
        self.bench.good("outlet", "change", "market", "--gone")
        self.refused("quote", "make", "book.toml", "--through", "market", code="unknown-code", exit_code=2)

    def test_options_are_true_differences_and_not_in_the_total(self):
        made = self.bench.json("quote", "make", "book.toml")
        options = {option["words"]: option for option in made["options"]}
        self.assertEqual(len(options), 3)
        plain = cents(made["quote"]["total"])
        for words, change in (("with a slipcase", '[box]\nkind = "slipcase"\n'), ("half as thick", None)):
            text = BOOK.split("[[options]]")[0] + (change or "")
            if change is None:
                text = text.replace("pages = 160", "pages = 80")
            self.bench.write("other.toml", text)
            other = self.bench.json("quote", "make", "other.toml", "--dry-run")
            self.assertEqual(cents(other["quote"]["total"]) - plain, cents(options[words]["shown"]), words)
            self.assertEqual(cents(other["quote"]["left"]) - cents(made["quote"]["left"]), cents(options[words]["left"]), words)
        page = self.bench.json("quote", "show", "1")
        self.assertEqual([option["words"] for option in page["options"]], [option["words"] for option in made["options"]])
        self.assertEqual(page["total"], made["quote"]["total"])

    def test_a_budget_finds_the_fewest_changes(self):
        plain = self.bench.json("quote", "make", "book.toml", "--dry-run")
        total = cents(plain["quote"]["total"])
        within = lambda sum_: self.bench.json("quote", "make", "book.toml", "--dry-run", "--budget", f"{sum_ / 100:.2f}")["budget"]
        self.assertEqual(within(total)["sets"], [])
        tight = within(total - 500)
        self.assertTrue(tight["sets"])
        for each in tight["sets"]:
            self.assertLessEqual(cents(each["total"]), total - 500)
        sizes = [len(each["changes"]) for each in tight["sets"]]
        self.assertEqual(sizes, sorted(sizes))
        self.assertEqual(tight["possible"], 8)
        none = within(5000)
        self.assertEqual(none["sets"], [])
        self.assertIsNotNone(none["nearest"])

    def test_a_discount_has_its_reason_and_is_off_the_price(self):
        plain = self.bench.json("quote", "make", "book.toml", "--dry-run")
        self.refused("quote", "make", "book.toml", "--discount", "10 %", code="bad-command", exit_code=2)
        made = self.bench.json("quote", "make", "book.toml", "--discount", "10 %", "--discount-because", "a friend of the house")
        ticket = cents(plain["offer"]["goods_shown"])
        self.assertEqual(cents(made["quote"]["total"]), ticket - round(ticket * Fraction(1, 10)))
        self.assertIn("a friend of the house", self.bench.good("quote", "show", "1"))
        gift = self.bench.json("quote", "make", "book.toml", "--discount", "100 %", "--discount-because", "a wedding")
        self.assertEqual(cents(gift["quote"]["total"]), 0)
        self.assertIn("All is well", self.bench.good("workshop", "check"))

    def test_a_parcel_is_weighed_insured_and_priced(self):
        self.bench.good("rates", "carriage", "parcel", "parcel.toml")
        made = self.bench.json("quote", "make", "book.toml", "--service", "parcel", "--to", "DE")
        sent = made["selling"]["sent_by"]
        self.assertEqual(sent["counted_mg"], max(sent["mass_mg"], sent["volumetric_mg"]))
        self.assertEqual(cents(sent["price"]), 500 if sent["counted_mg"] <= 2_000_000 else 900)
        goods = cents(made["quote"]["total"]) - round((cents(sent["price"]) + cents(sent["insurance"])) * Fraction(119, 100))
        self.assertLessEqual(goods, cents(sent["insured"]))
        self.assertEqual(cents(sent["insurance"]), 300 if goods <= 50000 else 800)
        told = self.refused("quote", "make", "book.toml", "--service", "parcel", "--to", "AT", code="unknown-code", exit_code=2)
        self.assertIn("AT", told)
        self.refused("quote", "make", "book.toml", "--service", "parcel", "--to", "DE", "--carriage", "5", code="contradiction", exit_code=2)

    def test_a_quote_is_sent_when_it_says_what_a_customer_must_be_told(self):
        self.bench.good("quote", "make", "book.toml", "--customer", "ida-quill")
        told = self.refused("quote", "send", "1", code="rule-refused", exit_code=1)
        self.assertIn("--delivery", told)
        self.assertIn("--made-to", told)
        self.bench.good("workshop", "set", "text.options=")
        self.bench.good("quote", "revise", "1", "book.toml", "--delivery", "collected", "--made-to", "options")
        self.assertIn("text.options", self.refused("quote", "send", "1", code="rule-refused", exit_code=1))
        self.bench.good("workshop", "set", "text.options=You may give it back.")
        self.bench.good("quote", "send", "1")
        self.assertIn("You may give it back.", self.bench.good("quote", "show", "1"))
        self.refused("quote", "make", "book.toml", "--made-to", "spec", code="bad-command", exit_code=2)

    def test_restricted_goods_go_abroad_with_their_papers(self):
        self.bench.good("material", "change", "cloth-navy", "--restricted")
        self.bench.write("navy.toml", BOOK.split("[[options]]")[0] + '[cover]\nmaterial = "cloth-navy"\n')
        self.bench.good("quote", "make", "navy.toml", "--customer", "yuki-arden", "--delivery", "parcel", "--made-to", "business")
        self.assertIn("cloth-navy", self.refused("quote", "send", "1", code="rule-refused", exit_code=1))
        self.bench.good("quote", "send", "1", "--permit", "no. 12 of the port")

    def test_listings_are_kept_and_renewals_that_eat_the_margin_are_told(self):
        posted = self.bench.json("listing", "post", "book.toml", "--through", "market", "--profit", "10")
        self.assertEqual(posted["number"], 1)
        listed = self.bench.json("listing", "list")["listings"][0]
        self.assertEqual((listed["days"], listed["renewals"], listed["renewals_eat_it"]), (0, 0, False))
        later = self.bench.json("listing", "list", "--on", "2027-06-30")["listings"][0]
        self.assertTrue(later["renewals_eat_it"])
        self.assertIn("renewals took", self.bench.good("listing", "list", "--on", "2027-06-30"))
        down = self.bench.json("listing", "change", "1", "--at-price", "300", "--on", "2026-12-10")
        self.assertEqual(down["lowest_in_30_days"], posted["ticket"])
        told = self.price("--through", "market", "--at-price", "350", "--on", "2026-12-20")
        self.assertEqual(cents(told["through"][0]["lowest_in_30_days"]), 30000)
        self.bench.good("listing", "end", "1", "--sold", "--on", "2026-12-21")
        self.refused("listing", "end", "1", "--on", "2026-12-22", code="rule-refused", exit_code=1)
        self.assertEqual(self.bench.json("listing", "list", "--on", "2026-12-22")["listings"], [])

    def finish(self, number):
        for point in self.bench.json("job", "show", number)["still_open"]:
            if point["what"] == "material":
                self.bench.good("job", "use", number, point["name"], "--without")
            if point["what"] == "outside":
                self.bench.good("job", "use", number, "--outside", point["name"], "--price", "20.00")
        self.bench.good("job", "finish", number)

    def test_a_finished_book_is_priced_from_what_it_cost(self):
        self.bench.good("quote", "make", "book.toml", "--customer", "ida-quill")
        self.bench.good("quote", "accept", "1")
        self.bench.good("job", "time", "1", "sewing", "5 h")
        self.refused("listing", "price", "1", "--through", "market", code="rule-refused", exit_code=1)
        self.finish("1")
        told = self.bench.json("listing", "price", "1", "--through", "market")
        self.assertEqual(told["cost"], self.bench.json("job", "show", "1")["cost"]["total"])
        self.assertEqual(told["work_s"], 5 * 3600)
        self.bench.good("listing", "post", "1", "--through", "market")
        self.bench.good("listing", "post", "1", "--through", "shop")
        self.refused("listing", "post", "1", "--through", "market", code="rule-refused", exit_code=1)
        self.assertEqual(self.bench.json("listing", "end", "1", "--sold")["still_listed"], [2])
        self.refused("listing", "post", "1", "--through", "market", code="rule-refused", exit_code=1)

    def test_a_listing_leaves_on_the_list_what_it_left_when_it_was_posted(self):
        self.bench.good("rates", "tax", "reduced", "7 %")
        self.bench.good("workshop", "set", "tax-class.text-block=reduced")
        posted = self.bench.json("listing", "post", "book.toml", "--through", "shop")
        self.assertEqual(self.bench.json("listing", "list")["listings"][0]["left_at_first"], posted["left"])
        self.bench.good("workshop", "undo", "--on", "2026-11-25")
        self.assertIn("All is well", self.bench.good("workshop", "check"))

    def test_copies_share_the_sum_that_is_wanted(self):
        self.bench.write("five.toml", "endband = 1\ncopies = 5\n" + BOOK.split("[[options]]")[0].split("\n", 1)[1])
        made = self.bench.json("quote", "make", "five.toml", "--leave", "2500")
        shown = [cents(each["shown"]) for each in made["order"]["copy_prices"]]
        self.assertEqual(shown, sorted(set(shown)))

    def test_what_weighs_is_told_largest_first(self):
        self.bench.good("quote", "make", "book.toml", "--through", "market")
        weighed = self.bench.json("quote", "weigh", "1")
        lefts = [abs(cents(each["left"])) for each in weighed["inputs"]]
        self.assertEqual(lefts, sorted(lefts, reverse=True))
        self.assertEqual({"hours", "material", "fee"} & {each["input"] for each in weighed["inputs"]}, {"hours", "material", "fee"})
        self.refused("quote", "weigh", "1", "--change", "0 %", code="out-of-range", exit_code=2)


if __name__ == "__main__":
    ENDBAND, SAMPLE = sys.argv[1:3]
    unittest.main(argv=sys.argv[:1])
