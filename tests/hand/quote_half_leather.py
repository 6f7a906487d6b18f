#!/usr/bin/python3
"""The quote of half_leather.toml on 2026-11-25, worked by hand: a case in half leather with paper sides.

Nothing here is shared with the program: the inputs are transcribed from the description, the demo workshop's catalogue and
its steps; the formulas are the trade's, each with its line beside it. Where the trade has no formula, the common practice
that the program states is transcribed as one more input. The rounding of quantities and money, and the house's year, are
those of the other quote that is worked by hand.

Prints one JSON document: figures, bill, work, cost, ladder, offer. Standard library only.
"""

import json
import math
from fractions import Fraction as F
from pathlib import Path

from quote_pocket_herbal import (CONTINGENCY, DEPOSIT_SHARE, DEPOSIT_STEP, ENQUIRIES_AN_ORDER, LABOUR, LEAST_CHARGE,
                                 LEAST_HOURLY, MIN, OVERHEAD, PRICE_STEP, RECOVERED, SALES_TAX, TAX, angle_taken,
                                 half_away, mean, rung, run, sheets, spread, surface, tax_within, tex, thread_thickness, um,
                                 up)

BOOK = Path(__file__).resolve().parent / "half_leather.toml"
PI = math.pi

# ---------------------------------------------------------------------------------------- inputs: the book, mm
H, W, PAGES, FOLDS, SHEETS_A_SECTION = 232.0, 158.0, 210, 1, 4
COMPRESSION, HEAD_TAIL_TRIM, FORE_EDGE_TRIM = 0.97, 2.0, 3.0
ENDPAPERS_EACH_END, EDGES_DONE = 2, 1
SUPPORTS, SWELL_KEPT, KETTLE, STITCH_ALLOWANCE = 3, 0.55, 12.0, 20.0
NEEDLE_LENGTH, NEEDLE_WASTE = 1200.0, 130.0
SLIP, FRAME, HOLES_A_SUPPORT = 25.0, 150.0, 2
ROUND, MULL_REACH, MULL_SETBACK = math.radians(100), 30.0, 12.0
SQUARE, SETBACK = 3.5, 6.0                    # a French groove
REACH_SHARE, TURN_IN, LAP, PARED = 0.22, 18.0, 3.0, 0.6
ENDBANDS, CORNERS = 2, 4
MARGIN, CARRIAGE = F(18, 100), 980

# ------------------------------------------------------------------------------------- inputs: material properties
PAPER, PAPER_SHEET = 0.15, (900, 640)         # text-laid-110; the second side is along the grain
END, END_SHEET = 0.14, (480, 640)             # end-ingres-grey
THREAD_NUMBER, THREAD_PLY, THREAD_DENSITY = 25, 3, 900.0
TAPE_WIDTH = 13.0                             # tape-linen-13
MULL_ROLL, KRAFT_SHEET, STIFFENER, STIFFENER_SHEET = 1000, (700, 1000), 0.6, (700, 1000)
BOARD, BOARD_SHEET = 2.0, (700, 1000)         # board-mill-20
SIDES_SHEET, SIDES = (500, 700), 0.13         # side-marbled-garnet
ENDBAND_WIDTH = 14.0                          # endband-wine-cream

# Common practice that neither the description nor the catalogue says.
WAX_SHARE = F(10, 100)                        # of the mass of the thread
COATS_OF_PASTE = 2                            # on the leather


def structure():
    f = {}
    # leaves = N 2^f; pages = 2 leaves; n = ceil(N / s)
    leaves_a_sheet = 2**FOLDS
    f["sheets"] = math.ceil(PAGES / (2 * leaves_a_sheet))
    f["sections"] = math.ceil(f["sheets"] / SHEETS_A_SECTION)
    f["last_section_sheets"] = f["sheets"] - (f["sections"] - 1) * SHEETS_A_SECTION
    f["leaves"] = f["sheets"] * leaves_a_sheet
    f["pages"] = 2 * f["leaves"]
    f["creep"] = (SHEETS_A_SECTION - 1) * PAPER * PI / 2
    f["sheet_height"] = H + 2 * HEAD_TAIL_TRIM
    f["sheet_width"] = 2 * (W + FORE_EDGE_TRIM)
    # of the folios of an end one leaf is pasted down
    f["free_endpaper_leaves"] = 2 * (2 * ENDPAPERS_EACH_END - 1)
    f["endpaper_thickness"] = f["free_endpaper_leaves"] * END
    t = f["block_thickness"] = f["leaves"] * PAPER * COMPRESSION + f["endpaper_thickness"]
    # sewing: each folded endpaper is sewn as a section. S = n d c
    n = f["sewn_sections"] = f["sections"] + 2 * ENDPAPERS_EACH_END
    d = f["thread_thickness"] = thread_thickness(THREAD_NUMBER, THREAD_PLY, THREAD_DENSITY)
    swell = f["swell"] = n * d * SWELL_KEPT
    # L = n [(H - 2k) + sum of the tapes' widths + 2 x 10]
    f["thread_length"] = n * ((H - 2 * KETTLE) + SUPPORTS * TAPE_WIDTH + STITCH_ALLOWANCE)
    f["needlefuls"] = math.ceil(f["thread_length"] / (NEEDLE_LENGTH - NEEDLE_WASTE))
    f["thread_taken"] = f["thread_length"] + f["needlefuls"] * NEEDLE_WASTE
    f["holes"] = n * (SUPPORTS * HOLES_A_SUPPORT + 2)
    # spine: B = T + S; C = T + 2h; R = C / (2 sin(theta/2)); arc = R theta; rise = R (1 - cos(theta/2))
    b = f["spine_width"] = t + swell
    f["cord_each"] = b + 2 * SLIP
    f["cord_length"] = SUPPORTS * (f["cord_each"] + FRAME)
    chord = f["chord"] = t + 2 * BOARD
    radius = f["spine_radius"] = chord / (2 * math.sin(ROUND / 2))
    arc = f["arc"] = radius * ROUND
    f["rise"] = radius * (1 - math.cos(ROUND / 2))
    f["swell_wanted"] = arc - t
    f["swell_least"] = 2 * BOARD
    f["angle_it_takes"] = math.degrees(angle_taken(b / chord))
    # mull arc + 2 reaches wide, H - 2 setbacks high; paper arc x H; the stiffener of a rounded back is as wide as the arc
    f["mull_width"] = arc + 2 * MULL_REACH
    f["mull_height"] = H - 2 * MULL_SETBACK
    f["spine_piece_width"] = arc
    # boards: H + 2 square; W - setback + square; the flat joint of a grooved case = setback + t
    bh = f["board_height"] = H + 2 * SQUARE
    bw = f["board_width"] = W - SETBACK + SQUARE
    joint = f["joint"] = SETBACK + BOARD
    # half: leather over the spine, the joints, and a share of each board; turned in at head and tail
    over = TURN_IN + BOARD
    reach = f["spine_reach"] = REACH_SHARE * bw
    f["cover_height"] = f["side_height"] = bh + 2 * over
    f["spine_cover_width"] = arc + 2 * joint + 2 * reach
    # corners: the diagonal = the reach, so L = sqrt2 reach; legs L + 2 (turn-in + t); area half that squared
    leg = f["corner_leather"] = math.sqrt(2) * reach
    cut = f["corner_cut"] = leg + 2 * over
    f["corners_area"] = CORNERS * cut**2 / 2
    f["corner_edges"] = CORNERS * (2 + math.sqrt(2)) * cut
    # sides: from the lap over the spine's leather to the turn-in of the fore-edge
    f["side_width"] = bw - reach + LAP + over
    # and trimmed across the corners, the lap within the slant of their leather: two halves of a square off each
    f["sides_area"] = 2 * (f["side_height"] * f["side_width"] - (leg - math.sqrt(2) * LAP + 2 * over) ** 2)
    f["cover_area"] = f["cover_height"] * f["spine_cover_width"]
    f["pare_length"] = 2 * (f["cover_height"] + f["spine_cover_width"])
    # head edge
    f["edges_area"] = EDGES_DONE * t * W
    # closed: leather on both sides of each board; the rise and the stiffener stand behind the joint
    f["closed_height"] = bh + 2 * PARED
    f["closed_width"] = bw + SETBACK + f["rise"] + STIFFENER + 2 * PARED
    f["closed_thickness"] = t + 2 * BOARD + 4 * PARED
    return f


# -------------------------------------------------------------------------------------------------- quantities
def needs(f):
    """What is in the book and what a use wastes by itself: code -> (net, taken), each in the material's base unit."""
    arc, leather = f["arc"], f["cover_area"] + f["corners_area"]
    q = {}

    def add(code, net, taken=None):
        a, b = q.get(code, (0, 0))
        q[code] = (a + net, b + (net if taken is None else taken))

    folios = 2 * ENDPAPERS_EACH_END
    add("text-laid-110", sheets(f["sheets"], PAPER_SHEET, um(f["sheet_height"]), um(f["sheet_width"])))
    add("end-ingres-grey", sheets(folios, END_SHEET, um(f["sheet_height"]), um(f["sheet_width"])))
    add("linen-25-3", run(f["thread_length"]), run(f["thread_taken"]))
    add("beeswax-block", half_away(WAX_SHARE * F(tex(THREAD_NUMBER, THREAD_PLY) * f["thread_taken"] / 1000)))
    add("tape-linen-13", SUPPORTS * run(f["cord_each"]), SUPPORTS * run(f["cord_each"] + FRAME))
    assert MULL_ROLL >= f["mull_width"]
    add("mull-heavy", um(f["mull_height"]))
    add("spine-kraft-90", sheets(1, KRAFT_SHEET, um(H), um(arc)))
    add("card-spine-06", sheets(1, STIFFENER_SHEET, um(f["board_height"]), um(f["spine_piece_width"])))
    add("board-mill-20", sheets(2, BOARD_SHEET, um(f["board_height"]), um(f["board_width"])))
    # two corners are the halves of one square
    add("goat-chestnut-08", um(f["cover_height"]) * um(f["spine_cover_width"]) + CORNERS * um(f["corner_cut"]) ** 2 // 2)
    add("side-marbled-garnet", sheets(2, SIDES_SHEET, um(f["side_height"]), um(f["side_width"])))
    # glue: the spine before it is rounded, then under mull and paper, the endbands; the sides
    for area in (f["spine_width"] * H, arc * (f["mull_height"] + H), ENDBANDS * arc * ENDBAND_WIDTH, f["sides_area"]):
        add("pva-bindery", spread(surface(area), 140_000))
    # paste: the leather, the two leaves put down
    add("paste-starch", spread(surface(leather), 45_000, coats=COATS_OF_PASTE))
    add("paste-starch", spread(surface(2 * H * W), 45_000))
    add("dressing-lanolin", spread(surface(leather), 25_000))
    add("endband-wine-cream", ENDBANDS * run(arc))
    add("edge-garnet", spread(surface(f["edges_area"]), 40_000))
    add("carton-m", 1000)
    add("padding-kraft", run(2 * 2 * (f["closed_width"] + f["closed_thickness"])))  # twice round the closed book
    return q


# ------------------------------------------------------------------------------------------------ bill and prices
# code: (pack in base units, price in minor units, carriage, spoil, least spoil)
PRICES = {
    "text-laid-110": (100_000, 5800, 450, F(4, 100), 2000),
    "end-ingres-grey": (25_000, 2750, 0, F(5, 100), 1000),
    "linen-25-3": (350_000_000, 1460, 0, F(2, 100), 0),
    "beeswax-block": (200_000, 640, 0, 0, 0),
    "tape-linen-13": (50_000_000, 1240, 0, F(3, 100), 0),
    "mull-heavy": (5_000_000, 2450, 0, F(5, 100), 0),
    "spine-kraft-90": (50_000, 1650, 0, F(5, 100), 0),
    "card-spine-06": (25_000, 2900, 0, F(5, 100), 0),
    "board-mill-20": (20_000, 7400, 900, F(3, 100), 0),
    "goat-chestnut-08": (640_000_000_000, 6600, 320, F(3, 100), 0),
    "side-marbled-garnet": (5_000, 4400, 380, F(5, 100), 1000),
    "pva-bindery": (1_000_000, 1450, 0, F(8, 100), 0),
    "paste-starch": (1_000_000, 860, 0, F(8, 100), 0),
    "dressing-lanolin": (250_000, 1780, 0, F(5, 100), 0),
    "endband-wine-cream": (10_000_000, 820, 0, F(5, 100), 0),
    "edge-garnet": (50_000, 760, 0, F(15, 100), 0),
    "carton-m": (25_000, 2750, 0, 0, 0),
    "padding-kraft": (150_000_000, 2200, 0, 0, 0),
}
USABLE_SHARE = {"goat-chestnut-08": F(67, 100)}
RUIN = {"goat-chestnut-08": F(3, 100)}


def landed(code):
    _, price, carriage, _, _ = PRICES[code]
    tax = half_away((price + carriage) * TAX)
    return price + carriage + tax - half_away(tax * RECOVERED)


def bill(q):
    """taken = net / (1 - s), at least net + least spoil; of a skin, what the usable share makes of it; all as used."""
    rows = {}
    for code, (net, taken) in q.items():
        pack, _, _, spoil, least = PRICES[code]
        base = up(F(taken) / USABLE_SHARE.get(code, 1))
        consumed = max(up(F(base) / (1 - F(spoil))), base + least)
        rows[code] = {"net": net, "consumed": consumed, "landed_pack": landed(code), "pack": pack,
                      "cost": half_away(F(consumed) * landed(code) / pack)}
    return rows


# --------------------------------------------------------------------------------------------------------- work
S = F(1, 60)
# step: (set-up low, likely, high; each low, likely, high) in minutes
STEPS = {
    "cut-sheets": (5, 8, 15, 8 * S, 12 * S, 25 * S),
    "fold-sheets": (2, 3, 6, 12 * S, 18 * S, 30 * S),
    "press-sections": (3, 5, 8, 4, 6, 10),
    "pierce-stations": (6, 10, 15, 25 * S, 40 * S, 70 * S),
    "make-endpapers": (3, 5, 10, 12, 18, 30),
    "set-up-frame": (5, 8, 12, 90 * S, 120 * S, 200 * S),
    "wax-thread": (1, 2, 4, 20 * S, 30 * S, 45 * S),
    "sew-sections": (6, 10, 15, 4, 6, 10),
    "glue-spine": (4, 6, 10, 6, 10, 15),
    "trim-edges": (10, 15, 25, 15, 20, 35),
    "sprinkle-edges": (8, 12, 20, 4, 7, 13),
    "round-spine": (2, 3, 5, 8, 12, 20),
    "back-spine": (5, 8, 12, 20, 30, 50),
    "line-spine": (4, 6, 10, 10, 15, 25),
    "cut-boards": (6, 10, 15, 5, 8, 14),
    "stick-endbands": (2, 3, 5, 3, 5, 8),
    "cut-leather": (8, 12, 20, 6, 9, 15),
    "pare-edges": (8, 12, 18, 10, 15, 28),
    "thin-leather": (8, 12, 20, 4, 6, 11),
    "cut-cloth": (5, 8, 12, 2, 4, 7),
    "mix-paste": (2, 3, 5, 12, 18, 30),
    "make-case": (10, 15, 25, 18, 28, 50),
    "put-on-corners": (4, 6, 10, 6, 9, 15),
    "put-on-sides": (6, 9, 14, 8, 12, 20),
    "case-in": (5, 8, 14, 12, 18, 30),
    "put-down-endpapers": (6, 9, 14, 9, 14, 22),
    "dress-leather": (3, 5, 8, 40 * S, 60 * S, 100 * S),
    "final-press": (4, 6, 10, 8, 12, 20),
    "answer-enquiry": (0, 0, 0, 15, 25, 50),
    "draw-proof": (5, 8, 15, 20, 35, 60),
    "photograph": (8, 12, 20, 12, 18, 30),
    "order-materials": (0, 0, 0, 12, 18, 30),
    "pack-parcel": (3, 5, 8, 15, 22, 35),
    "post-parcel": (0, 0, 0, 12, 20, 40),
    "keep-accounts": (0, 0, 0, 8, 12, 20),
}
# done again when the leather is ruined: all that is done to the covering, its sides too, but not the pot of paste nor
# what comes after the case
REPEATED = ["cut-leather", "cut-cloth", "pare-edges", "thin-leather", "make-case", "put-on-corners", "put-on-sides",
            "dress-leather"]


def counts(f):
    """How often each step meets its driver; once unless said here."""
    dm2 = F(f["cover_area"] + f["corners_area"]) / 10_000
    return {
        "cut-sheets": f["sheets"], "fold-sheets": f["sheets"], "pierce-stations": f["sewn_sections"],
        "set-up-frame": SUPPORTS, "wax-thread": f["needlefuls"], "sew-sections": f["sewn_sections"],
        "sprinkle-edges": EDGES_DONE, "cut-boards": 2, "stick-endbands": ENDBANDS, "cut-leather": 1 + CORNERS // 2,
        "pare-edges": F(f["pare_length"] + f["corner_edges"]) / 1000, "thin-leather": dm2, "cut-cloth": 2, "put-on-corners": CORNERS,
        "put-on-sides": 2, "put-down-endpapers": 2, "dress-leather": dm2, "answer-enquiry": ENQUIRIES_AN_ORDER,
    }


def work(f):
    often = counts(f)
    # a count is kept to the thousandth
    return {step: {"seconds": MIN * (mean(*times[:3]) + F(half_away(F(often.get(step, 1)) * 1000), 1000) * mean(*times[3:]))}
            for step, times in STEPS.items()}


# ---------------------------------------------------------------------------------------------- cost and price
def cost(b, w):
    materials = sum(row["cost"] for row in b.values())
    labour = {step: half_away(row["seconds"] * LABOUR) for step, row in w.items()}
    seconds = sum(row["seconds"] for row in w.values())
    overhead = half_away(seconds * OVERHEAD)
    # p / (1 - p) x (piece at landed cost + minutes of the repeated steps x (rate + overhead))
    again = sum(w[step]["seconds"] for step in REPEATED)
    ruin = {code: half_away(p / (1 - p) * (b[code]["cost"] + again * (LABOUR + OVERHEAD))) for code, p in RUIN.items()}
    before = materials + sum(labour.values()) + overhead + sum(ruin.values())
    contingency = half_away(before * CONTINGENCY)
    return {"materials": materials, "labour": sum(labour.values()), "labour_lines": labour, "overhead": overhead, "ruin": ruin,
            "contingency": contingency, "total": before + contingency, "seconds": seconds, "outlay": materials}


def offer(c):
    hours = c["seconds"] / 3600
    target = up(F(c["total"]) / (1 - MARGIN))
    shown = 0
    while shown - tax_within(shown) < max(target, LEAST_CHARGE):  # every price point: no lower one will do
        shown += PRICE_STEP
    net = shown - tax_within(shown)
    ladder = {
        "cash_floor": rung(c["outlay"], c), "walk_away": rung(c["outlay"] + half_away(LEAST_HOURLY * hours), c),
        "full_cost": rung(c["total"], c), "target": rung(target, c), "asked": rung(net, c),
    }
    carriage_shown = CARRIAGE + half_away(CARRIAGE * SALES_TAX)
    total = shown + carriage_shown
    deposit = max(up(F(total) * DEPOSIT_SHARE), c["outlay"])
    deposit = min(total, -(-deposit // DEPOSIT_STEP) * DEPOSIT_STEP)
    return ladder, {
        "goods_shown": shown, "goods": net, "carriage": CARRIAGE, "carriage_shown": carriage_shown,
        "tax": tax_within(total), "total": total, "deposit": deposit, "balance": total - deposit, "left": net - c["total"],
    }


def main():
    f = structure()
    b = bill(needs(f))
    w = work(f)
    c = cost(b, w)
    ladder, o = offer(c)
    print(json.dumps({"figures": f, "bill": b, "work": w, "cost": c, "ladder": ladder, "offer": o}, indent=1, default=str))


if __name__ == "__main__":
    main()
