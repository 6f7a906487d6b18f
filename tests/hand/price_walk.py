#!/usr/bin/env python3
"""One price walked by hand, from what a buyer abroad pays to what the binder keeps.

usage: price_walk.py            prints each line; tests/engine/pricing/walk_by_hand_test.cpp holds the program's walk against them

Nothing here is shared with the program; the order of the steps is that of section 13 of the trade's notes. The place is
invented. A ledger and its box are sold through it for 480.00 in its money, tax included: 7 % on the book, 19 % on the box
and on carriage. It takes 0.25 for a listing, anew every 100 days (the book is sold after 290), 9 % of the goods up to 200.00
and 6 % of the part above, and for the payment 3.2 % and 0.45 of all that is paid. One of the buyer's francs is 1.04 of the
binder's money, of which the exchange keeps 1.5 %.
"""

import math
from fractions import Fraction as F


def half_away(x):
    return math.floor(abs(F(x)) + F(1, 2)) * (1 if x >= 0 else -1)


# --- the binder's side, in cents of the binder's money
BOOK, BOX = 14000, 6000  # what each costs by itself: a price is shared by it
COST = 21500             # the cost sheet, with what stands with neither
CARRIAGE = 1240          # what the parcel costs, without tax
RATE_AN_HOUR = F(36000 * 100, 1200) + F(9000 * 100, 1200)  # pay and overhead of a year, over 1,200 hours

# --- the outlet's, in cents of its money
TICKET = 48000
RATE, SPREAD = F(104, 100), F(15, 1000)
BOOK_TAX, FULL_TAX = F(7, 100), F(19, 100)
RETURNED, FAULTY, LOST = F(4, 100), F(1, 100), F(5, 1000)
HANDLING, MENDING = F(1, 2), F(3)  # hours
LOSS_OF_VALUE, CARRIAGE_BACK = F(12, 100), 950
INSURED, EXCESS = 15000, 2500


def walked():
    lines = {}
    book = TICKET * BOOK // (BOOK + BOX)
    box = TICKET - book
    assert book * (BOOK + BOX) == TICKET * BOOK  # it divides
    sent = half_away(CARRIAGE / RATE)
    shown = sent + half_away(sent * FULL_TAX)
    within = lambda gross, rate: half_away(gross * rate / (1 + rate))
    lines["goods_shown"] = TICKET
    lines["carriage_shown"] = shown
    lines["tax"] = within(book, BOOK_TAX) + within(box + shown, FULL_TAX)
    lines["paid"] = TICKET + shown
    lines["goods"] = TICKET - within(book, BOOK_TAX) - within(box, FULL_TAX)

    listings = 0
    day = 0
    while day < 290:
        listings, day = listings + 1, day + 100
    lines["listing"] = listings * 25
    goods = lines["goods"]
    lines["commission"] = half_away(min(goods, 20000) * F(9, 100) + max(0, goods - 20000) * F(6, 100))
    lines["payment"] = half_away(lines["paid"] * F(32, 1000)) + 45
    lines["all_fees"] = lines["listing"] + lines["commission"] + lines["payment"]
    lines["payout"] = lines["paid"] - lines["all_fees"]

    lines["exchange_cost"] = half_away(lines["payout"] * RATE * SPREAD)
    lines["received"] = half_away(lines["payout"] * RATE) - lines["exchange_cost"]
    lines["tax_due"] = half_away(lines["tax"] * RATE)
    lines["carriage"] = CARRIAGE
    lines["yours"] = lines["received"] - lines["tax_due"] - CARRIAGE
    lines["price"] = half_away(goods * RATE)

    # For each that stays sold, p / (1 - p) come home and are sold again; the place keeps its listing and the payment's fee.
    kept = (lines["listing"] + lines["payment"]) * RATE
    home = CARRIAGE + CARRIAGE_BACK + kept + HANDLING * RATE_AN_HOUR + LOSS_OF_VALUE * lines["price"]
    gone = max(0, COST + CARRIAGE - max(0, INSURED - EXCESS))
    lines["returns"] = half_away(RETURNED / (1 - RETURNED) * home + FAULTY * MENDING * RATE_AN_HOUR + LOST * gone)
    lines["cost"] = COST
    lines["left"] = lines["yours"] - lines["returns"] - COST
    return lines


if __name__ == "__main__":
    for name, minor in walked().items():
        print(name, minor)
