#!/usr/bin/python3
"""The quote of sample_data/books/pocket_herbal.toml on 2026-11-25, worked by hand.

Nothing here is shared with the program: the inputs are transcribed from the description, the demo workshop's catalogue
and its steps; the formulas are the trade's, each with its line beside it. Where the trade has no formula (how wide a strip
of paste tips on an endpaper), the common practice that the program states is transcribed as one more input. Lengths are
floats of millimetres; from the moment a length becomes a piece, an area, a quantity or money, everything is a whole number
or a Fraction.

Prints one JSON document: figures, needs, bill, work, cost, ladder, offer. Standard library only.
"""

import functools
import json
import math
from fractions import Fraction as F
from pathlib import Path

PI = math.pi
BOOK = Path(__file__).resolve().parents[2] / "sample_data" / "books" / "pocket_herbal.toml"


def half_away(x):
    """The nearest whole number, a half away from zero."""
    x = F(x)
    return int(math.floor(x + F(1, 2))) if x >= 0 else -int(math.floor(-x + F(1, 2)))


def up(x):
    return math.ceil(F(x))


def um(mm):
    """A piece leaves the book as micrometres, rounded up; a billionth of a millimetre is the float's own noise."""
    return math.ceil(mm * 1000 - 1e-6)


# ---------------------------------------------------------------------------------------------- inputs: the book
H, W = 160.0, 112.0
PAGES, FOLDS, SHEETS_A_SECTION = 256, 2, 2
COMPRESSION, HEAD_TAIL_TRIM, FORE_EDGE_TRIM = 0.97, 2.0, 3.0
ENDPAPERS_EACH_END = 2
SUPPORTS, TURNS, SWELL_KEPT, KETTLE = 4, 1, 0.55, 12.0
STITCH_ALLOWANCE, NEEDLE_LENGTH, NEEDLE_WASTE = 20.0, 1200.0, 130.0
SLIP, FRAME, HOLES_A_SUPPORT = 55.0, 150.0, 2
ROUND, SHOULDER, LINING_LAYERS, PAPER_LAYERS, BAND_WIDTH = math.radians(84), 1.5, 1, 2, 3.0
SQUARE, SETBACK, HOLES_A_SLIP = 3.0, 0.0, 2
PARED, TURN_IN, JOINT, STRETCH = 0.6, 20.0, 2.0, 0.03
ENDBANDS, CORE_TRIM, PACKING, TIE = 2, 20.0, 1.0, 30.0
REGISTERS, ANCHOR, TAIL = 1, 40.0, 30.0
FRAME_INSET, FRAME_WIDTH, FRAMES = 9.0, 1.5, 2
BAND_LINE_WIDTH = 2.0
LETTERS, LETTER_HEIGHT, LETTER_PITCH = len("WENDHERBS"), 7.0, 6.0
CORNERS, RIVETS_A_CORNER, CLASPS, RIVETS_A_CLASP = 4, 1, 1, 4
MARGIN, CARRIAGE = F(20, 100), 620
LEAST_KEPT = 80_000  # an offcut is kept when both its sides are at least this long: what the program says when never told

# ------------------------------------------------------------------------------------- inputs: material properties
PAPER_CALIPER, PAPER_SHEET = 0.13, (500, 700)       # text-rag-95; the second side is along the grain
END_CALIPER, END_SHEET = 0.15, (500, 700)           # end-paste-moss
THREAD_NUMBER, THREAD_PLY, THREAD_DENSITY = 25, 3, 900.0
CORD, CORE = 3.0, 2.0                               # hemp-cord-3, core-linen-2
SILK_NUMBER, SILK_PLY, SILK_DENSITY = 50, 2, 1100.0
BOARD, BOARD_SHEET = 1.5, (700, 1000)               # board-grey-15
LEATHER = 0.8                                       # calf-natural-08 as bought
LEAF_SIDE = 140.0                                   # leaf-brass-140
KRAFT_SHEET = (700, 1000)
MULL_WIDTH = 1000.0

# ------------------------------------------------------------------------------ inputs: how the house does it
# Common practice that neither the description nor the catalogue says.
LEAF_LAP = 3.0              # mm, at both sides of a line and where strips meet: an edge of 40 takes strips of 46
WAX_SHARE = 0.10            # of the mass of the thread
TIP_WIDTH = 3.0             # mm of paste that tips on a folded endpaper
PANEL_CLEARANCE = 1.0       # mm that a panel's lining is lower than the panel
COATS_OF_PASTE = 2          # on the leather
CORNER_LEG = 20.0           # corner-steel-20
RIBBON_WIDTH = 6.0          # ribbon-moss-6


def tex(number, ply):
    """g of a km: ply x 453.59237 g / (number x 300 yd x 0.9144 m) x 1000."""
    return ply * 453.59237 * 1000 / (number * 300 * 0.9144)


def thread_thickness(number, ply, density):
    """d = 2 sqrt(tex 1e-6 / (pi rho)) in m."""
    return 2 * math.sqrt(tex(number, ply) * 1e-6 / (PI * density)) * 1000


def angle_taken(ratio):
    """Solve theta / (2 sin(theta/2)) = ratio by halving; 0 when the swell is too little to back."""
    if ratio <= 1:
        return 0.0
    low, high = 0.0, 2 * PI
    for _ in range(200):
        middle = (low + high) / 2
        low, high = (middle, high) if middle / (2 * math.sin(middle / 2)) < ratio else (low, middle)
    return low


def structure():
    f = {}
    # text block: leaves = N 2^f; pages = 2 leaves; n = ceil(N / s)
    leaves_a_sheet = 2 ** FOLDS
    f["sheets"] = math.ceil(PAGES / (2 * leaves_a_sheet))
    f["sections"] = math.ceil(f["sheets"] / SHEETS_A_SECTION)
    f["leaves"] = f["sheets"] * leaves_a_sheet
    f["pages"] = 2 * f["leaves"]
    # the folded sheet before trimming: quarto, the leaf doubled along both sides
    f["sheet_height"] = 2 * (H + 2 * HEAD_TAIL_TRIM)
    f["sheet_width"] = 2 * (W + FORE_EDGE_TRIM)
    # T = leaves x caliper x k + free endpaper leaves x theirs; of every folded endpaper at an end one leaf is pasted down
    f["free_endpaper_leaves"] = 2 * (2 * ENDPAPERS_EACH_END - 1)
    f["endpaper_thickness"] = f["free_endpaper_leaves"] * END_CALIPER
    t = f["block_thickness"] = f["leaves"] * PAPER_CALIPER * COMPRESSION + f["endpaper_thickness"]
    # sewing: S = n d c
    d = f["thread_thickness"] = thread_thickness(THREAD_NUMBER, THREAD_PLY, THREAD_DENSITY)
    n = f["sections"]
    swell = f["swell"] = n * d * SWELL_KEPT
    # L = n [(H - 2k) + sum w pi (d_support + d) + allowance]
    f["thread_length"] = n * ((H - 2 * KETTLE) + SUPPORTS * TURNS * PI * (CORD + d) + STITCH_ALLOWANCE)
    f["needlefuls"] = math.ceil(f["thread_length"] / (NEEDLE_LENGTH - NEEDLE_WASTE))
    f["thread_taken"] = f["thread_length"] + f["needlefuls"] * NEEDLE_WASTE
    f["holes"] = n * (SUPPORTS * HOLES_A_SUPPORT + 2)
    # spine: B = T + S; C = T + 2h; R = C / (2 sin(theta/2)); arc = R theta; rise = R (1 - cos(theta/2))
    f["spine_width"] = t + swell
    chord = f["chord"] = t + 2 * SHOULDER
    radius = f["spine_radius"] = chord / (2 * math.sin(ROUND / 2))
    arc = f["arc"] = radius * ROUND
    f["rise"] = radius * (1 - math.cos(ROUND / 2))
    f["swell_wanted"] = arc - t
    f["swell_least"] = 2 * SHOULDER
    f["angle_it_takes"] = math.degrees(angle_taken((t + swell) / chord))
    # cords: B + two slips, and what the frame needs
    f["cord_each"] = f["spine_width"] + 2 * SLIP
    f["cord_length"] = SUPPORTS * (f["cord_each"] + FRAME)
    # panels = bands + 1
    f["bands"] = SUPPORTS
    f["panels"] = SUPPORTS + 1
    f["panel_height"] = (H - SUPPORTS * BAND_WIDTH) / f["panels"]
    # boards: H + 2 square; W - setback + square; holes a slip at every end of every cord
    f["board_height"] = H + 2 * SQUARE
    f["board_width"] = W - SETBACK + SQUARE
    f["lacing_holes"] = SUPPORTS * 2 * HOLES_A_SLIP
    # cover: bands lengthen the path, (pi/2 - 1) d each, first out of the leather's stretch
    blank = f["board_height"] + 2 * (TURN_IN + BOARD)
    path = SUPPORTS * (PI / 2 - 1) * CORD
    f["band_path"] = path
    f["band_growth"] = max(0.0, path - STRETCH * f["board_height"])
    f["cover_height"] = blank + f["band_growth"]
    f["cover_width"] = 2 * f["board_width"] + 2 * JOINT + arc + 2 * (TURN_IN + BOARD)
    f["pare_length"] = 2 * (f["cover_height"] + f["cover_width"])
    f["cover_area"] = f["cover_height"] * f["cover_width"]
    # endbands: core = arc + 2 x 20; wraps = arc / (thread x packing); pi (core + thread) a wrap; tie-downs 1 + floor(n/8)
    f["core_length"] = arc + 2 * CORE_TRIM
    silk = f["silk_thickness"] = thread_thickness(SILK_NUMBER, SILK_PLY, SILK_DENSITY)
    f["wraps"] = math.ceil(arc / (silk * PACKING))
    f["tie_downs"] = 1 + n // 8
    f["silk_length"] = ENDBANDS * (f["wraps"] * PI * (CORE + silk) + f["tie_downs"] * TIE)
    # register: anchor + page height + tail
    f["register_length"] = ANCHOR + H + TAIL
    # closed: the leather lies on both sides of each board, the bands stand out of the spine
    f["closed_height"] = f["board_height"] + 2 * PARED
    f["closed_width"] = f["board_width"] + SETBACK + f["rise"] + CORD + 2 * PARED
    f["closed_thickness"] = t + 2 * BOARD + 4 * PARED
    f["rivets"] = CORNERS * RIVETS_A_CORNER + CLASPS * RIVETS_A_CLASP
    return f


def lines_of(f):
    """mm of line: frames on two boards, each a line and a gap within the last; both sides of every band across the spine."""
    insets = [FRAME_INSET + 2 * FRAME_WIDTH * i for i in range(FRAMES)]
    frames = sum(2 * (f["board_height"] - 2 * inset + f["board_width"] - 2 * inset) for inset in insets)
    return {"blind": 2 * frames, "leaf": 2 * f["bands"] * f["arc"]}


# -------------------------------------------------------------------------------------------------- quantities
def spread(area_um2, per_m2, coats=1, faces=1):
    """Area x coats x faces x spread, to whole mg or microlitres, rounded up."""
    return up(F(area_um2) * coats * faces * per_m2 / 10**12)


def surface(mm2):
    """A surface to the nearest square micrometre."""
    return half_away(F(mm2) * 10**6)


def run(mm):
    """A length off a roll to the nearest micrometre."""
    return half_away(F(mm) * 1000)


@functools.cache
def most_kept(width, height, count, across, along):
    """Of a rectangle from which `count` pieces are cut, each cut from edge to edge: the most area that stays in rectangles
    worth keeping. None: so many do not fit. A cut lies where pieces side by side, or one above the other, end."""
    if count == 0:
        return width * height if min(width, height) >= LEAST_KEPT else 0
    if count > (width // across) * (height // along):
        return None
    if (width, height) == (across, along):
        return 0
    best = None
    parted = [((across * k, height), (width - across * k, height)) for k in range(1, width // across + 1)]
    parted += [((width, along * k), (width, height - along * k)) for k in range(1, height // along + 1)]
    for first, second in parted:
        if 0 in first + second:
            continue
        for n in range(count + 1):
            kept = [most_kept(*first, n, across, along), most_kept(*second, count - n, across, along)]
            if None not in kept and (first != (width, height)):
                best = max(best or 0, sum(kept))
    return best


def sheets(count, sheet, height, width):
    """Thousandths of a sheet that `count` equal pieces take, and all that is cut away with them and not kept: as few sheets
    as hold them, and of these as much kept as may be. The sheet's second side is along the grain, the piece's height too."""
    whole = (sheet[0] * 1000, sheet[1] * 1000)
    a_sheet = (whole[0] // width) * (whole[1] // height)
    kept = {n: most_kept(*whole, n, width, height) * 1000 // (whole[0] * whole[1])
            for n in range(1, min(a_sheet, count) + 1)}  # in thousandths, rounded down
    opened = up(F(count, a_sheet))
    best = {0: 0}  # how many pieces lie on the sheets so far: the most kept of them
    for _ in range(opened):
        best = {total: max(best[total - n] + kept[n] for n in kept if total - n in best)
                for total in range(1, count + 1) if any(total - n in best for n in kept)}
    return opened * 1000 - best[count]


def leaves_for(count, length, width, layers=1):
    """Leaves for `count` lines: strips a leaf = floor(side / (width + a lap at both sides)), each as long as the side less
    the lap; what a line leaves of a strip serves the next when it is long enough."""
    strip = LEAF_SIDE - LEAF_LAP
    whole, rest = divmod(length, strip)
    strips = count * int(whole) + (math.ceil(count / math.floor(strip / rest)) if rest else 0)
    return math.ceil(strips * layers / math.floor(LEAF_SIDE / (width + 2 * LEAF_LAP)))


def needs(f):
    """What is in the book and what a use wastes by itself: code -> (net, taken), each in the material's base unit."""
    arc, lines = f["arc"], lines_of(f)
    panel_height = f["panel_height"] - PANEL_CLEARANCE
    panel = (um(panel_height), um(arc))
    folios = 2 * ENDPAPERS_EACH_END
    gilded = surface(lines["leaf"] * BAND_LINE_WIDTH + LETTERS * LETTER_PITCH * LETTER_HEIGHT)
    q = {}

    def add(code, net, taken=None):
        a, b = q.get(code, (0, 0))
        q[code] = (a + net, b + (net if taken is None else taken))

    add("text-rag-95", sheets(f["sheets"], PAPER_SHEET, um(f["sheet_height"]), um(f["sheet_width"])))
    add("end-paste-moss", sheets(folios, END_SHEET, um(H + 2 * HEAD_TAIL_TRIM), um(2 * (W + FORE_EDGE_TRIM))))
    # each folded endpaper is tipped on at the fold, two leaves are pasted down
    add("paste-starch", spread(surface(folios * TIP_WIDTH * H), 45_000))
    add("paste-starch", spread(surface(2 * H * W), 45_000))
    add("linen-25-3", run(f["thread_length"]), run(f["thread_taken"]))
    thread_mg = tex(THREAD_NUMBER, THREAD_PLY) * f["thread_taken"] / 1000  # tex is also mg of a metre
    add("beeswax-block", half_away(WAX_SHARE * thread_mg))
    add("hemp-cord-3", SUPPORTS * run(f["cord_each"]), SUPPORTS * run(f["cord_each"] + FRAME))
    # linen off the roll: pieces side by side across its width, the grain along it
    across = math.floor(MULL_WIDTH * 1000 / panel[1])
    add("mull-heavy", math.ceil(f["panels"] * LINING_LAYERS / across) * panel[0])
    add("spine-kraft-90", sheets(f["panels"] * PAPER_LAYERS, KRAFT_SHEET, *panel))
    add("board-grey-15", sheets(2, BOARD_SHEET, um(f["board_height"]), um(f["board_width"])))
    add("calf-natural-08", um(f["cover_height"]) * um(f["cover_width"]))
    # glue: the spine before it is rounded, each layer of lining, the round of each slip, each endband's foot, the ribbon
    add("pva-slow", spread(surface(f["spine_width"] * H), 130_000))
    add("pva-slow", spread(surface(f["panels"] * (LINING_LAYERS + PAPER_LAYERS) * panel_height * arc), 130_000))
    add("pva-slow", spread(surface(2 * SUPPORTS * SLIP * PI * CORD), 130_000))
    add("pva-slow", spread(surface(ENDBANDS * arc * CORE), 130_000))
    add("pva-slow", spread(surface(REGISTERS * ANCHOR * RIBBON_WIDTH), 130_000))
    add("paste-starch", spread(surface(f["cover_area"]), 45_000, coats=COATS_OF_PASTE))
    add("dye-walnut", spread(surface(f["cover_area"]), 90_000))
    add("wax-polish", spread(surface(f["cover_area"]), 12_000))
    add("core-linen-2", ENDBANDS * run(arc), ENDBANDS * run(f["core_length"]))
    # two colours in turn; of each endband each colour is one needleful
    colour = f["silk_length"] / 2
    for silk in ("silk-madder", "silk-cream"):
        add(silk, run(colour), run(colour + ENDBANDS * NEEDLE_WASTE))
    add("ribbon-moss-6", REGISTERS * run(f["register_length"]))
    # the title is laid as one band of leaf, as high as a letter
    add("leaf-brass-140", 1000 * leaves_for(2 * f["bands"], arc, BAND_LINE_WIDTH))
    add("leaf-brass-140", 1000 * leaves_for(1, LETTERS * LETTER_PITCH, LETTER_HEIGHT))
    add("size-water", spread(gilded, 70_000))
    add("varnish-matt", spread(gilded, 85_000))
    add("corner-steel-20", 1000 * CORNERS)
    # a corner holds two triangles of the board and the two edges that meet; of two parts it needs one face
    add("epoxy-metal", spread(surface(CORNERS * (CORNER_LEG**2 + 2 * CORNER_LEG * BOARD)), 350_000))
    add("clasp-plain-12", 1000 * CLASPS)
    add("rivet-copper-4", 1000 * f["rivets"])
    add("carton-s", 1000)
    # twice round the closed book
    add("padding-kraft", run(2 * 2 * (f["closed_width"] + f["closed_thickness"])))
    add("card-template-03", 1000)
    add("needles-18", 2000)
    return q


# ------------------------------------------------------------------------------------------------ bill and prices
SQ_FT = 304_800**2
# code: (pack in base units, price as said in minor units, rate, carriage, duty share, spoil, least spoil)
# base units: mm/1000 of length, thousandths of a count, mg, microlitres, square micrometres
PRICES = {
    "text-rag-95": (100_000, 6400, 1, 0, 0, F(4, 100), 2000),
    "end-paste-moss": (10_000, 3800, 1, 0, 0, F(5, 100), 1000),
    "linen-25-3": (350_000_000, 1460, 1, 0, 0, F(2, 100), 0),
    "beeswax-block": (200_000, 640, 1, 0, 0, 0, 0),
    "hemp-cord-3": (50_000_000, 1150, 1, 0, 0, F(3, 100), 0),
    "mull-heavy": (5_000_000, 2450, 1, 0, 0, F(5, 100), 0),
    "spine-kraft-90": (50_000, 1650, 1, 0, 0, F(5, 100), 0),
    "board-grey-15": (25_000, 4150, 1, 900, 0, F(3, 100), 0),
    "calf-natural-08": (12 * SQ_FT, 8800, F(117, 100), 640, F(2, 100), F(3, 100), 0),
    "pva-slow": (1_000_000, 1980, 1, 0, 0, F(8, 100), 0),
    "paste-starch": (1_000_000, 860, 1, 0, 0, F(8, 100), 0),
    "dye-walnut": (250_000, 1320, 1, 0, 0, F(10, 100), 0),
    "wax-polish": (200_000, 1900, 1, 0, 0, F(5, 100), 0),
    "core-linen-2": (25_000_000, 720, 1, 0, 0, F(3, 100), 0),
    "silk-madder": (50_000_000, 620, 1, 0, 0, F(3, 100), 0),
    "silk-cream": (50_000_000, 590, 1, 0, 0, F(3, 100), 0),
    "ribbon-moss-6": (25_000_000, 2100, 1, 0, 0, F(2, 100), 0),
    "leaf-brass-140": (25_000, 680, 1, 0, 0, F(20, 100), 0),
    "size-water": (100_000, 890, 1, 0, 0, F(20, 100), 0),
    "varnish-matt": (250_000, 1220, 1, 0, 0, F(15, 100), 0),
    "corner-steel-20": (8_000, 1120, 1, 0, 0, 0, 0),
    "epoxy-metal": (100_000, 1560, 1, 0, 0, F(30, 100), 2000),
    "clasp-plain-12": (2_000, 1760, 1, 0, 0, 0, 0),
    "rivet-copper-4": (50_000, 890, 1, 0, 0, F(6, 100), 2000),
    "carton-s": (25_000, 1950, 1, 0, 0, 0, 0),
    "padding-kraft": (150_000_000, 2200, 1, 0, 0, 0, 0),
    "card-template-03": (50_000, 2400, 1, 0, 0, 0, 0),
    "needles-18": (25_000, 780, 1, 0, 0, 0, 0),
}
TAX, RECOVERED = F(19, 100), F(1)
USABLE_SHARE = {"calf-natural-08": F(72, 100)}
RUIN = {"calf-natural-08": F(3, 100)}


def landed(code):
    """(price x rate + carriage + duty + tax x (1 - share recovered)), each part rounded by itself, half away."""
    _, said, rate, carriage, duty, _, _ = PRICES[code]
    price = half_away(F(said) * rate)
    duty = half_away(price * F(duty))
    tax = half_away((price + carriage + duty) * TAX)
    return price + carriage + duty + tax - half_away(tax * RECOVERED)


def bill(q):
    """taken = ceil(net / (1 - s)), at least net + least spoil; of a skin, what the usable share makes of it; all as used."""
    rows = {}
    for code, (net, taken) in q.items():
        pack, _, _, _, _, spoil, least = PRICES[code]
        base = up(F(taken) / USABLE_SHARE.get(code, 1))
        consumed = max(up(F(base) / (1 - F(spoil))), base + least)
        cost = half_away(F(consumed) * landed(code) / pack)
        rows[code] = {"net": net, "consumed": consumed, "landed_pack": landed(code), "pack": pack, "cost": cost}
    return rows


# --------------------------------------------------------------------------------------------------------- work
MIN = 60
# step: (set-up low, likely, high; each low, likely, high) in seconds
STEPS = {
    "cut-sheets": (5 * MIN, 8 * MIN, 15 * MIN, 8, 12, 25),
    "fold-sheets": (2 * MIN, 3 * MIN, 6 * MIN, 12, 18, 30),
    "press-sections": (3 * MIN, 5 * MIN, 8 * MIN, 4 * MIN, 6 * MIN, 10 * MIN),
    "pierce-stations": (6 * MIN, 10 * MIN, 15 * MIN, 25, 40, 70),
    "make-endpapers": (3 * MIN, 5 * MIN, 10 * MIN, 12 * MIN, 18 * MIN, 30 * MIN),
    "set-up-frame": (5 * MIN, 8 * MIN, 12 * MIN, 90, 120, 200),
    "wax-thread": (1 * MIN, 2 * MIN, 4 * MIN, 20, 30, 45),
    "sew-sections": (6 * MIN, 10 * MIN, 15 * MIN, 4 * MIN, 6 * MIN, 10 * MIN),
    "glue-spine": (4 * MIN, 6 * MIN, 10 * MIN, 6 * MIN, 10 * MIN, 15 * MIN),
    "trim-edges": (10 * MIN, 15 * MIN, 25 * MIN, 15 * MIN, 20 * MIN, 35 * MIN),
    "round-spine": (2 * MIN, 3 * MIN, 5 * MIN, 8 * MIN, 12 * MIN, 20 * MIN),
    "back-spine": (5 * MIN, 8 * MIN, 12 * MIN, 20 * MIN, 30 * MIN, 50 * MIN),
    "line-panels": (5 * MIN, 8 * MIN, 12 * MIN, 4 * MIN, 6 * MIN, 9 * MIN),
    "cut-boards": (6 * MIN, 10 * MIN, 15 * MIN, 5 * MIN, 8 * MIN, 14 * MIN),
    "shape-boards": (5 * MIN, 8 * MIN, 12 * MIN, 10 * MIN, 18 * MIN, 35 * MIN),
    "drill-lacing": (6 * MIN, 9 * MIN, 14 * MIN, 45, 75, 120),
    "lace-boards": (6 * MIN, 10 * MIN, 15 * MIN, 6 * MIN, 9 * MIN, 14 * MIN),
    "sew-endbands": (8 * MIN, 12 * MIN, 18 * MIN, 14, 20, 32),
    "fix-registers": (2 * MIN, 3 * MIN, 5 * MIN, 3 * MIN, 4 * MIN, 7 * MIN),
    "cut-leather": (8 * MIN, 12 * MIN, 20 * MIN, 6 * MIN, 9 * MIN, 15 * MIN),
    "pare-edges": (8 * MIN, 12 * MIN, 18 * MIN, 10 * MIN, 15 * MIN, 28 * MIN),
    "thin-leather": (8 * MIN, 12 * MIN, 20 * MIN, 4 * MIN, 6 * MIN, 11 * MIN),
    "dye-leather": (8 * MIN, 12 * MIN, 18 * MIN, 40, 60, 100),
    "mix-paste": (2 * MIN, 3 * MIN, 5 * MIN, 12 * MIN, 18 * MIN, 30 * MIN),
    "cover-book": (15 * MIN, 20 * MIN, 30 * MIN, 60 * MIN, 90 * MIN, 150 * MIN),
    "set-bands": (4 * MIN, 6 * MIN, 9 * MIN, 4 * MIN, 6 * MIN, 10 * MIN),
    "turn-corners": (3 * MIN, 4 * MIN, 6 * MIN, 6 * MIN, 9 * MIN, 15 * MIN),
    "put-down-endpapers": (6 * MIN, 9 * MIN, 14 * MIN, 9 * MIN, 14 * MIN, 22 * MIN),
    "dress-leather": (3 * MIN, 5 * MIN, 8 * MIN, 40, 60, 100),
    "blind-lines": (15 * MIN, 20 * MIN, 30 * MIN, 5 * MIN, 8 * MIN, 13 * MIN),
    "size-lines": (10 * MIN, 15 * MIN, 25 * MIN, 8 * MIN, 12 * MIN, 20 * MIN),
    "lay-leaf": (15 * MIN, 20 * MIN, 30 * MIN, 10 * MIN, 15 * MIN, 26 * MIN),
    "varnish-leaf": (8 * MIN, 12 * MIN, 18 * MIN, 3 * MIN, 4 * MIN, 7 * MIN),
    "letter-title": (25 * MIN, 40 * MIN, 60 * MIN, 4 * MIN, 6 * MIN, 10 * MIN),
    "fit-corners": (8 * MIN, 12 * MIN, 20 * MIN, 8 * MIN, 12 * MIN, 20 * MIN),
    "fit-clasps": (12 * MIN, 18 * MIN, 30 * MIN, 25 * MIN, 40 * MIN, 65 * MIN),
    "set-rivets": (6 * MIN, 10 * MIN, 15 * MIN, 2 * MIN, 3 * MIN, 5 * MIN),
    "final-press": (4 * MIN, 6 * MIN, 10 * MIN, 8 * MIN, 12 * MIN, 20 * MIN),
    "answer-enquiry": (0, 0, 0, 15 * MIN, 25 * MIN, 50 * MIN),
    "draw-proof": (5 * MIN, 8 * MIN, 15 * MIN, 20 * MIN, 35 * MIN, 60 * MIN),
    "photograph": (8 * MIN, 12 * MIN, 20 * MIN, 12 * MIN, 18 * MIN, 30 * MIN),
    "order-materials": (0, 0, 0, 12 * MIN, 18 * MIN, 30 * MIN),
    "pack-parcel": (3 * MIN, 5 * MIN, 8 * MIN, 15 * MIN, 22 * MIN, 35 * MIN),
    "post-parcel": (0, 0, 0, 12 * MIN, 20 * MIN, 40 * MIN),
    "keep-accounts": (0, 0, 0, 8 * MIN, 12 * MIN, 20 * MIN),
}
ENQUIRIES_AN_ORDER = F(5, 2)
# done again when the leather is ruined: all that is done to it, but not the pot of paste
REPEATED = ["cut-leather", "pare-edges", "thin-leather", "dye-leather", "cover-book", "set-bands", "turn-corners",
            "dress-leather"]


def counts(f):
    """How many of its driver each step meets, in thousandths."""
    lines = lines_of(f)
    cover_dm2 = F(f["cover_area"]) / 10_000
    metres = {kind: F(mm) / 1000 for kind, mm in lines.items()}
    raw = {
        "cut-sheets": f["sheets"], "fold-sheets": f["sheets"], "pierce-stations": f["sections"],
        "set-up-frame": SUPPORTS, "wax-thread": f["needlefuls"], "sew-sections": f["sections"],
        "line-panels": f["panels"], "cut-boards": 2, "shape-boards": 2, "drill-lacing": f["lacing_holes"],
        "lace-boards": SUPPORTS, "sew-endbands": ENDBANDS * f["wraps"], "fix-registers": REGISTERS,
        "pare-edges": F(f["pare_length"]) / 1000, "thin-leather": cover_dm2,
        "dye-leather": cover_dm2, "set-bands": f["bands"], "turn-corners": 4, "put-down-endpapers": 2,
        "dress-leather": cover_dm2, "blind-lines": metres["blind"], "size-lines": metres["leaf"],
        "lay-leaf": metres["leaf"], "varnish-leaf": metres["leaf"], "letter-title": LETTERS, "fit-corners": CORNERS,
        "fit-clasps": CLASPS, "set-rivets": f["rivets"],
    }
    return {step: half_away(F(raw.get(step, 1)) * 1000) for step in STEPS}


def mean(low, likely, high):
    """(low + 4 x likely + high) / 6, not the likely."""
    return (F(low) + 4 * F(likely) + F(high)) / 6


def work(f):
    rows = {}
    for step, thousandths in counts(f).items():
        times = STEPS[step]
        n = F(thousandths, 1000)
        if step == "answer-enquiry":  # enquiries that came to nothing are paid by those that did not
            n *= ENQUIRIES_AN_ORDER
        rows[step] = {"count": n, "seconds": mean(*times[:3]) + n * mean(*times[3:])}
    return rows


# ---------------------------------------------------------------------------------------------- cost and price
HOURS = 1200 * 3600
LABOUR = F(2_640_000 + 528_000, HOURS)   # minor units a second
OVERHEAD = F(408_000 + 114_000 + 62_000 + 43_000 + 38_000 + 69_000 + 90_000 + 9_500, HOURS)
CONTINGENCY, LEAST_CHARGE, LEAST_HOURLY = F(4, 100), 19_000, 1_500
PRICE_STEP, PRICE_BELOW, DEPOSIT_SHARE, DEPOSIT_STEP, SALES_TAX = 500, 0, F(40, 100), 1000, F(19, 100)


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
    return {
        "materials": materials, "labour": sum(labour.values()), "labour_lines": labour, "overhead": overhead,
        "ruin": ruin, "contingency": contingency, "total": before + contingency, "seconds": seconds,
        "outlay": materials,  # everything here is charged as used: what it takes out of stock has been bought
    }


def tax_within(gross):
    return half_away(F(gross) * SALES_TAX / (1 + SALES_TAX))


def rung(price, c):
    hours = c["seconds"] / 3600
    return {"price": price, "left": price - c["total"], "hourly": half_away(F(price - (c["total"] - c["labour"])) / hours)}


def offer(c):
    hours = c["seconds"] / 3600
    target = up(F(c["total"]) / (1 - MARGIN))
    least = max(target, LEAST_CHARGE)
    shown = 0
    while shown - tax_within(shown) < least:  # every price point from nothing upward: no lower one will do
        shown += PRICE_STEP
    net = shown - tax_within(shown)
    floor = c["outlay"]
    ladder = {
        "cash_floor": rung(floor, c), "walk_away": rung(floor + half_away(LEAST_HOURLY * hours), c),
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
    q = needs(f)
    b = bill(q)
    w = work(f)
    c = cost(b, w)
    ladder, o = offer(c)
    document = {"figures": f, "bill": b, "work": w, "cost": c, "ladder": ladder, "offer": o}
    print(json.dumps(document, indent=1, default=lambda x: str(x)))


if __name__ == "__main__":
    main()
