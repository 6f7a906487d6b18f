// The structure calculator: what a book is made of. Dimensions, pieces to cut, lengths, surfaces to glue or
// gild, things to count, operations, mass and warnings. Nothing after it knows the binding.
#pragma once

#include "engine/book/spec.h"

#include <optional>
#include <string_view>
#include <vector>

namespace endband {

// What a quantity is for. The names stand on bills, piece lists and explanations.
// clang-format off
enum class Item : std::uint8_t {
  text_sheets, guard_strips, endpaper_sheets, joint_strips, tipping_paste, sewing_thread, thread_wax, cords, tapes,
  spine_glue, panel_linings, panel_papers, spine_linings, mull, spine_papers, hollow, stiffener, false_bands, lining_paste, boards,
  board_linings, lacing_glue, cover_leather, cover_sides, cover_corners, cover_paste, side_paste, leather_dye,
  leather_dressing, endband_cores, endband_silk, made_endbands, endband_glue, registers, register_glue,
  underlay_cards, underlay_glue, onlays, inset_panels, inset_glue, leaf_lines, leaf_letters, leaf_edges, leaf_size,
  leaf_varnish, edge_colour, corners, corner_glue, clasps, rivets, furniture, strap, buckle, stone, stone_glue, tie,
  pastedown_paste, slipcase_sides, slipcase_ends, slipcase_back, inner_tray_base, inner_tray_walls, outer_tray_base,
  outer_tray_walls, box_case_boards, box_case_spine, slipcase_strip, slipcase_side_cloths, inner_tray_cloth,
  outer_tray_cloth, box_case_cloth, slipcase_strip_lining, slipcase_side_linings, inner_tray_lining, outer_tray_lining,
  box_case_lining, box_joint_glue, box_cloth_glue, box_lining_glue, carton, padding, extra
};
// clang-format on
inline constexpr std::size_t item_count = static_cast<std::size_t>(Item::extra) + 1;
std::string_view item_name(Item item);   // "panel-linings"
std::string_view item_words(Item item);  // "linen on the panels"

enum class Grain : std::uint8_t { any, along_height, along_width };

// How a piece lies on a skin: which of its sides the backbone runs along, either way round, and by how many
// degrees it may be turned from that.
enum class Lie : std::uint8_t { any, backbone_along_height, backbone_along_width };
std::string_view lie_name(Lie lie);  // "backbone-along-height"
struct Lay {
  Lie lie = Lie::any;
  int within_deg = 0;  // 0 where any
  friend bool operator==(Lay, Lay) = default;
};
// The poorest part of a skin that will do; of what is no skin the poorest.
enum class Grade : std::uint8_t { belly, flank, back };
std::string_view grade_name(Grade grade);  // "flank"
// What is cut out of the rectangle: itself, or two corners, by its diagonal.
enum class Outline : std::uint8_t { rectangle, two_corners };
std::string_view outline_name(Outline outline);  // "two-corners"

struct Piece {  // a rectangle to cut
  Item item;
  Part part;
  MaterialId material;
  std::int64_t count = 1;
  Length height, width;
  Grain grain = Grain::any;
  Lay lay{};
  Grade grade = Grade::belly;
  Outline outline = Outline::rectangle;
  Length trim_height{}, trim_width{};  // of height and width, what is cut away again once it is in place
  int skin_group = 0;  // pieces of one group > 0 come from one skin, those of each copy from one
  int volume = 0;      // of a set, from 1; 0: the only one
  int copies = 1;      // that `count` is shared by
};
struct Run {  // a length off a roll, a reel or a skein; `taken` holds what needlefuls and the frame waste
  Item item;
  Part part;
  MaterialId material;
  std::int64_t count = 1;
  Length each, taken;  // `each`: net in the book; `taken`: each and its share of waste
};
struct Spread {  // a surface that takes an adhesive, size, dye or varnish
  Item item;
  Part part;
  MaterialId material;
  Area area;  // of one coat on one face
  int coats = 1;
  int faces = 1;
};
struct Strips {  // metal leaf, laid in strips
  Item item;
  Part part;
  MaterialId material;
  std::int64_t strips = 0;
  Length width;  // of a strip, overlap in
  Length leaf_side;
};
struct Things {  // counted
  Item item;
  Part part;
  MaterialId material;
  Amount net;
};
struct Operation {
  OperationKind kind;
  Part part;
  Count count;     // of its driver
  int extra = -1;  // extra_work: which row of BookSpec::extra_work; other_repair: of BookSpec::repairs
};

// clang-format off
enum class WarningCode : std::uint8_t {
  grain_across, creep_over_trim, short_last_section, swell_too_great, swell_too_small, will_not_back, thin_leather,
  register_short, not_for_brass, leaf_tarnishes, restricted_material, square_unusual, turn_in_unusual, bands_unusual,
  section_unusual, customer_piece_cannot_be_replaced, carton_too_small,
  letter_missing, endband_too_high
};
// clang-format on
inline constexpr std::size_t warning_count = static_cast<std::size_t>(WarningCode::endband_too_high) + 1;
std::string_view warning_name(WarningCode code);
struct Warning {
  WarningCode code;
  // In the figure's unit; 0 where it says nothing. letter_missing: owned, needed at once, and the code point
  // of the letter.
  double is = 0, least = 0, most = 0;
  MaterialId material;  // the one that is meant, or none (0)
};

struct Structure {
  Figures figures;
  std::vector<Piece> pieces;
  std::vector<Run> runs;
  std::vector<Spread> spreads;
  std::vector<Strips> strips;
  std::vector<Things> things;
  std::vector<Operation> operations;
  std::vector<Warning> warnings;
  Mass mass;                                             // of the book; of the box where one is made alone
  Length closed_height, closed_width, closed_thickness;  // likewise
};

// Throws std::logic_error on NaN or a dimension over 10 m: ranges are checked by resolve.
Structure structure(BookSpec const& spec, Catalogue const& catalogue);

// A sheet folded `folds` times, each time across its longer side: the leaf, and whether the grain (along
// `second`) then runs head to tail (along the leaf's longer side).
struct Folded {
  Length height, width;
  bool grain_head_to_tail;
};
Folded fold(SheetSize sheet, int folds);

}  // namespace endband
