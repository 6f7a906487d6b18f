#!/usr/bin/python3
"""The quote of marsh_box.toml on 2026-11-25, worked by hand: a drop-spine box alone.

Nothing here is shared with the program: the inputs are transcribed from the description, the demo workshop's catalogue and
its steps, and the box is put together layer by layer, from the book outwards, as it is at the bench. The rounding of
quantities and money, and the house's year, are those of the other quote that is worked by hand.

How pieces of several sizes lie on a sheet is the program's plan, replayed in compare.py. Standard library only.
"""

import math
from fractions import Fraction as F
from pathlib import Path

from quote_pocket_herbal import (CONTINGENCY, DEPOSIT_SHARE, DEPOSIT_STEP, ENQUIRIES_AN_ORDER, LABOUR, LEAST_CHARGE,
                                 LEAST_HOURLY, LEAST_KEPT, MIN, OVERHEAD, PRICE_STEP, RECOVERED, TAX, SALES_TAX, half_away, mean, rung,
                                 run, spread, surface, tax_within, um, up)

BOOK = Path(__file__).resolve().parent / "marsh_box.toml"

# ---------------------------------------------------------------------------------------------- inputs: the box, mm
BOOK_HEIGHT, BOOK_WIDTH, BOOK_THICKNESS, BOOK_GRAMS = F(262), F("188.5"), F(33), 1080
PLAY, TURN_IN, SQUARE, PADDING = F(1), F(16), F(3), F(12)
MARGIN, CARRIAGE = F(22, 100), 740
BOARD, CLOTH, PAPER = F("2.5"), F("0.42"), F("0.16")  # board-grey-25, buckram-slate, lining-sand-120
BOARD_G_M2, CLOTH_G_M2, PAPER_G_M2 = 1625, 340, 120
SHEET, ROLL = (700, 1000), 1070
GLUE_MG_M2, GLUE_SOLIDS = 140_000, F(54, 100)         # pva-bindery
CARTON, CARTON_GRAMS = (420, 320, 140), 420           # carton-l
KRAFT_G_M, KRAFT_TURNS = F(70 * 400, 1000), 2         # padding-kraft, 400 mm wide, twice round


def tray(inside_height, inside_width, inside_depth):
    """Base, walls, covering and lining of a tray that leaves so much inside: every wall is covered on its inner face, the
    floor bears the covering's turn-in and the lining."""
    walls = inside_depth + PAPER + CLOTH
    height = BOARD + CLOTH + inside_height + CLOTH + BOARD  # head wall to tail wall
    width = inside_width + CLOTH + BOARD                    # open side to fore-edge wall
    end = BOARD + TURN_IN                                   # round the end of a wall, and in
    return {
        "wall": walls, "height": height, "width": width, "end_wall": width - BOARD,
        "cloth_length": end + width + height + width + end,
        # under the base, its edge, up the wall, over it, down inside and onto the floor
        "cloth_width": TURN_IN + BOARD + walls + BOARD + walls + TURN_IN,
        "lining_height": inside_height, "lining_width": inside_width + BOARD + TURN_IN,
        # outside: covered on both ends, under the base and over the walls
        "over": (CLOTH + height + CLOTH, CLOTH + width + CLOTH, CLOTH + BOARD + walls + CLOTH),
    }


def structure():
    inner = tray(BOOK_HEIGHT + PLAY, BOOK_WIDTH + PLAY, BOOK_THICKNESS + PLAY)
    outer = tray(*(side + PLAY for side in inner["over"]))
    f = {"box_inner_height": BOOK_HEIGHT + PLAY, "box_inner_width": BOOK_WIDTH + PLAY, "box_inner_depth": BOOK_THICKNESS + PLAY}
    for name, made in (("inner", inner), ("outer", outer)):
        f.update({f"{name}_tray_{key}": value for key, value in made.items() if key != "over"})
    height, width, depth = outer["over"]
    f["box_case_board_height"] = SQUARE + height + SQUARE
    f["box_case_board_width"] = width + SQUARE  # flush at the spine
    # between the boards of the case, each with a turn-in and the lining on its inner face
    f["box_case_spine_width"] = CLOTH + PAPER + depth + PAPER + CLOTH
    joint = f["box_joint"] = 2 * BOARD + CLOTH
    opened = 2 * f["box_case_board_width"] + 2 * joint + f["box_case_spine_width"]
    f["box_case_cloth_height"] = f["box_case_board_height"] + 2 * (BOARD + TURN_IN)
    f["box_case_cloth_width"] = opened + 2 * (BOARD + TURN_IN)
    f["box_case_lining_height"] = f["box_case_board_height"] - 2 * SQUARE
    f["box_case_lining_width"] = opened - 2 * SQUARE
    f["box_height"] = CLOTH + f["box_case_board_height"] + CLOTH
    # the joint is the long side of a triangle as high as the board is thick
    f["box_width"] = float(CLOTH + f["box_case_board_width"] + CLOTH) + math.sqrt(joint**2 - BOARD**2)
    f["box_depth"] = CLOTH + BOARD + f["box_case_spine_width"] + BOARD + CLOTH
    f["parcel_height"], f["parcel_width"], f["parcel_thickness"] = f["box_height"], f["box_width"], f["box_depth"]
    f["packed_height"], f["packed_width"], f["packed_thickness"] = CARTON
    weigh(f)
    return {name: float(value) for name, value in f.items()}


def boards(f):
    """(count, height, width) of every board, item by item."""
    trays = [[(1, f[t + "height"], f[t + "width"])] for t in ("inner_tray_", "outer_tray_")]
    walls = [[(1, f[t + "height"], f[t + "wall"]), (2, f[t + "end_wall"], f[t + "wall"])] for t in ("inner_tray_", "outer_tray_")]
    case = [[(2, f["box_case_board_height"], f["box_case_board_width"])], [(1, f["box_case_board_height"], f["box_case_spine_width"])]]
    return trays + walls + case


def cloths(f):
    return [(f["inner_tray_cloth_length"], f["inner_tray_cloth_width"]), (f["outer_tray_cloth_length"], f["outer_tray_cloth_width"]),
            (f["box_case_cloth_height"], f["box_case_cloth_width"])]


def linings(f):
    return [(f["inner_tray_lining_height"], f["inner_tray_lining_width"]), (f["outer_tray_lining_height"], f["outer_tray_lining_width"]),
            (f["box_case_lining_height"], f["box_case_lining_width"])]


def joints(f):
    """mm2: the walls stand on the base and butt at the fore-edge; the base is glued down in the case."""
    total = 0
    for t in ("inner_tray_", "outer_tray_"):
        on_base = f[t + "height"] + 2 * f[t + "end_wall"]
        corners = 2 * f[t + "wall"]
        total += (on_base + corners) * BOARD + f[t + "height"] * f[t + "width"]
    return total


def area(pieces):
    return sum(h * w for h, w in pieces)


def weigh(f):
    board = sum(n * h * w for item in boards(f) for n, h, w in item)
    glued = joints(f) + area(cloths(f)) + area(linings(f))
    f["box_mass"] = (board * BOARD_G_M2 + area(cloths(f)) * CLOTH_G_M2 + area(linings(f)) * PAPER_G_M2
                     + glued * GLUE_MG_M2 * GLUE_SOLIDS / 1000) / F(10**6)
    f["packing_mass"] = CARTON_GRAMS + float(padding_mm(f)) / 1000 * float(KRAFT_G_M)
    f["book_mass"] = BOOK_GRAMS
    f["packed_mass"] = float(BOOK_GRAMS + f["box_mass"]) + f["packing_mass"]


def padding_mm(f):
    return KRAFT_TURNS * 2 * (f["box_width"] + float(f["box_depth"]))


# -------------------------------------------------------------------------------------------------- quantities
def cut_together(f):
    """Pieces of several sizes that are cut from one material: code -> [(height, width)], micrometres."""
    return {"board-grey-25": [(um(h), um(w)) for item in boards(f) for n, h, w in item for _ in range(n)],
            "buckram-slate": [(um(h), um(w)) for h, w in cloths(f)],
            "lining-sand-120": [(um(h), um(w)) for h, w in linings(f)]}


def needs(f, taken):
    """`taken`: of what is cut together, by a plan that was replayed."""
    q = {}

    def add(code, net):
        a, b = q.get(code, (0, 0))
        q[code] = (a + net, b + net)

    for code in cut_together(f):
        add(code, taken[code])
    for glued in (joints(f), area(cloths(f)), area(linings(f))):
        add("pva-bindery", spread(surface(glued), GLUE_MG_M2))
    add("carton-l", 1000)
    add("padding-kraft", run(padding_mm(f)))
    return q


# ------------------------------------------------------------------------------------------------ bill and prices
# code: (pack in base units, price in minor units, carriage, spoil, least spoil)
PRICES = {
    "board-grey-25": (20_000, 5200, 900, F(3, 100), 0),
    "buckram-slate": (5_000_000, 8900, 0, F(4, 100), 0),
    "lining-sand-120": (25_000, 3400, 0, F(5, 100), 1000),
    "pva-bindery": (1_000_000, 1450, 0, F(8, 100), 0),
    "carton-l": (10_000, 1980, 0, 0, 0),
    "padding-kraft": (150_000_000, 2200, 0, 0, 0),
}


def landed(code):
    _, price, carriage, _, _ = PRICES[code]
    tax = half_away((price + carriage) * TAX)
    return price + carriage + tax - half_away(tax * RECOVERED)


def bill(q):
    rows = {}
    for code, (net, taken) in q.items():
        pack, _, _, spoil, least = PRICES[code]
        consumed = max(up(F(taken) / (1 - F(spoil))), taken + least)
        rows[code] = {"net": net, "consumed": consumed, "landed_pack": landed(code), "pack": pack,
                      "cost": half_away(F(consumed) * landed(code) / pack)}
    return rows


# --------------------------------------------------------------------------------------------------------- work
# step: (how often, set-up low, likely, high; each low, likely, high) in minutes
STEPS = {
    "cut-box-boards": (11, 8, 12, 18, 2, 3, 6),
    "build-box": (8, 8, 12, 20, 5, 8, 14),  # two trays of four boards; those of the case lie apart
    "cover-box": (3, 10, 15, 25, 10, 15, 28),
    "line-box": (3, 6, 10, 15, 5, 8, 14),
    "answer-enquiry": (ENQUIRIES_AN_ORDER, 0, 0, 0, 15, 25, 50),
    "draw-proof": (1, 5, 8, 15, 20, 35, 60),
    "photograph": (1, 8, 12, 20, 12, 18, 30),
    "order-materials": (1, 0, 0, 0, 12, 18, 30),
    "pack-parcel": (1, 3, 5, 8, 15, 22, 35),
    "post-parcel": (1, 0, 0, 0, 12, 20, 40),
    "keep-accounts": (1, 0, 0, 0, 8, 12, 20),
}


def work(_):
    return {step: {"seconds": MIN * (mean(*times[:3]) + F(n) * mean(*times[3:]))} for step, (n, *times) in STEPS.items()}


# ---------------------------------------------------------------------------------------------- cost and price
def cost(b, w):
    materials = sum(row["cost"] for row in b.values())
    labour = {step: half_away(row["seconds"] * LABOUR) for step, row in w.items()}
    seconds = sum(row["seconds"] for row in w.values())
    overhead = half_away(seconds * OVERHEAD)
    before = materials + sum(labour.values()) + overhead
    contingency = half_away(before * CONTINGENCY)
    return {"materials": materials, "labour": sum(labour.values()), "labour_lines": labour, "overhead": overhead, "ruin": {},
            "contingency": contingency, "total": before + contingency, "seconds": seconds, "outlay": materials}


def offer(c):
    hours = c["seconds"] / 3600
    target = up(F(c["total"]) / (1 - MARGIN))
    shown = 0
    while shown - tax_within(shown) < max(target, LEAST_CHARGE):
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
