// The table of a description's keys, and what each fills: a figure, a role, or a field that resolve reads by
// name. Private to engine/book; everybody else sees it as description_keys().
#pragma once

#include "engine/book/spec.h"

#include <array>
#include <cstddef>
#include <optional>
#include <string_view>

namespace endband {

struct BookKey {
  KeyRow row;
  std::optional<FigureId> figure;
  std::optional<Role> role;
};

namespace key_table {

using enum ValueType;

constexpr BookKey figure(std::string_view path, ValueType type, double least, double most, FigureId id,
                         std::string_view help) {
  return {{path, type, least, most, {}, help}, id, std::nullopt};
}
constexpr BookKey material(std::string_view path, Role role, std::string_view help) {
  return {{path, code, 0, 0, {}, help}, std::nullopt, role};
}
constexpr BookKey other(std::string_view path, ValueType type, double least, double most,
                        std::string_view help, std::string_view choices = {}) {
  return {{path, type, least, most, choices, help}, std::nullopt, std::nullopt};
}

inline constexpr std::string_view style_names =
    "raised-cords|recessed-cords|tapes|case|link-stitch|long-stitch|single-section|album|box";
inline constexpr std::string_view model_names =
    "raised-cords|grimoire|recessed-cords|tapes|case|half-leather|quarter-cloth|link-stitch|long-stitch|"
    "single-section|album|rebinding|slipcased|box";

using F = FigureId;
using R = Role;

// The greatest values all together stay within the 10 m of a piece, the 100 km of a run and the 1000 m2 of a
// surface that the structure calculator holds, and with them within 64 bits.
// clang-format off
inline constexpr std::array rows{
    other("endband", count, 1, 1, "the form of the description; the first line of every one"),
    other("model", choice, 0, 0, "the starting point that supplies what is not said", model_names),
    other("binding", choice, 0, 0, "the binding; the model's unless said", style_names),
    other("title", words, 1, 200, "the title of the book"),
    figure("height", length, 20, 1000, F::leaf_height, "height of a leaf, head to tail, after trimming"),
    figure("width", length, 20, 1000, F::leaf_width, "width of a leaf, spine to fore-edge, after trimming"),
    figure("pages", count, 4, 4000, F::pages_wanted, "pages wanted; the sheets that hold them follow"),
    material("leather", R::leather, "the leather of the cover"),
    other("copies", count, 1, 1000, "copies made together; 1 unless said"),
    other("without", codes, 1, 20, "parts and materials that this book does not have, whatever the model or the workshop says",
          "guards|sewing|endpapers|edges|false_bands|endbands|registers|underlays|insets|lines|lettering|corners|clasps|furniture|strap|tie|stone|box|packing|wax|dye|dressing|varnish|padding|mull|hollow|stiffener|lining"),
    other("customer_supplies", codes, 1, 50, "materials that the customer brings: they cost nothing, and are still cut and weighed"),

    material("text.paper", R::text_paper, "the paper of the text"),
    figure("text.folds", count, 1, 5, F::folds, "how often a sheet is folded: 1 folio, 2 quarto, 3 octavo"),
    figure("text.sheets", count, 1, 2000, F::sheets, "sheets that are folded, instead of pages"),
    figure("text.sheets_per_section", count, 1, 20, F::sheets_per_section, "folded sheets in a section"),
    figure("text.sections", count, 1, 1000, F::sections, "sections: counted of a given block, else instead of pages"),
    figure("text.given", flag, 0, 0, F::block_given, "the customer brings the text block: nothing of it is bought or folded"),
    figure("text.thickness", length, 0.5, 500, F::block_thickness, "measured thickness of the pressed block, endpapers in it"),
    figure("text.density", density, 200, 2000, F::block_density, "density of a given block"),
    figure("text.compression", share, 0.5, 1, F::compression, "thickness kept after pressing"),
    figure("text.caliper", thickness, 0.01, 5, F::leaf_caliper, "measured thickness of a leaf, instead of the paper's own"),
    figure("text.head_tail_trim", length, 0, 50, F::head_tail_trim, "trimmed at the head, and as much at the tail"),
    figure("text.fore_edge_trim", length, 0, 50, F::fore_edge_trim, "trimmed at the fore-edge"),
    other("text.thickest_section", length, 0.5, 50, "the thickest section that is folded at this bench, before pressing"),

    material("guards.paper", R::guard_paper, "what the guards are cut from; the text's paper unless said"),
    figure("guards.mounted", thickness, 0.05, 20, F::mounted_thickness, "thickness of what is mounted on a leaf, both sides together"),
    figure("guards.width", length, 5, 200, F::guard_width, "width of a guard"),
    figure("guards.each_leaf", count, 1, 50, F::guards_a_leaf, "guards for each leaf, instead of the rule"),

    other("edges.kind", choice, 0, 0, "the edges of the leaves", "cut|uncut|sprinkled|gilt"),
    figure("edges.count", count, 1, 3, F::edges_done, "edges coloured or gilt: 3 all, 1 the head"),
    material("edges.colour", R::edge_colour, "the colour of sprinkled edges"),

    material("endpapers.paper", R::endpaper, "the paper of the endpapers"),
    other("endpapers.kind", choice, 0, 0, "how the endpapers are made", "single|made|sewn|leather-joint"),
    material("endpapers.joint", R::joint_leather, "leather or cloth of the joints; the cover's unless said"),
    figure("endpapers.each_end", count, 0, 10, F::endpapers_each_end, "folded endpapers at each end"),
    material("endpapers.adhesive", R::pastedown_adhesive, "what the pastedowns are put down with"),

    other("sewing.stitch", choice, 0, 0, "how the sections are sewn", "all-along|two-on|link-stitch|long-stitch|pamphlet"),
    other("sewing.on", choice, 0, 0, "what they are sewn on", "raised-cords|recessed-cords|tapes|nothing"),
    other("sewing.support_rule", choice, 0, 0, "how much of a cord or tape is cut: the spine and two slips, or four times the thickness of the block", "spine-and-slips|four-thicknesses"),
    material("sewing.tape", R::tape, "the tapes that the sections are sewn on"),
    figure("sewing.tape_width", length, 2, 100, F::support_width, "width of a tape, instead of the material's own"),
    figure("sewing.stations", count, 2, 40, F::stations, "holes of a section that is sewn without supports"),
    figure("sewing.knot_tail", length, 0, 500, F::knot_tail, "thread left at each end of a pamphlet's sewing, to knot"),
    material("sewing.thread", R::thread, "the sewing thread"),
    material("sewing.wax", R::thread_wax, "the wax that the thread is drawn through"),
    material("sewing.cord", R::cord, "the cords that the sections are sewn on"),
    figure("sewing.supports", count, 2, 12, F::supports, "cords or tapes; a raised cord shows as a band"),
    figure("sewing.turns", count, 1, 20, F::support_turns, "turns of the thread round a cord: 1 plain, more packed"),
    figure("sewing.thread_thickness", thickness, 0.05, 3, F::thread_thickness, "measured thickness of the thread"),
    figure("sewing.swell_kept", share, 0.1, 1, F::swell_kept, "share of the swell that stays after pressing"),
    figure("sewing.swell", length, 0, 200, F::swell, "measured swell, instead of the computed one"),
    figure("sewing.kettle_setback", length, 3, 100, F::kettle_setback, "kettle stitch from head or tail"),
    figure("sewing.stitch_allowance", length, 0, 100, F::stitch_allowance, "thread from one section to the next, both ends together"),
    figure("sewing.needle_length", length, 200, 10000, F::needle_length, "thread cut for one needle"),
    figure("sewing.needle_waste", length, 0, 1000, F::needle_waste, "lost of each needleful to the needle and the knot"),
    figure("sewing.slip_length", length, 0, 500, F::slip_length, "slip at each end of a cord"),
    figure("sewing.frame_allowance", length, 0, 2000, F::frame_allowance, "this book's share of the cord that the frame needs"),
    figure("sewing.holes_a_support", count, 1, 4, F::holes_a_support, "holes pierced in a section at each cord"),

    other("spine.shape", choice, 0, 0, "flat, rounded, or rounded and backed", "flat|rounded|backed"),
    other("spine.back", choice, 0, 0, "what the covering lies on", "tight|hollow|loose|open"),
    material("spine.mull", R::mull, "mull or linen over the whole spine, under its paper"),
    material("spine.hollow", R::hollow_paper, "paper of the hollow; the spine's paper unless said"),
    material("spine.stiffener", R::stiffener, "what stiffens the back of a case"),
    figure("spine.mull_reach", length, 0, 100, F::mull_reach, "mull beyond the spine, each side"),
    figure("spine.mull_setback", length, 0, 100, F::mull_setback, "mull short of head, and of tail"),
    material("spine.adhesive", R::spine_adhesive, "what the spine is glued up with"),
    material("spine.lining", R::spine_lining, "linen, cloth or leather on the panels"),
    material("spine.paper", R::spine_paper, "paper over the lining of the panels"),
    figure("spine.round", angle, 10, 180, F::round_angle, "angle of the round; a third of a circle is 120 deg"),
    figure("spine.shoulder", length, 0, 50, F::shoulder, "height of a shoulder, instead of the boards' thickness"),
    figure("spine.arc", length, 1, 1000, F::arc, "measured round of the spine, shoulder to shoulder"),
    figure("spine.lining_layers", count, 0, 5, F::lining_layers, "layers of lining on a panel"),
    figure("spine.paper_layers", count, 0, 10, F::paper_lining_layers, "layers of paper on a panel"),
    figure("spine.band_width", length, 0.5, 50, F::band_width, "width of a band, instead of the cord and its thread"),
    figure("spine.panel_height", length, 3, 500, F::panel_height, "height of a panel, instead of equal ones"),

    figure("false_bands.count", count, 1, 12, F::false_bands, "bands that no cord makes"),
    figure("false_bands.width", length, 1, 30, F::false_band_width, "width of a false band"),
    material("false_bands.material", R::false_band, "what false bands are cut from"),

    other("boards.attached", choice, 0, 0, "how the boards hold to the book", "laced|cased|sewn|none"),
    other("boards.joint", choice, 0, 0, "board against the shoulder, or a French groove", "tight|groove"),
    material("boards.lining", R::board_lining, "paper or cloth inside a board, instead of a pastedown"),
    material("boards.material", R::board, "the boards"),
    figure("boards.thickness", thickness, 0.3, 30, F::board_thickness, "thickness of a board, instead of the material's own"),
    figure("boards.square", length, 0, 30, F::square, "how far a board stands beyond the text block"),
    figure("boards.setback", length, 0, 30, F::setback, "board set back from the shoulder"),
    material("boards.lacing_adhesive", R::lacing_adhesive, "what the slips are laced in with"),
    figure("boards.holes_a_slip", count, 0, 10, F::holes_a_slip, "lacing holes for each slip"),

    other("cover.extent", choice, 0, 0, "how much of the cover the first material takes", "full|three-quarter|half|quarter|each-board|wrapper"),
    other("cover.material", code, 0, 0, "what covers: leather, cloth, paper or card; `leather` says the same of a leather"),
    material("cover.sides", R::sides, "what covers the sides of a three-quarter, half or quarter cover"),
    material("cover.corners", R::corner_covering, "what covers the corners; the spine's material unless said"),
    other("cover.corner_rule", choice, 0, 0, "corners as long, or across as deep, as the spine's material reaches", "leg|diagonal"),
    material("cover.side_adhesive", R::side_adhesive, "what the sides are put on with; the cover's unless said"),
    figure("cover.spine_reach", share, 0.02, 0.6, F::spine_reach_share, "share of a board's width that the spine's material takes"),
    figure("cover.corner", length, 5, 300, F::corner_leather, "corner along the edge, instead of the rule"),
    figure("cover.side_lap", length, 0, 30, F::side_lap, "sides over the spine's material and the corners"),
    figure("cover.flap", length, 0, 1000, F::cover_flap, "flap of a wrapper beyond the fore-edge"),
    material("cover.paste", R::cover_paste, "what the leather is put on with"),
    material("cover.dye", R::leather_dye, "dye of the leather"),
    material("cover.dressing", R::leather_dressing, "dressing or polish of the leather"),
    figure("cover.pared", thickness, 0.2, 6, F::leather_pared, "thickness of the leather as used"),
    figure("cover.turn_in", length, 0, 100, F::turn_in, "leather on the inside of a board"),
    figure("cover.joint", length, 0, 50, F::joint, "leather for the hinge, each side"),
    figure("cover.stretch", share, 0, 0.2, F::leather_stretch, "what the leather gives over the bands before more is cut"),

    figure("endbands.count", count, 1, 2, F::endbands, "2: head and tail"),
    material("endbands.core", R::endband_core, "the core that is sewn over"),
    other("endbands.kind", choice, 0, 0, "sewn on one core or two, or stuck on", "one-core|two-cores|stuck-on"),
    material("endbands.second_core", R::second_core, "the second core; as the first unless said"),
    material("endbands.made", R::made_endband, "made endbands that are stuck on"),
    other("endbands.silk", codes, 1, 6, "silk, one code for each colour"),
    other("endbands.pattern", codes, 1, 24, "the silks of one wrap after another, over and over; each in turn unless said"),
    figure("endbands.core_thickness", thickness, 0.5, 20, F::core_thickness, "thickness of the core, instead of the material's own"),
    figure("endbands.core_trim", length, 0, 100, F::core_trim, "core beyond the spine at each end, to be trimmed"),
    figure("endbands.packing", number, 0.3, 3, F::silk_packing, "width that a wrap takes, in thicknesses of the silk"),
    figure("endbands.tie_length", length, 0, 200, F::tie_length, "silk of one tie-down, there and back"),
    material("endbands.adhesive", R::endband_adhesive, "what the endbands are fixed with"),

    figure("registers.count", count, 1, 12, F::registers, "ribbon registers"),
    material("registers.ribbon", R::ribbon, "the ribbon"),
    figure("registers.anchor", length, 0, 200, F::register_anchor, "ribbon glued to the spine"),
    figure("registers.tail", length, 0, 500, F::register_tail, "ribbon that stands out at the tail"),
    figure("registers.diagonal", flag, 0, 0, F::register_diagonal, "measured over the diagonal of the page, not straight down"),
    figure("registers.length", length, 20, 3000, F::register_length, "length of a register, instead of the rule"),

    material("finishing.leaf", R::metal_leaf, "metal leaf of lines and letters"),
    material("finishing.size", R::leaf_size, "what the metal leaf is laid with"),
    material("finishing.varnish", R::leaf_varnish, "varnish over the metal leaf"),
    other("lines[].kind", choice, 0, 0, "tooled blind, or in metal leaf", "blind|leaf"),
    other("lines[].layout", choice, 0, 0, "a frame on each board or side of a wrapper, both sides of every band, or a length of its own; frame unless said", "frame|bands|length"),
    other("lines[].inset", length, 0, 400, "frame: from the edges of the board"),
    other("lines[].width", length, 0.1, 20, "width of the line"),
    other("lines[].length", length, 1, 5000, "length: of one line"),
    other("lines[].count", count, 1, 50, "frame: frames on each board; length: how many lines"),
    other("lines[].layers", count, 1, 3, "layers of metal leaf"),

    other("lettering.words", words, 1, 100, "what is lettered, \" / \" between two lines; the title unless said"),
    other("lettering.way", choice, 0, 0, "letter by letter, line by line from set type, or with a die", "letters|line|die"),
    figure("lettering.lines", count, 1, 20, F::letter_lines, "lines of lettering, the words shared among them; words with \" / \" in them have the lines that it parts"),
    other("lettering.fount", words, 1, 500, "the letters that are owned, each as often as it is owned"),
    other("lettering.kind", choice, 0, 0, "tooled blind, or in metal leaf; blind unless said", "blind|leaf"),
    figure("lettering.letter_height", length, 1, 100, F::letter_height, "height of a letter"),
    figure("lettering.letter_pitch", length, 1, 100, F::letter_pitch, "width that a letter takes"),
    figure("lettering.layers", count, 1, 3, F::letter_layers, "layers of metal leaf"),

    other("underlays[].card", code, 0, 0, "the card"),
    other("underlays[].height", length, 1, 1000, "height of the shape"),
    other("underlays[].width", length, 1, 1000, "width of the shape"),
    other("underlays[].layers", count, 1, 10, "cards laid on each other"),
    other("underlays[].count", count, 1, 20, "how many of them"),
    material("underlay.adhesive", R::underlay_adhesive, "what the cards are laminated with"),

    other("insets[].kind", choice, 0, 0, "an onlay of thin leather or paper, or a panel let into the board", "onlay|panel"),
    other("insets[].material", code, 0, 0, "what it is cut from"),
    other("insets[].height", length, 1, 1000, "height of the shape"),
    other("insets[].width", length, 1, 1000, "width of the shape"),
    other("insets[].count", count, 1, 200, "how many of them; 1 unless said"),
    material("inset.adhesive", R::inset_adhesive, "what onlays and panels are glued with"),

    other("furniture[].material", code, 0, 0, "bosses, plates, studs: any material sold by the piece"),
    other("furniture[].count", count, 1, 500, "how many of them; 1 unless said"),
    other("furniture[].rivets_each", count, 0, 20, "rivets in each; none unless said"),

    material("corners.material", R::corner, "the corners"),
    figure("corners.count", count, 1, 8, F::corners, "corners; the four at the fore-edge unless said"),
    figure("corners.rivets_each", count, 0, 10, F::rivets_a_corner, "rivets in a corner"),
    material("corners.adhesive", R::corner_adhesive, "what corners are glued with"),
    material("clasps.material", R::clasp, "the clasps"),
    figure("clasps.count", count, 1, 8, F::clasps, "clasps"),
    figure("clasps.rivets_each", count, 0, 20, F::rivets_a_clasp, "rivets in a clasp and its catch"),
    material("rivets.material", R::rivet, "rivets of corners, clasps and straps"),

    material("strap.leather", R::strap_leather, "leather of the strap; the cover's unless said"),
    material("strap.buckle", R::buckle, "the buckle"),
    figure("strap.count", count, 1, 6, F::straps, "straps"),
    figure("strap.width", length, 3, 200, F::strap_width, "width of a strap"),
    figure("strap.fixing", length, 5, 500, F::strap_fixing, "strap fixed to the board"),
    figure("strap.reach", length, 0, 1000, F::strap_reach, "strap over the other board, up to the buckle"),
    figure("strap.tail", length, 0, 500, F::strap_tail, "strap beyond the buckle"),
    figure("strap.overlap", length, 0, 1000, F::strap_overlap, "overlap of a strap that goes round the whole book"),
    figure("strap.wraps_round", flag, 0, 0, F::strap_wraps_round, "the strap goes round the whole book"),
    figure("strap.rivet_spacing", length, 2, 500, F::strap_rivet_spacing, "from rivet to rivet"),
    figure("strap.rivet_end", length, 0, 200, F::strap_rivet_end, "first and last rivet from the ends of the fixing"),

    material("tie.material", R::tie, "the tie: leather, ribbon or cord"),
    figure("tie.count", count, 1, 6, F::ties, "ties"),
    figure("tie.turns", count, 1, 6, F::tie_turns, "turns round the closed book"),
    figure("tie.tail", length, 0, 1000, F::tie_tail, "left over to knot"),
    figure("tie.width", length, 1, 100, F::tie_width, "width of a tie that is cut from leather"),

    material("stone.material", R::stone, "the stone that is set"),
    material("stone.adhesive", R::stone_adhesive, "what it is set with"),
    figure("stone.count", count, 1, 50, F::stones, "stones"),
    figure("stone.height", length, 1, 300, F::stone_height, "height of a stone, instead of the material's own"),
    figure("stone.width", length, 1, 300, F::stone_width, "width of a stone, instead of the material's own"),

    other("box.kind", choice, 0, 0, "a slipcase, or two trays in a case that opens flat", "slipcase|drop-spine"),
    material("box.board", R::box_board, "the boards of the box; the book's unless said"),
    material("box.cloth", R::box_cloth, "what covers the box"),
    material("box.lining", R::box_lining, "what lines it"),
    material("box.adhesive", R::box_adhesive, "what it is built and covered with"),
    figure("box.clearance", length, 0, 20, F::box_clearance, "play of the book in its box, each way"),
    figure("box.turn_in", length, 3, 60, F::box_turn_in, "turn-in of the covering"),
    figure("box.square", length, 0, 20, F::box_square, "case of a drop-spine box beyond its trays"),
    figure("box.joint", length, 0, 30, F::box_joint, "joint of the case of a drop-spine box, instead of the rule"),
    figure("box.book_height", length, 20, 1000, F::closed_height, "a box alone: height of the closed book"),
    figure("box.book_width", length, 20, 1000, F::closed_width, "a box alone: width of the closed book"),
    figure("box.book_thickness", length, 2, 500, F::closed_thickness, "a box alone: thickness of the closed book"),
    figure("box.book_mass", mass, 1, 50000, F::book_mass, "a box alone: mass of the book that goes in it"),

    other("repairs[].kind", choice, 0, 0, "what is done to a block or a binding that the customer brings", "collate|pull|clean|guard|mend|resew|reback|other"),
    other("repairs[].count", count, 1, 5000, "how many: leaves to collate or clean, folds to guard, leaves to mend; the block's own unless said"),
    other("repairs[].words", words, 1, 200, "other: what is done"),
    other("repairs[].time", times, 0, 60000, "other: at best, likely and at worst, or one time"),
    other("repair.ceiling", share, 0, 5, "stop and ask when repairs take more than their likely price and this share of it"),

    other("custody[].what", words, 1, 200, "what the customer leaves with the workshop"),
    other("custody[].condition", words, 1, 500, "the state it comes in"),
    other("custody[].declared_value", money, 0, 10000000, "what the customer says it is worth"),

    other("volumes[].title", words, 1, 200, "title of one volume of a set"),
    other("volumes[].pages", count, 4, 4000, "pages of this volume; the description's unless said"),
    other("volumes[].sheets", count, 1, 2000, "sheets of this volume, instead of pages"),
    other("volumes[].sections", count, 1, 1000, "sections of this volume"),
    other("volumes[].thickness", length, 0.5, 500, "measured thickness of this volume's block"),
    other("set.same", choice, 0, 0, "what the covers of a set must share", "nothing|batch|skin"),

    figure("packing.padding_thickness", length, 0, 200, F::padding_thickness, "padding round the book, each side"),
    material("packing.carton", R::carton, "the carton the book is sent in"),
    material("packing.padding", R::padding, "what fills it"),

    other("extra_materials[].material", code, 0, 0, "any material beside those above"),
    other("extra_materials[].amount", amount, 0, 10000, "how much of it is in the book"),
    other("extra_work[].words", words, 1, 200, "what is done"),
    other("extra_work[].time", times, 0, 60000, "at best, likely and at worst, or one time"),
    other("outside[].words", words, 1, 200, "what another workshop does"),
    other("outside[].kind", choice, 0, 0, "what work it is", "edge-gilding|splitting|die|stone-setting|printing|other"),
    other("outside[].supplier", words, 1, 200, "who does it"),
    other("outside[].by", choice, 0, 0, "the price is for the whole, for each piece, each dm2, or each skin; for the whole unless said", "whole|piece|dm2|skin"),
    other("outside[].count", count, 1, 100000, "by piece: how many; 1 unless said"),
    other("outside[].area", amount, 0, 10000, "by dm2: the area; of edge gilding the edges, of splitting the leather unless said"),
    other("outside[].least_charge", money, 0, 1000000, "the least that is charged"),
    other("outside[].carriage", money, 0, 100000, "there and back"),
    other("outside[].redo", share, 0, 0.9, "chance that it must be done again"),
    other("outside[].each_copy", flag, 0, 0, "once for every copy; a die is made once unless said"),
    other("outside[].price", money, 0, 1000000, "its price"),
    other("outside[].at_cost", flag, 0, 0, "charged as it costs; else it earns like the rest; at cost unless said"),
    other("outside[].lead", duration, 0, 525600, "time until it is back; none unless said"),

    other("quote.customer", code, 0, 0, "the customer's code"),
    other("quote.margin", share, 0, 0.95, "money left, of the price without tax"),
    other("quote.markup", share, 0, 20, "money left, of the cost"),
    other("quote.profit", money, 0, 10000000, "money left after everything, instead of a margin"),
    other("quote.hourly", money, 0, 100000, "what an hour is to earn, instead of a margin"),
    other("quote.leave", money, 0, 10000000, "what is yours after fees, tax and carriage, instead of a margin"),
    other("quote.discount", share, 0, 1, "given away, of the price that was found; 100 % makes a gift of it"),
    other("quote.discount_because", words, 1, 200, "why it is given away"),
    other("quote.outlet", code, 0, 0, "the outlet it is sold through"),
    other("quote.service", code, 0, 0, "the carriage service"),
    other("quote.to", words, 2, 2, "the country it is sent to, in two letters"),
    other("quote.carriage", money, 0, 100000, "carriage charged to the customer"),
    other("quote.delivery", words, 1, 200, "how it is delivered"),
    other("quote.valid_until", date, 0, 0, "the last day on which the quote holds"),
    other("quote.made_to", choice, 0, 0, "why it is, or is not, made to order: to a specification, made personal, from options, from stock, for a business", "spec|personal|options|stock|business"),
    other("quote.because", words, 1, 300, "the reason of made_to"),

    other("options[].words", words, 1, 200, "what else the book might be, as the buyer reads it"),
    other("options[].either", code, 0, 0, "of all options that bear the same word one can be taken; by itself unless said"),
    other("options[].change", words, 1, 500, "what it changes: key = value; key = value"),
};
// clang-format on

}  // namespace key_table

inline constexpr std::size_t key_count = key_table::rows.size();

// The place of a key in the table; a name that is in no row does not compile.
consteval std::size_t key(std::string_view path) {
  for (std::size_t i = 0; i < key_count; ++i)
    if (key_table::rows[i].row.path == path) return i;
  throw "no such key";
}

std::optional<std::size_t> find_key(std::string_view path);

inline std::string_view path_of(std::size_t index) { return key_table::rows[index].row.path; }

}  // namespace endband
