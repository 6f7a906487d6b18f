// The rows of the bindings.
#include "engine/book/style.h"

#include "engine/book/embedded.h"

#include <algorithm>

namespace endband {
namespace {

using enum Way;

// What most books have; a row says where it differs.
constexpr Ways common{all_along, raised_cords,  spine_and_slips, backed,   tight, laced,     tight_joint,
                      full,      corner_by_leg, single,          one_core, cut,   by_letter, slipcase};

// clang-format off
constexpr std::array on_raised_cords{
    RefusedWay{{link_stitch, long_stitch, pamphlet}, "the thread goes round the cords: sewing.stitch = \"all-along\" or \"two-on\""},
    RefusedWay{{recessed_cords}, "its cords stand out: binding = \"recessed-cords\" lets them in"},
    RefusedWay{{tapes}, "its cords stand out: binding = \"tapes\" is sewn on tapes"},
    RefusedWay{{unsupported}, "it is sewn on cords"},
    RefusedWay{{loose}, "its cover is built on the book: only a case has a loose back"},
    RefusedWay{{open_back}, "the spine is covered: spine.back = \"tight\" or \"hollow\""},
    RefusedWay{{cased}, "the slips of the cords hold the boards: binding = \"case\" has its boards in a case"},
    RefusedWay{{sewn_on, no_boards}, "the slips of the cords are laced into boards"},
    RefusedWay{{each_board, wrapper}, "the covering goes over spine and boards: full, three-quarter, half or quarter"},
};
constexpr std::array parts_on_raised_cords{
    RefusedPart{Part::false_bands, "its cords show as bands of their own"},
};

constexpr std::array on_recessed_cords{
    RefusedWay{{link_stitch, long_stitch, pamphlet}, "the thread goes over the cords: sewing.stitch = \"all-along\" or \"two-on\""},
    RefusedWay{{raised_cords}, "its cords are let into the folds: binding = \"raised-cords\" has them stand out"},
    RefusedWay{{tapes}, "its cords are let into the folds: binding = \"tapes\" is sewn on tapes"},
    RefusedWay{{unsupported}, "it is sewn on cords"},
    RefusedWay{{loose}, "its cover is built on the book: only a case has a loose back"},
    RefusedWay{{open_back}, "the spine is covered: spine.back = \"tight\" or \"hollow\""},
    RefusedWay{{cased}, "the slips of the cords hold the boards: binding = \"case\" has its boards in a case"},
    RefusedWay{{sewn_on, no_boards}, "the slips of the cords are laced into boards"},
    RefusedWay{{each_board, wrapper}, "the covering goes over spine and boards: full, three-quarter, half or quarter"},
};

constexpr std::array on_tapes{
    RefusedWay{{link_stitch, long_stitch, pamphlet}, "the thread goes over the tapes: sewing.stitch = \"all-along\" or \"two-on\""},
    RefusedWay{{raised_cords, recessed_cords}, "it is sewn on tapes: binding = \"raised-cords\" or \"recessed-cords\" is sewn on cords"},
    RefusedWay{{unsupported}, "it is sewn on tapes"},
    RefusedWay{{loose}, "its cover is built on the book: only a case has a loose back"},
    RefusedWay{{open_back}, "the spine is covered: spine.back = \"tight\" or \"hollow\""},
    RefusedWay{{cased}, "the ends of the tapes are held between split boards: binding = \"case\" has its boards in a case"},
    RefusedWay{{sewn_on, no_boards}, "the ends of the tapes are held between split boards"},
    RefusedWay{{each_board, wrapper}, "the covering goes over spine and boards: full, three-quarter, half or quarter"},
};

constexpr std::array in_a_case{
    RefusedWay{{long_stitch}, "nothing is sewn through a case: binding = \"long-stitch\" is sewn through a wrapper"},
    RefusedWay{{pamphlet}, "it has more than one section: binding = \"single-section\" is sewn through one fold"},
    RefusedWay{{raised_cords}, "raised cords would stand against the case: binding = \"raised-cords\" is covered on the book"},
    RefusedWay{{tight, hollow, open_back}, "the spine of a case is loose from the book"},
    RefusedWay{{laced, sewn_on, no_boards}, "its boards are in the case"},
    RefusedWay{{each_board, wrapper}, "the covering holds boards and spine together: full, three-quarter, half or quarter"},
    RefusedWay{{four_thicknesses}, "the ends of its supports are short and go under the mull: sewing.support_rule = \"spine-and-slips\""},
};

constexpr std::array with_link_stitches{
    RefusedWay{{all_along, two_on}, "each section is linked to the one below: it has no supports to be sewn along"},
    RefusedWay{{long_stitch}, "no wrapper covers the spine: binding = \"long-stitch\" has one"},
    RefusedWay{{pamphlet}, "it has more than one section: binding = \"single-section\" is sewn through one fold"},
    RefusedWay{{raised_cords, recessed_cords, tapes}, "a link stitch needs no supports: there is nothing that cords or tapes would hold"},
    RefusedWay{{rounded, backed}, "a bare link-stitched spine is left flat, as it is sewn"},
    RefusedWay{{tight, hollow, loose}, "the spine is bare: there is no covering that a back could carry"},
    RefusedWay{{laced, cased, no_boards}, "its boards are sewn on with the sections"},
    RefusedWay{{groove}, "its boards lie against the sections, without a joint"},
    RefusedWay{{full, three_quarter, half, quarter, wrapper}, "its boards are covered one by one and the spine is bare"},
    RefusedWay{{leather_joint}, "its boards are sewn on: there is no hinge for a leather joint"},
    RefusedWay{{stuck_on}, "there is no lined spine to stick endbands on: endbands.kind = \"one-core\" or \"two-cores\""},
};
constexpr std::array parts_with_link_stitches{
    RefusedPart{Part::false_bands, "a link-stitched spine is bare: there is nothing for bands to show under"},
};

constexpr std::array with_long_stitches{
    RefusedWay{{all_along, two_on, link_stitch}, "its sections are sewn through the wrapper"},
    RefusedWay{{pamphlet}, "it has more than one section: binding = \"single-section\" is sewn through one fold"},
    RefusedWay{{raised_cords, recessed_cords, tapes}, "the wrapper is its support"},
    RefusedWay{{rounded, backed}, "a spine that is sewn through a limp wrapper is left flat"},
    RefusedWay{{tight}, "the wrapper is sewn to the spine, not glued"},
    RefusedWay{{hollow}, "a limp wrapper is sewn through: there is no room for a hollow"},
    RefusedWay{{loose}, "a limp wrapper has no stiffened back"},
    RefusedWay{{laced, cased, sewn_on}, "a limp wrapper has no boards"},
    RefusedWay{{groove}, "a limp wrapper has no boards, and so no joint"},
    RefusedWay{{full, three_quarter, half, quarter, each_board}, "it is covered by one limp wrapper"},
    RefusedWay{{leather_joint}, "a limp wrapper has no board for a leather joint to hold"},
    RefusedWay{{two_cores, one_core, stuck_on}, "the sewing shows at head and tail of the wrapper: it has no endbands"},
};
constexpr std::array parts_with_long_stitches{
    RefusedPart{Part::endbands, "the sewing shows at head and tail of the wrapper: there is no room for endbands"},
    RefusedPart{Part::false_bands, "a limp wrapper is sewn through its spine: there is nothing for bands to lie on"},
    RefusedPart{Part::corners, "a limp wrapper has no board that corners could hold on to"},
    RefusedPart{Part::underlays, "a limp wrapper has no board to lay card on"},
    RefusedPart{Part::stone, "a limp wrapper is too soft to set a stone in"},
};

constexpr std::array of_one_section{
    RefusedWay{{all_along, two_on, link_stitch, long_stitch}, "its one section is sewn through the fold: sewing.stitch = \"pamphlet\""},
    RefusedWay{{raised_cords, recessed_cords, tapes}, "one section needs no supports"},
    RefusedWay{{rounded, backed}, "the fold of one section cannot be rounded"},
    RefusedWay{{tight, hollow}, "one fold is no spine that could be lined"},
    RefusedWay{{laced, sewn_on}, "one section has a wrapper, or boards in a case: boards.attached = \"none\" or \"cased\""},
    RefusedWay{{each_board, three_quarter}, "one section has a wrapper, or a case in full, half or quarter"},
    RefusedWay{{sewn}, "the endpapers of one section are its outermost folio, or tipped on"},
};
constexpr std::array parts_of_one_section{
    RefusedPart{Part::endbands, "one fold has no spine to fix endbands to"},
    RefusedPart{Part::false_bands, "one fold has no spine to show bands"},
    RefusedPart{Part::guards, "one section cannot be filled out with guards: binding = \"album\""},
    RefusedPart{Part::stone, "a slim pamphlet is too thin to set a stone in"},
};

constexpr std::array parts_of_a_box{
    RefusedPart{Part::guards, "a box has no leaves"},
    RefusedPart{Part::edges, "a box has no leaves"},
    RefusedPart{Part::false_bands, "a box has no spine to show bands: describe the book with it, or leave them out"},
    RefusedPart{Part::endbands, "a box has no endbands: describe the book with it, or leave them out"},
    RefusedPart{Part::registers, "a box has no leaves to mark"},
    RefusedPart{Part::underlays, "underlays lie under a book's cover: describe the book with the box"},
    RefusedPart{Part::insets, "insets lie in a book's cover: describe the book with the box"},
    RefusedPart{Part::corners, "corners hold a book's boards: describe the book with the box"},
    RefusedPart{Part::clasps, "clasps hold a book's boards: describe the book with the box, or list them as furniture"},
    RefusedPart{Part::strap, "a strap is fixed to a book's board: describe the book with the box"},
    RefusedPart{Part::tie, "a tie is fixed to a book's cover: describe the book with the box"},
    RefusedPart{Part::stone, "a stone is set in a book's board: describe the book with the box"},
};
constexpr std::array rows{
    Style{"raised-cords", "boards laced on by raised cords that show as bands", Body::book,
          common, on_raised_cords, parts_on_raised_cords, embedded::practice_raised_cords},
    Style{"recessed-cords", "boards laced on by cords that are let into the folds", Body::book,
          common.replaced_by({recessed_cords, hollow}), on_recessed_cords, {}, embedded::practice_recessed_cords},
    Style{"tapes", "sewn on tapes, their ends held between split boards", Body::book,
          common.replaced_by({tapes, hollow, groove}), on_tapes, {}, embedded::practice_tapes},
    Style{"case", "a case of boards and covering, made apart and hung on the book", Body::book,
          common.replaced_by({tapes, rounded, loose, cased, groove, stuck_on}), in_a_case, {}, embedded::practice_case},
    Style{"link-stitch", "link-stitched sections between boards, the spine bare", Body::book,
          common.replaced_by({link_stitch, unsupported, flat, open_back, sewn_on, each_board, sewn}),
          with_link_stitches, parts_with_link_stitches, embedded::practice_link_stitch},
    Style{"long-stitch", "sections sewn through a limp wrapper with a flap", Body::book,
          common.replaced_by({long_stitch, unsupported, flat, open_back, no_boards, wrapper, sewn, uncut}),
          with_long_stitches, parts_with_long_stitches, embedded::practice_long_stitch},
    Style{"single-section", "one section sewn through its fold into a wrapper or a case", Body::book,
          common.replaced_by({pamphlet, unsupported, flat, open_back, no_boards, wrapper}),
          of_one_section, parts_of_one_section, embedded::practice_single_section},
    Style{"album", "a cased book whose leaves are filled out by guards", Body::book,
          common.replaced_by({tapes, flat, loose, cased, groove, half, stuck_on}), in_a_case, {}, embedded::practice_album},
    Style{"box", "a box for a book that is there already", Body::box_alone,
          common.replaced_by({drop_spine}), {}, parts_of_a_box, embedded::practice_box},
};

constexpr std::array follows{
    Follows{cased, {loose, full, groove}},
    Follows{laced, {hollow, full}},
    Follows{sewn_on, {open_back, each_board, tight_joint}},
    Follows{no_boards, {open_back, wrapper, tight_joint}},
};

constexpr std::array excludes{
    Excludes{no_boards, {full, three_quarter, half, quarter, each_board}, "without boards the cover is a wrapper: cover.extent = \"wrapper\", or boards.attached = \"cased\""},
    Excludes{wrapper, {laced, cased, sewn_on}, "a wrapper is limp: boards.attached = \"none\", or another cover.extent"},
    Excludes{cased, {tight, hollow, open_back}, "the spine of a case is loose from the book: spine.back = \"loose\""},
    Excludes{loose, {laced, sewn_on, no_boards}, "only a case has a loose back"},
    Excludes{each_board, {laced, cased}, "boards that are covered one by one are sewn on"},
    Excludes{all_along, {unsupported}, "sewing all along needs cords or tapes: sewing.on, or sewing.stitch = \"link-stitch\""},
    Excludes{two_on, {unsupported}, "sewing two on needs cords or tapes: sewing.on, or sewing.stitch = \"link-stitch\""},
    Excludes{link_stitch, {raised_cords, recessed_cords, tapes}, "a link stitch needs no supports: sewing.on = \"nothing\""},
};
// clang-format on

}  // namespace

std::string_view Style::refuses(Way way) const {
  for (RefusedWay const& row : refused_ways)
    if (row.ways.has(way)) return row.because;
  return {};
}

std::string_view Style::refuses(Part part) const {
  for (RefusedPart const& row : refused_parts)
    if (row.part == part) return row.because;
  return {};
}

std::span<Style const> styles() { return rows; }

Style const* style_named(std::string_view name) {
  auto const row =
      std::find_if(rows.begin(), rows.end(), [&](Style const& style) { return style.name == name; });
  return row == rows.end() ? nullptr : &*row;
}

std::span<Follows const> following_ways() { return follows; }
std::span<Excludes const> excluded_ways() { return excludes; }

}  // namespace endband
